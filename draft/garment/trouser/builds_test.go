package trouser_test

import (
	"testing"

	"chalkfold/draft/garment"
	"chalkfold/draft/proof"
	"chalkfold/draft/unit"
)

// Each figure changes what fitters change for it (common practice), and the
// draft is still proved: a flat seat and a sway back shorten the back fork seam,
// a full seat lengthens it, a full abdomen lengthens the front one; what is not
// on that side stays.
func TestFigures(t *testing.T) {
	seams := func(s garment.Style) (front, back float64) {
		m := order{Body: measured(t, hip42), Style: s}.draft(t)
		if m.Stopped() {
			t.Errorf("%v is stopped: %v", s, m.Faults(proof.Stops))
		}
		return forkSeam(t, m, 2, "front"), forkSeam(t, m, 2, "back")
	}
	front, back := seams(nil)
	const same, least = 0.1, 0.25 // in
	for _, tt := range []struct {
		option, choice    string
		frontWay, backWay float64 // -1 shorter, 0 the same, 1 longer
	}{
		{garment.Seat, "flat", 0, -1},
		{garment.Seat, "full", 0, 1},
		{garment.Abdomen, "full", 1, 0},
		{garment.LowerBack, "sway", 0, -1},
	} {
		f, b := seams(garment.Style{tt.option: tt.choice})
		for part, x := range map[string][2]float64{"front": {f - front, tt.frontWay}, "back": {b - back, tt.backWay}} {
			if more, way := x[0], x[1]; way == 0 && (more < -same || more > same) || way*more < least && way != 0 {
				t.Errorf("%s %s: the %s fork seam is %+.2f in longer", tt.choice, tt.option, part, more)
			}
		}
	}
	// Two of them together do what both do.
	if _, b := seams(garment.Style{garment.Seat: "flat", garment.LowerBack: "sway"}); b > back-2*least {
		t.Errorf("flat seat and sway back: %.2f in, %.2f without", b, back)
	}
}

// A rule that was moved for a figure says so, with what it was.
func TestFigureAnswersWhy(t *testing.T) {
	m := order{Body: measured(t, hip42), Style: garment.Style{garment.Seat: "flat"}}.draft(t)
	q, _ := m.Record.Quantity("seat_tilt")
	about(t, "seat tilt", q.Value, 1.5*25.4, 1e-9)
	if want := "rule (default): 2 in, changed for a flat seat"; q.Source != want {
		t.Errorf("%q, want %q", q.Source, want)
	}
	found := false
	for _, r := range m.Record.Why("back.tilt", unit.Format{System: unit.Inches, Den: 8}) {
		found = found || r.Name == "seat_tilt"
	}
	if !found {
		t.Error("why the tilt is so does not lead to the rule")
	}
}
