package trouser_test

import (
	"math"
	"strings"
	"testing"

	"chalkfold/draft/chalk"
	"chalkfold/draft/garment"
	"chalkfold/draft/garment/trouser"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/unit"
)

// Her left hip is an inch higher.
const highLeft = hip42 + ", left_side_length 40 1/2, right_side_length 39 1/2"

// Left and right differ by what the sides were measured to differ by, in front
// and behind, and in nothing below the hip; waist, hip and fork seam of either
// half are those of a figure whose hips are alike.
func TestOneHipHigher(t *testing.T) {
	for _, method := range []string{trouser.Quarter, trouser.Balanced} {
		for _, spoken := range []bool{false, true} {
			even := order{Body: measured(t, hip42), Method: method, Spoken: spoken}.draft(t)
			m := order{Body: measured(t, highLeft), Method: method, Spoken: spoken}.draft(t)
			if len(m.Panels) != 4 {
				t.Fatalf("%d panels", len(m.Panels))
			}
			for _, part := range []string{"front", "back"} {
				left, right := m.Edge(t, part, "side"), m.Edge(t, part+"-right", "side")
				top := math.Abs(left.Start().Y - right.Start().Y)
				about(t, method+" "+part+": the sides differ at the waist by", top/25.4, 1, 0.13)
				if left.Start().Y > right.Start().Y {
					t.Errorf("%s: the left side is not the higher one", part)
				}
				if left.End().Dist(right.End()) > 0.01 {
					t.Errorf("%s: the hems differ", part)
				}
				for _, e := range []string{"inseam", "fork", "centre", "hem"} {
					about(t, part+" "+e, m.Edge(t, part+"-right", e).Len(), even.Edge(t, part, e).Len(), 0.01)
				}
			}
			if spoken {
				continue
			}
			for _, girth := range []string{"waist", "hip"} {
				about(t, girth, m.Girth(t, girth), even.Girth(t, girth), 0.06)
			}
			for _, side := range []string{"left side: ", "right side: "} {
				for _, check := range []string{"inseam", "side seam", "waist to band", "waist at the side", "fork seam"} {
					if l, was := m.Level(t, side+check), even.Level(t, check); l > was {
						t.Errorf("%s%s is %s, %s with both hips alike: %+v", side, check, l, was, m.Finding(side+check))
					}
				}
			}
			if m.Stopped() {
				t.Errorf("stopped: %v", m.Faults(proof.Stops))
			}
		}
	}
}

// Each piece that differs is cut singly and says its side; a front is drawn as
// its left half is seen, a back as its right half; what does not differ stays a
// pair. All of them are laid on open cloth, half of them turned over.
func TestOneHipHigherIsCutSingly(t *testing.T) {
	m := order{Body: measured(t, highLeft), Style: garment.Style{"lining": "knee"}}.draft(t)
	for id, over := range map[string]bool{"front": false, "front-right": true, "back": true, "back-right": false, "pocket-bag-front": false, "pocket-bag-front-right": true} {
		p := m.Must(t, id)
		hand, side := piece.LeftHand, "left"
		if strings.HasSuffix(id, "-right") {
			hand, side = piece.RightHand, "right"
		}
		if p.Pairs || p.Hand != hand || p.Over != over || !strings.HasSuffix(p.Name, ", "+side) {
			t.Errorf("%s: %s, pair %t, hand %d, turned over %t", id, p.Name, p.Pairs, p.Hand, p.Over)
		}
	}
	if p := m.Must(t, "waistband"); p.Hand != piece.BothHands {
		t.Errorf("the band is %s", p.Name)
	}
	want := lay.WantOf(m.Pieces)
	if n := want["front-right"]; n.Turned != 1 || n.Plain != 0 {
		t.Errorf("right front: %+v", n)
	}
	turned := 0
	items, err := lay.Items(m.Pieces, lay.Cloth{Width: 60 * unit.Inch, Kind: piece.Main})
	if err != nil {
		t.Fatal(err)
	}
	for _, it := range items {
		if it.Turned && (it.Piece == "front-right" || it.Piece == "back") {
			turned++
		}
	}
	if turned != 2 {
		t.Errorf("%d of right front and left back are laid turned over", turned)
	}
	if f := m.Finding("one hip higher"); f == nil || f.Level != proof.Mind {
		t.Errorf("%+v: not said", f)
	}
}

// The guide chalks the right front from the left one, turned over, and tells of
// it only what lies elsewhere.
func TestOneHipHigherIsChalked(t *testing.T) {
	m := order{Body: measured(t, highLeft)}.draft(t)
	f := unit.Format{System: unit.Inches, Den: 8}
	for _, s := range chalk.Of(m.Record, m.Panels, m.Pieces, f) {
		if s.Piece != "front-right" {
			continue
		}
		if !strings.Contains(s.Note, "turned over") || !strings.Contains(s.Note, "front, left") {
			t.Errorf("%q", s.Note)
		}
		names := map[string]bool{}
		for _, k := range s.Marks {
			if k.Kind != chalk.Notch && k.Kind != chalk.Allow {
				names[k.Name] = true
			}
		}
		for n := range names {
			if strings.Contains(n, "knee") || strings.Contains(n, "fork tip") || strings.Contains(n, "hem") {
				t.Errorf("%q is as on the left, and yet told", n)
			}
		}
		if !names["front side at the waist, right"] {
			t.Errorf("told: %v", names)
		}
		return
	}
	t.Error("the right front is not chalked")
}

// Sides that differ by less than the tape shows are alike, and so is a figure
// of which only one side was taken.
func TestHipsAlike(t *testing.T) {
	for _, b := range []string{hip42 + ", left_side_length 40 1/2, right_side_length 40 7/16", hip42 + ", left_side_length 41"} {
		if m := (order{Body: measured(t, b)}).draft(t); len(m.Panels) != 2 || m.Finding("one hip higher") != nil {
			t.Errorf("%s: %d panels", b, len(m.Panels))
		}
	}
}

// What differs on the right answers why as all else does, by sums of the right.
func TestOneHipHigherAnswersWhy(t *testing.T) {
	m := order{Body: measured(t, highLeft)}.draft(t)
	f := unit.Format{System: unit.Inches, Den: 8}
	lifted := "right.front.waist_side_lifted"
	if sum, want := m.Record.Sum(lifted, f), "(left side length − right side length) ÷ 2 = (40½ − 39½) ÷ 2 = ½"; sum != want {
		t.Errorf("%q, want %q", sum, want)
	}
	n := 0
	for _, s := range m.Record.Steps() {
		if !strings.HasPrefix(s.Name, "right.") {
			continue
		}
		n++
		if m.Record.Why(s.Name, f) == nil && s.Why == "" {
			t.Errorf("%s says nothing", s.Name)
		}
		if s.Part != "front-right" && s.Part != "back-right" && !strings.HasPrefix(s.Name, "right.pocket.") {
			t.Errorf("%s is of %q", s.Name, s.Part)
		}
	}
	if n < 20 {
		t.Errorf("%d steps differ", n)
	}
}
