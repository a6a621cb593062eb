package bodice_test

import (
	"flag"
	"testing"

	"chalkfold/draft/garment"
	"chalkfold/draft/garment/bodice"
	"chalkfold/draft/garment/garmenttest"
	"chalkfold/draft/piece"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
)

// lowLeft is a left shoulder half an inch lower.
func lowLeft() []garment.Altered {
	a, _ := bodice.Garment().Alter("shoulder_lower")
	return []garment.Altered{{Alteration: a, By: unit.Inch / 2, Side: piece.LeftHand}}
}

var update = flag.Bool("update", false, "rewrite the golden drafts") //nolint:gochecknoglobals // a flag

// Golden drafts, to be looked at when they change: what a cutter would not cut
// by must not get in. -update rewrites them.
func TestGoldenDrafts(t *testing.T) {
	garmenttest.Golden(t, map[string]garmenttest.Order{
		"bodice_bust36_spoken":   {Garment: bodice.Garment(), Body: measured(t, bust36), Spoken: true},
		"bodice_bust36_side":     {Garment: bodice.Garment(), Body: measured(t, bust36)},
		"bodice_bust36_shoulder": {Garment: bodice.Garment(), Body: measured(t, bust36), Style: garment.Style{"bust_dart": "from_shoulder", "closure": "zip_side", "neck": "low", "finish": "lined"}},
		"bodice_low_shoulder":    {Garment: bodice.Garment(), Body: measured(t, bust36), Style: garment.Style{"closure": "zip_side", "neck": "low"}, Altered: lowLeft()},
		"bodice_full_bust":       {Garment: bodice.Garment(), Body: measured(t, fullBust), Rules: rules.Values{"seam_allowance": "5/8 in"}},
	}, *update)
}
