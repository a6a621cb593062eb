package bodice

import (
	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/rules"
)

// The truings, in the order in which they are laid.
const (
	trueEase     = "ease"
	trueBust     = "bust"
	trueDart     = "dart"
	trueShoulder = "shoulder"
	trueWaist    = "waist"
	trueSide     = "side"
)

// Garment returns the bodice as the core knows it.
func Garment() garment.Garment {
	return garment.Garment{
		ID:   "bodice",
		Name: "Bodice",
		Options: []garment.Option{
			{ID: "bust_dart", Name: "bust dart", Explain: "Where the dart that shapes the bust begins.", Choices: []garment.Choice{
				{ID: "from_side", Name: "from the side"}, {ID: "from_shoulder", Name: "from the shoulder"},
			}},
			{ID: "closure", Name: "closure", Explain: "Where the bodice opens, with a zip.", Choices: []garment.Choice{
				{ID: "zip_back", Name: "zip at the centre back"}, {ID: "zip_side", Name: "zip at the left side"},
			}},
			{ID: "neck", Name: "neck", Explain: "How deep the front neck is cut.", Choices: []garment.Choice{
				{ID: "high", Name: "close to the neck"}, {ID: "round", Name: "round"}, {ID: "low", Name: "low"},
			}},
			{ID: "waist_darts", Name: "waist darts", Explain: "One in each half of front and back.", Choices: []garment.Choice{
				{ID: "sewn", Name: "sewn"}, {ID: "none", Name: "none"},
			}},
			{ID: "finish", Name: "finish of neck and armholes", Explain: "Faced with the cloth, or lined throughout.", Choices: []garment.Choice{
				{ID: "faced", Name: "faced"}, {ID: "lined", Name: "lined"},
			}},
			garment.AbdomenOption(),
		},
		Methods: []garment.Choice{{ID: "quarter", Name: "quarter method"}},
		Truings: []garment.Choice{
			{ID: trueEase, Name: "ease given"},
			{ID: trueBust, Name: "bust kept at its level"},
			{ID: trueDart, Name: "side and dart share what bust and waist differ by"},
			{ID: trueShoulder, Name: "neck and armhole square at the shoulder"},
			{ID: trueWaist, Name: "waist squared"},
			{ID: trueSide, Name: "sides made equal"},
		},
		Builds: []garment.Build{garment.BuildOf(garment.Abdomen, "full", rules.Move{ID: "bodice_waist_wider", By: 0.5})}, // from memory
		Rules:  Defs(),
		Needs: []body.ID{
			body.ChestGirth, body.WaistGirth, body.BackWaistLength, body.FrontWaist, body.ShoulderLength,
			body.BackWidth, body.ScyeDepth, body.NeckToBust, body.BustPoints, body.NeckBaseGirth,
		},
		Draft:       Draft,
		Work:        Work,
		Gifts:       Gifts,
		Alterations: Alterations, Signs: Signs,
	}
}
