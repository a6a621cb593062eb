package trouser

import (
	"chalkfold/draft/garment"
	"chalkfold/draft/say"
)

// options are the questions of style. The first choice of each is the default.
func options() []garment.Option {
	return []garment.Option{
		{ID: "closure", Name: "closure", Explain: "Where the trousers open. The lap is the side that lies on top, as worn.", Choices: []garment.Choice{
			{ID: "fly_left", Name: "front fly, left over right"},
			{ID: "fly_right", Name: "front fly, right over left"},
			{ID: "side_zip", Name: "zip in the left side"},
			{ID: "back_zip", Name: "zip at the centre back"},
			{ID: "elastic", Name: "elastic or drawstring"},
		}},
		{ID: "front_dart", Name: "front dart", Explain: "A pressed dart is folded at the waist and pressed down, not sewn. Pleats are folds of their own cloth, which opens over the hip.", Choices: []garment.Choice{
			{ID: "sewn", Name: "sewn"},
			{ID: "pressed", Name: "pressed, not sewn"},
			{ID: "none", Name: "none"},
			{ID: "pleat", Name: "one pleat"},
			{ID: "pleats", Name: "two pleats"},
		}},
		{ID: "back_dart", Name: "back dart", Explain: "One dart in each back, or two narrower ones.", Choices: []garment.Choice{
			{ID: "sewn", Name: "sewn"}, {ID: "none", Name: "none"}, {ID: "two", Name: "two"},
		}},
		{ID: "pocket", Name: "side pocket", Explain: "A slant from the waist to the side seam, curved or straight, or an opening in the side seam.", Choices: []garment.Choice{
			{ID: "slant", Name: "curved slant"}, {ID: "none", Name: "none"}, {ID: "straight_slant", Name: "straight slant"}, {ID: "seam", Name: "in the side seam"},
		}},
		{ID: "back_pocket", Name: "back pocket", Explain: "A welt under the back dart: on the right alone, or on both sides.", Choices: []garment.Choice{
			{ID: "none", Name: "none"}, {ID: "one", Name: "one, on the right"}, {ID: "two", Name: "two"},
		}},
		{ID: "leg", Name: "leg", Explain: "Straight from the knee, tapered or flared to the hem, hanging free from the thigh, or wide all the way.", Choices: []garment.Choice{
			{ID: "straight", Name: "straight"},
			{ID: "tapered", Name: "tapered"},
			{ID: "free", Name: "free from the thigh"},
			{ID: "flared", Name: "flared from the knee"},
			{ID: "wide", Name: "wide"},
		}},
		{ID: "length", Name: "length", Explain: "Where the hem comes to.", Choices: []garment.Choice{
			{ID: "full", Name: "full"}, {ID: "ankle", Name: "to the ankle"}, {ID: "calf", Name: "to the calf"}, {ID: "knee", Name: "to the knee"}, {ID: "shorts", Name: "shorts"},
		}},
		{ID: "hem", Name: "hem", Explain: "A turn-up is folded up outside; the cloth for it is added below the hem.", Choices: []garment.Choice{
			{ID: "plain", Name: "plain"}, {ID: "turn_up", Name: "turn-up"},
		}},
		{ID: "crease", Name: "crease", Explain: "A stitched crease is a fine tuck that keeps for ever; its cloth is added.", Choices: []garment.Choice{
			{ID: "none", Name: "none"}, {ID: "pressed", Name: "pressed"}, {ID: "tuck", Name: "stitched tuck"},
		}},
		{ID: "band", Name: "waistband", Explain: "A straight band is folded from one strip; a shaped one is cut in two layers and lies closer at its upper edge.", Choices: []garment.Choice{
			{ID: "straight", Name: "straight"}, {ID: "shaped", Name: "shaped"},
		}},
		{ID: "lining", Name: "lining", Explain: "A lining from the waist to below the knee.", Choices: []garment.Choice{
			{ID: "none", Name: "none"}, {ID: "knee", Name: "to the knee"},
		}},
		garment.SeatOption(), garment.AbdomenOption(), garment.LowerBackOption(),
	}
}

// clashes are answers that cannot go together.
func clashes(s garment.Style) []garment.Clash {
	var out []garment.Clash
	add := func(option, with, why string) { out = append(out, garment.Clash{Option: option, With: with, Why: why}) }
	elastic, zip := s["closure"] == "elastic", s["closure"] == "side_zip"
	if elastic && s["front_dart"] != "none" {
		add("front_dart", "closure", say.Word("the waist is as wide as the hip, so that nothing is taken in: choose none"))
	}
	if elastic && s["back_dart"] != "none" {
		add("back_dart", "closure", say.Word("the waist is as wide as the hip, so that nothing is taken in: choose none"))
	}
	if elastic && s["band"] == "shaped" {
		add("band", "closure", say.Word("the elastic runs in a straight casing: choose a straight band"))
	}
	if zip && s["pocket"] != "none" {
		add("pocket", "closure", say.Word("the zip takes the place of the pocket: choose none, or another closure"))
	}
	if s["lining"] != "none" && (s["length"] == "shorts" || s["length"] == "knee") {
		add("lining", "length", say.Word("it would hang out below the hem: choose none, or a longer leg"))
	}
	if s["crease"] == "tuck" && (s["front_dart"] == "pleat" || s["front_dart"] == "pleats") {
		add("crease", "front_dart", say.Word("both fold the front at the crease: choose a pressed crease, or a dart"))
	}
	return out
}
