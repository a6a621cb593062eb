package trouser

import (
	"slices"

	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Alterations are how trousers are altered after a fitting. Amounts round the
// waist, the hip and the leg are for the whole round, all others for one piece.
// Of one side alone is altered what leaves the seams in the middle of the body,
// and the band, as long as those of the other side.
// Where testdata/body/fit_faults.csv gives an amount it is the usual one; the
// others are from memory.
func Alterations() []garment.Alteration { return slices.Concat(seatAlterations(), roundAlterations()) }

const (
	quarterInch = unit.Inch / 4
	halfInch    = unit.Inch / 2
)

// change makes a pair of alterations of what two names, and what becomes of the
// cloth, say.
func change(ids, names, does [2]string, usual, most unit.Length, house rules.ID, per float64, on ...garment.Change) []garment.Alteration {
	return garment.Pair(
		garment.Alteration{ID: ids[0], Name: names[0], Does: does[0], Usual: usual, Most: most, On: on, House: house, PerHouse: per},
		garment.Alteration{ID: ids[1], Name: names[1], Does: does[1]},
	)
}

// seatAlterations change what goes through between the legs, and how the leg
// hangs below it.
func seatAlterations() []garment.Alteration {
	inwards, upwards := geom.Vec{X: -1}, geom.Vec{Y: -1}
	return slices.Concat(
		change([2]string{"back_longer", "back_shorter"},
			[2]string{say.Word("lengthen the seat seam at the top"), say.Word("shorten the seat seam at the top")},
			[2]string{say.Word("The centre back stands higher, to nothing at the sides."), say.Word("Cloth is taken off above the centre back, to nothing at the sides.")},
			halfInch, 1.5*unit.Inch, "centre_back_raise", 1, garment.Change{Of: "back.waist_centre", Per: 1, From: "back.hip_centre"}),
		change([2]string{"seat_slanted", "seat_straighter"},
			[2]string{say.Word("slant the seat line more"), say.Word("straighten the seat line")},
			[2]string{say.Word("The top of the seat seam is taken in, and the side let out as much."), say.Word("The top of the seat seam is let out, and the side taken in as much.")},
			halfInch, 1.5*unit.Inch, "seat_tilt", 1, garment.Change{Of: "back.tilt", Per: 1}),
		change([2]string{"back_fork_out", "back_fork_in"},
			[2]string{say.Word("let out the back fork"), say.Word("take in the back fork")},
			[2]string{say.Word("The tip of the back fork reaches further between the legs."), say.Word("The tip of the back fork is cut shorter.")},
			quarterInch, 1.25*unit.Inch, "back_fork_more", 1, garment.Change{Of: "back.reach", Per: 1}),
		change([2]string{"front_fork_out", "front_fork_in"},
			[2]string{say.Word("let out the front fork"), say.Word("take in the front fork")},
			[2]string{say.Word("The tip of the front fork reaches further between the legs."), say.Word("The tip of the front fork is cut shorter.")},
			quarterInch, unit.Inch, "front_fork_more", 1,
			garment.Change{Of: "front.reach", Per: 1}, garment.Change{Of: "back.reach", Per: -1}), // the back's tip stays
		change([2]string{"fork_lower", "fork_higher"},
			[2]string{say.Word("lower the fork"), say.Word("raise the fork")},
			[2]string{say.Word("The fork lies lower, in front and behind; the hem stays."), say.Word("The fork lies higher, in front and behind; the hem stays.")},
			halfInch, 1.5*unit.Inch, "rise_ease", 1, garment.Change{Of: "fork_level", Per: 1}),
		change([2]string{"front_longer", "front_shorter"},
			[2]string{say.Word("raise the centre front"), say.Word("lower the centre front")},
			[2]string{say.Word("The waist stands higher in front, to nothing at the sides."), say.Word("Cloth is taken off above the centre front, to nothing at the sides.")},
			halfInch, 1.5*unit.Inch, "centre_front_raise", 1, garment.Change{Of: "front.waist_centre", Per: 1, From: "front.hip_centre"}),
		change([2]string{"leg_inwards", "leg_outwards"},
			[2]string{say.Word("set the leg further in"), say.Word("set the leg further out")},
			[2]string{say.Word("Below the fork the leg is let out along the inseam and taken in along the side as much."), say.Word("Below the fork the leg is let out along the side and taken in along the inseam as much.")},
			quarterInch, unit.Inch, "leg_set", 1,
			garment.Change{Of: "front.crease_fork", Per: 1, Way: inwards}, garment.Change{Of: "back.crease_fork", Per: 1, Way: inwards}),
		garment.OneSided(change([2]string{"leg_longer", "leg_shorter"},
			[2]string{say.Word("lengthen the leg"), say.Word("shorten the leg")},
			[2]string{say.Word("The hem is let down."), say.Word("The hem is turned up further.")},
			halfInch, 3*unit.Inch, "floor_clearance", -1, garment.Change{Of: "hem_level", Per: 1})),
		garment.OneSided(change([2]string{"side_longer", "side_shorter"},
			[2]string{say.Word("raise the side at the waist"), say.Word("lower the side at the waist")},
			[2]string{say.Word("The waist stands higher at the side seam, to nothing at the centre."), say.Word("Cloth is taken off above the side seam, to nothing at the centre.")},
			halfInch, unit.Inch, "", 0,
			garment.Change{Of: "front.waist_side", Per: 1, Way: upwards}, garment.Change{Of: "back.waist_side", Per: 1, Way: upwards})),
	)
}

// roundAlterations change what goes round the body. With the hip goes the fork,
// a sixteenth of it in front and behind (US Army TM 10-227: where the seat is
// altered, the crotch is too).
func roundAlterations() []garment.Alteration {
	return slices.Concat(
		change([2]string{"back_waist_out", "back_waist_in"},
			[2]string{say.Word("let out the seat seam at the waist"), say.Word("take in the seat seam at the waist")},
			[2]string{say.Word("The top of the seat seam is let out, to nothing at the hip, and the band is cut longer."), say.Word("The top of the seat seam is taken in, to nothing at the hip, and the band is cut shorter.")},
			halfInch, 2*unit.Inch, "", 0, garment.Change{Of: "back.waist_part", Per: 0.5}, garment.Change{Of: "back.tilt", Per: -0.5}),
		change([2]string{"waist_out", "waist_in"},
			[2]string{say.Word("let out the waist at the sides"), say.Word("take in the waist at the sides")},
			[2]string{say.Word("Both sides are let out at the waist, to nothing at the hip, and the band is cut longer."), say.Word("Both sides are taken in at the waist, to nothing at the hip, and the band is cut shorter.")},
			halfInch, 2*unit.Inch, "waist_ease", 1, garment.Change{Of: "waist_part", Per: 0.25}),
		change([2]string{"front_waist_out", "front_waist_in"},
			[2]string{say.Word("let out the front waist"), say.Word("take in the front waist")},
			[2]string{say.Word("The front is let out at the side of the waist, to nothing at the hip, and the band is cut longer."), say.Word("The front is taken in at the side of the waist, to nothing at the hip, and the band is cut shorter.")},
			halfInch, 2*unit.Inch, "", 0, garment.Change{Of: "front.waist_part", Per: 0.5}),
		garment.OneSided(change([2]string{"hip_out", "hip_in"},
			[2]string{say.Word("let out the hip"), say.Word("take in the hip")},
			[2]string{say.Word("Both sides are let out over the hip, to nothing at the waist."), say.Word("Both sides are taken in over the hip, to nothing at the waist.")},
			halfInch, 2*unit.Inch, "hip_ease", 1,
			garment.Change{Of: "hip_part", Per: 0.25}, garment.Change{Of: "front.reach", Per: 1.0 / 16}, garment.Change{Of: "back.reach", Per: 1.0 / 16}),
			garment.Change{Of: "hip_part", Per: 0.5}), // all of it at the side
		garment.OneSided(change([2]string{"thigh_out", "thigh_in"},
			[2]string{say.Word("let out the thigh"), say.Word("take in the thigh")},
			[2]string{say.Word("Inseam and side are let out at the thigh."), say.Word("Inseam and side are taken in at the thigh.")},
			halfInch, 2*unit.Inch, "thigh_ease", 1, garment.Change{Of: "thigh_all", Per: 1})),
		garment.OneSided(change([2]string{"leg_out", "leg_in"},
			[2]string{say.Word("let out the leg from the knee"), say.Word("take in the leg from the knee")},
			[2]string{say.Word("Inseam and side are let out from knee to hem."), say.Word("Inseam and side are taken in from knee to hem.")},
			halfInch, 3*unit.Inch, "knee_ease", 1, garment.Change{Of: "leg.knee", Per: 1})),
	)
}
