package bodice_test

import (
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/garment/bodice"
	"chalkfold/draft/garment/garmenttest"
)

type (
	fataler = garmenttest.Fataler
	made    = garmenttest.Made
)

// Bodies in inches (common practice): a middling one, and one with a full bust
// whose front is longer by more.
const (
	bust36   = "chest_girth 36, waist_girth 28, back_waist_length 16, shoulder_length 5, neck_girth 14"
	fullBust = "chest_girth 44, waist_girth 36, back_waist_length 16 1/2, neck_shoulder_to_waist 19 1/2, shoulder_length 5, neck_girth 15, neck_shoulder_to_breast_point 12"
)

// measured reads a body in inches: see garmenttest.Measured.
func measured(t fataler, list string) body.Values {
	t.Helper()
	return garmenttest.Measured(t, bodice.Garment(), list)
}

// order is what is to be drafted.
type order garmenttest.Order

func (o order) of() garmenttest.Order {
	o.Garment = bodice.Garment()
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
