package trouser

import (
	"slices"

	"chalkfold/draft/garment"
	"chalkfold/draft/say"
)

// Sources of causes and amounts, as testdata/body/fit_faults.csv names them.
const (
	of1949     = "1949 tailoring text, diagram 53"
	ofHertzer  = "Hertzer 1892"
	ofManual   = "US Army TM 10-227"
	ofPractice = "common practice"
	fromMemory = "from memory"
)

// Signs are what is seen on trousers at a fitting.
func Signs() []garment.Sign { return slices.Concat(frontSigns(), sideSigns(), backSigns()) }

func frontSigns() []garment.Sign {
	line := garment.Stroke
	return []garment.Sign{
		{
			ID: "whiskers", Name: say.Word("folds fan out from the fork"), View: garment.FromFront,
			Strokes: [][]garment.Spot{line(0.03, 0.98, 0.3, 0.86, 0.62, 0.78), line(0.04, 1.01, 0.32, 0.97, 0.68, 0.95), line(0.1, 1.05, 0.36, 1.07, 0.7, 1.11)},
			Causes: []garment.Cause{
				{Why: say.Word("The front fork is too short."), Alter: []string{"front_fork_out"}, Source: fromMemory},
				{Why: say.Word("The rise is too short."), Alter: []string{"fork_lower"}, Source: ofManual},
				{Why: say.Word("The thigh is too tight."), Alter: []string{"thigh_out"}, Source: ofPractice},
			},
		},
		{
			ID: "lap", Name: say.Word("cloth heaps up in the lap when sitting"), View: garment.FromFront,
			Strokes: [][]garment.Spot{line(0.05, 0.72, 0.4, 0.62, 0.8, 0.7), line(0.05, 0.82, 0.42, 0.72, 0.85, 0.8), line(0.05, 0.92, 0.44, 0.83, 0.9, 0.9)},
			Causes: []garment.Cause{
				{Why: say.Word("The fork is too small."), Alter: []string{"front_fork_out", "back_fork_out"}, Source: of1949},
				{Why: say.Word("The seat line slants too little."), Alter: []string{"seat_slanted"}, Source: of1949},
			},
		},
		{
			ID: "front_drops", Name: say.Word("the band dips in front"), View: garment.FromFront,
			Strokes: [][]garment.Spot{line(0, 0.16, 0.45, 0.11, 1, 0.02), line(0.1, 0.3, 0.5, 0.22, 0.9, 0.12)},
			Causes: []garment.Cause{
				{Why: say.Word("The abdomen is full: the front is too short."), Alter: []string{"front_longer"}, Source: "early 20th-century home dressmaking text"},
				{Why: say.Word("The abdomen is full: the front waist is too tight."), Alter: []string{"front_waist_out"}, Source: "early 20th-century home dressmaking text"},
			},
		},
		{
			ID: "front_folds", Name: say.Word("folds lie across below the band in front"), View: garment.FromFront,
			Strokes: [][]garment.Spot{line(0, 0.13, 0.35, 0.15, 0.75, 0.12), line(0, 0.22, 0.35, 0.24, 0.7, 0.2), line(0, 0.31, 0.3, 0.33, 0.6, 0.3)},
			Causes:  []garment.Cause{{Why: say.Word("The front is too long at the centre."), Alter: []string{"front_shorter"}, Source: ofPractice}},
		},
		{
			ID: "hip_pulls", Name: say.Word("folds pull across the hip"), View: garment.FromFront,
			Strokes: [][]garment.Spot{line(0.15, 0.5, 0.55, 0.47, 1, 0.5), line(0.1, 0.62, 0.55, 0.59, 1, 0.62), line(0.15, 0.74, 0.55, 0.71, 1, 0.74)},
			Causes:  []garment.Cause{{Why: say.Word("The hip is too tight."), Alter: []string{"hip_out"}, Source: ofPractice}},
		},
		{
			ID: "waist_tight", Name: say.Word("the waist pulls"), View: garment.FromFront,
			Strokes: [][]garment.Spot{line(0.02, 0.04, 0.3, 0.08, 0.6, 0.2), line(0.02, 0.07, 0.22, 0.16, 0.4, 0.32), line(0.02, 0.02, 0.4, 0.03, 0.85, 0.08)},
			Causes:  []garment.Cause{{Why: say.Word("The waist is too tight."), Alter: []string{"waist_out", "front_waist_out"}, Source: ofPractice}},
		},
		{
			ID: "waist_loose", Name: say.Word("the waist stands off"), View: garment.FromFront,
			Strokes: [][]garment.Spot{line(0.3, 0.02, 0.29, 0.12, 0.31, 0.24), line(0.6, 0.02, 0.59, 0.12, 0.61, 0.24), line(0.88, 0.02, 0.87, 0.12, 0.88, 0.22)},
			Causes:  []garment.Cause{{Why: say.Word("The waist is too wide."), Alter: []string{"waist_in"}, Source: ofPractice}},
		},
		{
			ID: "thigh_pulls", Name: say.Word("folds pull across the thigh"), View: garment.FromFront,
			Strokes: [][]garment.Spot{line(0.05, 1.1, 0.5, 1.07, 0.98, 1.1), line(0.05, 1.19, 0.5, 1.16, 0.98, 1.19), line(0.05, 1.28, 0.5, 1.25, 0.98, 1.28)},
			Causes:  []garment.Cause{{Why: say.Word("The thigh is too tight."), Alter: []string{"thigh_out"}, Source: ofPractice}},
		},
		{
			ID: "inside_fold", Name: say.Word("a fold runs from the inside of the hem up and forward"), View: garment.FromFront,
			Strokes: [][]garment.Spot{line(0.02, 1.97, 0.3, 1.75, 0.6, 1.4), line(0.1, 1.99, 0.4, 1.8, 0.72, 1.5)},
			Causes:  []garment.Cause{{Why: say.Word("The leg slopes too far out."), Alter: []string{"leg_inwards"}, Source: ofHertzer}},
		},
		{
			ID: "inside_slack", Name: say.Word("slack at the top of the inseam; the hem clings inside the foot"), View: garment.FromFront,
			Strokes: [][]garment.Spot{line(0.02, 1.08, 0.2, 1.12, 0.4, 1.1), line(0.02, 1.16, 0.2, 1.2, 0.38, 1.18), line(0.02, 1.24, 0.2, 1.28, 0.34, 1.26), line(0.02, 1.9, 0.1, 1.94, 0.02, 1.98)},
			Causes: []garment.Cause{
				{Why: say.Word("The leg is cut too open."), Alter: []string{"leg_inwards", "back_fork_in"}, Source: of1949},
			},
		},
		{
			ID: "outside_fold", Name: say.Word("a fold runs from the outside of the hem up and inwards"), View: garment.FromFront,
			Strokes: [][]garment.Spot{line(0.97, 1.97, 0.7, 1.75, 0.4, 1.4), line(0.9, 1.99, 0.6, 1.8, 0.3, 1.5)},
			Causes:  []garment.Cause{{Why: say.Word("The leg slopes too far in."), Alter: []string{"leg_outwards"}, Source: fromMemory}},
		},
	}
}

func sideSigns() []garment.Sign {
	line := garment.Stroke
	return []garment.Sign{
		{
			ID: "short_sitting", Name: say.Word("the legs seem too short when walking or sitting"), View: garment.FromSide,
			Strokes: [][]garment.Spot{line(0.05, 1.86, 0.5, 1.84, 0.95, 1.86), line(0.5, 1.98, 0.5, 1.87), line(0.42, 1.91, 0.5, 1.87, 0.58, 1.91)},
			Causes: []garment.Cause{
				{Why: say.Word("The fork is not large enough: more length would not help."), Alter: []string{"back_fork_out", "front_fork_out"}, Source: ofHertzer},
				{Why: say.Word("The leg is too short, standing too."), Alter: []string{"leg_longer"}, Source: ofPractice},
			},
		},
		{
			ID: "side_slack", Name: say.Word("folds hang slack below the band at the side"), View: garment.FromSide,
			Strokes: [][]garment.Spot{line(0.55, 0.12, 0.78, 0.19, 1, 0.1), line(0.52, 0.25, 0.77, 0.33, 1, 0.23), line(0.55, 0.39, 0.78, 0.47, 1, 0.37)},
			Causes:  []garment.Cause{{Why: say.Word("The hip lies low, of one side often: the side is too long above it."), Alter: []string{"side_shorter"}, Source: fromMemory}},
		},
		{
			ID: "side_dips", Name: say.Word("the band dips at the side, and folds run up to the hip"), View: garment.FromSide,
			Strokes: [][]garment.Spot{line(0.5, 0.02, 0.78, 0.05, 1, 0.11), line(0.3, 0.5, 0.65, 0.38, 0.97, 0.16), line(0.4, 0.72, 0.72, 0.55, 0.99, 0.3)},
			Causes:  []garment.Cause{{Why: say.Word("The hip stands high, of one side often: the side is too short above it."), Alter: []string{"side_longer"}, Source: fromMemory}},
		},
		{
			ID: "long_hem", Name: say.Word("the hem breaks on the foot"), View: garment.FromSide,
			Strokes: [][]garment.Spot{line(0.05, 1.86, 0.5, 1.9, 0.95, 1.86), line(0.05, 1.93, 0.5, 1.97, 0.95, 1.93)},
			Causes:  []garment.Cause{{Why: say.Word("The leg is too long."), Alter: []string{"leg_shorter"}, Source: ofPractice}},
		},
		{
			ID: "calf_catches", Name: say.Word("the leg catches on the calf or the knee"), View: garment.FromSide,
			Strokes: [][]garment.Spot{line(0.03, 1.5, 0.5, 1.53, 0.97, 1.5), line(0.03, 1.57, 0.5, 1.6, 0.97, 1.57), line(0.03, 1.64, 0.5, 1.67, 0.97, 1.64)},
			Causes:  []garment.Cause{{Why: say.Word("The leg is too narrow from the knee."), Alter: []string{"leg_out"}, Source: ofPractice}},
		},
		{
			ID: "leg_wide", Name: say.Word("the leg hangs loose below the knee"), View: garment.FromSide,
			Strokes: [][]garment.Spot{line(0.3, 1.55, 0.28, 1.75, 0.31, 1.95), line(0.68, 1.55, 0.7, 1.75, 0.67, 1.95)},
			Causes:  []garment.Cause{{Why: say.Word("The leg is too wide from the knee."), Alter: []string{"leg_in"}, Source: ofPractice}},
		},
		{
			ID: "hip_loose", Name: say.Word("the hip stands off at the sides"), View: garment.FromSide,
			Strokes: [][]garment.Spot{line(0.9, 0.35, 0.86, 0.55, 0.9, 0.8), line(0.78, 0.35, 0.74, 0.55, 0.78, 0.8)},
			Causes:  []garment.Cause{{Why: say.Word("The hip is too wide."), Alter: []string{"hip_in"}, Source: ofPractice}},
		},
	}
}
