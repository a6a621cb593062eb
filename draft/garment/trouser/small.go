package trouser

import (
	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// smallParts lays what is cut from the rest of the cloth: pocket, fly, band,
// loops. Pocket marks lie on the front; the others have frames of their own.
func (d *drafter) smallParts() {
	if d.Err() != nil || d.refuse != nil {
		return
	}
	if d.fly() {
		d.flyMarks()
	} else {
		d.zipMarks()
	}
	d.weltMarks()
	d.turnUpMarks()
	switch {
	case slanted(d.in.Style["pocket"]):
		d.pocketMarks()
	case d.has("pocket", "seam"):
		d.seamPocketMarks()
	}
	d.bandSums()
}

func (d *drafter) flyMarks() {
	d.Part("front")
	d.Solved("front.straight_centre", d.T("straight of the centre front"), d.Point("front.fork_start").Y-d.Point("front.waist_centre").Y, d.T("from the waist seam to where the fork curve begins"))
	d.Value("fly.length", d.T("fly, waist seam to its end"), "least(fly_length, front.straight_centre)", d.T("the fly ends where the fork curve begins, if not before"))
	d.Measure("front.fly_end", d.T("end of the fly"), "front.waist_centre", down(d.T("down the centre-front line")), "fly.length", d.T("the zip ends here; notch it"))
	d.Part(say.Word("fly facing"))
	d.Value("fly.cut_length", d.T("fly facing and shield as cut"), "fly.length + 0.75 in + waist_allowance", d.T("a little longer than the fly, to close below it"))
	d.Value("fly.cut_width", d.T("fly facing and shield, width as cut"), "fly_width", d.T("cut double and folded"))
	d.Value("fly.folded", d.T("fly facing and shield, folded"), "(fly.cut_width - 2 * seam_allowance)/2", d.T("half of what is left inside the allowances"))
	d.Part("front")
	d.Value("fly.stitched", d.T("fly stitching from the centre front"), "fly.folded - 0.125 in", d.T("a little inside the fold of the facing, to catch it"))
	d.Measure("front.fly_top", d.T("fly stitching at the waist"), "front.waist_centre", toSide(d.T("square out to the side")), "fly.stitched", d.T("stitched from here, on the front that laps over"))
	d.Measure("front.fly_turn", d.T("fly stitching, where it turns"), "front.fly_top", down(d.T("straight down")), "fly.length - fly.stitched", d.T("from here it rounds in"))
	d.Curve(flyStitching, d.T("fly stitching"), roundedIn(d.Point("front.fly_top"), d.Point("front.fly_turn"), d.Point("front.fly_end")), d.T("straight down, then a quarter round to the end of the fly"))
}

// flyStitching is the step that draws where the fly is stitched.
const flyStitching = "front.fly_stitching"

// roundedIn runs straight from top to turn, then a quarter round to end.
func roundedIn(top, turn, end geom.Pt) geom.Path {
	return geom.Path{geom.Line(top, turn), quarter(turn, end, geom.Pt{X: turn.X, Y: end.Y})}
}

// pocketGap keeps the pocket mouth clear of the dart, and the bag clear of
// crease and fly: a finger's breadth.
const pocketGap = 20.0

// leastMouth is the least waist that a slant pocket can start from, mm.
const leastMouth = 25.4

func (d *drafter) pocketMarks() {
	d.Part("front")
	rec, _ := d.Record()
	waist := rec.Path("front.waist")
	room := waist.Len()
	for _, mark := range []string{"front.dart2_leg_out", "front.dart_leg_out"} {
		if rec.Has(mark) {
			s, _ := waist.Nearest(d.Point(mark))
			room -= s
			break
		}
	}
	room -= pocketGap
	if room < leastMouth {
		d.refuse = &garment.Impossible{
			What: d.F("between dart and side there is %s of waist for the pocket mouth", d.in.Format.Text(unit.Length(room))),
			Mend: d.T("leave out the dart or the pocket, or set the dart nearer the centre"),
		}
		return
	}
	d.Solved("pocket.room", d.T("waist between dart and side"), room, d.T("measured along the waist, a finger's breadth kept from the dart"))
	d.Value("pocket.along", d.T("pocket mouth, along the waist"), "least(pocket_along_waist, pocket.room)", d.T("from the side seam along the waist"))
	d.Along("front.pocket_top", d.T("pocket mouth at the waist"), "front.waist", "front.waist_side", true, "pocket.along", d.T("where the hand goes in"))
	d.Along("front.pocket_low", d.T("pocket mouth at the side"), "front.side", "front.waist_side", false, "pocket_down_side", d.T("where the hand goes in"))
	at, low := d.Point("front.pocket_top"), d.Point("front.pocket_low")
	hollow, why := d.Get("pocket_hollow"), d.T("a slant, hollowed towards the centre")
	if d.has("pocket", "straight_slant") {
		hollow, why = 0, d.T("a straight slant")
	}
	d.Curve("front.pocket_mouth", d.T("pocket mouth"), hollowed(at, low, hollow), why, "pocket_hollow")

	d.bagMarks()
}

// hollowed is a curve from a to b, bowed to the right of its travel by depth.
func hollowed(a, b geom.Pt, depth float64) geom.Path {
	v := b.Sub(a)
	off := v.Unit().Right().Scale(depth * 4 / 3)
	return geom.Path{{A: a, B: a.Lerp(b, 1.0/3).Add(off), C: a.Lerp(b, 2.0/3).Add(off), D: b}}
}

func (d *drafter) bandSums() {
	rec, _ := d.Record()
	d.Part(say.Word("waistband"))
	for _, part := range []string{"front", "back"} {
		w := rec.Path(part + ".waist")
		l := w.Len()
		for _, one := range d.dartList(part) {
			a, _ := w.Nearest(d.Point(part + "." + one.mark + "_leg_in"))
			b, _ := w.Nearest(d.Point(part + "." + one.mark + "_leg_out"))
			l -= b - a
		}
		d.Solved(part+".waist_closed", d.F("%s waist, dart closed", d.T(part)), l, d.T("measured along the waist seam"))
	}
	front := "front.waist_closed"
	if d.frontWaistTuck() > 0 {
		front = "front.waist_closed - tuck_cloth"
	}
	d.Value("band.front", d.T("band, front"), front, d.T("the made-up front"))
	d.Value("band.waist", d.T("made-up waist"), "2 * (band.front + back.waist_closed)", d.T("both fronts and both backs, darts and tucks sewn; measure the sewn garment before you cut the band"))
	if d.has("closure", "elastic") {
		d.Value("band.length", d.T("band, end to end"), "band.waist", d.T("the made-up waist: the band is sewn to a ring, a casing for the elastic"))
	} else {
		d.Value("band.length", d.T("band, end to end"), "band.waist + band_lap", d.T("the made-up waist and the lap"))
	}
	d.bandHalves()
	lined := bandLined(d.in.Style["closure"], d.in.Rules.On("band_lining"))
	if d.has("band", "shaped") {
		why := d.T("a shaped band lies closer above; it is cut in two layers")
		if lined {
			why = d.T("a shaped band lies closer above; its inner layer is cut from the lining")
		}
		d.Value("band.upper", d.T("band, upper edge"), "band.length - band_shape", why)
		d.loopSums()
		return
	}
	d.Value("band.cut_length", d.T("band as cut, length"), "band.length + 2 * seam_allowance", d.T("and an allowance at each end"))
	if lined {
		d.Value("band.cut_width", d.T("band as cut, width"), "waistband_width + seam_allowance + waist_allowance", d.T("one layer, and as much again of the lining, with an allowance on each long edge"))
	} else {
		d.Value("band.cut_width", d.T("band as cut, width"), "2 * waistband_width + 2 * waist_allowance", d.T("folded double, with an allowance on each long edge"))
	}
	d.loopSums()
}

func (d *drafter) loopSums() {
	if d.Get("belt_loops") > 0 {
		d.Part(say.Word("belt loops"))
		d.Value("loops.each", d.T("one loop as cut"), "waistband_width + 1 in", d.T("the band's width and an inch to sew down"))
		d.Value("loops.strip", d.T("loop strip"), "belt_loops * loops.each", d.T("all the loops in one strip"))
	}
}
