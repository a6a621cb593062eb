package trouser

import "chalkfold/draft/rules"

// Defs returns the house rules of trousers. The defaults are common practice
// among makers who draft on folded cloth; the eases lie inside the published
// ranges kept in testdata/body/ease_allowances.csv.
func Defs() []rules.Def {
	l := func(group, id, name, def, lo, hi, explain string) rules.Def {
		return rules.Def{
			ID: rules.ID(id), Name: name, Kind: rules.Length, Default: def, Min: lo, Max: hi, Explain: explain, Group: group,
		}
	}
	n := func(group, id, name, def, lo, hi, explain string) rules.Def {
		return rules.Def{
			ID: rules.ID(id), Name: name, Kind: rules.Ratio, Default: def, Min: lo, Max: hi, Explain: explain, Group: group,
		}
	}
	o := func(group, id, name, explain string) rules.Def {
		return rules.Def{ID: rules.ID(id), Name: name, Kind: rules.Switch, Default: "off", Explain: explain, Group: group}
	}
	return []rules.Def{
		l("allowances", "seam_allowance", "seam allowance", "1/2 in", "1/4 in", "1 1/2 in", "Cloth beyond the sew line of every seam."),
		l("allowances", "waist_allowance", "waist allowance", "1/2 in", "1/4 in", "1 1/2 in", "Cloth above the waist seam, under the band."),
		l("allowances", "hem_allowance", "hem allowance", "2 in", "1/2 in", "4 in", "Cloth turned up at the hem."),
		l("allowances", "centre_back_inlay", "centre-back inlay", "0 in", "0 in", "1 1/2 in", "More cloth at the top of the seat seam, to let out later; it runs to nothing at the fork."),

		l("band", "waistband_width", "waistband width", "2 in", "3/4 in", "4 in", "Finished width of the band. The band is outside the front and back."),
		l("band", "band_shape", "band shaping", "3/4 in", "1/4 in", "3 in", "How much shorter the upper edge of a shaped band is than its seam, all round."),
		l("band", "band_lap", "band lap", "1 1/2 in", "1/2 in", "4 in", "How far the band runs on over the fly shield, for the button or hook."),
		{ID: "belt_loops", Name: "belt loops", Kind: rules.Count, Default: "5", Min: "0", Max: "8", Explain: "How many loops are cut.", Group: "band"},
		l("band", "loop_strip_width", "loop strip width", "1 in", "3/4 in", "3 in", "Width of the strip that the loops are cut from."),

		l("ease", "waist_ease", "waist ease", "1/2 in", "0 in", "2 in", "Room at the waist over the body, all round."),
		l("ease", "hip_ease", "hip ease", "1 1/2 in", "0 in", "5 in", "Room at the hip over the body, all round."),
		l("ease", "thigh_ease", "thigh ease", "1 in", "0 in", "6 in", "Room at the thigh over the body, all round."),
		l("ease", "knee_ease", "knee ease", "4 in", "1/2 in", "14 in", "Room at the knee over the body, all round: what makes the leg narrow or wide."),
		l("ease", "rise_ease", "rise ease", "1/2 in", "0 in", "2 in", "Room below the fork, added to a rise measured on the body."),

		l("ease", "fork_ease", "fork ease", "1 in", "0 in", "3 in", "Room in the fork seam over a total crotch length measured on the body, by the balanced method; half of it in front, half behind."),

		l("lines", "hip_drop", "hip drop", "9 in", "5 in", "13 in", "Top of the band to the hip line, when it is not measured."),
		l("lines", "rise", "rise", "11 in", "7 in", "17 in", "Top of the band to the fork line, when it is not measured."),
		l("lines", "thigh_drop", "thigh drop", "4 in", "1 in", "6 in", "Fork line to thigh line."),
		l("lines", "knee_lift", "knee lift", "2 in", "0 in", "4 in", "How far the knee line stands above the middle of the inside leg."),
		l("lines", "floor_clearance", "floor clearance", "0 in", "0 in", "12 in", "How far the hem hangs above where the outside leg was measured to."),

		n("fork", "front_fork_part", "front fork part", "16", "8", "24", "The front fork reaches this part of the hip beyond the centre line."),
		n("fork", "back_fork_part", "back fork part", "16", "6", "24", "The back fork reaches a further such part of the hip."),
		l("fork", "front_fork_more", "front fork further", "0 in", "-1 in", "1 1/2 in", "How much further the front fork reaches than its part of the hip."),
		l("fork", "back_fork_more", "back fork further", "0 in", "-1 in", "1 1/2 in", "How much further the back fork reaches than its part of the hip."),
		n("fork", "fork_fullness", "fork fullness", "0.55", "0.3", "0.7", "How far the fork curve is drawn into its corner: more hugs the corner, less cuts across."),
		l("fork", "centre_back_raise", "centre-back raise", "1 in", "0 in", "3 in", "How far the centre back stands above the waist line."),
		l("fork", "centre_front_raise", "centre-front raise", "0 in", "-1/2 in", "1 in", "How far the centre front stands above the waist line: more for a full abdomen; below it is less than nought."),
		l("fork", "seat_tilt", "seat tilt", "2 in", "1/2 in", "3 in", "How far the centre back leans in at the waist. 1½ when cloth is short."),
		l("fork", "inseam_stretch", "inseam stretch", "0 in", "0 in", "3/8 in", "How much shorter the back inseam is cut than the front, to be stretched with the iron."),

		l("darts", "front_dart_width", "front dart width", "1 in", "1/4 in", "2 in", "Cloth taken in by the front dart at the waist."),
		l("darts", "front_dart_length", "front dart length", "4 in", "2 in", "6 in", "Waist seam to the point of the front dart."),
		l("darts", "front_dart_from", "front dart from centre", "4 in", "2 in", "6 in", "Centre front to the middle of the front dart."),
		l("darts", "back_dart_width", "back dart width", "1 in", "1/4 in", "2 in", "Cloth taken in by the back dart at the waist."),
		l("darts", "back_dart_length", "back dart length", "4 in", "2 in", "7 in", "Waist seam to the point of the back dart."),
		l("darts", "back_dart_from", "back dart from centre", "4 in", "2 in", "6 in", "Centre back to the middle of the back dart."),

		l("darts", "pleat_width", "pleat width", "1 1/2 in", "3/4 in", "3 in", "Cloth folded in by the first pleat at the waist; a second one takes two thirds of it."),
		l("darts", "pleat_length", "pleat length", "3 in", "1 in", "6 in", "Waist seam to where a pleat opens."),

		l("fly", "fly_length", "fly length", "6 in", "3 in", "10 in", "Waist seam to the end of the fly."),
		l("fly", "fly_width", "fly width", "4 in", "2 1/2 in", "6 in", "Width of the fly facing and shield as cut; both are folded double."),

		l("fly", "zip_length", "zip length", "7 in", "4 in", "12 in", "Waist seam to the end of a zip in the side or at the centre back."),

		l("pocket", "pocket_along_waist", "pocket along waist", "3 in", "1 in", "5 in", "Side seam to the top of the pocket mouth."),
		l("pocket", "pocket_down_side", "pocket down side", "6 in", "4 in", "9 in", "Waist seam to the lower end of the pocket mouth."),
		l("pocket", "pocket_hollow", "pocket hollow", "3/8 in", "0 in", "1 1/2 in", "How far the pocket mouth is hollowed from straight."),
		l("pocket", "pocket_depth", "pocket depth", "6 1/2 in", "4 in", "10 in", "How far the bag hangs below the mouth."),
		l("pocket", "pocket_width", "pocket width", "6 in", "4 in", "8 in", "Width of the bag, where there is room before crease and fly."),
		l("pocket", "pocket_facing", "pocket facing", "2 in", "1 in", "3 in", "Width of the cloth that faces the pocket mouth."),

		l("pocket", "back_pocket_down", "back pocket down", "3 in", "1 1/2 in", "5 in", "Waist to the mouth of a back pocket."),
		l("pocket", "back_pocket_width", "back pocket width", "5 1/2 in", "4 in", "7 in", "Mouth of a back pocket, where there is room for it."),
		l("pocket", "pocket_seam_top", "in-seam pocket top", "1 1/2 in", "1/2 in", "4 in", "Waist seam to the upper end of a pocket mouth in the side seam."),

		l("leg", "back_leg_extra", "back leg extra", "1 in", "0 in", "2 in", "How much wider the back leg is than the front, half on each side."),
		l("leg", "thigh_taper", "thigh taper", "1/4 in", "0 in", "2 in", "How much the front leg must narrow from the fork line to the thigh line, so that it does not bulge below the fork."),
		l("leg", "leg_set", "leg set in", "0 in", "-1 in", "1 in", "How far in from the middle of the fork line the crease hangs; less than nought is further out."),
		l("leg", "hem_girth", "hem girth", "0 in", "0 in", "40 in", "Finished hem all round; 0 takes it from the leg's shape."),
		l("leg", "taper", "taper", "4 in", "0 in", "10 in", "How much a tapered leg narrows from knee to hem, all round."),
		l("leg", "flare", "flare", "6 in", "1 in", "16 in", "How much a flared leg widens from knee to hem, all round."),
		l("leg", "wide_leg", "wide leg", "4 in", "1 in", "16 in", "How much wider than the thigh a wide leg is at the hem, all round."),
		l("leg", "turn_up", "turn-up", "1 1/2 in", "3/4 in", "3 in", "Height of a turn-up; twice as much cloth is added below the hem."),
		l("leg", "ankle_lift", "ankle lift", "3 in", "1 in", "6 in", "How far a hem at the ankle hangs above a full one."),
		l("leg", "shorts_leg", "leg of shorts", "9 in", "7 in", "14 in", "Fork line to the hem of shorts."),
		l("leg", "crease_tuck", "crease tuck", "1/16 in", "1/32 in", "1/4 in", "Depth of the tuck when the crease is stitched; twice as much cloth is added."),

		o("short cloth", "hidden_lining", "hidden pieces of lining", "Fly facing, fly shield and the facing of the pocket mouth are cut from the lining."),
		o("short cloth", "band_lining", "band lined", "The inner layer of the band is cut from the lining; a band with an elastic is folded all the same."),
		o("short cloth", "band_join", "band joined", "The band is cut in two halves, joined at the centre back."),
		o("short cloth", "band_across", "band across the grain", "The band is cut with its length across the cloth."),
		l("short cloth", "back_piecing", "piece let in at the back fork", "0 in", "0 in", "4 in", "Width of a piece let in at the tip of the back fork; 0 is none, and less than an inch is widened to it."),
	}
}
