package draft_test

import (
	"math"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/geom"
	"chalkfold/draft/job"
	"chalkfold/draft/sheet"
	"chalkfold/draft/unit"
)

// The guide's figures lead back to where the pieces lie: a grain line begun so
// far across and along, as long as the piece's own.
func TestGuideLeadsToThePieces(t *testing.T) {
	for name, c := range map[string]job.Cloth{
		"open":       {Width: length(t, "60"), Fold: job.Open},
		"lengthwise": {Width: length(t, "60"), Fold: job.Lengthwise},
		"crosswise":  {Width: length(t, "45"), Fold: job.Crosswise},
		"tilted":     {Width: length(t, "45"), Tilt: "3"},
	} {
		r, l := laid(t, c)
		guide := draft.LayGuide(l, r.Format)
		if len(guide) != len(l.Placements) {
			t.Errorf("%s: %d pieces guided, %d laid", name, len(guide), len(l.Placements))
		}
		for _, g := range guide {
			p := l.Placements[g.Placement]
			it := l.Items[p.Item]
			at := geom.Pt{X: g.Across.MM(), Y: g.Along.MM()}
			ends := geom.MapPts(it.Grain[:], p.At)
			if d := math.Min(at.Dist(ends[0]), at.Dist(ends[1])); d > 1e-9 || math.Abs(g.Length.MM()-ends[0].Dist(ends[1])) > 1e-9 {
				t.Errorf("%s: %s begins %.1f mm off its grain line", name, g.Name, d)
			}
			if at.Y > math.Min(ends[0].Y, ends[1].Y)+1e-9 {
				t.Errorf("%s: %s begins at the end that is further off", name, g.Name)
			}
			if first := p.At.D > 0.5; strings.Contains(g.Way, "top first") != first {
				t.Errorf("%s: %s lies %v and is said to lie %s", name, g.Name, p.At, g.Way)
			}
			if !strings.Contains(g.Where, r.Format.Text(g.Across)) || !strings.Contains(g.Where, r.Format.Text(g.Along)) {
				t.Errorf("%s: %s: %s", name, g.Name, g.Where)
			}
			if over := !it.EitherFace && p.At.Mirrors(); over != (g.Face != "") {
				t.Errorf("%s: %s turned over %t, said %q", name, g.Name, over, g.Face)
			}
		}
	}
}

// The page to cut by says what the drawing alone does not: where each piece is
// chalked, and that cloth will shrink.
func TestDiagramSaysWhereToChalk(t *testing.T) {
	r, l := laid(t, job.Cloth{Width: length(t, "60"), ShrinksAlong: "4"})
	if s := l.Shrinks(r.Format); !strings.Contains(s, "36 in along the grain as 37½ in, and 36 in across it as 36 in") {
		t.Errorf("of shrinkage it is said: %s", s)
	}
	texts := map[string]bool{}
	page := sheet.Fit(l.Diagram(r.Format, sheet.Options{}), sheet.A4())
	for _, it := range page.Items {
		if text, ok := it.(sheet.Text); ok {
			texts[text.S] = true
			if b := text.Box(); b.Min.X < 0 || b.Min.Y < 0 || b.Max.X > page.Bounds.Max.X || b.Max.Y > page.Bounds.Max.Y {
				t.Errorf("%q runs off the page: %v", text.S, b)
			}
		}
	}
	for _, g := range draft.LayGuide(l, r.Format) {
		if !texts[g.Name+": "+g.Where] {
			t.Errorf("the page does not say where %s is chalked", g.Name)
		}
	}
	if !texts[l.Shrinks(r.Format)] {
		t.Error("the page does not say that the cloth will shrink")
	}
	if _, l := laid(t, job.Cloth{Width: length(t, "60")}); l.Shrinks(unit.Format{}) != "" {
		t.Error("cloth that does not shrink is said to")
	}
}
