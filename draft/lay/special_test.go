package lay_test

import (
	"strings"
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

func TestSinglesOnFoldedCloth(t *testing.T) {
	pair, tab, sheet := box("pair", 2, true, 300, 800), box("tab", 1, false, 150, 200), box("sheet", 1, false, 900, 100)
	c := lay.Cloth{Width: 1000, Fold: lay.Lengthwise}
	its, r := mustPack(t, []piece.Piece{pair, tab, sheet}, c)
	for _, p := range r.Placements {
		// The tab goes beside the pair, under the fold, where 200 mm are free;
		// the sheet is wider than the folded cloth and must have it opened.
		if want := its[p.Item].Piece == "sheet"; p.Opened != want {
			t.Errorf("%s: opened %t", its[p.Item].Name, p.Opened)
		}
		if p.Opened {
			if y := geom.BoundsOf(p.Ring(its)).Min.Y; y != 800 {
				t.Errorf("the opened rest is used from %.1f mm, want 800", y)
			}
		}
	}
	if r.FoldedTo != 800 || r.Length != 900 {
		t.Errorf("folded to %.0f, length %.0f; want 800 and 900", r.FoldedTo.MM(), r.Length.MM())
	}
	c.Fold = lay.Crosswise
	if _, r := mustPack(t, []piece.Piece{pair, sheet}, c); r.FoldedTo != 800 || r.Length != 1700 {
		t.Errorf("crosswise: folded to %.0f, length %.0f; want 800 and twice that and 100", r.FoldedTo.MM(), r.Length.MM())
	}
}

func TestOnTheFold(t *testing.T) {
	// Half a back with the fold on its right side.
	half := cut("back", 1, false, geom.Polyline(geom.Pt{}, geom.Pt{X: 200}, geom.Pt{X: 200, Y: 500}, geom.Pt{X: 50, Y: 400}, geom.Pt{}))
	half.Edges = []piece.Edge{{Name: "centre back", Fold: true, Sew: geom.Polyline(geom.Pt{X: 200}, geom.Pt{X: 200, Y: 500})}}
	folded := lay.Cloth{Width: 1000, Fold: lay.Lengthwise, OneWay: true, Margin: 10}
	its, r := mustPack(t, []piece.Piece{half, box("pair", 2, true, 250, 500)}, folded)
	if !its[0].OnFold || its[0].Area() != 2*half.Area() {
		t.Fatalf("item %+v, want it on the fold and its area twice the half", its[0])
	}
	for _, p := range r.Placements {
		if its[p.Item].OnFold {
			if x := p.At.Pt(geom.Pt{X: 200, Y: 100}).X; x != 0 {
				t.Errorf("fold edge at x = %g", x)
			}
		}
	}
	if r.Length != 500 {
		t.Errorf("length %.1f, want both side by side in 500", r.Length.MM())
	}
	for _, fold := range []lay.Fold{lay.Open, lay.Crosswise} {
		its, _ := mustPack(t, []piece.Piece{half}, lay.Cloth{Width: 1000, Fold: fold})
		if its[0].OnFold || geom.BoundsOf(its[0].Ring).W() != 400 || its[0].Area() != 2*half.Area() {
			t.Errorf("%s: %v is not the whole piece", fold, its[0].Ring)
		}
	}
	// A fold edge across the grain cannot lie on a lengthwise fold.
	half.Grain = geom.Line(geom.Pt{}, geom.Pt{X: 1})
	_, err := lay.Pack(folded, items(t, []piece.Piece{half}, folded), lay.Options{})
	if err == nil || !strings.Contains(err.Error(), "fold edge") {
		t.Errorf("got %v, want something about the fold edge", err)
	}
}

func TestGapIsKept(t *testing.T) {
	_, r := mustPack(t, []piece.Piece{box("a", 4, false, 300, 200)}, lay.Cloth{Width: 1000, Gap: 20})
	// Three side by side take 940 mm; the fourth comes 20 mm further down.
	if d := r.Length.MM() - 420; d < 0 || d > 1 {
		t.Errorf("length %.3f, want 420 and at most 1 mm more", r.Length.MM())
	}
}

func TestRemnant(t *testing.T) {
	// An L: a strip of 400 mm with a foot of 1000 mm.
	l := lay.Cloth{Outline: []geom.Pt{{}, {X: 400}, {X: 400, Y: 600}, {X: 1000, Y: 600}, {X: 1000, Y: 1000}, {Y: 1000}}}
	its, r := mustPack(t, []piece.Piece{box("tall", 1, false, 350, 590), box("wide", 1, false, 900, 380)}, l)
	if !r.Fits || len(r.Out) != 0 {
		t.Errorf("left out %v, want both laid", r.Out)
	}
	for _, p := range r.Placements {
		if b := geom.BoundsOf(p.Ring(its)); its[p.Item].Piece == "wide" && b.Min.Y < 600 {
			t.Errorf("the wide one lies at %v, outside the foot", b)
		}
	}
	_, r = mustPack(t, []piece.Piece{box("tall", 1, false, 350, 590), box("big", 1, false, 900, 450)}, l)
	if r.Fits || len(r.Out) != 1 || r.Out[0] != 1 {
		t.Errorf("fits %t, left out %v; want the big one left out", r.Fits, r.Out)
	}
	// Exactly the shape of the remnant.
	exact := cut("exact", 1, false, geom.Polyline(append(l.Outline, l.Outline[0])...))
	if _, r := mustPack(t, []piece.Piece{exact}, l); !r.Fits {
		t.Error("a piece of the remnant's own shape does not fit it")
	}
	// A hole is a flaw.
	l.Flaws = [][]geom.Pt{{{X: 100, Y: 500}, {X: 120, Y: 500}, {X: 110, Y: 520}}}
	if _, r := mustPack(t, []piece.Piece{box("tall", 1, false, 350, 590)}, l); r.Fits {
		t.Error("fits across the hole")
	}
}

func TestFlawThroughTheFold(t *testing.T) {
	// On the right half of the unfolded cloth, 100 mm from the fold.
	flaw := []geom.Pt{{X: 600, Y: 0}, {X: 620, Y: 0}, {X: 620, Y: 50}, {X: 600, Y: 50}}
	c := lay.Cloth{Width: 1000, Fold: lay.Lengthwise, Flaws: [][]geom.Pt{flaw}}
	_, r := mustPack(t, []piece.Piece{box("pair", 2, true, 400, 300)}, c)
	if r.Length != 350 {
		t.Errorf("length %.1f, want 350: 400 mm only fit below the flaw", r.Length.MM())
	}
	if _, r = mustPack(t, []piece.Piece{box("pair", 2, true, 380, 300)}, c); r.Length != 300 {
		t.Errorf("length %.1f, want 300: 380 mm fit beside the flaw", r.Length.MM())
	}
}

// TestFitsToAHair: what places rounded to a hundred-thousandth run over is no
// cloth wanting.
func TestFitsToAHair(t *testing.T) {
	pieces := []piece.Piece{box("a", 1, false, 600, 150.000006), box("b", 1, false, 600, 150.000006)}
	for _, leaveOut := range []bool{false, true} {
		c := lay.Cloth{Width: 1000, Length: 300.000012, LeaveOut: leaveOut}
		if _, r := mustPack(t, pieces, c); !r.Fits || r.ShortBy != 0 {
			t.Errorf("%.6f mm on %.6f: short by %g mm, fits %t", r.Length.MM(), c.Length.MM(), r.ShortBy.MM(), r.Fits)
		}
	}
}

func TestLocked(t *testing.T) {
	c := lay.Cloth{Width: 1000}
	its := items(t, []piece.Piece{box("a", 2, false, 400, 300), box("b", 2, false, 500, 300)}, c)
	lock := func(x, y float64) *lay.Spot { return &lay.Spot{At: geom.Translate(geom.Vec{X: x, Y: y})} }
	its[0].Locked = lock(550, 100)
	r, err := lay.Pack(c, its, lay.Options{Work: 500})
	if err != nil {
		t.Fatal(err)
	}
	if err := lay.Verify(c, its, r); err != nil {
		t.Error(err)
	}
	for _, p := range r.Placements {
		if p.Item == 0 && p.At != its[0].Locked.At {
			t.Errorf("locked piece moved to %v", p.At)
		}
	}
	for _, tt := range []struct {
		name string
		a, b *lay.Spot
		want string
	}{
		{"on each other", lock(0, 0), lock(100, 100), "overlap"},
		{"off the cloth", lock(700, 0), nil, "across"},
		{"quarter turn", &lay.Spot{At: geom.RotateAbout(geom.Pt{X: 400, Y: 400}, 1.5707963267948966)}, nil, "turn"},
		{"on a rest that is not there", &lay.Spot{At: geom.Identity(), Opened: true}, nil, "opened rest"},
	} {
		its[0].Locked, its[1].Locked = tt.a, tt.b
		_, err := lay.Pack(c, its, lay.Options{})
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, want something about %q", tt.name, err, tt.want)
		}
		if checked := lay.Check(c, its); checked == nil || checked.Error() != err.Error() {
			t.Errorf("%s: checked: %v, laid: %v", tt.name, checked, err)
		}
	}
	// Everything locked is a lay too.
	for i, s := range []*lay.Spot{lock(0, 0), lock(500, 0), lock(0, 400), lock(500, 400)} {
		its[i].Locked = s
	}
	if r, err = lay.Pack(c, its, lay.Options{Work: 10}); err != nil || r.Length != 700 {
		t.Errorf("length %.1f, %v; want 700", r.Length.MM(), err)
	}
	if err := lay.Check(c, its); err != nil {
		t.Error(err)
	}
}

func TestPiecesRefused(t *testing.T) {
	c := lay.Cloth{Width: 1000}
	good := box("tab", 1, false, 50, 80)
	none, flat, crossed := good, good, good
	none.Count = 0
	flat.Cut = []geom.Pt{{}, {X: 10}}
	crossed.Cut = []geom.Pt{{}, {X: 100, Y: 100}, {X: 100}, {Y: 90}}
	for want, p := range map[string]piece.Piece{"count": none, "no area": flat, "crosses itself": crossed} {
		if _, err := lay.Items([]piece.Piece{p}, c); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want something about %q", err, want)
		}
	}
	double := items(t, []piece.Piece{box("pair", 2, true, 50, 80)}, lay.Cloth{Width: 1000, Fold: lay.Lengthwise})
	if _, err := lay.Pack(c, double, lay.Options{}); err == nil {
		t.Error("items of folded cloth are laid on open cloth")
	}
	noTurn := []lay.Item{{Name: "x", Ring: good.Cut}}
	if _, err := lay.Pack(c, noTurn, lay.Options{}); err == nil {
		t.Error("an item without a turn is laid")
	}
}

func TestWiderClothIsNeverMuchLonger(t *testing.T) {
	// Yardage tables fall with width; a quick lay may wobble, by under a tenth.
	prev := unit.Length(0)
	for _, in := range []float64{36, 45, 54, 60} {
		_, r := mustPack(t, trousers(), lay.Cloth{Width: unit.Length(in) * unit.Inch})
		if prev > 0 && r.Length > prev*1.1 {
			t.Errorf("%g in wide takes %.0f mm, the narrower one %.0f", in, r.Length.MM(), prev.MM())
		}
		prev = r.Length
	}
}
