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
	on := func(id rules.ID, harm int, does say.Msg, cost string) {
		if !set.On(id) {
			out = append(out, garment.Gift{Mend: piece.Mend{Path: "rules." + string(id), To: "on"}, Does: does, Harm: harm, Cost: cost})
		}
	}
	// steps are those of a rule; does says what is done, from what the rule
	// becomes and what it is.
	steps := func(id rules.ID, by, limit unit.Length, harm, more int, does func(to, is unit.Quantity) say.Msg, g garment.Gift) {
		for i, to := range garment.Steps(set, id, by, limit, metric) {
			with, err := set.With(id, to, rules.Job)
			if err != nil {
				return // it was refused before
			}
			g.Path, g.To, g.Harm = "rules."+string(id), to, harm+i*more
			g.Does = does(with.Quantity(id), set.Quantity(id))
			out = append(out, g)
		}
	}
	const half = unit.Inch / 2

	on("hidden_lining", 2, say.Of("Cut what does not show from the lining"), say.Word("The pieces inside are not of the cloth."))
	if style["closure"] != "elastic" {
		on("band_lining", 3, say.Of("Line the band: cut its inner layer from the lining"), say.Word("A seam runs along the upper edge of the band."))
	}
	on("band_join", 3, say.Of("Join the band at the centre back"), say.Word("A seam shows on the band at the centre back."))
	steps("waistband_width", -half, 11*unit.Inch/8, 4, 4,
		func(to, is unit.Quantity) say.Msg { return say.Of("Make the band %s wide, not %s", to, is) },
		garment.Gift{Cost: say.Word("The band comes out narrower."), Tells: []string{"stepping in"}})
	on("band_across", 5, say.Of("Cut the band across the grain"), say.Word("The band gives a little along its length, and the weave runs the other way: interface it well."))
	steps("hem_allowance", -half, 3*unit.Inch/4, 6, 6,
		func(to, is unit.Quantity) say.Msg { return say.Of("Turn up %s at the hem, not %s", to, is) },
		garment.Gift{Cost: say.Word("Less to let down later.")})
	steps("centre_back_inlay", -half, 0, 7, 3, inlay, garment.Gift{Cost: say.Word("Less to let out later.")})
	steps("seat_tilt", -half, 11*unit.Inch/8, 8, 8,
		func(to, is unit.Quantity) say.Msg { return say.Of("Lean the seat line %s, not %s", to, is) },
		garment.Gift{Cost: say.Word("The seat line leans less: less room to sit and to stoop."), Tells: []string{"hip", "fork seam, back"}})
	steps("back_piecing", unit.Inch, 3*unit.Inch, 9, 1,
		func(to, _ unit.Quantity) say.Msg {
			return say.Of("Let a piece in at the back fork, %s from the tip", to)
		},
		garment.Gift{Cost: say.Word("A join beside the fork, which is hard worn: sew it twice."), Tells: []string{"fork seam"}})

	shorter := garment.Gift{Cost: say.Word("The leg hangs shorter."), Leave: true}
	steps("floor_clearance", half, set.Length("floor_clearance")+unit.Inch, 20, 20,
		func(to, is unit.Quantity) say.Msg {
			return say.Of("Shorten the leg: it ends %s off the floor, not %s", to, is)
		},
		shorter)
	if style["leg"] == "straight" {
		out = append(out, garment.Gift{
			Mend: piece.Mend{Path: "style.leg", To: "tapered"}, Does: say.Of("Taper the leg"), Harm: 30, Leave: true,
			Cost: say.Word("The leg comes closer at the hem."), Tells: []string{"hem"},
		})
	}
	return out
}

// inlay says how much is left to let out.
func inlay(to, is unit.Quantity) say.Msg {
	if to.Length() == 0 {
		return say.Of("Leave no inlay at the centre back; it is %s", is)
	}
	return say.Of("Leave an inlay of %s at the centre back, not %s", to, is)
}
