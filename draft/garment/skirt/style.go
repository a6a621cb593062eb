package skirt

import (
	"chalkfold/draft/body"
	"chalkfold/draft/garment"
)

// The truings, in the order in which they are laid.
const (
	trueEase  = "ease"
	trueDart  = "dart"
	trueHem   = "hem"
	trueWaist = "waist"
	trueSide  = "side"
)

// Garment returns the skirt as the core knows it.
func Garment() garment.Garment {
	return garment.Garment{
		ID:   "skirt",
		Name: "Skirt",
		Options: []garment.Option{
			{ID: "shape", Name: "shape", Explain: "Straight down from the hip, wider to the hem, or narrower to the hem.", Choices: []garment.Choice{
				{ID: "straight", Name: "straight"}, {ID: "a_line", Name: "A-line"}, {ID: "pencil", Name: "pencil"},
			}},
			{ID: "length", Name: "length", Explain: "Where the hem hangs. The house rule “skirt length” sets it to the inch.", Choices: []garment.Choice{
				{ID: "knee", Name: "to the knee"}, {ID: "above", Name: "above the knee"}, {ID: "calf", Name: "to the calf"}, {ID: "ankle", Name: "to the ankle"},
			}},
			{ID: "closure", Name: "closure", Explain: "Where the skirt opens, with a zip.", Choices: []garment.Choice{
				{ID: "zip_back", Name: "zip at the centre back"}, {ID: "zip_side", Name: "zip at the left side"},
			}},
			{ID: "opening", Name: "hem opening", Explain: "What lets the wearer walk. A vent laps over, a slit stands open.", Choices: []garment.Choice{
				{ID: "vent", Name: "vent at the centre back"}, {ID: "slit", Name: "slit at the centre back"}, {ID: "side_slits", Name: "slit at each side"}, {ID: "none", Name: "none"},
			}},
			{ID: "front_dart", Name: "front darts", Explain: "In each half of the front.", Choices: []garment.Choice{
				{ID: "one", Name: "one"}, {ID: "two", Name: "two"}, {ID: "none", Name: "none"},
			}},
			{ID: "back_dart", Name: "back darts", Explain: "In each half of the back.", Choices: []garment.Choice{
				{ID: "two", Name: "two"}, {ID: "one", Name: "one"}, {ID: "none", Name: "none"},
			}},
			{ID: "lining", Name: "lining", Explain: "Cut as the skirt, a little shorter, its darts folded and not sewn.", Choices: []garment.Choice{
				{ID: "none", Name: "none"}, {ID: "full", Name: "lined"},
			}},
			garment.SeatOption(), garment.AbdomenOption(), garment.LowerBackOption(),
		},
		Methods: []garment.Choice{{ID: "quarter", Name: "quarter method"}},
		Truings: []garment.Choice{
			{ID: trueEase, Name: "ease given"},
			{ID: trueDart, Name: "side and darts share what hip and waist differ by"},
			{ID: trueHem, Name: "hem square to the side"},
			{ID: trueWaist, Name: "waist squared"},
			{ID: trueSide, Name: "sides made equal"},
		},
		Builds:      builds(),
		Rules:       Defs(),
		Needs:       []body.ID{body.WaistGirth, body.HipGirth, body.WaistToHips, body.WaistToKnee},
		Draft:       Draft,
		Work:        Work,
		Gifts:       Gifts,
		Alterations: Alterations, Signs: Signs,
	}
}
