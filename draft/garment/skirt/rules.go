package skirt

import "chalkfold/draft/rules"

// Defs returns the house rules of skirts. The defaults are common practice; the
// hip ease lies inside the published range kept in
// testdata/body/ease_allowances.csv. Rules that mean the same for other garments
// have their names, so that a house sets them once.
func Defs() []rules.Def {
	def := func(kind rules.Kind) func(group, id, name, def, lo, hi, explain string) rules.Def {
		return func(group, id, name, def, lo, hi, explain string) rules.Def {
			return rules.Def{ID: rules.ID(id), Name: name, Kind: kind, Default: def, Min: lo, Max: hi, Explain: explain, Group: group}
		}
	}
	l, n := def(rules.Length), def(rules.Ratio)
	return []rules.Def{
		l("allowances", "seam_allowance", "seam allowance", "1/2 in", "1/4 in", "1 1/2 in", "Cloth beyond the sew line of every seam."),
		l("allowances", "waist_allowance", "waist allowance", "1/2 in", "1/4 in", "1 1/2 in", "Cloth above the waist seam, under the band."),
		l("allowances", "skirt_hem_allowance", "skirt hem allowance", "2 in", "1/2 in", "4 in", "Cloth turned up at the hem of a straight skirt."),
		l("allowances", "flared_hem_allowance", "flared hem allowance", "1 in", "3/8 in", "3 in", "Cloth turned up at the hem of an A-line: the more it curves, the less can be turned up flat."),

		l("band", "skirt_band_width", "skirt band width", "1 1/4 in", "3/4 in", "4 in", "Finished width of the band. It stands above the waist."),
		l("band", "skirt_band_lap", "skirt band lap", "1 1/4 in", "1/2 in", "4 in", "How far the band runs on under its other end, for the hook."),

		l("ease", "skirt_waist_ease", "skirt waist ease", "1/2 in", "0 in", "2 in", "Room at the waist over the body, all round."),
		l("ease", "skirt_hip_ease", "skirt hip ease", "2 in", "1/2 in", "6 in", "Room at the hip over the body, all round."),
		l("ease", "front_wider", "front wider than back", "1/2 in", "0 in", "2 in", "How much wider each half of the front is than each half of the back: it sets the side seam a little back."),

		l("ease", "front_waist_wider", "front waist wider than back", "3/4 in", "0 in", "2 in", "How much wider each half of the front is at the waist than each half of the back, darts closed."),

		n("waist shape", "front_side_part", "front side part", "0.55", "0", "1", "How much of what hip and waist differ by the front side takes in; darts take the rest."),
		n("waist shape", "back_side_part", "back side part", "0.4", "0", "1", "How much of what hip and waist differ by the back side takes in; darts take the rest."),
		l("waist shape", "most_side", "most at the side", "1 1/2 in", "1/2 in", "3 in", "The most that one side may take in between hip and waist."),
		l("waist shape", "side_raise", "side raise", "1/2 in", "0 in", "1 1/2 in", "How far the waist stands higher at the side than at the centre front, as spoken."),
		l("waist shape", "back_hollow", "back hollow", "3/8 in", "0 in", "1 1/2 in", "How far the waist dips at the centre back."),

		l("darts", "skirt_front_dart", "skirt front dart width", "3/4 in", "1/4 in", "2 in", "Cloth taken in by each front dart, as spoken."),
		l("darts", "skirt_front_dart_length", "skirt front dart length", "3 1/2 in", "2 in", "6 in", "Waist seam to the point of a front dart."),
		l("darts", "skirt_back_dart", "skirt back dart width", "1 in", "1/4 in", "2 in", "Cloth taken in by each back dart, as spoken."),
		l("darts", "skirt_back_dart_length", "skirt back dart length", "5 in", "2 in", "8 in", "Waist seam to the point of the back dart nearest the centre."),
		l("darts", "second_dart_shorter", "second dart shorter", "3/4 in", "0 in", "2 in", "How much shorter the second dart of two is: it points to where the hip is higher."),

		l("length", "skirt_length", "skirt length", "0 in", "0 in", "50 in", "Waist to hem; 0 takes it from the knee and the length chosen."),
		l("length", "above_knee", "above the knee", "4 in", "1 in", "10 in", "How far above the middle of the knee a short skirt ends."),
		l("length", "calf_below", "calf below the knee", "9 in", "3 in", "12 in", "How far below the middle of the knee a calf-length skirt ends."),
		l("length", "ankle_below", "ankle below the knee", "14 in", "9 in", "20 in", "How far below the middle of the knee an ankle-length skirt ends."),

		l("hem", "flare", "flare", "2 in", "1/2 in", "8 in", "How far each side of an A-line runs out at the knee."),
		l("hem", "peg", "peg", "3/4 in", "1/4 in", "2 in", "How far each side of a pencil skirt runs in at the knee."),
		l("hem", "walking_room", "walking room", "45 in", "36 in", "70 in", "What the skirt must measure round at the knee to walk in, with its slits open; more for a longer one."),

		l("openings", "zip_length", "zip length", "8 in", "5 in", "14 in", "Waist seam to the end of the zip."),
		l("openings", "vent_height", "vent height", "8 in", "3 in", "24 in", "Hem to the top of the vent."),
		l("openings", "vent_width", "vent width", "2 in", "1 in", "4 in", "How far the vent laps over."),
		l("openings", "slit_height", "slit height", "6 in", "2 in", "30 in", "Hem to the top of a slit."),
		l("openings", "slit_allowance", "slit allowance", "1 in", "1/2 in", "2 in", "Cloth turned in along a slit."),

		l("lining", "lining_shorter", "lining shorter", "1 in", "1/2 in", "6 in", "How much shorter than the skirt its lining hangs."),

		{ID: "band_across", Name: "band across the grain", Kind: rules.Switch, Default: "off", Explain: "The band is cut with its length across the cloth.", Group: "short cloth"},
	}
}
