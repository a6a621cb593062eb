package trouser

import (
	"chalkfold/draft/garment"
	"chalkfold/draft/say"
)

func backSigns() []garment.Sign {
	line := garment.Stroke
	return []garment.Sign{
		{
			ID: "under_seat", Name: say.Word("folds hang under the seat"), View: garment.FromBack,
			Strokes: [][]garment.Spot{line(0.06, 1.02, 0.45, 1.12, 0.9, 1.02), line(0.1, 1.09, 0.46, 1.19, 0.86, 1.09), line(0.16, 1.16, 0.47, 1.25, 0.8, 1.16)},
			Causes: []garment.Cause{
				{Why: say.Word("The seat is flat: the back is too long."), Alter: []string{"back_shorter"}, Source: ofPractice + "; amount from memory"},
				{Why: say.Word("The seat line slants too much."), Alter: []string{"seat_straighter"}, Source: of1949},
				{Why: say.Word("The rise is too long."), Alter: []string{"fork_higher"}, Source: ofManual},
			},
		},
		{
			ID: "baggy_seat", Name: say.Word("the whole seat is baggy"), View: garment.FromBack,
			Strokes: [][]garment.Spot{line(0.2, 0.45, 0.16, 0.7, 0.24, 0.95), line(0.45, 0.42, 0.42, 0.7, 0.48, 0.98), line(0.7, 0.45, 0.7, 0.7, 0.72, 0.95)},
			Causes: []garment.Cause{
				{Why: say.Word("The seat line slants too much."), Alter: []string{"seat_straighter"}, Source: ofHertzer},
				{Why: say.Word("The rise is too long."), Alter: []string{"fork_higher"}, Source: ofManual},
				{Why: say.Word("The hip is too wide."), Alter: []string{"hip_in"}, Source: ofPractice},
			},
		},
		{
			ID: "seat_ropes", Name: say.Word("the seat seam ropes up, with pleats to each side"), View: garment.FromBack,
			Strokes: [][]garment.Spot{line(0.02, 0.72, 0.25, 0.6, 0.5, 0.52), line(0.02, 0.8, 0.27, 0.74, 0.55, 0.7), line(0.02, 0.88, 0.28, 0.9, 0.55, 0.9)},
			Causes: []garment.Cause{
				{Why: say.Word("The seat seam is too short."), Alter: []string{"back_longer", "back_fork_out"}, Source: of1949 + "; remedy from memory"},
			},
		},
		{
			ID: "back_drops", Name: say.Word("the band is dragged down behind"), View: garment.FromBack,
			Strokes: [][]garment.Spot{line(0, 0.16, 0.45, 0.11, 1, 0.02), line(0.03, 0.5, 0.3, 0.35, 0.75, 0.15)},
			Causes: []garment.Cause{
				{Why: say.Word("The seat is full and round: the back is too short."), Alter: []string{"back_longer"}, Source: ofPractice},
				{Why: say.Word("The seat line slants too little."), Alter: []string{"seat_slanted"}, Source: fromMemory},
			},
		},
		{
			ID: "back_gapes", Name: say.Word("the band gapes at the centre back"), View: garment.FromBack,
			Strokes: [][]garment.Spot{line(0, 0.06, 0.12, 0.02, 0.3, -0.03), line(0, 0.06, 0.1, 0.16, 0.14, 0.3), line(0.2, 0.03, 0.2, 0.12, 0.22, 0.22)},
			Causes:  []garment.Cause{{Why: say.Word("The back is hollow above the seat."), Alter: []string{"back_waist_in"}, Source: ofPractice}},
		},
		{
			ID: "back_folds", Name: say.Word("folds lie across below the band behind"), View: garment.FromBack,
			Strokes: [][]garment.Spot{line(0, 0.13, 0.35, 0.15, 0.75, 0.12), line(0, 0.22, 0.35, 0.24, 0.7, 0.2), line(0, 0.31, 0.3, 0.33, 0.6, 0.3)},
			Causes:  []garment.Cause{{Why: say.Word("The back is too long at the centre."), Alter: []string{"back_shorter"}, Source: ofPractice}},
		},
		{
			ID: "seat_pulls", Name: say.Word("folds pull across the seat"), View: garment.FromBack,
			Strokes: [][]garment.Spot{line(0.1, 0.55, 0.55, 0.52, 1, 0.55), line(0.1, 0.66, 0.55, 0.63, 1, 0.66), line(0.1, 0.77, 0.55, 0.74, 1, 0.77)},
			Causes: []garment.Cause{
				{Why: say.Word("The hip is too tight."), Alter: []string{"hip_out"}, Source: ofPractice},
				{Why: say.Word("The back fork is too short."), Alter: []string{"back_fork_out"}, Source: fromMemory},
			},
		},
		{
			ID: "fork_up", Name: say.Word("folds point up at the fork"), View: garment.FromBack,
			Strokes: [][]garment.Spot{line(0.04, 1, 0.2, 0.88, 0.34, 0.7), line(0.04, 1, 0.3, 0.93, 0.55, 0.82), line(0.1, 1.04, 0.3, 1.1, 0.5, 1.2)},
			Causes: []garment.Cause{
				{Why: say.Word("The back fork is too short."), Alter: []string{"back_fork_out"}, Source: fromMemory},
				{Why: say.Word("The rise is too short."), Alter: []string{"fork_lower"}, Source: ofManual},
			},
		},
		{
			ID: "under_heel", Name: say.Word("the back works down under the heel"), View: garment.FromBack,
			Strokes: [][]garment.Spot{line(0.1, 1.9, 0.5, 1.95, 0.9, 1.9), line(0.5, 1.84, 0.5, 1.99), line(0.42, 1.95, 0.5, 1.99, 0.58, 1.95)},
			Causes:  []garment.Cause{{Why: say.Word("There is too much cloth at the front waist."), Alter: []string{"front_waist_in"}, Source: ofHertzer}},
		},
		{
			ID: "thigh_loose", Name: say.Word("the thigh hangs loose"), View: garment.FromBack,
			Strokes: [][]garment.Spot{line(0.3, 1.1, 0.27, 1.25, 0.31, 1.42), line(0.6, 1.1, 0.62, 1.25, 0.59, 1.42)},
			Causes:  []garment.Cause{{Why: say.Word("The thigh is too wide."), Alter: []string{"thigh_in"}, Source: ofPractice}},
		},
	}
}
