package skirt_test

import (
	"flag"
	"testing"

	"chalkfold/draft/garment"
	"chalkfold/draft/garment/garmenttest"
	"chalkfold/draft/garment/skirt"
	"chalkfold/draft/rules"
)

var update = flag.Bool("update", false, "rewrite the golden drafts") //nolint:gochecknoglobals // a flag

// Golden drafts, to be looked at when they change: what a cutter would not cut
// by must not get in. -update rewrites them.
func TestGoldenDrafts(t *testing.T) {
	garmenttest.Golden(t, map[string]garmenttest.Order{
		"skirt_hip38_spoken":   {Garment: skirt.Garment(), Body: measured(t, hip38), Spoken: true},
		"skirt_hip38_trued":    {Garment: skirt.Garment(), Body: measured(t, hip38)},
		"skirt_a_line_lined":   {Garment: skirt.Garment(), Body: measured(t, hip38), Style: garment.Style{"shape": "a_line", "closure": "zip_side", "opening": "none", "lining": "full"}},
		"skirt_high_hip":       {Garment: skirt.Garment(), Body: measured(t, hip38+", left_side_length 41, right_side_length 40"), Style: garment.Style{"opening": "side_slits", "lining": "full"}},
		"skirt_pencil_slits":   {Garment: skirt.Garment(), Body: measured(t, curvy), Style: garment.Style{"shape": "pencil", "closure": "zip_side", "opening": "side_slits", "front_dart": "two"}},
		"skirt_straight_waist": {Garment: skirt.Garment(), Body: measured(t, straightWaist), Style: garment.Style{"length": "calf", "opening": "slit"}, Rules: rules.Values{"skirt_band_width": "2 in"}},
	}, *update)
}
