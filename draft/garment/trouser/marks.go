package trouser

import (
	"math"

	"chalkfold/draft/construct"
	"chalkfold/draft/geom"
	"chalkfold/draft/say"
)

func down(words string) construct.Way     { return construct.Down(words) }
func up(words string) construct.Way       { return construct.Up(words) }
func toSide(words string) construct.Way   { return construct.ToSide(words) }
func toCentre(words string) construct.Way { return construct.ToCentre(words) }

// frontMarks lays the front as it is spoken, on the centre-front line.
func (d *drafter) frontMarks() {
	d.Part(say.Word("front"))
	d.Edge("front.clear", d.T("centre-front line"), d.T("the long edge on the fork's side"), "front.reach + 1.35 * seam_allowance",
		d.T("the fork and the corner of its allowance must find room before the edge; keep clear of the selvedge"))
	d.Edge("front.down", d.T("waist line"), d.T("the cut end of the cloth"), "waist_allowance + 1.5 in"+d.in.Term("front.waist_centre"),
		d.T("the waist allowance, and room for the side to rise"))
	d.Origin("front.waist_centre", d.T("centre front at the waist"), geom.Pt{},
		d.T("on a line parallel to the selvedge, below the waist allowance"))
	downCF := down(d.T("down the centre-front line"))
	for _, l := range []string{"hip", "fork", "thigh", "knee", "hem"} {
		d.Measure("front."+l+"_centre", d.F("%s at the centre front", d.levelLine(l)), "front.waist_centre", downCF, l+"_level", d.why(l+"_level"))
	}
	out := toSide(d.T("square out to the side"))
	d.Measure("front.waist_side", d.T("front side at the waist"), "front.waist_centre", out, "front.waist_width", d.why("front.waist_width"))
	d.LiftSide("front")
	d.Measure("front.hip_side", d.T("front side at the hip"), "front.hip_centre", out, "front.hip_width", d.why("front.hip_width"))
	d.Measure("front.fork_side", d.T("front side at the fork line"), "front.fork_centre", out, "front.hip_width", d.T("the hip width carried down"))
	d.Measure("front.fork_tip", d.T("front fork tip"), "front.fork_centre", toCentre(d.T("beyond the centre-front line")), "front.reach", d.why("front.reach"))
	d.Mid("front.crease_fork", d.T("crease at the fork line"), "front.fork_tip", "front.fork_side", d.T("the crease halves the fork line"))
	d.setLeg("front")
	d.legMarks("front", "front.crease_fork")
	d.frontDartPlaces()
}

func (d *drafter) why(value string) string { return d.Why(value) }

// legMarks lays the crease down from the fork line, and the leg about it.
func (d *drafter) legMarks(part, fork string) {
	for _, l := range []string{"thigh", "knee", "hem"} {
		crease := part + ".crease_" + l
		d.Measure(crease, d.F("%s crease at the %s", d.T(part), d.levelLine(l)), fork, down(d.T("straight down on the grain")), l+"_level - fork_level", d.T("the crease hangs on the grain"))
		half := part + "." + l + "_width/2"
		d.Measure(part+"."+l+"_out", d.F("%s %s, side", d.T(part), d.lineName(l)), crease, toSide(d.F("along the %s to the side", d.levelLine(l))), half, d.T("half on each side of the crease"))
		d.Measure(part+"."+l+"_in", d.F("%s %s, inside", d.T(part), d.lineName(l)), part+"."+l+"_out", toCentre(d.F("back along the %s to the inside", d.levelLine(l))), part+"."+l+"_width", d.T("the whole width, so that halves need not be rounded twice"))
	}
}

// backMarks lays the back on the front.
func (d *drafter) backMarks() {
	d.Part(say.Word("back"))
	d.Value("back.tilt", d.T("seat tilt, as drawn"), "seat_tilt", d.T("the centre back leans in by the seat tilt"))
	d.trued(trueTilt, func() {
		if full := d.Get("hip_drop") - d.Get("waistband_width"); d.Get("hip_level") < full-0.01 {
			d.Renew("back.tilt_fitted", d.T("seat tilt, fitted"), "back.tilt", "seat_tilt * hip_level / (hip_drop - waistband_width)",
				d.T("the rule is for a hip line at the hip drop; a higher hip line keeps the slope"))
		}
	})
	d.rebalance("back.tilt")
	d.Alter("back.tilt")
	raise := d.raise("back.raise", d.T("centre-back raise"), "centre_back_raise")
	d.Measure("back.tilt_in", d.T("seat tilt at the waist line"), "front.waist_centre", toSide(d.T("towards the side, along the waist line")), "back.tilt", d.T("the centre back leans in by the seat tilt"))
	d.Measure("back.waist_centre", d.T("centre back at the waist"), "back.tilt_in", up(d.T("straight up")), raise, d.T("the centre back stands higher, to sit in"))
	d.Place("back.hip_centre", d.T("seat line at the hip"), "front.hip_centre", d.T("on the front's own mark"), d.Point("front.hip_centre"), d.T("the seat line turns about the front's hip mark"))
	d.Alter("back.waist_centre")
	for _, l := range []string{"hip", "fork"} {
		name, label, from := "back."+l+"_side", d.F("back side at the %s", d.levelLine(l)), "front."+l+"_side"
		switch {
		case d.has("crease", "tuck"):
			d.Measure(name, label, from, toCentre(d.F("inwards along the %s", d.levelLine(l))), "tuck_cloth", d.T("above the fork the back has no tuck"))
		case d.pleats() > 0:
			d.Measure(name, label, from, toCentre(d.F("inwards along the %s", d.levelLine(l))), "pleat_room", d.T("the back has no pleat"))
		default:
			d.Place(name, label, from, d.T("on the front's own mark"), d.Point(from), d.T("as the front"))
		}
	}
	d.Swing("back.waist_side", d.T("back side at the waist"), "back.waist_centre", "front.waist_centre", 1,
		d.T("swing the tape out until it meets the waist line"), "back.waist_width", d.why("back.waist_width"))
	d.LiftSide("back")
	d.trued(trueHip, func() {
		u := d.seatDir()
		to := d.Point("back.hip_centre").Add(geom.Vec{X: d.Get("hip_part") / math.Abs(u.Y)})
		d.Move("back.hip_side_kept", d.T("back side at the hip, hip kept"), "back.hip_side", d.T("along the hip line"), to,
			d.T("until the tape, square to the seat line, measures the hip of one panel"))
		fork := geom.Pt{X: to.X, Y: d.Point("back.fork_side").Y}
		d.Move("back.fork_side_kept", d.T("back side at the fork line, hip kept"), "back.fork_side", d.T("along the fork line"), fork, d.T("the hip width carried down"))
	})
	if d.by == nil {
		d.trued(trueFork, d.letOutFork) // balanced, the fork seam is as long as the body wants it
	}
	d.matchFork()
	d.Edge("back.clear", d.T("centre-front line of the front, laid on the cloth"), d.T("the long edge on the fork's side"), "front.reach + back.reach + 1.35 * seam_allowance",
		d.T("the back fork reaches further and must find room before the edge; keep clear of the selvedge"))
	d.Edge("back.down", d.T("waist line of the front"), d.T("the cut end of the cloth"), "centre_back_raise + waist_allowance + centre_back_inlay/2 + 1.5 in"+d.in.Term("back.waist_centre"),
		d.T("the centre back stands higher, and has its allowance"))
	d.Measure("back.fork_tip", d.T("back fork tip"), "front.fork_tip", toCentre(d.T("further out along the fork line")), "back.reach", d.why("back.reach"))
	if at, ok := geom.CrossLines(d.Point("back.waist_centre"), d.seatDir(), d.Point("front.fork_centre"), geom.Vec{X: 1}); ok {
		d.Place("back.fork_corner", d.T("seat line carried on to the fork line"), "back.hip_centre", d.T("on down the seat line, to the fork line"), at, d.T("the corner of the back fork"))
	}
	d.Place("back.crease_fork", d.T("back crease at the fork line"), "front.crease_fork", d.T("on the front's own mark"), d.Point("front.crease_fork"), d.T("the back leg lies on the front leg"))
	d.trued(trueLeg, func() {
		d.Move("back.crease_halved", d.T("back crease at the fork line, back fork halved"), "back.crease_fork", d.T("along the fork line"),
			d.Point("back.fork_tip").Lerp(d.Point("back.fork_side"), 0.5), d.T("the back crease halves the back fork line, as the front's halves its own"))
	})
	if d.in.Trues(trueLeg) { // otherwise it is the front's, which has moved
		d.setLeg("back")
	}
	d.legMarks("back", "back.crease_fork")
	d.backDartPlaces()
	d.raiseFront()
}

// setLeg moves the crease from the middle of the fork line, by the rule of the
// house and by what was seen at a fitting.
func (d *drafter) setLeg(part string) {
	crease := part + ".crease_fork"
	if d.Get("leg_set") != 0 {
		d.Shift(part+".crease_set", d.F("%s crease at the fork line, leg set in", d.T(part)), crease, toCentre(d.T("along the fork line")), "leg_set", d.T("so that the leg hangs straight"))
	}
	d.Alter(crease)
}

// raise is the name of how far a centre stands above the waist line: its rule,
// or the sum that the balanced method may change.
func (d *drafter) raise(sum, label, rule string) string {
	if d.by == nil {
		return rule
	}
	d.Value(sum, label, rule, d.T("how far the centre stands above the waist line"))
	d.rebalance(sum)
	return sum
}

// raiseFront moves the centre front, once all is marked from where the waist
// line was.
func (d *drafter) raiseFront() {
	d.Part("front")
	raise := d.raise("front.raise", d.T("centre-front raise"), "centre_front_raise")
	defer d.Alter("front.waist_centre")
	if d.Get(raise) == 0 {
		return
	}
	d.Shift("front.waist_centre_raised", d.T("centre front at the waist, raised"), "front.waist_centre", up(d.T("straight up")), raise,
		d.T("a full abdomen takes more length in front, a hollow one less"))
}

// seatDir is the unit direction down the seat line.
func (d *drafter) seatDir() geom.Vec {
	return d.Point("back.hip_centre").Sub(d.Point("back.waist_centre")).Unit()
}
