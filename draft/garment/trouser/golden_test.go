package trouser_test

import (
	"flag"
	"testing"

	"chalkfold/draft/garment"
	"chalkfold/draft/garment/garmenttest"
	"chalkfold/draft/garment/trouser"
	"chalkfold/draft/rules"
)

var update = flag.Bool("update", false, "rewrite the golden drafts") //nolint:gochecknoglobals // a flag

// Golden drafts, to be looked at when they change: what a cutter would not cut
// by must not get in. -update rewrites them.
func TestGoldenDrafts(t *testing.T) {
	garmenttest.Golden(t, map[string]garmenttest.Order{
		"trousers_hip42_spoken":   {Garment: trouser.Garment(), Body: measured(t, hip42), Spoken: true},
		"trousers_hip42_trued":    {Garment: trouser.Garment(), Body: measured(t, hip42)},
		"trousers_large_man":      {Garment: trouser.Garment(), Body: measured(t, largeMan), Style: garment.Style{"crease": "pressed"}, Rules: rules.Values{"centre_back_inlay": "1 1/2 in"}},
		"trousers_small_woman":    {Garment: trouser.Garment(), Body: measured(t, smallWoman), Style: garment.Style{"closure": "fly_right", "leg": "free"}},
		"trousers_balanced":       {Garment: trouser.Garment(), Body: measured(t, balancedBody), Method: trouser.Balanced},
		"trousers_elastic_shorts": {Garment: trouser.Garment(), Body: measured(t, smallWoman), Style: garment.Style{"closure": "elastic", "front_dart": "none", "back_dart": "none", "pocket": "seam", "length": "shorts", "back_pocket": "one"}},
		"trousers_full_figure":    {Garment: trouser.Garment(), Body: measured(t, largeMan), Method: trouser.Balanced, Style: garment.Style{garment.Seat: "full", garment.Abdomen: "full", "closure": "back_zip", "pocket": "seam", "back_dart": "two"}},
		"trousers_high_hip":       {Garment: trouser.Garment(), Body: measured(t, highLeft), Style: garment.Style{"pocket": "none"}},
		"trousers_pleats_turn_up": {Garment: trouser.Garment(), Body: measured(t, hip42), Style: garment.Style{"front_dart": "pleats", "hem": "turn_up", "leg": "tapered", "back_pocket": "two", "back_dart": "two", "pocket": "seam", "crease": "pressed"}},
		"trousers_side_zip_wide":  {Garment: trouser.Garment(), Body: measured(t, hip42), Style: garment.Style{"closure": "side_zip", "pocket": "none", "band": "shaped", "leg": "wide", "lining": "knee"}},
		"trousers_tuck_tapered":   {Garment: trouser.Garment(), Body: measured(t, hip42), Style: garment.Style{"crease": "tuck", "leg": "tapered", "front_dart": "pressed"}},
	}, *update)
}
