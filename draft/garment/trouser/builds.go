package trouser

import (
	"chalkfold/draft/garment"
	"chalkfold/draft/rules"
)

// builds are what the rules become for other figures than the middle one. Where
// cloth is folded out or let in follows what fitters do (common practice); the
// amounts are from memory, the lesser of what is usual.
func builds() []garment.Build {
	return []garment.Build{
		// Less cloth over the seat: shorter, straighter, less under it.
		garment.BuildOf(garment.Seat, "flat",
			rules.Move{ID: "seat_tilt", By: -0.5}, rules.Move{ID: "centre_back_raise", By: -0.375},
			rules.Move{ID: "back_fork_part", By: 3}, rules.Move{ID: "back_dart_width", By: -0.25}),
		garment.BuildOf(garment.Seat, "full",
			rules.Move{ID: "seat_tilt", By: 0.5}, rules.Move{ID: "centre_back_raise", By: 0.5},
			rules.Move{ID: "back_fork_part", By: -2}, rules.Move{ID: "back_dart_width", By: 0.25}),
		// The front rises over it and goes in less above it.
		garment.BuildOf(garment.Abdomen, "full",
			rules.Move{ID: "centre_front_raise", By: 0.5}, rules.Move{ID: "front_dart_width", By: -0.5}, rules.Move{ID: "front_dart_length", By: -0.5}),
		// The back is shorter above the seat, and goes in more.
		garment.BuildOf(garment.LowerBack, "sway",
			rules.Move{ID: "centre_back_raise", By: -0.5}, rules.Move{ID: "back_dart_width", By: 0.25}, rules.Move{ID: "back_dart_length", By: 0.5}),
	}
}
