package prove

import (
	"chalkfold/draft/job"
	"chalkfold/draft/rules"
)

// more are the styles beyond the plainest.
func more() []Style {
	return []Style{
		{Name: "side zip, back pockets, ankle", Style: map[string]string{"closure": "side_zip", "pocket": "none", "back_pocket": "two", "length": "ankle"}},
		{Name: "side zip, shaped band, flared", Style: map[string]string{"closure": "side_zip", "pocket": "none", "front_dart": "none", "band": "shaped", "leg": "flared"}},
		{Name: "side zip, pleat, lined", Style: map[string]string{"closure": "side_zip", "pocket": "none", "front_dart": "pleat", "lining": "knee", "crease": "pressed"}},
		{Name: "back zip, in-seam pockets, two darts", Style: map[string]string{"closure": "back_zip", "pocket": "seam", "back_dart": "two"}},
		{Name: "back zip, shaped band, calf, tapered", Style: map[string]string{"closure": "back_zip", "pocket": "seam", "band": "shaped", "length": "calf", "leg": "tapered"}},
		{Name: "back zip, wide, lined", Style: map[string]string{"closure": "back_zip", "pocket": "none", "leg": "wide", "lining": "knee"}},
		{Name: "elastic, in-seam pockets", Style: map[string]string{"closure": "elastic", "front_dart": "none", "back_dart": "none", "pocket": "seam"}},
		{Name: "elastic, wide, straight slant", Style: map[string]string{"closure": "elastic", "front_dart": "none", "back_dart": "none", "pocket": "straight_slant", "leg": "wide"}},
		{Name: "elastic shorts, back pocket", Style: map[string]string{"closure": "elastic", "front_dart": "none", "back_dart": "none", "pocket": "none", "length": "shorts", "back_pocket": "one"}},
		{Name: "one pleat, turn-up, back pocket", Style: map[string]string{"front_dart": "pleat", "hem": "turn_up", "back_pocket": "one", "crease": "pressed", "pocket": "seam"}},
		{Name: "two pleats, turn-up, tapered, two darts", Style: map[string]string{"front_dart": "pleats", "hem": "turn_up", "leg": "tapered", "back_dart": "two", "back_pocket": "two", "pocket": "seam", "crease": "pressed"}},
		{Name: "two pleats, wide, lined", Style: map[string]string{"front_dart": "pleats", "leg": "wide", "lining": "knee", "pocket": "seam"}},
		{Name: "straight slant, shaped band, flared", Style: map[string]string{"pocket": "straight_slant", "band": "shaped", "leg": "flared", "closure": "fly_right"}},
		{Name: "straight slant, turn-up, stitched crease", Style: map[string]string{"pocket": "straight_slant", "hem": "turn_up", "crease": "tuck", "back_pocket": "one"}},
		{Name: "shorts, turn-up, back pocket", Style: map[string]string{"length": "shorts", "hem": "turn_up", "back_pocket": "one", "pocket": "straight_slant"}},
		{Name: "shorts, pleat, shaped band", Style: map[string]string{"length": "shorts", "front_dart": "pleat", "band": "shaped", "pocket": "seam"}},
		{Name: "knee length, wide", Style: map[string]string{"length": "knee", "leg": "wide", "closure": "fly_right", "back_dart": "two"}},
		{Name: "flat seat, sway back", Style: map[string]string{"seat": "flat", "lower_back": "sway"}},
		{Name: "full seat, full abdomen, back zip", Style: map[string]string{"seat": "full", "abdomen": "full", "closure": "back_zip", "pocket": "seam"}},
		{Name: "calf length, free, turn-up", Style: map[string]string{"length": "calf", "leg": "free", "hem": "turn_up", "front_dart": "pressed", "crease": "pressed"}},
		{
			Name:  "ankle, tapered, lined, narrow band",
			Style: map[string]string{"length": "ankle", "leg": "tapered", "lining": "knee", "back_dart": "two", "pocket": "seam"},
			Rules: job.Rules{House: rules.Values{"waistband_width": "1 1/4 in", "hip_ease": "2 in"}},
		},
	}
}
