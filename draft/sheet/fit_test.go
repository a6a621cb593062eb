package sheet_test

import (
	"math"
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/sheet"
)

// TestFit: what is fitted keeps its shape, stays off the margin, and touches it
// on two sides.
func TestFit(t *testing.T) {
	for _, size := range []geom.Pt{{X: 900, Y: 1600}, {X: 2000, Y: 700}, {X: 20, Y: 20}} {
		d := sheet.Drawing{Bounds: geom.Rect{Min: geom.Pt{X: -50, Y: 7}, Max: geom.Pt{X: size.X - 50, Y: size.Y + 7}}}
		d.Outlines = []sheet.Outline{{ID: "all", Ring: []geom.Pt{d.Bounds.Min, {X: d.Bounds.Max.X, Y: 7}, d.Bounds.Max, {X: -50, Y: d.Bounds.Max.Y}}}}
		d.Text(sheet.Text{Size: 20, S: "a"})
		got := sheet.Fit(d, sheet.A4())
		if (got.Bounds.W() > got.Bounds.H()) != (size.X > size.Y) {
			t.Errorf("%v lies on %.0f by %.0f mm", size, got.Bounds.W(), got.Bounds.H())
		}
		b := geom.BoundsOf(got.Outlines[0].Ring)
		if math.Abs(b.W()/b.H()-size.X/size.Y) > 1e-9 {
			t.Errorf("%v became %.3f by %.3f mm", size, b.W(), b.H())
		}
		sides := []float64{b.Min.X, got.Bounds.Max.X - b.Max.X, b.Min.Y, got.Bounds.Max.Y - b.Max.Y}
		touching := 0
		for _, s := range sides {
			if s < 10-1e-9 {
				t.Errorf("%v: %.3f mm from the edge of the paper, want 10", size, s)
			}
			if s < 10+1e-9 {
				touching++
			}
		}
		if touching < 2 {
			t.Errorf("%v: not as large as it goes: %.1f", size, sides)
		}
		text, ok := got.Items[0].(sheet.Text)
		if k := b.W() / size.X; !ok || math.Abs(text.Size.MM()-20*k) > 1e-9 {
			t.Errorf("%v: the text is %+v, want it %.3f times as large", size, got.Items[0], k)
		}
	}
}
