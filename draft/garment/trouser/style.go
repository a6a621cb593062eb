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
		ID:      "trousers",
		Name:    "Trousers",
		Options: options(),
		Clashes: clashes,
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
		Builds: builds(),
		Rules:  Defs(),
		Needs: []body.ID{
			body.WaistGirth, body.HipGirth, body.ThighGirth, body.KneeGirth, body.CalfGirth, body.HeelGirth,
			body.OutsideLegLength,
		},
		MethodNeeds: map[string][]body.ID{Balanced: {body.TotalCrotchLength}},
		Draft:       Draft,
		Alterations: Alterations,
		Signs:       Signs,
		Work:        Work,
		Gifts:       Gifts,
	}
}
