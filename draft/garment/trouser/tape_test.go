package trouser_test

import (
	"math"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/garment/garmenttest"
	"chalkfold/draft/garment/trouser"
	"chalkfold/draft/geom"
)

type (
	fataler = garmenttest.Fataler
	made    = garmenttest.Made
)

// The body that the quarter method is explained on (common practice): hip 42,
// waist 34, thigh 25, knee 15½, outside leg 40.
const hip42 = "waist_girth 34, hip_girth 42, thigh_girth 25, knee_girth 15 1/2, outside_leg_length 40"

// measured reads a body in inches: see garmenttest.Measured.
func measured(t fataler, list string) body.Values {
	t.Helper()
	return garmenttest.Measured(t, trouser.Garment(), list)
}

// order is what is to be drafted.
type order garmenttest.Order

func (o order) of() garmenttest.Order {
	o.Garment = trouser.Garment()
	return garmenttest.Order(o)
}

func (o order) input(t fataler) garment.Input {
	t.Helper()
	return o.of().Input(t)
}

// draft drafts and proves the order, which must be possible.
func (o order) draft(t fataler) made {
	t.Helper()
	return o.of().Draft(t)
}

// across measures a ring along the line through at, mm, on the stretch that
// holds at. It is the tests' own measure, apart from that of the proof.
func across(t fataler, ring []geom.Pt, at geom.Pt, dir geom.Vec) float64 {
	t.Helper()
	dir = dir.Unit()
	lo, hi := math.Inf(-1), math.Inf(1)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		u, v := dir.Cross(a.Sub(at)), dir.Cross(b.Sub(at))
		if (u < 0) == (v < 0) {
			continue
		}
		if s := a.Lerp(b, u/(u-v)).Sub(at).Dot(dir); s <= 0 {
			lo = math.Max(lo, s)
		} else {
			hi = math.Min(hi, s)
		}
	}
	if math.IsInf(hi-lo, 0) {
		t.Fatalf("nothing is crossed through %v", at)
	}
	return hi - lo
}

// acrossIn is how wide a panel is at a mark, straight across, in inches.
func acrossIn(t fataler, m made, panel, mark string) float64 {
	t.Helper()
	return across(t, m.Panel(panel).Ring(), m.Record.Point(mark), geom.Vec{X: 1}) / 25.4
}

func about(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	garmenttest.About(t, what, got, want, tol)
}
