package trouser

import (
	"math"

	"chalkfold/draft/construct"
	"chalkfold/draft/geom"
)

func down(words string) construct.Way     { return construct.Fixed(words, geom.Vec{Y: 1}) }
func up(words string) construct.Way       { return construct.Fixed(words, geom.Vec{Y: -1}) }
func toSide(words string) construct.Way   { return construct.Fixed(words, geom.Vec{X: 1}) }
func toCentre(words string) construct.Way { return construct.Fixed(words, geom.Vec{X: -1}) }

// frontMarks lays the front as it is spoken, on the centre-front line.
func (d *drafter) frontMarks() {
	d.Part("front")
	d.Edge("front.clear", "centre-front line", "the long edge on the fork's side", "front.reach + 1.35 * seam_allowance",
		"the fork and the corner of its allowance must find room before the edge; keep clear of the selvedge")
	d.Edge("front.down", "waist line", "the cut end of the cloth", "waist_allowance + 1.5 in",
		"the waist allowance, and room for the side to rise")
	d.Origin("front.waist_centre", "centre front at the waist", geom.Pt{},
		"on a line parallel to the selvedge, below the waist allowance")
	downCF := down("down the centre-front line")
	for _, l := range []string{"hip", "fork", "thigh", "knee", "hem"} {
		d.Measure("front."+l+"_centre", l+" line at the centre front", "front.waist_centre", downCF, l+"_level", d.why(l+"_level"))
	}
	out := toSide("square out to the side")
	d.Measure("front.waist_side", "front side at the waist", "front.waist_centre", out, "front.waist_width", d.why("front.waist_width"))
	d.Measure("front.hip_side", "front side at the hip", "front.hip_centre", out, "front.hip_width", d.why("front.hip_width"))
	d.Measure("front.fork_side", "front side at the fork line", "front.fork_centre", out, "front.hip_width", "the hip width carried down")
	d.Measure("front.fork_tip", "front fork tip", "front.fork_centre", toCentre("beyond the centre-front line"), "front.reach", d.why("front.reach"))
	d.Mid("front.crease_fork", "crease at the fork line", "front.fork_tip", "front.fork_side", "the crease halves the fork line")
	d.legMarks("front", "front.crease_fork")
	if d.frontDarted {
		if d.has("front_dart", "pressed") {
			d.Solved("front.dart_from", "front dart from the centre", d.Point("front.crease_fork").X, "a pressed dart runs out in the crease")
		} else {
			d.Value("front.dart_from", "front dart from the centre", "front_dart_from", "so far from the centre")
		}
	}
}

func (d *drafter) why(value string) string {
	rec, _ := d.Record()
	s, _ := rec.Find(value)
	return s.Why
}

// legMarks lays the crease down from the fork line, and the leg about it.
func (d *drafter) legMarks(part, fork string) {
	for _, l := range []string{"thigh", "knee", "hem"} {
		crease := part + ".crease_" + l
		d.Measure(crease, part+" crease at the "+l+" line", fork, down("straight down on the grain"), l+"_level - fork_level", "the crease hangs on the grain")
		half := part + "." + l + "_width/2"
		d.Measure(part+"."+l+"_out", part+" "+l+", side", crease, toSide("along the "+l+" line to the side"), half, "half on each side of the crease")
		d.Measure(part+"."+l+"_in", part+" "+l+", inside", part+"."+l+"_out", toCentre("back along the "+l+" line to the inside"), part+"."+l+"_width", "the whole width, so that halves need not be rounded twice")
	}
}

// backMarks lays the back on the front.
func (d *drafter) backMarks() {
	d.Part("back")
	d.Value("back.tilt", "seat tilt, as drawn", "seat_tilt", "the centre back leans in by the seat tilt")
	d.trued(trueTilt, func() {
		if full := d.Get("hip_drop") - d.Get("waistband_width"); d.Get("hip_level") < full-0.01 {
			d.Renew("back.tilt_fitted", "seat tilt, fitted", "back.tilt", "seat_tilt * hip_level / (hip_drop - waistband_width)",
				"the rule is for a hip line at the hip drop; a higher hip line keeps the slope")
		}
	})
	d.Measure("back.tilt_in", "seat tilt at the waist line", "front.waist_centre", toSide("towards the side, along the waist line"), "back.tilt", "the centre back leans in by the seat tilt")
	d.Measure("back.waist_centre", "centre back at the waist", "back.tilt_in", up("straight up"), "centre_back_raise", "the centre back stands higher, to sit in")
	d.Place("back.hip_centre", "seat line at the hip", "front.hip_centre", "on the front's own mark", d.Point("front.hip_centre"), "the seat line turns about the front's hip mark")
	for _, l := range []string{"hip", "fork"} {
		name, label, from := "back."+l+"_side", "back side at the "+l+" line", "front."+l+"_side"
		if d.has("crease", "tuck") {
			d.Measure(name, label, from, toCentre("in along the "+l+" line"), "tuck_cloth", "above the fork the back has no tuck")
		} else {
			d.Place(name, label, from, "on the front's own mark", d.Point(from), "as the front")
		}
	}
	d.Swing("back.waist_side", "back side at the waist", "back.waist_centre", "front.waist_centre", 1,
		"swing the tape out until it meets the waist line", "back.waist_width", d.why("back.waist_width"))
	d.trued(trueHip, func() {
		u := d.seatDir()
		to := d.Point("back.hip_centre").Add(geom.Vec{X: d.Get("hip_part") / math.Abs(u.Y)})
		d.Move("back.hip_side_kept", "back side at the hip, hip kept", "back.hip_side", "along the hip line", to,
			"until the tape, square to the seat line, measures the hip of one panel")
		fork := geom.Pt{X: to.X, Y: d.Point("back.fork_side").Y}
		d.Move("back.fork_side_kept", "back side at the fork line, hip kept", "back.fork_side", "along the fork line", fork, "the hip width carried down")
	})
	d.trued(trueFork, d.letOutFork)
	d.Edge("back.clear", "centre-front line of the front, laid on the cloth", "the long edge on the fork's side", "front.reach + back.reach + 1.35 * seam_allowance",
		"the back fork reaches further and must find room before the edge; keep clear of the selvedge")
	d.Edge("back.down", "waist line of the front", "the cut end of the cloth", "centre_back_raise + waist_allowance + centre_back_inlay/2 + 1.5 in",
		"the centre back stands higher, and has its allowance")
	d.Measure("back.fork_tip", "back fork tip", "front.fork_tip", toCentre("further out along the fork line"), "back.reach", d.why("back.reach"))
	if at, ok := geom.CrossLines(d.Point("back.waist_centre"), d.seatDir(), d.Point("front.fork_centre"), geom.Vec{X: 1}); ok {
		d.Place("back.fork_corner", "seat line carried on to the fork line", "back.hip_centre", "on down the seat line, to the fork line", at, "the corner of the back fork")
	}
	d.Place("back.crease_fork", "back crease at the fork line", "front.crease_fork", "on the front's own mark", d.Point("front.crease_fork"), "the back leg lies on the front leg")
	d.trued(trueLeg, func() {
		d.Move("back.crease_halved", "back crease at the fork line, back fork halved", "back.crease_fork", "along the fork line",
			d.Point("back.fork_tip").Lerp(d.Point("back.fork_side"), 0.5), "the back crease halves the back fork line, as the front's halves its own")
	})
	d.legMarks("back", "back.crease_fork")
	if d.backDarted {
		d.Value("back.dart_from", "back dart from the centre", "back_dart_from", "so far from the centre")
	}
}

// seatDir is the unit direction down the seat line.
func (d *drafter) seatDir() geom.Vec {
	return d.Point("back.hip_centre").Sub(d.Point("back.waist_centre")).Unit()
}
