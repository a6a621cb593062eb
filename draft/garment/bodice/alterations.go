package bodice

import (
	"slices"

	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Alterations are how bodices are altered after a fitting. Amounts round the body
// and across the back are for the whole of it, all others for one piece. The
// amounts are from memory.
func Alterations() []garment.Alteration {
	const half, quarter = unit.Inch / 2, unit.Inch / 4
	down := geom.Vec{Y: 1}
	change := func(ids, names, does [2]string, usual, most unit.Length, house rules.ID, per float64, on ...garment.Change) []garment.Alteration {
		return garment.Pair(
			garment.Alteration{ID: ids[0], Name: names[0], Does: does[0], Usual: usual, Most: most, On: on, House: house, PerHouse: per},
			garment.Alteration{ID: ids[1], Name: names[1], Does: does[1]},
		)
	}
	return slices.Concat(
		change([2]string{"bust_out", "bust_in"},
			[2]string{say.Word("let out the bust at the sides"), say.Word("take in the bust at the sides")},
			[2]string{say.Word("The side of the front is let out below the arm, to nothing at the waist."), say.Word("The side of the front is taken in below the arm, to nothing at the waist.")},
			half, 2*unit.Inch, "bust_ease", 1, garment.Change{Of: "front.bust_part", Per: 0.5}),
		change([2]string{"waist_out", "waist_in"},
			[2]string{say.Word("let out the waist"), say.Word("take in the waist")},
			[2]string{say.Word("Sides and waist darts take in less."), say.Word("Sides and waist darts take in more.")},
			half, 2*unit.Inch, "bodice_waist_ease", 1, garment.Change{Of: "front.waist_made", Per: 0.25}, garment.Change{Of: "back.waist_made", Per: 0.25}),
		change([2]string{"front_longer", "front_shorter"},
			[2]string{say.Word("lengthen the front over the bust"), say.Word("shorten the front over the bust")},
			[2]string{say.Word("The front is cut longer, and the bust dart takes in as much more."), say.Word("The front is cut shorter, and the bust dart takes in as much less.")},
			half, 1.5*unit.Inch, "", 0, garment.Change{Of: "front.waist_level", Per: 1}),
		change([2]string{"back_longer", "back_shorter"},
			[2]string{say.Word("lengthen the centre back at the waist"), say.Word("shorten the centre back at the waist")},
			[2]string{say.Word("The waist lies lower behind, to nothing at the sides."), say.Word("Cloth is taken off below the centre back, to nothing at the sides.")},
			half, unit.Inch, "", 0, garment.Change{Of: "back.waist_centre", Per: 1, Way: down}),
		change([2]string{"back_above_longer", "back_above_shorter"},
			[2]string{say.Word("lengthen the back above the armhole line"), say.Word("shorten the back above the armhole line")},
			[2]string{say.Word("The back is spread across between the shoulder and the armhole line."), say.Word("A fold is taken out across the back between the shoulder and the armhole line.")},
			quarter, unit.Inch, "", 0, garment.Change{Of: "back.scye_level", Per: 1}, garment.Change{Of: "back.waist_level", Per: 1}),
		garment.OneSided(change([2]string{"shoulder_lower", "shoulder_higher"},
			[2]string{say.Word("drop the end of the shoulder"), say.Word("raise the end of the shoulder")},
			[2]string{say.Word("The shoulder slopes more, to nothing at the neck."), say.Word("The shoulder slopes less, to nothing at the neck.")},
			quarter, unit.Inch, "shoulder_drop", 1,
			garment.Change{Of: "front.shoulder_level", Per: 1, Way: down}, garment.Change{Of: "back.shoulder_level", Per: 1, Way: down})),
		garment.OneSided(change([2]string{"armhole_lower", "armhole_higher"},
			[2]string{say.Word("cut the armhole lower"), say.Word("cut the armhole higher")},
			[2]string{say.Word("The armhole is cut out further under the arm."), say.Word("The armhole is cut less deep under the arm.")},
			quarter, unit.Inch, "scye_ease", 1, garment.Change{Of: "back.scye_level", Per: 1}, garment.Change{Of: "front.scye_level", Per: 1})),
		change([2]string{"back_wider", "back_narrower"},
			[2]string{say.Word("widen the back"), say.Word("narrow the back")},
			[2]string{say.Word("The armholes of the back are cut out less."), say.Word("The armholes of the back are cut out further.")},
			half, unit.Inch, "back_width_ease", 1, garment.Change{Of: "back.across_width", Per: 0.5}),
	)
}
