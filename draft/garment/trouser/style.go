package trouser

import (
	"chalkfold/draft/body"
	"chalkfold/draft/garment"
)

// The truings of the quarter method, in the order in which they are laid.
const (
	trueLevel  = "level"
	trueEase   = "ease"
	trueDart   = "dart"
	trueReach  = "reach"
	trueThigh  = "thigh"
	trueTilt   = "tilt"
	trueHip    = "hip"
	trueLeg    = "leg"
	trueInseam = "inseam"
	trueWaist  = "waist"
	trueSide   = "side"
	trueFork   = "fork"
)

// Garment returns trousers as the core knows them.
func Garment() garment.Garment {
	return garment.Garment{
		ID:   "trousers",
		Name: "Trousers",
		Options: []garment.Option{
			{ID: "closure", Name: "closure", Explain: "Where the trousers open. The lap is the side that lies on top, as worn.", Choices: []garment.Choice{
				{ID: "fly_left", Name: "front fly, left over right"}, {ID: "fly_right", Name: "front fly, right over left"},
			}},
			{ID: "front_dart", Name: "front dart", Explain: "A pressed dart is folded at the waist and pressed down, not sewn.", Choices: []garment.Choice{
				{ID: "sewn", Name: "sewn"}, {ID: "pressed", Name: "pressed, not sewn"}, {ID: "none", Name: "none"},
			}},
			{ID: "back_dart", Name: "back dart", Explain: "One dart in each back.", Choices: []garment.Choice{
				{ID: "sewn", Name: "sewn"}, {ID: "none", Name: "none"},
			}},
			{ID: "pocket", Name: "side pocket", Explain: "A curved slant from the waist to the side seam.", Choices: []garment.Choice{
				{ID: "slant", Name: "curved slant"}, {ID: "none", Name: "none"},
			}},
			{ID: "leg", Name: "leg", Explain: "Straight from the knee, tapered to the hem, or hanging free from the thigh.", Choices: []garment.Choice{
				{ID: "straight", Name: "straight"}, {ID: "tapered", Name: "tapered"}, {ID: "free", Name: "free from the thigh"},
			}},
			{ID: "crease", Name: "crease", Explain: "A stitched crease is a fine tuck that keeps for ever; its cloth is added.", Choices: []garment.Choice{
				{ID: "none", Name: "none"}, {ID: "pressed", Name: "pressed"}, {ID: "tuck", Name: "stitched tuck"},
			}},
		},
		Methods: []garment.Choice{{ID: Quarter, Name: "quarter method"}, {ID: Balanced, Name: "balanced method"}},
		Truings: []garment.Choice{
			{ID: trueLevel, Name: "hip line kept between waist and fork"},
			{ID: trueEase, Name: "ease given"},
			{ID: trueDart, Name: "dart no wider than hip and waist differ"},
			{ID: trueReach, Name: "fork extension grown to the thigh"},
			{ID: trueThigh, Name: "thigh shared between front and back"},
			{ID: trueTilt, Name: "seat tilt fitted to the hip depth"},
			{ID: trueHip, Name: "hip kept square to the seat line"},
			{ID: trueLeg, Name: "back leg set under the back fork"},
			{ID: trueWaist, Name: "waist squared, darts closed"},
			{ID: trueSide, Name: "sides made equal"},
			{ID: trueInseam, Name: "inseams made equal"},
			{ID: trueFork, Name: "fork made smooth across the inseam"},
		},
		Rules: Defs(),
		Needs: []body.ID{
			body.WaistGirth, body.HipGirth, body.ThighGirth, body.KneeGirth, body.CalfGirth, body.HeelGirth,
			body.OutsideLegLength,
		},
		MethodNeeds: map[string][]body.ID{Balanced: {body.TotalCrotchLength}},
		Draft:       Draft,
		Gifts:       Gifts,
	}
}
