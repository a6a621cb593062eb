package skirt

import (
	"slices"

	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Alterations are how skirts are altered after a fitting. Amounts round the waist
// and the hip are for the whole round, all others for one piece. The amounts are
// from memory, but for the front that is raised: an inch (early 20th-century home
// dressmaking text, testdata/body/fit_faults.csv).
func Alterations() []garment.Alteration {
	const half = unit.Inch / 2
	up := geom.Vec{Y: -1}
	change := func(ids, names, does [2]string, usual, most unit.Length, house rules.ID, per float64, on ...garment.Change) []garment.Alteration {
		return garment.Pair(
			garment.Alteration{ID: ids[0], Name: names[0], Does: does[0], Usual: usual, Most: most, On: on, House: house, PerHouse: per},
			garment.Alteration{ID: ids[1], Name: names[1], Does: does[1]},
		)
	}
	return slices.Concat(
		change([2]string{"front_longer", "front_shorter"},
			[2]string{say.Word("raise the centre front"), say.Word("lower the centre front")},
			[2]string{say.Word("The waist stands higher in front, to nothing at the sides."), say.Word("Cloth is taken off above the centre front, to nothing at the sides.")},
			unit.Inch, 2*unit.Inch, "", 0, garment.Change{Of: "front.waist_centre", Per: 1, Way: up}),
		change([2]string{"back_longer", "back_shorter"},
			[2]string{say.Word("raise the centre back"), say.Word("lower the centre back")},
			[2]string{say.Word("The waist stands higher behind, to nothing at the sides."), say.Word("Cloth is taken off above the centre back, to nothing at the sides.")},
			half, 2*unit.Inch, "back_hollow", -1, garment.Change{Of: "back.waist_centre", Per: 1, Way: up}),
		change([2]string{"waist_out", "waist_in"},
			[2]string{say.Word("let out the waist at the sides"), say.Word("take in the waist at the sides")},
			[2]string{say.Word("Both sides are let out at the waist, to nothing at the hip, and the band is cut longer."), say.Word("Both sides are taken in at the waist, to nothing at the hip, and the band is cut shorter.")},
			half, 2*unit.Inch, "skirt_waist_ease", 1, garment.Change{Of: "waist_part", Per: 0.25}),
		change([2]string{"back_waist_out", "back_waist_in"},
			[2]string{say.Word("let out the back waist"), say.Word("take in the back waist")},
			[2]string{say.Word("Darts and sides of the back take in less, and the band is cut longer."), say.Word("Darts and sides of the back take in more, and the band is cut shorter.")},
			half, 2*unit.Inch, "", 0, garment.Change{Of: "back.waist_made", Per: 0.5}),
		garment.OneSided(change([2]string{"side_longer", "side_shorter"},
			[2]string{say.Word("raise the side at the waist"), say.Word("lower the side at the waist")},
			[2]string{say.Word("The waist stands higher at the side seam, to nothing at the centre."), say.Word("Cloth is taken off above the side seam, to nothing at the centre.")},
			half, unit.Inch, "", 0, garment.Change{Of: "front.waist_side", Per: 1, Way: up}, garment.Change{Of: "back.waist_side", Per: 1, Way: up})),
		garment.OneSided(change([2]string{"hip_out", "hip_in"},
			[2]string{say.Word("let out the hip"), say.Word("take in the hip")},
			[2]string{say.Word("Both sides are let out over the hip, to nothing at the waist."), say.Word("Both sides are taken in over the hip, to nothing at the waist.")},
			half, 2*unit.Inch, "skirt_hip_ease", 1, garment.Change{Of: "hip_part", Per: 0.25}), garment.Change{Of: "hip_part", Per: 0.5}), // all of it at the side
		change([2]string{"hem_lower", "hem_higher"},
			[2]string{say.Word("let the hem down"), say.Word("turn the hem up further")},
			[2]string{say.Word("The hem is let down."), say.Word("The hem is turned up further.")},
			half, 3*unit.Inch, "", 0, garment.Change{Of: "hem_level", Per: 1}),
	)
}
