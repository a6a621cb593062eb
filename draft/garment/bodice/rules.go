package bodice

import "chalkfold/draft/rules"

// Defs returns the house rules of bodices. The defaults are common practice.
// Rules that mean the same for other garments have their names.
func Defs() []rules.Def {
	def := func(kind rules.Kind) func(group, id, name, def, lo, hi, explain string) rules.Def {
		return func(group, id, name, def, lo, hi, explain string) rules.Def {
			return rules.Def{ID: rules.ID(id), Name: name, Kind: kind, Default: def, Min: lo, Max: hi, Explain: explain, Group: group}
		}
	}
	l, n := def(rules.Length), def(rules.Ratio)
	return []rules.Def{
		l("allowances", "seam_allowance", "seam allowance", "1/2 in", "1/4 in", "1 1/2 in", "Cloth beyond the sew line of every seam."),
		l("allowances", "curve_allowance", "curve allowance", "3/8 in", "1/4 in", "3/4 in", "Cloth beyond the sew line of neck and armhole, which curve too much for more."),
		l("allowances", "bodice_foot_allowance", "bodice foot allowance", "3/4 in", "1/4 in", "2 in", "Cloth below the waist, to sew a skirt to or to face."),

		l("ease", "bust_ease", "bust ease", "2 in", "0 in", "6 in", "Room at the bust over the body, all round."),
		l("ease", "bodice_waist_ease", "bodice waist ease", "1 in", "0 in", "4 in", "Room at the waist over the body, all round."),
		l("ease", "back_width_ease", "back width ease", "1/2 in", "0 in", "2 in", "Room across the back, all of it."),
		l("ease", "scye_ease", "scye ease", "1/4 in", "0 in", "2 in", "How far the armhole lies below the armpit."),
		l("ease", "bust_wider", "front wider at the bust", "1/2 in", "0 in", "2 in", "How much wider each half of the front is at the bust than a quarter of it; the back is so much narrower."),
		l("ease", "bodice_waist_wider", "front wider at the waist", "1/2 in", "0 in", "2 in", "How much wider each half of the front is at the waist than a quarter of it; the back is so much narrower."),

		n("neck", "neck_part", "neck part", "5", "4", "7", "The neck is this part of the neck-base girth wide, to each side of the middle, less a quarter of an inch."),
		l("neck", "nape_rise", "nape rise", "3/4 in", "1/4 in", "1 1/2 in", "How far the side of the neck lies above the nape."),
		l("neck", "neck_deeper", "front neck deeper", "1/2 in", "0 in", "6 in", "How much deeper the front neck is than it is wide."),

		l("shoulder", "shoulder_drop", "shoulder drop", "1 5/8 in", "1/2 in", "3 in", "How far the shoulder falls from the neck to its end."),
		l("shoulder", "shoulder_in", "shoulder cut in", "1/2 in", "0 in", "3 in", "How much shorter than her shoulder the shoulder is cut, since there is no sleeve."),
		l("shoulder", "chest_narrower", "chest narrower", "1/2 in", "0 in", "2 in", "How much narrower each half of the chest is than half the back width."),
		l("shoulder", "front_scye_higher", "front armhole higher", "1/2 in", "0 in", "1 1/2 in", "How much less the front armhole is deep than the back's."),

		l("darts", "least_bust_dart", "least bust dart", "3/4 in", "0 in", "3 in", "What the bust dart takes in at least."),
		l("darts", "most_bust_dart", "most bust dart", "3 1/2 in", "1 in", "5 in", "What the bust dart takes in at most."),
		l("darts", "bust_dart_short", "bust dart short of the point", "1 in", "1/2 in", "2 1/2 in", "How far from the bust point the darts end."),
		l("darts", "bust_dart_lower", "bust dart lower at the side", "1 in", "0 in", "3 in", "How far below the level of the bust point the side dart begins: it rises to the bust."),
		l("darts", "bodice_waist_dart", "waist dart width", "1 1/4 in", "1/4 in", "3 in", "Cloth taken in by each waist dart, as spoken."),
		l("darts", "back_dart_below", "back dart below the scye line", "1 in", "0 in", "3 in", "How far below the level of the armhole the back waist dart ends."),
		n("darts", "bodice_side_part", "side part", "0.35", "0", "1", "How much of what bust and waist differ by each side takes in; the dart takes the rest."),
		l("darts", "bodice_most_side", "most at the bodice side", "1 1/4 in", "1/2 in", "2 1/2 in", "The most that one side may take in between bust and waist."),

		l("openings", "bodice_zip", "bodice zip above the waist", "0 in", "0 in", "20 in", "How far up from the waist a zip at the side reaches; 0 is to 1 in below the armhole."),
		l("facing", "facing_depth", "facing depth", "2 1/2 in", "1 1/2 in", "5 in", "How far a facing reaches below the neck and the armhole."),
	}
}
