package trouser

import (
	"chalkfold/draft/garment"
	"chalkfold/draft/piece"
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Gifts are what trousers can give when cloth is short, least harm first
// (common practice). A limit lies a little beyond its figure in inches, so that
// half a centimetre counts as one.
func Gifts(style garment.Style, set rules.Set, metric bool) []garment.Gift {
	var out []garment.Gift
	on := func(id rules.ID, harm int, does, cost string) {
		if !set.On(id) {
			out = append(out, garment.Gift{Mend: piece.Mend{Path: "rules." + string(id), To: "on"}, Does: does, Harm: harm, Cost: cost})
		}
	}
	steps := func(id rules.ID, by, limit unit.Length, harm, more int, g garment.Gift) {
		for i, to := range garment.Steps(set, id, by, limit, metric) {
			g.Path, g.To, g.Harm = "rules."+string(id), to, harm+i*more
			out = append(out, g)
		}
	}
	const half = unit.Inch / 2

	on("hidden_lining", 2, say.Word("Cut what does not show from the lining"), say.Word("The pieces inside are not of the cloth."))
	on("band_join", 3, say.Word("Join the band at the centre back"), say.Word("A seam shows on the band at the centre back."))
	steps("waistband_width", -half, 11*unit.Inch/8, 4, 4, garment.Gift{Cost: say.Word("The band comes out narrower."), Tells: []string{"stepping in"}})
	on("band_across", 5, say.Word("Cut the band across the grain"), say.Word("The band gives a little along its length, and the weave runs the other way: interface it well."))
	steps("hem_allowance", -half, 3*unit.Inch/4, 6, 6, garment.Gift{Cost: say.Word("Less to let down later.")})
	steps("centre_back_inlay", -half, 0, 7, 3, garment.Gift{Cost: say.Word("Less to let out later.")})
	steps("seat_tilt", -half, 11*unit.Inch/8, 8, 8, garment.Gift{Cost: say.Word("The seat line leans less."), Tells: []string{"hip", "fork seam, back"}})
	steps("back_piecing", unit.Inch, 3*unit.Inch, 9, 1, garment.Gift{Cost: say.Word("A join beside the fork, which is hard worn: sew it twice."), Tells: []string{"fork seam"}})

	shorter := garment.Gift{Cost: say.Word("The leg hangs shorter."), Leave: true}
	steps("floor_clearance", half, set.Length("floor_clearance")+unit.Inch, 20, 20, shorter)
	if style["leg"] == "straight" {
		out = append(out, garment.Gift{
			Mend: piece.Mend{Path: "style.leg", To: "tapered"}, Harm: 30, Leave: true,
			Cost: say.Word("The leg comes closer at the hem."), Tells: []string{"hem"},
		})
	}
	return out
}
