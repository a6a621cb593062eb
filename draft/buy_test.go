package draft_test

import (
	"errors"
	"math"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// At each width there is a figure for each way of laying: whole steps that hold
// the lay, or a piece that is too wide.
func TestBuyAtEachWidth(t *testing.T) {
	natively(t)
	j := example(t, "alto-3.json").Job.Clone()
	j.Cloth[0].SoldBy = length(t, "1/4 yd")
	r, err := draft.Make(j)
	if err != nil {
		t.Fatal(err)
	}
	widths := draft.Widths(r.Format)
	all, err := draft.Buy(r, piece.Main, nil, widths, lay.Options{Work: 100})
	if err != nil || len(all) != 4*len(widths) {
		t.Fatalf("%d figures, %v; want %d", len(all), err, 4*len(widths))
	}
	step := unit.Yard / 4
	for _, p := range all {
		if p.Wide != nil {
			if p.Width > 36*unit.Inch || p.Fold != lay.Lengthwise {
				t.Errorf("%.0f in %s: %v", p.Width.In(), p.Fold, p.Wide)
			}
			continue
		}
		if whole := float64(p.Bought / step); math.Abs(whole-math.Round(whole)) > 1e-9 || p.Bought < p.Length || p.Bought >= p.Length+step {
			t.Errorf("%.0f in %s: buy %.3f yd for %.3f yd", p.Width.In(), p.Fold, float64(p.Bought/unit.Yard), float64(p.Length/unit.Yard))
		}
	}
	// The same as the lay of a job that has such cloth.
	_, l := laid(t, job.Cloth{Width: length(t, "54"), Margin: j.Cloth[0].Margin})
	open54, err := draft.Buy(r, piece.Main, nil, []unit.Length{54 * unit.Inch}, lay.Options{Work: laidWork})
	if err != nil || open54[2].Length != l.Length {
		t.Errorf("54 in open: %.0f mm, %v; the job's lay takes %.0f mm", open54[2].Length.MM(), err, l.Length.MM())
	}
}

// What is asked of the shop hangs neither on a width that is not known yet, nor on a
// flaw past the end of the cloth at hand; its nap counts, and what cannot be is refused.
func TestBuyLikeUnmeasuredCloth(t *testing.T) {
	j := example(t, "alto-3.json").Job.Clone()
	j.Cloth[1] = job.Cloth{
		Kind: piece.Lining, OneWay: true, SoldBy: length(t, "1/2 yd"), Length: length(t, "1 yd"),
		Flaws: []job.Flaw{{FromEdge: length(t, "2 yd"), Across: length(t, "1 in"), Along: length(t, "1 in")}},
	}
	c, err := draft.OffTheBolt(madeOf(t, j), piece.Lining)
	if err != nil || !c.OneWay || c.SoldBy != unit.Yard/2 || c.Width != 0 || c.Length != 0 || len(c.Flaws) > 0 {
		t.Errorf("%+v, %v", c, err)
	}
	j.Cloth[1].SoldBy = length(t, "0 in")
	var bad *job.Bad
	if _, err := draft.OffTheBolt(madeOf(t, j), piece.Lining); !errors.As(err, &bad) || bad.Problems[0].Path != "cloth[1].sold_by" {
		t.Errorf("sold by nothing: %v", err)
	}
}

// Nobody buys more than the step that is sold, and nothing less than is needed.
func TestSoldBy(t *testing.T) {
	for _, tt := range []struct{ l, step, want unit.Length }{
		{0, 100, 0},
		{1, 100, 100},
		{100, 100, 100},
		{100.0001, 100, 100}, // a hair
		{100.5, 100, 200},
		{1234, 0, 1234},
	} {
		if got := unit.UpTo(tt.l, tt.step); math.Abs(float64(got-tt.want)) > 1e-9 {
			t.Errorf("%.4f by %.0f: %.4f, want %.4f", tt.l.MM(), tt.step.MM(), got.MM(), tt.want.MM())
		}
	}
}
