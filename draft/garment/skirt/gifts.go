package skirt

import (
	"chalkfold/draft/garment"
	"chalkfold/draft/piece"
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Gifts are what a skirt can give when cloth is short, least harm first (common
// practice). A limit lies a little beyond its figure in inches, so that half a
// centimetre counts as one.
func Gifts(style garment.Style, set rules.Set, metric bool) []garment.Gift {
	var out []garment.Gift
	steps := func(id rules.ID, by, limit unit.Length, harm, more int, g garment.Gift) {
		for i, to := range garment.Steps(set, id, by, limit, metric) {
			g.Path, g.To, g.Harm = "rules."+string(id), to, harm+i*more
			out = append(out, g)
		}
	}
	answer := func(option, choice string, harm int, cost string, tells ...string) {
		out = append(out, garment.Gift{Mend: garment.Choose(option, choice), Harm: harm, Leave: true, Cost: cost, Tells: tells})
	}
	const half = unit.Inch / 2

	steps("skirt_band_width", -unit.Inch/4, 7*unit.Inch/8, 4, 4, garment.Gift{Cost: say.Word("The band comes out narrower.")})
	if !set.On("band_across") {
		out = append(out, garment.Gift{
			Mend: piece.Mend{Path: "rules.band_across", To: "on"}, Does: say.Of("Cut the band across the grain"), Harm: 5,
			Cost: say.Word("The band gives a little along its length, and the weave runs the other way: interface it well."),
		})
	}
	if style["shape"] == "a_line" {
		steps("flared_hem_allowance", -half/2, 3*unit.Inch/8, 6, 6, garment.Gift{Cost: say.Word("Less to let down later.")})
		steps("flare", -half, unit.Inch, 12, 8, garment.Gift{Cost: say.Word("It flares less."), Tells: []string{"room to walk"}})
		answer("shape", "straight", 40, say.Word("It hangs straight, and does not flare."), "room to walk")
	} else {
		steps("skirt_hem_allowance", -half, 3*unit.Inch/4, 6, 6, garment.Gift{Cost: say.Word("Less to let down later.")})
	}
	if style["opening"] == "vent" {
		steps("vent_width", -half, 11*unit.Inch/8, 7, 5, garment.Gift{Cost: say.Word("The vent laps over less.")})
		answer("opening", "slit", 24, say.Word("A slit stands open where a vent would lap over."), "room to walk")
	}
	if style["closure"] == "zip_back" && style["opening"] != "vent" && style["opening"] != "slit" {
		answer("closure", "zip_side", 15, say.Word("It opens at the side, and the back has no seam."))
	}
	switch style["length"] {
	case "ankle":
		steps("ankle_below", -half, set.Length("ankle_below")-2*unit.Inch, 20, 10, garment.Gift{Cost: say.Word("The skirt hangs shorter."), Leave: true})
	case "calf":
		steps("calf_below", -half, set.Length("calf_below")-2*unit.Inch, 20, 10, garment.Gift{Cost: say.Word("The skirt hangs shorter."), Leave: true})
	case "above":
		steps("above_knee", half, set.Length("above_knee")+unit.Inch, 20, 10, garment.Gift{Cost: say.Word("The skirt hangs shorter."), Leave: true})
	}
	return out
}
