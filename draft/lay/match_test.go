package lay_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chalkfold/draft/geom"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
)

// checked are trousers whose fronts and backs match at the hip.
func checked() []piece.Piece {
	all := trousers()
	for i := range all[:2] {
		all[i].Match = piece.Match{At: geom.Pt{X: 280, Y: 150 + 3*float64(i)}, Along: "hip", Across: all[i].ID}
	}
	facing := &all[3]
	facing.Match = piece.Match{At: geom.Pt{X: 90, Y: 150}, Along: "hip", Across: "front"}
	return all
}

// On stripes and checks of any repeat, on any fold, pieces match, and Verify
// says so.
func TestAnyStripesMatch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := lay.Cloth{Width: 1400, OneWay: rapid.Bool().Draw(t, "one-way"), Margin: mmOf(rapid.Float64Range(0, 20).Draw(t, "margin"))}
		c.Fold = rapid.SampledFrom([]lay.Fold{lay.Open, lay.Lengthwise}).Draw(t, "fold")
		if !c.OneWay {
			c.Fold = rapid.SampledFrom([]lay.Fold{lay.Open, lay.Lengthwise, lay.Crosswise}).Draw(t, "any fold")
		}
		repeat := rapid.SampledFrom([]float64{0, 7, 25.4, 1.75 * 25.4, 100, 333})
		c.RepeatAlong, c.RepeatAcross = mmOf(repeat.Draw(t, "along")), mmOf(repeat.Draw(t, "across"))
		var pieces []piece.Piece
		for i := range rapid.IntRange(1, 5).Draw(t, "pieces") {
			p := box(string(rune('a'+i)), rapid.IntRange(1, 3).Draw(t, "count"), rapid.Bool().Draw(t, "pairs"), 1, 1)
			p.Cut = star(t, p.ID)
			p.AnyGrain = rapid.Bool().Draw(t, "any grain")
			if rapid.IntRange(0, 3).Draw(t, "match") > 0 {
				p.Match = piece.Match{
					At:     rapid.SampledFrom(p.Cut).Draw(t, "at"),
					Along:  rapid.SampledFrom([]string{"", "hip", "hip"}).Draw(t, "seam"),
					Across: rapid.SampledFrom([]string{"", "panel", p.ID}).Draw(t, "panel"),
				}
			}
			pieces = append(pieces, p)
		}
		its, err := lay.Items(pieces, c)
		if err != nil {
			t.Fatal(err)
		}
		s, err := lay.NewSearch(c, its, rapid.Uint64().Draw(t, "seed"))
		if err != nil {
			t.Fatal(err)
		}
		s.Run(s.FixedWork()+rapid.IntRange(0, 200).Draw(t, "work"), nil, nil)
		r := s.Best()
		if err := lay.Verify(c, its, r); err != nil || len(r.Out) > 0 {
			t.Fatal(r.Out, err)
		}
	})
}

// Verify finds stripes that do not meet.
func TestVerifyCatchesStripes(t *testing.T) {
	for _, tt := range []struct {
		name string
		move func(r *lay.Result)
		want string
	}{
		{"along", func(r *lay.Result) { r.Placements[len(r.Placements)-1].At.F += 5 }, "cross stripes stand 5.00 mm off"},
		{"across", func(r *lay.Result) { r.Placements[len(r.Placements)-1].At.E += 5 }, "lengthwise stripes stand 5.00 mm off"},
		{"a hair", func(r *lay.Result) { r.Placements[len(r.Placements)-1].At.F += 0.4 }, ""},
		{"a whole repeat", func(r *lay.Result) { r.Placements[len(r.Placements)-1].At.F += 30 }, ""},
	} {
		c := lay.Cloth{Width: 1000, RepeatAlong: 30, RepeatAcross: 40}
		p := box("a", 2, true, 200, 300)
		p.Match = piece.Match{At: geom.Pt{X: 10, Y: 20}, Along: "hip", Across: "a"}
		its, r := mustPack(t, []piece.Piece{p}, c)
		tt.move(&r)
		err := lay.Verify(c, its, r)
		said := err != nil && strings.Contains(err.Error(), "stripes")
		if said != (tt.want != "") || said && !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, want %q", tt.name, err, tt.want)
		}
	}
}

// By hand: two squares of 100 mm, to match at their lower left corners on
// stripes of 70 mm, stand 140 mm apart, since one repeat is not enough.
func TestStripesByHand(t *testing.T) {
	c := lay.Cloth{Width: 110, OneWay: true, RepeatAlong: 70}
	p := box("a", 2, false, 100, 100)
	p.Match = piece.Match{Along: "hip"}
	if _, r := mustPack(t, []piece.Piece{p}, c); r.Length != 240 {
		t.Errorf("takes %.1f mm, want 240", r.Length.MM())
	}
	c.RepeatAlong = 0
	if _, r := mustPack(t, []piece.Piece{p}, c); r.Length != 200 {
		t.Errorf("without stripes it takes %.1f mm, want 200", r.Length.MM())
	}
	// Mirrored in the middle of the cloth: whatever one square leaves on the
	// left, the other leaves on the right, up to whole repeats.
	c = lay.Cloth{Width: 330, OneWay: true, RepeatAcross: 70}
	q := cut("a", 2, true, geom.Polyline(geom.Pt{}, geom.Pt{X: 90}, geom.Pt{X: 100, Y: 100}, geom.Pt{Y: 100}, geom.Pt{}))
	q.Match = piece.Match{Across: "a"}
	its, r := mustPack(t, []piece.Piece{q}, c)
	var x [2]float64
	for i, pl := range r.Placements {
		x[i] = pl.At.Pt(its[pl.Item].Match.At).X - 165
	}
	if off := math.Abs(math.Remainder(x[0]+x[1], 70)); off > 0.01 {
		t.Errorf("from the middle %.1f and %.1f mm: not each other's image on stripes of 70 mm", x[0], x[1])
	}
}

// What matching costs is a few repeats at most, two
// for each item that is bound.
func TestStripesCostCloth(t *testing.T) {
	for name, c := range map[string]lay.Cloth{
		"open":                {Width: 1500},
		"lengthwise":          {Width: 1500, Fold: lay.Lengthwise},
		"lengthwise, one-way": {Width: 1500, Fold: lay.Lengthwise, OneWay: true},
		"crosswise":           {Width: 1100, Fold: lay.Crosswise},
	} {
		if testing.Short() && name != "lengthwise, one-way" {
			continue
		}
		_, plain := mustPack(t, checked(), c)
		c.RepeatAlong, c.RepeatAcross = 50.8, 38.1
		its, r := mustPack(t, checked(), c)
		bound := 0
		for _, it := range its {
			if it.Match.Along != "" {
				bound++
			}
		}
		t.Logf("%s: %.0f mm, on checks %.0f mm", name, plain.Length.MM(), r.Length.MM())
		if most := plain.Length + c.RepeatAlong*mmOf(float64(2*bound)); r.Length > most {
			t.Errorf("%s: %.0f mm on checks, want at most %.0f mm", name, r.Length.MM(), most.MM())
		}
	}
}

// A match that hands have broken is a lock that contradicts another.
func TestLocksOffTheStripes(t *testing.T) {
	c := lay.Cloth{Width: 1000, RepeatAlong: 50}
	p := box("a", 2, false, 200, 300)
	p.Match = piece.Match{Along: "hip"}
	its := items(t, []piece.Piece{p}, c)
	its[0].Locked = &lay.Spot{At: geom.Identity()}
	its[1].Locked = &lay.Spot{At: geom.Translate(geom.Vec{X: 300, Y: 20})}
	if _, err := lay.Pack(c, its, lay.Options{}); err == nil || !strings.Contains(err.Error(), "stripes stand 20.00 mm off each other") {
		t.Errorf("%v, want it refused for the stripes", err)
	}
	its[1].Locked = nil
	r, err := lay.Pack(c, its, lay.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if err := lay.Verify(c, its, r); err != nil {
		t.Error(err)
	}
}

// Cloth that is still to shrink takes pieces that are so much larger, each way.
func TestPiecesOnClothThatShrinks(t *testing.T) {
	across := box("across", 1, false, 300, 180)
	across.Grain = geom.Line(geom.Pt{}, geom.Pt{X: 100})
	any := box("any", 1, false, 100, 200)
	any.AnyGrain = true
	for _, tt := range []struct {
		p    piece.Piece
		w, h float64 // as drawn, so w is along the grain of the second
	}{
		{box("plain", 1, false, 180, 190), 200, 200},
		{across, 300 / 0.95, 200},
		{any, 100 / 0.9, 200 / 0.9},
	} {
		c := lay.Cloth{Width: 1000, ShrinksAlong: 5, ShrinksAcross: 10}
		it := items(t, []piece.Piece{tt.p}, c)[0]
		if b := geom.BoundsOf(it.Ring); math.Abs(b.W()-tt.w) > 1e-6 || math.Abs(b.H()-tt.h) > 1e-6 {
			t.Errorf("%s: %.3f × %.3f mm, want %.3f × %.3f mm", tt.p.ID, b.W(), b.H(), tt.w, tt.h)
		}
	}
	half := box("half", 1, false, 180, 190)
	half.Edges = []piece.Edge{{Name: "fold", Fold: true, Sew: geom.Polyline(geom.Pt{Y: 190}, geom.Pt{})}}
	mustPack(t, []piece.Piece{half}, lay.Cloth{Width: 1000, Fold: lay.Lengthwise, ShrinksAlong: 5, ShrinksAcross: 10})
}

// A tilt lets a piece lie in so much less length, and is kept to.
func TestTilt(t *testing.T) {
	lean := math.Pi / 60 // three degrees
	p := box("a", 1, false, 1, 1)
	p.Cut = geom.MapPts([]geom.Pt{{}, {X: 100}, {X: 100, Y: 900}, {Y: 900}}, geom.RotateAbout(geom.Pt{}, lean))
	c := lay.Cloth{Width: 101}
	if _, err := lay.Pack(c, items(t, []piece.Piece{p}, c), lay.Options{}); err == nil {
		t.Fatal("a leaning piece goes on cloth of its own width")
	}
	c.Tilt = 3
	its, r := mustPack(t, []piece.Piece{p}, c)
	if err := lay.Verify(c, its, r); err != nil {
		t.Error(err)
	}
	if math.Abs(r.Length.MM()-900) > 1 {
		t.Errorf("takes %.1f mm, want 900", r.Length.MM())
	}
}
