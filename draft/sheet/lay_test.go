package sheet_test

import (
	"math"
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/sheet"
	"chalkfold/draft/unit"
)

// A flaw 100 mm left of the middle of the cloth lies 100 mm right of the fold.
func TestFlawUnderAFold(t *testing.T) {
	c := sheet.ClothShape{Width: 1500, Used: 900, Fold: sheet.Lengthwise, Flaws: [][]geom.Pt{
		{{X: 640, Y: 100}, {X: 660, Y: 100}, {X: 660, Y: 120}, {X: 640, Y: 120}},
	}}
	d := sheet.Lay(c, nil, sheet.Options{})
	got := geom.BoundsOf(shapes(d, sheet.InnerLine)[0].Path.Flatten(1))
	if want := rect(90, 100, 110, 120); got != want {
		t.Errorf("flaw at %v, want %v", got, want)
	}
}

// A piece too small for its name carries a number, the same for its twin.
func TestSmallPiecesAreNumbered(t *testing.T) {
	welt := func(x float64, name string) sheet.Laid {
		return sheet.Laid{
			ID: "welt", Lines: []string{name}, Ring: []geom.Pt{{}, {X: 60}, {X: 60, Y: 60}, {Y: 60}},
			At: geom.Translate(geom.Vec{X: x}),
		}
	}
	d := sheet.Lay(sheet.ClothShape{Width: 1500, Used: 900}, []sheet.Laid{
		welt(0, "Welt, left"), welt(100, "Welt, right"), welt(200, "Welt, left"),
	}, sheet.Options{})
	got := map[string]int{}
	for _, x := range texts(d) {
		got[x.S]++
	}
	if got["1"] != 2 || got["2"] != 1 || got["1  Welt, left"] != 1 || got["2  Welt, right"] != 1 {
		t.Errorf("written: %v", got)
	}
}

// A piece too small even for its number has it beside it, on free cloth, with
// nothing between.
func TestNumbersBesidePieces(t *testing.T) {
	strip := []geom.Pt{{}, {X: 10}, {X: 10, Y: 300}, {Y: 300}}
	leg := []geom.Pt{{}, {X: 300}, {X: 300, Y: 900}, {Y: 900}}
	laid := []sheet.Laid{
		{ID: "leg", Lines: []string{"Leg"}, Ring: leg},
		{ID: "strip", Lines: []string{"Strip"}, Ring: strip, At: geom.Translate(geom.Vec{X: 325})},
		{ID: "other", Lines: []string{"Other leg"}, Ring: leg, At: geom.Translate(geom.Vec{X: 360})},
	}
	laid[0].At = geom.Identity()
	d := sheet.Lay(sheet.ClothShape{Width: 1500, Used: 900}, laid, sheet.Options{Text: 30})
	for _, x := range texts(d) {
		if x.S != "1" {
			continue
		}
		for _, o := range d.Outlines {
			if geom.Contains(o.Ring, x.Box().Min.Lerp(x.Box().Max, 0.5)) {
				t.Errorf("the number stands on %s", o.ID)
			}
		}
		if x.Size < 24 || math.Abs(x.At.X-330) > 60 {
			t.Errorf("the number stands at %v, %v high", x.At, x.Size)
		}
		return
	}
	t.Error("the strip has no number")
}

func TestLaySaysWhatIsUsed(t *testing.T) {
	ring := []geom.Pt{{}, {X: 400}, {X: 400, Y: 900}, {Y: 900}}
	lain := func(x, y float64, opened bool) sheet.Laid {
		return sheet.Laid{
			ID: "front", Lines: []string{"Front", "1 of 2"}, Ring: ring,
			At: geom.Translate(geom.Vec{X: x, Y: y}), Opened: opened,
		}
	}
	cm := unit.Format{System: unit.Centimetres}
	tests := []struct {
		name  string
		cloth sheet.ClothShape
		laid  []sheet.Laid
		want  []string
		at    geom.Pt // upper left corner of the last piece
	}{
		{
			"open, on the bolt",
			sheet.ClothShape{Width: 60 * unit.Inch, Used: 36 * unit.Inch},
			[]sheet.Laid{lain(10, 0, false)},
			[]string{"60 in wide", "36 in used", "selvedge", "grain", "Front", "1 of 2"},
			geom.Pt{X: 10},
		},
		{
			"folded lengthwise, cloth left",
			sheet.ClothShape{Width: 1500, Length: 2000, Used: 910, Fold: sheet.Lengthwise, Lengths: cm},
			[]sheet.Laid{lain(0, 5, false)},
			[]string{"75 cm, folded", "91 cm used", "109 cm left", "fold", "selvedges"},
			geom.Pt{Y: 5},
		},
		{
			"folded lengthwise, the rest opened",
			sheet.ClothShape{Width: 1500, Length: 2000, Used: 1900, FoldedTo: 950, Fold: sheet.Lengthwise, Lengths: cm},
			[]sheet.Laid{lain(0, 5, false), lain(20, 960, true)},
			[]string{"150 cm wide", "190 cm used", "10 cm left", "fold"},
			geom.Pt{X: 20, Y: 960},
		},
		{
			"folded part stands in line with the open part's right selvedge",
			sheet.ClothShape{Width: 1500, Used: 1900, FoldedTo: 950, Fold: sheet.Lengthwise, Lengths: cm},
			[]sheet.Laid{lain(20, 960, true), lain(0, 5, false)},
			[]string{"190 cm used"},
			geom.Pt{X: 750, Y: 5},
		},
		{
			"folded crosswise",
			sheet.ClothShape{Width: 1100, Used: 1820, Fold: sheet.Crosswise, Lengths: cm},
			[]sheet.Laid{lain(20, 5, false)},
			[]string{"110 cm wide", "182 cm used, both layers", "fold"},
			geom.Pt{X: 20, Y: 5},
		},
		{
			"short",
			sheet.ClothShape{Width: 1500, Length: 860, Used: 910, Lengths: cm},
			[]sheet.Laid{lain(0, 5, false)},
			[]string{"the cloth ends here: short by 5 cm"},
			geom.Pt{Y: 5},
		},
		{
			"remnant with a flaw",
			sheet.ClothShape{
				Outline: []geom.Pt{{}, {X: 900}, {X: 1000, Y: 1200}, {Y: 1000}}, Lengths: cm,
				Flaws: [][]geom.Pt{{{X: 700, Y: 100}, {X: 720, Y: 100}, {X: 710, Y: 130}}},
			},
			[]sheet.Laid{lain(50, 50, false)},
			[]string{"100 cm", "120 cm", "flaw"},
			geom.Pt{X: 50, Y: 50},
		},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := sheet.Lay(tt.cloth, tt.laid, sheet.Options{})
			for _, w := range tt.want {
				if !hasText(d, w) {
					t.Errorf("%q is not written", w)
				}
			}
			last := geom.BoundsOf(d.Outlines[len(d.Outlines)-1].Ring)
			if !near(last.Min, tt.at, 1e-9) || math.Abs(last.H()-900) > 1e-9 {
				t.Errorf("piece at %v, want %v", last.Min, tt.at)
			}
			for _, x := range texts(d) {
				if b := x.Box(); b.Min.X < d.Bounds.Min.X || b.Max.X > d.Bounds.Max.X || b.Min.Y < d.Bounds.Min.Y {
					t.Errorf("%q reaches out of the drawing", x.S)
				}
			}
		})
	}
}
