package skirt

import (
	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

func mm(v float64) unit.Length { return unit.Length(v) }

// mends are the changes that may cure each check, the likeliest first.
func (s *shape) mends() map[string][]piece.Mend {
	out := garment.Mends{}
	add, rule, style, again := out.Add, garment.SetRule, garment.Choose, garment.TakeAgain
	out.AddTruings(s.in, map[string]string{
		"side seam": trueSide, "waist girth": trueWaist, "hip girth": trueEase,
		"waist at the side": trueWaist, "waist at the centre front": trueWaist, "waist at the centre back": trueWaist,
		"front dart, waist across it": trueWaist, "back dart, waist across it": trueWaist,
		"front dart 1, waist across it": trueWaist, "back dart 1, waist across it": trueWaist,
		"front dart 2, waist across it": trueWaist, "back dart 2, waist across it": trueWaist,
		"hem at the side": trueHem, "side lean": trueDart,
	})
	if !s.in.Trues(trueEase) {
		add("waist girth", garment.SwitchOn(trueEase))
	}

	add("stepping in", rule("zip_length", 0.5), rule("skirt_waist_ease", 1))
	add("stepping in", again(body.WaistGirth, body.HipGirth)...)
	if s.has("opening", "none") {
		add("room to walk", style("opening", "vent"), style("opening", "slit"), style("shape", "a_line"))
	}
	add("room to walk", rule("vent_height", 0.5), rule("slit_height", 0.5), rule("flare", 0.25), style("shape", "a_line"))
	for _, part := range parts() {
		add(dartWidth(part), style(part+"_dart", "two"), rule(part+"_side_part", 0.05))
		add("side lean", style(part+"_dart", "two"), style(part+"_dart", "one"), rule(part+"_side_part", 0.02), rule("most_side", 1))
		add("turn of the "+part+" side", style(part+"_dart", "two"), rule(part+"_side_part", 0.02))
	}
	add("side lean", again(body.WaistGirth, body.HipGirth, body.WaistToHips)...)
	return out
}
