package sheet_test

import (
	"math"
	"strings"
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/sheettest"
)

// A printer that prints 100 mm as 99.6 across and 100.2 along is sent 100/0.996
// and 100/1.002, on paper as large as ever; measured again true, it is sent the
// same.
func TestCorrection(t *testing.T) {
	c, err := sheet.Correction{}.Measured(99.6, 100.2)
	if err != nil {
		t.Fatal(err)
	}
	if again, err := c.Measured(100, 100); err != nil || again != c {
		t.Errorf("measured true: %v, %v, want %v", again, err, c)
	}
	_, out := tiled(t, sheettest.Pieces(), sheet.A4(), sheet.TileOptions{Printer: c, Work: 1})
	for i, p := range out.Pages {
		if p.Sheet.Bounds != rect(0, 0, 210, 297) {
			t.Errorf("sheet %d is %v, want A4", i+1, p.Sheet.Bounds)
		}
		b := geom.BoundsOf(shapes(p.Sheet, sheet.Gauge)[0].Path.Flatten(1))
		side := math.Round(b.W() * 0.996)
		if math.Abs(b.W()*0.996-side) > 1e-9 || math.Abs(b.H()*1.002-side) > 1e-9 {
			t.Errorf("sheet %d: the square comes out %.3f by %.3f mm", i+1, b.W()*0.996, b.H()*1.002)
		}
		for _, s := range shapes(p.Sheet, sheet.Gauge) {
			if g := geom.BoundsOf(s.Path.Flatten(1)); g.Min.X < 10 || g.Max.X > 200 || g.Min.Y < 10 || g.Max.Y > 287 {
				t.Errorf("sheet %d: %v reaches into the margin", i+1, g)
			}
		}
	}
}

func TestCorrectionRefused(t *testing.T) {
	// A4 fitted onto Letter: 94.1 %.
	if _, err := (sheet.Correction{}).Measured(94.1, 94.1); err == nil || !strings.Contains(err.Error(), "not fitted to the page") {
		t.Errorf("94.1 mm: %v", err)
	}
	if _, err := (sheet.Correction{}).Measured(100, 0); err == nil {
		t.Error("0 mm is taken")
	}
}
