package skirt_test

import (
	"testing"

	"chalkfold/draft/garment/garmenttest"
)

// TestAlters: every alteration changes what it must by its amount and leaves alone
// what it must (common practice: what their names say of the cloth).
func TestAlters(t *testing.T) {
	edges, girthBy, downBy := garmenttest.EdgesBy, garmenttest.GirthBy, garmenttest.DownBy
	garmenttest.Alters(t, order{Body: measured(t, hip38)}.of(), map[string][]garmenttest.Told{
		"front_longer":   {edges("front", 1, "centre"), edges("back", 0, "centre"), girthBy("waist", 0), girthBy("hip", 0)},
		"back_longer":    {edges("back", 1, "centre"), edges("front", 0, "centre"), edges("front", 0, "side"), edges("back", 0, "side"), girthBy("waist", 0), girthBy("hip", 0)},
		"waist_out":      {girthBy("waist", 1), girthBy("hip", 0), edges("back", 0, "centre"), edges("front", 0, "centre")},
		"back_waist_out": {girthBy("waist", 1), girthBy("hip", 0), edges("front", 0, "waist"), edges("front", 0, "side"), edges("back", 0, "side")},
		"hip_out":        {girthBy("hip", 1), girthBy("waist", 0)},
		"side_longer":    {downBy("front.waist_side", -1), edges("front", 0, "centre"), edges("back", 0, "centre"), girthBy("waist", 0), girthBy("hip", 0)},
		"hem_lower":      {edges("front", 1, "centre"), edges("back", 1, "centre"), edges("front", 1, "side"), edges("back", 1, "side"), girthBy("hip", 0)},
	})
}
