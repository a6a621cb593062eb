package bodice

import (
	"chalkfold/draft/garment"
	"chalkfold/draft/say"
)

// ofPractice is the source of every cause here.
const ofPractice = "common practice"

// Signs are what is seen on bodices at a fitting.
func Signs() []garment.Sign {
	line := garment.Stroke
	sign := func(id, name string, v garment.View, strokes [][]garment.Spot, causes ...garment.Cause) garment.Sign {
		return garment.Sign{ID: id, Name: name, View: v, Strokes: strokes, Causes: causes}
	}
	because := func(why string, alter ...string) garment.Cause {
		return garment.Cause{Why: why, Alter: alter, Source: ofPractice}
	}
	return []garment.Sign{
		sign("bust_pulls", say.Word("folds pull across the bust"), garment.FromFront,
			[][]garment.Spot{line(0.05, 0.42, 0.45, 0.4, 0.95, 0.46), line(0.05, 0.5, 0.45, 0.48, 0.95, 0.53), line(0.05, 0.58, 0.45, 0.56, 0.95, 0.6)},
			because(say.Word("The bust is too tight."), "bust_out")),
		sign("bust_drags", say.Word("folds run from the side up to the bust, and the waist rides up in front"), garment.FromFront,
			[][]garment.Spot{line(0.95, 0.85, 0.75, 0.7, 0.55, 0.55), line(0.9, 0.95, 0.7, 0.8, 0.5, 0.63), line(0, 0.9, 0.5, 0.93, 1, 1)},
			because(say.Word("The bust is full: the front is too short."), "front_longer", "bust_out")),
		sign("bust_loose", say.Word("the front stands off at the bust"), garment.FromFront,
			[][]garment.Spot{line(0.35, 0.4, 0.3, 0.55, 0.36, 0.7), line(0.6, 0.4, 0.62, 0.55, 0.58, 0.7)},
			because(say.Word("The bust is too wide."), "bust_in"),
			because(say.Word("The front is too long."), "front_shorter")),
		sign("waist_tight", say.Word("the waist pulls"), garment.FromFront,
			[][]garment.Spot{line(0.05, 0.86, 0.5, 0.84, 0.97, 0.88), line(0.05, 0.92, 0.5, 0.9, 0.97, 0.94)},
			because(say.Word("The waist is too tight."), "waist_out")),
		sign("waist_loose", say.Word("the waist stands off"), garment.FromFront,
			[][]garment.Spot{line(0.3, 0.78, 0.29, 0.88, 0.31, 0.98), line(0.6, 0.78, 0.59, 0.88, 0.61, 0.98), line(0.88, 0.8, 0.87, 0.9, 0.88, 0.98)},
			because(say.Word("The waist is too wide."), "waist_in")),
		sign("shoulder_slopes", say.Word("folds run from the neck down to the armhole"), garment.FromFront,
			[][]garment.Spot{line(0.45, 0.08, 0.62, 0.2, 0.82, 0.3), line(0.42, 0.14, 0.6, 0.26, 0.8, 0.36)},
			because(say.Word("The shoulders slope more than the bodice."), "shoulder_lower")),
		sign("shoulder_square", say.Word("folds run from the end of the shoulder to the centre"), garment.FromFront,
			[][]garment.Spot{line(0.9, 0.08, 0.5, 0.2, 0.1, 0.3), line(0.88, 0.14, 0.5, 0.27, 0.1, 0.37)},
			because(say.Word("The shoulders are squarer than the bodice."), "shoulder_higher")),
		sign("armhole_cuts", say.Word("the armhole cuts under the arm"), garment.FromSide,
			[][]garment.Spot{line(0.7, 0.3, 0.85, 0.37, 0.98, 0.4), line(0.66, 0.36, 0.82, 0.43, 0.96, 0.46)},
			because(say.Word("The armhole is not deep enough."), "armhole_lower")),
		sign("armhole_deep", say.Word("the armhole gapes under the arm"), garment.FromSide,
			[][]garment.Spot{line(0.78, 0.2, 0.74, 0.3, 0.85, 0.42), line(0.72, 0.24, 0.66, 0.35, 0.78, 0.48)},
			because(say.Word("The armhole is too deep."), "armhole_higher")),
		sign("back_pulls", say.Word("folds pull across the back between the arms"), garment.FromBack,
			[][]garment.Spot{line(0.03, 0.22, 0.4, 0.2, 0.85, 0.22), line(0.03, 0.29, 0.4, 0.27, 0.85, 0.29), line(0.03, 0.36, 0.4, 0.34, 0.85, 0.36)},
			because(say.Word("The back is too narrow."), "back_wider")),
		sign("back_loose", say.Word("the back hangs in folds between the arms"), garment.FromBack,
			[][]garment.Spot{line(0.3, 0.15, 0.28, 0.3, 0.31, 0.45), line(0.6, 0.15, 0.61, 0.3, 0.59, 0.45)},
			because(say.Word("The back is too wide."), "back_narrower")),
		sign("back_round", say.Word("the back rides up, and folds run from the shoulder blades to the neck"), garment.FromBack,
			[][]garment.Spot{line(0.5, 0.3, 0.3, 0.18, 0.12, 0.06), line(0.62, 0.3, 0.45, 0.18, 0.3, 0.08), line(0, 0.93, 0.5, 0.95, 1, 1)},
			because(say.Word("The upper back is round: the back is too short."), "back_above_longer")),
		sign("back_folds", say.Word("folds lie across above the waist behind"), garment.FromBack,
			[][]garment.Spot{line(0, 0.72, 0.35, 0.74, 0.8, 0.72), line(0, 0.79, 0.35, 0.81, 0.75, 0.79), line(0, 0.86, 0.3, 0.88, 0.7, 0.86)},
			because(say.Word("The back is hollow: it is too long at the centre."), "back_shorter"),
			because(say.Word("The back is held upright: it is too long above."), "back_above_shorter")),
	}
}
