package skirt

import (
	"chalkfold/draft/garment"
	"chalkfold/draft/rules"
)

// builds are what the rules become for other figures than the middle one
// (common practice; the amounts are from memory).
func builds() []garment.Build {
	return []garment.Build{
		// The waist dips behind, and the side takes in more than the darts.
		garment.BuildOf(garment.Seat, "flat",
			rules.Move{ID: "back_hollow", By: 0.25}, rules.Move{ID: "back_side_part", By: 0.15}, rules.Move{ID: "skirt_back_dart", By: -0.25}),
		garment.BuildOf(garment.Seat, "full",
			rules.Move{ID: "back_hollow", By: -0.25}, rules.Move{ID: "back_side_part", By: -0.15}, rules.Move{ID: "skirt_back_dart", By: 0.25}),
		// More of the waist and of the hip lies in front.
		garment.BuildOf(garment.Abdomen, "full",
			rules.Move{ID: "front_waist_wider", By: 0.5}, rules.Move{ID: "front_wider", By: 0.25}, rules.Move{ID: "skirt_front_dart_length", By: -0.5}),
		garment.BuildOf(garment.LowerBack, "sway",
			rules.Move{ID: "back_hollow", By: 0.375}, rules.Move{ID: "back_side_part", By: -0.1}, rules.Move{ID: "skirt_back_dart", By: 0.25}),
	}
}
