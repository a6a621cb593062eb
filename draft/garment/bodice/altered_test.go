package bodice_test

import (
	"testing"

	"chalkfold/draft/garment/garmenttest"
)

// TestAlters: every alteration changes what it must by its amount and leaves alone
// what it must (common practice: what their names say of the cloth).
func TestAlters(t *testing.T) {
	edges, girthBy, downBy, acrossBy := garmenttest.EdgesBy, garmenttest.GirthBy, garmenttest.DownBy, garmenttest.AcrossBy
	garmenttest.Alters(t, order{Body: measured(t, bust36)}.of(), map[string][]garmenttest.Told{
		"bust_out":          {girthBy("bust", 1), girthBy("waist", 0), edges("back", 0, "armhole")},
		"waist_out":         {girthBy("waist", 1), girthBy("bust", 0), edges("front", 0, "armhole")},
		"front_longer":      {edges("front", 1, "centre"), edges("back", 0, "side"), edges("back", 0, "centre"), girthBy("waist", 0)},
		"back_longer":       {edges("back", 1, "centre"), edges("back", 0, "side"), edges("front", 0, "side"), edges("front", 0, "centre"), girthBy("waist", 0)},
		"back_above_longer": {edges("back", 1, "centre"), edges("front", 0, "centre"), edges("front", 0, "armhole"), edges("back", 0, "side"), girthBy("waist", 0)},
		"shoulder_lower":    {downBy("front.shoulder_end", 1), downBy("back.shoulder_end", 1), edges("front", 0, "shoulder"), edges("back", 0, "shoulder"), edges("front", 0, "centre"), edges("back", 0, "centre"), girthBy("bust", 0)},
		"armhole_lower":     {edges("back", -1, "side"), edges("back", 0, "centre"), edges("front", 0, "shoulder"), girthBy("waist", 0)},
		"back_wider":        {acrossBy("back.across", 0.5), edges("back", 0, "centre"), edges("back", 0, "side"), girthBy("bust", 0), girthBy("waist", 0)},
	})
}
