package draft_test

import (
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/chalk"
	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/piece"
)

// Where the sides of a figure differ, every mark by which a piece of one side is
// chalked says on which side it is worn, unless it is one mark for both. In every
// garment, in every answer to every question.
func TestMarksNameTheHand(t *testing.T) {
	var m draft.Maker
	handed := 0
	for _, g := range draft.Garments() {
		for _, o := range g.Options {
			for _, c := range o.Choices {
				j := job.New(g.ID)
				j.Figure, j.Measurements = body.Women, body.Middle(body.Women)
				j.Measurements[body.LeftSideLength], j.Measurements[body.RightSideLength] = body.Taking{Value: length(t, "41 in")}, body.Taking{Value: length(t, "40 in")}
				j.Style = g.Together(full(t, g, garment.Style{o.ID: c.ID}), o.ID)
				r, err := m.Make(j)
				if err != nil {
					t.Errorf("%s, %s %s: %v", g.ID, o.ID, c.ID, err)
					continue
				}
				sections := chalk.Of(r.Record, r.Panels, r.Pieces, r.Format)
				handed += checkHands(t, g.ID+", "+o.ID+" "+c.ID, r, sections)
				checkHands(t, g.ID+", "+o.ID+" "+c.ID+", compact", r, chalk.Compact(sections, piece.Halved(r.Pieces), r.Format))
			}
		}
	}
	if handed < 1000 {
		t.Errorf("only %d marks of one side were looked at", handed)
	}
}

// full is a style with every question answered.
func full(t *testing.T, g garment.Garment, s garment.Style) garment.Style {
	t.Helper()
	all, err := g.Complete(s)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func checkHands(t *testing.T, name string, r *draft.Result, sections []chalk.Section) (handed int) {
	t.Helper()
	hands := map[string]piece.Hand{}
	for _, p := range piece.Halved(r.Pieces) {
		hands[p.ID] = p.Hand
	}
	for _, s := range sections {
		hand := hands[s.Piece]
		for _, m := range s.Marks {
			_, other := r.Record.Find("right." + m.Step)
			own := hand != piece.BothHands && (m.Step == "" || other || strings.HasPrefix(m.Step, "right."))
			side := map[piece.Hand]string{piece.LeftHand: ", left", piece.RightHand: ", right"}[hand]
			switch {
			case own && !strings.Contains(m.Name, side):
				t.Errorf("%s: %s: %q does not say %q", name, s.Title, m.Name, side)
			case own:
				handed++
			}
		}
	}
	return handed
}
