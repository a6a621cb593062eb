package skirt

import (
	"math"
	"strconv"

	"chalkfold/draft/construct"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
)

// frontMarks lays the front, on the fold of the cloth.
func (d *drafter) frontMarks() {
	d.Part(say.Word("front"))
	d.Edge("front.down", d.T("waist line"), d.T("the cut end of the cloth"), "waist_allowance + 1.5 in"+d.In.Term("front.waist_centre"), d.T("the waist allowance, and room for the side to rise"))
	why, along := d.T("on the fold, below the waist allowance"), d.T("down the fold")
	if d.In.Hand != piece.BothHands {
		why, along = d.T("on a line along the grain, below the waist allowance, with room for both halves beside it"), d.T("down the centre line")
	}
	d.Origin("front.waist_centre", d.T("centre front at the waist"), geom.Pt{}, why)
	downCF := construct.Down(along)
	for _, l := range [][2]string{{"hip", d.T("hip line")}, {"hem", d.T("hem line")}} {
		d.Measure("front."+l[0]+"_centre", d.F("%s at the centre front", l[1]), "front.waist_centre", downCF, l[0]+"_level", d.Why(l[0]+"_level"))
	}
	out := construct.ToSide(d.T("square out to the side"))
	d.Measure("front.waist_out", d.T("front waist, straight out"), "front.waist_centre", out, "front.waist_width", d.Why("front.waist_width"))
	d.Measure("front.waist_side", d.T("front side at the waist"), "front.waist_out", construct.Up(d.T("straight up")), "side_raise", d.T("over the curve of the hip the waist stands higher at the side"))
	d.LiftSide("front")
	d.Measure("front.hip_side", d.T("front side at the hip"), "front.hip_centre", out, "front.hip_width", d.Why("front.hip_width"))
	d.hemSide("front", "front.hem_centre")
	d.dartsFrom("front")
}

// hemSide lays where the side ends: as wide as the hip, or further out or in by
// so much at the knee, and evenly more or less above and below it.
func (d *drafter) hemSide(part, centre string) {
	formula, why := part+".hip_width", d.T("as wide as the hip")
	share := " * (hem_level - hip_level)/(waist_to_knee - hip_level)"
	switch {
	case d.Has("shape", "a_line"):
		formula, why = formula+" + flare"+share, d.T("the side runs out, so far at the knee and evenly more below")
	case d.Has("shape", "pencil"):
		formula, why = formula+" - peg"+share, d.T("the side runs in, so far at the knee and evenly more below")
	}
	d.Measure(part+".hem_side", d.F("%s side at the hem", d.T(part)), centre, construct.ToSide(d.T("square out to the side")), formula, why)
	d.Trued(trueHem, func() {
		if d.Has("shape", "straight") || d.Err() != nil {
			return
		}
		d.Move(part+".hem_side_kept", d.F("%s side at the hem, raised or dropped", d.T(part)), part+".hem_side", d.T("along the side"), d.squareFoot(part),
			d.T("until the hem, straight to half its width, meets the side squarely"))
	})
}

// squareFoot is where a side that runs out or in ends: half of the hem is
// straight, and an arc from there meets the side squarely. The chord of an arc
// leans by half of what the arc turns by.
func (d *drafter) squareFoot(part string) geom.Pt {
	hip, hem := d.Point(part+".hip_side"), d.Point(part+".hem_side")
	side := hem.Sub(hip).Unit()
	lean := math.Atan2(side.X, side.Y)
	down := hem.Y - hip.Y - (hip.X-d.hemBend(part).X)*math.Tan(lean/2)
	return hip.Add(side.Scale(down))
}

// hemBend is where the straight of a curved hem ends.
func (d *drafter) hemBend(part string) geom.Pt {
	return geom.Pt{X: d.Get(part+".hip_width") / 2, Y: d.Get("hem_level")}
}

// dartsFrom settles where the middle of each dart lies along the straight line
// from the centre to the side: the darts part the made-up waist evenly.
func (d *drafter) dartsFrom(part string) {
	n := d.darts[part]
	for i := 1; i <= n; i++ {
		// i parts of the made-up waist, and the darts before this one
		formula := times(i, part+".waist_made") + "/" + strconv.Itoa(n+1) + " + " + times(2*i-1, part+".dart") + "/2"
		d.Value(dartStep(part, i, "from"), d.F("%s from the centre", d.dartName(part, i)), formula, d.T("the darts part the waist evenly"))
		length := "skirt_" + part + "_dart_length"
		if i == 2 {
			length += " - second_dart_shorter"
		}
		d.Value(dartStep(part, i, "length"), d.F("%s, length", d.dartName(part, i)), "least("+length+", hip_level * 3/4)", d.T("it ends well above the hip line"))
	}
}

// dartStep names a step of the i-th dart of a part.
func dartStep(part string, i int, what string) string {
	return part + ".dart" + strconv.Itoa(i) + "_" + what
}

// dartName is what the i-th dart of a part is called.
func (d *drafter) dartName(part string, i int) string {
	if d.darts[part] == 1 {
		return d.F("%s dart", d.T(part))
	}
	return d.F("%s dart %d", d.T(part), i)
}

// backMarks lays the back on the front.
func (d *drafter) backMarks() {
	d.Part(say.Word("back"))
	if d.backSeam() {
		formula, why := "seam_allowance + 0.5 in", d.T("the centre back has a seam; keep clear of the selvedge")
		if d.Has("opening", "vent") {
			formula, why = "seam_allowance + vent_width + 0.5 in", d.T("the vent laps over the centre back; keep clear of the selvedge")
		}
		d.Edge("back.clear", d.T("fold of the front, laid on the cloth"), d.T("the long edge"), formula, why)
	}
	d.Measure("back.waist_centre", d.T("centre back at the waist"), "front.waist_centre", construct.Down(d.T("straight down")), "back_hollow", d.T("the waist dips at the centre back"))
	d.Alter("back.waist_centre")
	for _, l := range [][2]string{{"hip", d.T("hip line")}, {"hem", d.T("hem line")}} {
		at := "front." + l[0] + "_centre"
		d.Place("back."+l[0]+"_centre", d.F("%s at the centre back", l[1]), at, d.T("on the front's own mark"), d.Point(at), d.T("as the front"))
	}
	d.Measure("back.waist_out", d.T("back waist, straight out"), "front.waist_centre", construct.ToSide(d.T("square out to the side")), "back.waist_width", d.Why("back.waist_width"))
	d.Measure("back.waist_side", d.T("back side at the waist"), "back.waist_out", construct.Up(d.T("straight up")), "side_raise", d.T("over the curve of the hip the waist stands higher at the side"))
	d.LiftSide("back")
	d.Measure("back.hip_side", d.T("back side at the hip"), "front.hip_centre", construct.ToSide(d.T("square out to the side")), "back.hip_width", d.Why("back.hip_width"))
	d.hemSide("back", "back.hem_centre")
	d.dartsFrom("back")
	d.Part("front")
	d.Alter("front.waist_centre")
}

// backSeam reports whether the back has a seam at its centre.
func (d *drafter) backSeam() bool {
	return d.Has("closure", "zip_back") || d.Has("opening", "vent") || d.Has("opening", "slit")
}
