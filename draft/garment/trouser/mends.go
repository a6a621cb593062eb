package trouser

import (
	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// mends are the changes that may cure each check, the likeliest first. How far
// a rule must go for what is lacking is what the construction makes of it: a
// fly counts twice in the opening, a rise in front and behind.
func (s *shape) mends() map[string][]piece.Mend {
	out := garment.Mends{}
	add, rule, style, again := out.Add, garment.SetRule, garment.Choose, garment.TakeAgain
	out.AddTruings(s.in, map[string]string{
		"inseam": trueInseam, "side seam": trueSide, "waist girth": trueEase, "hip girth": trueHip, "thigh girth": trueThigh,
		"fork at the inseam": trueFork, "waist at the side": trueWaist, "waist at the centre front": trueWaist, "waist at the centre back": trueWaist,
		"front dart, waist across it": trueWaist, "back dart, waist across it": trueWaist,
		"turn of the front inseam": trueReach, "turn of the back inseam": trueLeg,
	})

	add("knee girth", rule("thigh_ease", 1), rule("knee_ease", -1))
	add("calf girth", rule("knee_ease", 1/(1-calfShare)), rule("taper", -1/calfShare))

	// A waist made loose enough to step into would not stay up: it is opened
	// elsewhere instead.
	add("stepping in", rule("fly_length", 0.5), rule("zip_length", 0.5), rule("waistband_width", 0.5),
		style("closure", "side_zip"), style("closure", "back_zip"), style("closure", "elastic"))
	if heel, _, _ := s.measure(body.HeelGirth); heel > 0 {
		add("foot through the hem", piece.Mend{Path: "rules.hem_girth", To: unit.Format{System: unit.Inches}.Text(heel + unit.Inch/8)})
	}
	add("fly", rule("fly_length", -1), rule("waistband_width", -1))
	add("band lap", rule("band_lap", 1), rule("fly_width", -2))

	rise := rule("rise", 0.5)
	if v, ok := s.in.Body[body.BodyRise]; ok && !v.Estimated && v.Of != body.OfGarment {
		rise = rule("rise_ease", 0.5)
	}
	for _, check := range []string{"fork seam", "fork seam, far too short"} {
		add(check, piece.Mend{Path: "method", To: Balanced}, rise, rule("centre_back_raise", 1), rule("back_fork_part", -0.2))
		add(check, again(body.BodyRise, body.TotalCrotchLength)...)
	}
	add("fork seam, front", rule(rise.Path[len("rules."):], 1), rule("front_fork_part", -0.2))
	add("fork seam, back", rule("centre_back_raise", 1), rule("back_fork_part", -0.2))
	add("fork seam, front", again(body.FrontCrotchLength)...)
	add("fork seam, back", again(body.BackCrotchLength)...)
	add("hip line", again(body.WaistToHips, body.BodyRise)...)
	add("inside leg", again(body.InsideLegLength, body.OutsideLegLength, body.BodyRise)...)

	add("pocket along the waist", rule("front_dart_from", -1), rule("pocket_along_waist", -1), style("front_dart", "none"))
	add("pocket mouth", rule("pocket_down_side", 1))
	add("pocket depth", rule("pocket_depth", 1))
	add("pocket clears crease and fly", rule("pocket_width", -1))

	add("front dart", rule("front_dart_width", -1), style("front_dart", "none"))
	add("back dart", rule("back_dart_width", -1), style("back_dart", "none"))
	// A side that runs in wants darts or wider ones, one that runs out narrower
	// ones and a straighter seat line.
	for _, part := range []string{"front", "back"} {
		if s.has(part+"_dart", "none") {
			add("side lean", style(part+"_dart", "sewn"))
		} else {
			add("side lean", rule(part+"_dart_width", -1), rule(part+"_dart_width", 1))
		}
	}
	add("side lean", style("back_dart", "two"), rule("seat_tilt", 1))
	for _, turn := range []string{"turn of the front inseam", "turn of the back inseam", "turn of the front side", "turn of the back side"} {
		add(turn, rule("thigh_ease", -2), rule("thigh_drop", 2))
	}
	return out
}
