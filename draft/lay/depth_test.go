package lay

import (
	"math"
	"math/rand/v2"
	"testing"

	"chalkfold/draft/geom"
)

// TestDepths: how deep a piece runs into another is the way to the edge of the
// union of all places where it does so, as it is worked out here from all of the
// regions and all of that edge; on a cell of the grid that the edge runs through
// to a hair, further in within the size of a cell.
func TestDepths(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	near, far := 0, 0
	for range 30 {
		c := Cloth{Width: 5000, Gap: 7}
		var its []Item
		for range 2 {
			its = append(its, Item{Name: "star", Ring: star(rng), Turns: []Degrees{0, 180}, EitherFace: true})
		}
		s, err := NewSearch(c, its, 1)
		if err != nil {
			t.Fatal(err)
		}
		for range 2000 {
			a, b := rng.IntN(len(s.facings)), rng.IntN(len(s.facings))
			d, f := s.depths(a, b), s.nofit(a, b)
			x, y := f.box.Min.X+rng.Float64()*f.box.W(), f.box.Min.Y+rng.Float64()*f.box.H()
			want := wayOut(f, x, y)
			got := d.at(x, y)
			i, j := int((d.signX*x-d.from.X)*d.perX), int((d.signY*y-d.from.Y)*d.perY)
			within := 1e-6
			if d.kinds[j*depthCells+i] == insideCell {
				within = math.Hypot(1/d.perX, 1/d.perY)
				far++
			} else if want > 0 {
				near++
			}
			if math.Abs(got-want) > within || (got > 0) != (want > 0) {
				t.Fatalf("facing %d in %d at %g, %g: %g deep, want %g", b, a, x, y, got, want)
			}
		}
	}
	if near < 1000 || far < 1000 {
		t.Errorf("%d places near the edge, %d further in: too few", near, far)
	}
}

// wayOut is how far a place inside any of the regions is from the edge of all.
func wayOut(f *nofit, x, y float64) float64 {
	for _, h := range f.hulls {
		in := true
		for _, e := range h.edges {
			in = in && e.nx*x+e.ny*y < e.d
		}
		if !in {
			continue
		}
		d2 := math.Inf(1)
		for _, s := range f.rim {
			d2 = math.Min(d2, s.away(x, y))
		}
		return math.Sqrt(d2)
	}
	return 0
}

// star is a ring of corners at odd distances from its middle.
func star(rng *rand.Rand) []geom.Pt {
	n := 3 + rng.IntN(9)
	ring := make([]geom.Pt, n)
	for i := range ring {
		s, c := math.Sincos(2 * math.Pi * (float64(i) + 0.8*rng.Float64()) / float64(n))
		r := 100 + 400*rng.Float64()
		ring[i] = geom.Pt{X: r * c, Y: r * s}
	}
	return ring
}
