package lay_test

import (
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
)

// What counts first decides, whatever the rest says.
func TestMeritInOrder(t *testing.T) {
	better := []lay.Merit{
		{Short: 9, Bought: 9, Offcut: 0, Cuts: 9, Odd: 9},
		{Out: 1, Bought: 9, Offcut: 0, Cuts: 9, Odd: 9},
		{Out: 1, Short: 1, Bought: 8, Offcut: 0, Cuts: 9, Odd: 9},
		{Out: 1, Short: 1, Bought: 9, Offcut: 5, Cuts: 9, Odd: 9},
		{Out: 1, Short: 1, Bought: 9, Offcut: 4, Cuts: 8, Odd: 9},
		{Out: 1, Short: 1, Bought: 9, Offcut: 4, Cuts: 9, Odd: 8},
	}
	worse := lay.Merit{Out: 1, Short: 1, Bought: 9, Offcut: 4, Cuts: 9, Odd: 9}
	for i, m := range better {
		w := worse
		if i == 0 {
			w = lay.Merit{Out: 1}
		}
		if m.Compare(w) >= 0 || w.Compare(m) <= 0 {
			t.Errorf("%+v is not the better of it and %+v", m, w)
		}
	}
	if worse.Compare(worse) != 0 {
		t.Error("a lay is better than itself")
	}
}

// By hand, on cloth of 1 m by 1 m: a square in the corner, or in the middle of
// the cut edge, takes the same length; it is the places of their bites that
// differ, and round figures.
func TestMeritByHand(t *testing.T) {
	c := lay.Cloth{Width: 1000, Length: 1000, SoldBy: 100}
	p := box("a", 1, false, 300, 250)
	p.Grain = geom.Line(geom.Pt{X: 150, Y: 50}, geom.Pt{X: 150, Y: 200})
	its := items(t, []piece.Piece{p}, c)
	at := func(x float64) lay.Result {
		return lay.Result{Placements: []lay.Placement{{Spot: lay.Spot{At: geom.Translate(geom.Vec{X: x})}}}, Length: 250, Fits: true}
	}
	corner, middle := lay.MeritOf(c, its, at(0), 10), lay.MeritOf(c, its, at(353), 10)
	if want := (lay.Merit{Bought: 300, Offcut: 750_000, Cuts: 1}); corner != want {
		t.Errorf("in the corner %+v, want %+v", corner, want)
	}
	if want := (lay.Merit{Bought: 300, Offcut: 750_000, Cuts: 2, Odd: 1}); middle != want {
		t.Errorf("in the middle %+v, want %+v", middle, want)
	}
	if corner.Compare(middle) >= 0 {
		t.Error("the corner is not the better place")
	}
}

// A remnant by hand: the bite of a square, and what is too narrow to keep.
func TestLeftoverByHand(t *testing.T) {
	c := lay.Cloth{Width: 1000, Length: 1000, Flaws: [][]geom.Pt{{{X: 900, Y: 900}, {X: 950, Y: 900}, {X: 950, Y: 950}, {X: 900, Y: 950}}}}
	its := items(t, []piece.Piece{box("a", 2, false, 300, 250)}, c)
	r := lay.Result{Placements: []lay.Placement{
		{Item: 0, Spot: lay.Spot{At: geom.Identity()}},
		{Item: 1, Spot: lay.Spot{At: geom.Translate(geom.Vec{X: 350})}}, // 50 mm beside the first
	}, Length: 250}
	left, ok := lay.Leftover(c, its, r)
	want := []geom.Pt{{Y: 250}, {X: 650, Y: 250}, {X: 650}, {X: 1000}, {X: 1000, Y: 1000}, {Y: 1000}}
	if !ok || len(left.Outline) != len(want) {
		t.Fatalf("left %v, want %v", left.Outline, want)
	}
	for i, p := range want {
		if left.Outline[i] != p {
			t.Errorf("corner %d at %v, want %v", i, left.Outline[i], p)
		}
	}
	if left.Rect != (geom.Rect{Min: geom.Pt{Y: 250}, Max: geom.Pt{X: 1000, Y: 1000}}) {
		t.Errorf("the rectangle is %v", left.Rect)
	}
	if len(left.Flaws) != 1 || left.Flaws[0] != (geom.Rect{Min: geom.Pt{X: 900, Y: 900}, Max: geom.Pt{X: 950, Y: 950}}) {
		t.Errorf("the flaws are %v", left.Flaws)
	}
}
