package lay_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"

	"chalkfold/draft/geom"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
)

func TestVerifyCatches(t *testing.T) {
	c := lay.Cloth{Width: 60 * 25.4, Length: 3000, Fold: lay.Lengthwise, Margin: 10, Gap: 2}
	its, good := mustPack(t, trousers(), c)
	shift := func(x, y float64) func(*lay.Result) {
		return func(r *lay.Result) { r.Placements[1].At.E += x; r.Placements[1].At.F += y }
	}
	first := func(opened bool) int {
		return slices.IndexFunc(good.Placements, func(p lay.Placement) bool { return p.Opened == opened })
	}
	double := slices.IndexFunc(good.Placements, func(p lay.Placement) bool { return its[p.Item].Double })
	for _, tt := range []struct {
		name, want string
		spoil      func(*lay.Result)
	}{
		{"on top of another", "overlap", func(r *lay.Result) {
			r.Placements[1].At.E, r.Placements[1].At.F = r.Placements[0].At.E+30, r.Placements[0].At.F+30
		}},
		{"over the selvedge", "across", shift(1000, 0)},
		{"before the cut edge", "cut edge", func(r *lay.Result) { r.Placements[0].At.F -= 5000 }},
		{"nowhere", "lies nowhere", shift(0, math.NaN())},
		{"left out", "laid 0 times", func(r *lay.Result) { r.Placements = r.Placements[1:] }},
		{"laid twice", "laid 2 times", func(r *lay.Result) { r.Placements = append(r.Placements, r.Placements[0]) }},
		{"no such item", "there are", func(r *lay.Result) { r.Placements[0].Item = 99 }},
		{"turned askew", "turn", func(r *lay.Result) {
			r.Placements[0].At = geom.RotateAbout(geom.Pt{X: 300, Y: 300}, 0.01).Then(r.Placements[0].At)
		}},
		{"bent", "turn", func(r *lay.Result) { r.Placements[0].At.A *= 1.0001 }},
		{"length too short", "length said", func(r *lay.Result) { r.Length -= 0.1 }},
		{"short, said to fit", "short by", func(r *lay.Result) { r.ShortBy = 10 }},
		{"said not to fit", "fits false", func(r *lay.Result) { r.Fits = false }},
		{"double on the opened rest", "opened rest", func(r *lay.Result) { r.Placements[double].Opened = true }},
		{"past the folded part", "past the folded part", func(r *lay.Result) { r.FoldedTo -= 1 }},
	} {
		t.Run(tt.name, func(t *testing.T) {
			bad := good
			bad.Placements = slices.Clone(good.Placements)
			tt.spoil(&bad)
			err := lay.Verify(c, its, bad)
			if err == nil || !strings.Contains(err.Error(), tt.want) {
				t.Errorf("got %v, want something about %q", err, tt.want)
			}
		})
	}
	if first(false) < 0 {
		t.Error("nothing lies on the folded part")
	}
}

func TestVerifyHoldsAHundredthOfAMillimetre(t *testing.T) {
	for _, tt := range []struct {
		gap, at float64
		ok      bool
	}{
		{0, 300, true},
		{0, 299.998, true},
		{0, 299.99, false},
		{0, 200, false},
		{0, 0, false}, // one upon the other, corner on corner
		{5, 305, true},
		{5, 304.998, true},
		{5, 304.99, false},
		{5, 302, false},
	} {
		c := lay.Cloth{Width: 1000, Gap: mmOf(tt.gap)}
		its := items(t, []piece.Piece{box("a", 2, false, 300, 200)}, c)
		r := lay.Result{Length: 200, Fits: true, Placements: []lay.Placement{
			{Item: 0, Spot: lay.Spot{At: geom.Identity()}},
			{Item: 1, Spot: lay.Spot{At: geom.Translate(geom.Vec{X: tt.at})}},
		}}
		if err := lay.Verify(c, its, r); (err == nil) != tt.ok {
			t.Errorf("gap %g, second at %g: %v", tt.gap, tt.at, err)
		}
	}
}

// star draws a simple ring, seldom convex.
func star(t *rapid.T, what string) []geom.Pt {
	n := rapid.IntRange(3, 12).Draw(t, what+" corners")
	out := make([]geom.Pt, n)
	for i := range out {
		r := rapid.Float64Range(20, 200).Draw(t, what+" radius")
		s, c := math.Sincos(2 * math.Pi * (float64(i) + rapid.Float64Range(0, 0.5).Draw(t, what+" angle")) / float64(n))
		out[i] = geom.Pt{X: r * c, Y: r * s}
	}
	return out
}

// feature hands a ring to the independent geometry library.
func feature(pts []geom.Pt) sf.Geometry {
	var xy []float64
	for i := range len(pts) + 1 {
		p := pts[i%len(pts)]
		xy = append(xy, p.X, p.Y)
	}
	return sf.NewPolygon([]sf.LineString{sf.NewLineString(sf.NewSequence(xy, sf.DimXY))}).AsGeometry()
}

func TestVerifyAgainstSimpleFeatures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := lay.Cloth{Width: 2000}
		its := []lay.Item{{Name: "a", Turns: []lay.Degrees{0}, Ring: star(t, "a")}, {Name: "b", Turns: []lay.Degrees{0}, Ring: star(t, "b")}}
		at := [2]geom.Affine{
			geom.Translate(geom.Vec{X: 1000, Y: 1000}),
			geom.Translate(geom.Vec{X: rapid.Float64Range(700, 1300).Draw(t, "x"), Y: rapid.Float64Range(700, 1300).Draw(t, "y")}),
		}
		var r lay.Result
		r.Fits = true
		end := 0.0
		for i := range its {
			r.Placements = append(r.Placements, lay.Placement{Item: i, Spot: lay.Spot{At: at[i]}})
			end = max(end, geom.BoundsOf(r.Placements[i].Ring(its)).Max.Y)
		}
		r.Length = mmOf(end)
		both, err := sf.Intersection(feature(r.Placements[0].Ring(its)), feature(r.Placements[1].Ring(its)))
		if err != nil {
			t.Skip(err)
		}
		said := lay.Verify(c, its, r) != nil
		// An area of 1 mm² inside shapes of this size is deeper than 0.01 mm.
		if area := both.Area(); area > 1 && !said {
			t.Fatalf("overlap of %.3f mm² not found", area)
		} else if area < 1e-9 && said {
			t.Fatalf("overlap found where there is none: %v", lay.Verify(c, its, r))
		}
	})
}
