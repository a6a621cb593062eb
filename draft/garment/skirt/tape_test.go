package skirt_test

import (
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/garment/garmenttest"
	"chalkfold/draft/garment/skirt"
)

type (
	fataler = garmenttest.Fataler
	made    = garmenttest.Made
)

// Bodies in inches (common practice): a middling one, one with a small waist,
// and one whose waist is nearly as large as her hip.
const (
	hip38         = "waist_girth 28, hip_girth 38, waist_to_hips 8, waist_to_knee 23"
	curvy         = "waist_girth 26, hip_girth 42, waist_to_hips 8 1/2, waist_to_knee 24"
	straightWaist = "waist_girth 40, hip_girth 41, waist_to_hips 8, waist_to_knee 22 1/2"
)

// measured reads a body in inches: see garmenttest.Measured.
func measured(t fataler, list string) body.Values {
	t.Helper()
	return garmenttest.Measured(t, skirt.Garment(), list)
}

// order is what is to be drafted.
type order garmenttest.Order

func (o order) of() garmenttest.Order {
	o.Garment = skirt.Garment()
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

func about(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	garmenttest.About(t, what, got, want, tol)
}
