package sheet_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/sheettest"
	"chalkfold/draft/unit"
)

func length(t *testing.T, text string) unit.Quantity {
	t.Helper()
	q, err := unit.Parse(text, unit.Millimetres)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// A printer that prints 100 mm as 99.6 across and 100.2 along is sent 100/0.996
// and 100/1.002, on paper as large as ever; measured again true, it is sent the
// same.
func TestCorrection(t *testing.T) {
	c, err := sheet.Correction{}.Measured(length(t, "99.6 mm"), length(t, "100.2 mm"))
	if err != nil {
		t.Fatal(err)
	}
	if again, err := c.Measured(length(t, "10 cm"), length(t, "4 in")); err != nil || again != c {
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
	if _, err := (sheet.Correction{}).Measured(length(t, "94.1 mm"), length(t, "94.1 mm")); err == nil || !strings.Contains(err.Error(), "not fitted to the page") {
		t.Errorf("94.1 mm: %v", err)
	}
	// The inner square, measured in inches: it is the outer that has 4.
	if _, err := (sheet.Correction{}).Measured(length(t, "4 in"), length(t, "3 1/2 in")); err == nil || !strings.Contains(err.Error(), "square of 4 in measures 3½ in") {
		t.Errorf("3½ in: %v", err)
	}
	if _, err := (sheet.Correction{}).Measured(length(t, "100 mm"), length(t, "0 mm")); err == nil {
		t.Error("0 mm is taken")
	}
}

// The test sheet has both squares at their size, clear of the margins, on every
// paper, as the printer needs them.
func TestCheckSheet(t *testing.T) {
	c, err := sheet.Correction{}.Measured(length(t, "99.6 mm"), length(t, "4.01 in"))
	if err != nil {
		t.Fatal(err)
	}
	for _, paper := range append(sheet.Papers(), sheet.Rolls()...) {
		d, err := sheet.Check(paper, sheet.TileOptions{Printer: c})
		if err != nil {
			t.Errorf("%s: %v", paper.Name, err)
			continue
		}
		var sides []float64
		for _, s := range shapes(d, sheet.Gauge) {
			b := geom.BoundsOf(s.Path.Flatten(1))
			sides = append(sides, math.Round(b.W()/c.Across*1e6)/1e6, math.Round(b.H()/c.Along*1e6)/1e6)
		}
		if !slices.Equal(sides, []float64{100, 100, 101.6, 101.6}) {
			t.Errorf("%s: squares of %v", paper.Name, sides)
		}
		for _, x := range texts(d) {
			if b := x.Box(); b.Min.X < 10 || b.Max.X > d.Bounds.Max.X-10 || b.Max.Y > d.Bounds.Max.Y-10 {
				t.Errorf("%s: %q at %v reaches into the margin", paper.Name, x.S, b)
			}
		}
	}
}
