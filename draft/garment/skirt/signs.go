package skirt

import (
	"chalkfold/draft/garment"
	"chalkfold/draft/say"
)

// Sources of causes, as testdata/body/fit_faults.csv names them.
const (
	ofDressmaking = "early 20th-century home dressmaking text"
	ofPractice    = "common practice"
	fromMemory    = "from memory"
)

// Signs are what is seen on skirts at a fitting.
func Signs() []garment.Sign {
	line := garment.Stroke
	return []garment.Sign{
		{
			ID: "front_rises", Name: say.Word("the hem rises in front, and the front swings out"), View: garment.FromFront,
			Strokes: [][]garment.Spot{line(0, 0.93, 0.5, 0.95, 1, 1), line(0.15, 0.25, 0.5, 0.5, 0.85, 0.9), line(0.05, 0.3, 0.3, 0.6, 0.55, 0.92)},
			Causes: []garment.Cause{
				{Why: say.Word("The abdomen is full: the front is too short."), Alter: []string{"front_longer"}, Source: ofDressmaking},
				{Why: say.Word("The abdomen is full: the waist is too tight."), Alter: []string{"waist_out"}, Source: ofDressmaking},
			},
		},
		{
			ID: "front_folds", Name: say.Word("folds lie across below the band in front"), View: garment.FromFront,
			Strokes: [][]garment.Spot{line(0, 0.07, 0.35, 0.09, 0.75, 0.06), line(0, 0.13, 0.35, 0.15, 0.7, 0.12), line(0, 0.19, 0.3, 0.21, 0.6, 0.18)},
			Causes:  []garment.Cause{{Why: say.Word("The front is too long at the centre."), Alter: []string{"front_shorter"}, Source: ofPractice}},
		},
		{
			ID: "hip_pulls", Name: say.Word("folds pull across the hip"), View: garment.FromFront,
			Strokes: [][]garment.Spot{line(0.1, 0.28, 0.55, 0.26, 1, 0.28), line(0.1, 0.35, 0.55, 0.33, 1, 0.35), line(0.1, 0.42, 0.55, 0.4, 1, 0.42)},
			Causes:  []garment.Cause{{Why: say.Word("The hip is too tight: the skirt rides up."), Alter: []string{"hip_out"}, Source: ofPractice}},
		},
		{
			ID: "waist_tight", Name: say.Word("the waist pulls"), View: garment.FromFront,
			Strokes: [][]garment.Spot{line(0.02, 0.03, 0.3, 0.05, 0.6, 0.12), line(0.02, 0.05, 0.22, 0.1, 0.4, 0.2), line(0.02, 0.02, 0.4, 0.02, 0.85, 0.05)},
			Causes:  []garment.Cause{{Why: say.Word("The waist is too tight."), Alter: []string{"waist_out"}, Source: ofPractice}},
		},
		{
			ID: "waist_loose", Name: say.Word("the waist stands off"), View: garment.FromFront,
			Strokes: [][]garment.Spot{line(0.3, 0.02, 0.29, 0.08, 0.31, 0.15), line(0.6, 0.02, 0.59, 0.08, 0.61, 0.15), line(0.88, 0.02, 0.87, 0.08, 0.88, 0.14)},
			Causes:  []garment.Cause{{Why: say.Word("The waist is too wide."), Alter: []string{"waist_in"}, Source: ofPractice}},
		},
		{
			ID: "hip_loose", Name: say.Word("the hip stands off at the sides"), View: garment.FromSide,
			Strokes: [][]garment.Spot{line(0.9, 0.18, 0.87, 0.3, 0.9, 0.45), line(0.76, 0.18, 0.73, 0.3, 0.76, 0.45)},
			Causes:  []garment.Cause{{Why: say.Word("The hip is too wide."), Alter: []string{"hip_in"}, Source: ofPractice}},
		},
		{
			ID: "side_slack", Name: say.Word("folds hang slack below the band at the side"), View: garment.FromSide,
			Strokes: [][]garment.Spot{line(0.55, 0.07, 0.78, 0.12, 1, 0.06), line(0.52, 0.15, 0.77, 0.21, 1, 0.14), line(0.55, 0.24, 0.78, 0.3, 1, 0.23)},
			Causes:  []garment.Cause{{Why: say.Word("The hip lies low, of one side often: the side is too long above it."), Alter: []string{"side_shorter"}, Source: fromMemory}},
		},
		{
			ID: "side_dips", Name: say.Word("the band dips at the side, and folds run up to the hip"), View: garment.FromSide,
			Strokes: [][]garment.Spot{line(0.5, 0.01, 0.78, 0.03, 1, 0.07), line(0.3, 0.35, 0.65, 0.25, 0.97, 0.11), line(0.4, 0.5, 0.72, 0.37, 0.99, 0.2)},
			Causes:  []garment.Cause{{Why: say.Word("The hip stands high, of one side often: the side is too short above it."), Alter: []string{"side_longer"}, Source: fromMemory}},
		},
		{
			ID: "hem_long", Name: say.Word("the skirt hangs too long"), View: garment.FromSide,
			Strokes: [][]garment.Spot{line(0, 0.9, 0.5, 0.9, 1, 0.9), line(0.5, 0.99, 0.5, 0.91), line(0.44, 0.94, 0.5, 0.91, 0.56, 0.94)},
			Causes:  []garment.Cause{{Why: say.Word("The hem is too low."), Alter: []string{"hem_higher"}, Source: ofPractice}},
		},
		{
			ID: "hem_short", Name: say.Word("the skirt hangs too short"), View: garment.FromSide,
			Strokes: [][]garment.Spot{line(0, 0.9, 0.5, 0.9, 1, 0.9), line(0.5, 0.91, 0.5, 0.99), line(0.44, 0.96, 0.5, 0.99, 0.56, 0.96)},
			Causes:  []garment.Cause{{Why: say.Word("The hem is too high."), Alter: []string{"hem_lower"}, Source: ofPractice}},
		},
		{
			ID: "back_rises", Name: say.Word("the hem rises behind"), View: garment.FromBack,
			Strokes: [][]garment.Spot{line(0, 0.93, 0.5, 0.95, 1, 1), line(0.1, 0.4, 0.4, 0.6, 0.8, 0.92)},
			Causes:  []garment.Cause{{Why: say.Word("The seat is full and round: the back is too short."), Alter: []string{"back_longer"}, Source: ofPractice}},
		},
		{
			ID: "back_folds", Name: say.Word("folds lie across below the band behind"), View: garment.FromBack,
			Strokes: [][]garment.Spot{line(0, 0.07, 0.35, 0.09, 0.75, 0.06), line(0, 0.13, 0.35, 0.15, 0.7, 0.12), line(0, 0.19, 0.3, 0.21, 0.6, 0.18)},
			Causes:  []garment.Cause{{Why: say.Word("The back is hollow, or the seat flat: the back is too long at the centre."), Alter: []string{"back_shorter"}, Source: ofPractice}},
		},
		{
			ID: "back_gapes", Name: say.Word("the band gapes at the centre back"), View: garment.FromBack,
			Strokes: [][]garment.Spot{line(0, 0.04, 0.12, 0.02, 0.3, 0), line(0, 0.04, 0.1, 0.1, 0.14, 0.2), line(0.2, 0.02, 0.2, 0.08, 0.22, 0.15)},
			Causes:  []garment.Cause{{Why: say.Word("The back is hollow above the seat."), Alter: []string{"back_waist_in"}, Source: ofPractice}},
		},
	}
}
