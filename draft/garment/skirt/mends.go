package skirt

import (
	"chalkfold/draft/body"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

func mm(v float64) unit.Length { return unit.Length(v) }

// mends are the changes that may cure each check, the likeliest first.
func (s *shape) mends() map[string][]piece.Mend {
	out := map[string][]piece.Mend{}
	add := func(check string, mends ...piece.Mend) { out[check] = append(out[check], mends...) }
	rule := func(id string, per float64) piece.Mend { return piece.Mend{Path: "rules." + id, Per: per} }
	style := func(option, choice string) piece.Mend {
		return piece.Mend{Path: "style." + option, To: choice}
	}
	again := func(ids ...body.ID) (out []piece.Mend) {
		for _, id := range ids {
			out = append(out, piece.Mend{Path: "measurements." + string(id)})
		}
		return out
	}

	for check, truing := range map[string]string{
		"side seam": trueSide, "waist girth": trueWaist, "hip girth": trueEase,
		"waist at the side": trueWaist, "waist at the centre front": trueWaist, "waist at the centre back": trueWaist,
		"front dart, waist across it": trueWaist, "back dart, waist across it": trueWaist,
		"front dart 1, waist across it": trueWaist, "back dart 1, waist across it": trueWaist,
		"front dart 2, waist across it": trueWaist, "back dart 2, waist across it": trueWaist,
		"hem at the side": trueHem, "side lean": trueDart,
	} {
		switch {
		case s.in.Spoken:
			add(check, piece.Mend{Path: "drafting", To: "trued"})
		case !s.in.Trues(truing):
			add(check, piece.Mend{Path: "untrued." + truing, To: "on"})
		}
	}
	if !s.in.Trues(trueEase) {
		add("waist girth", piece.Mend{Path: "untrued." + trueEase, To: "on"})
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
