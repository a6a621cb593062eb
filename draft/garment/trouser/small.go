package trouser

import (
	"math"

	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// smallParts lays what is cut from the rest of the cloth: pocket, fly, band,
// loops. Pocket marks lie on the front; the others have frames of their own.
func (d *drafter) smallParts() {
	if d.Err() != nil {
		return
	}
	d.flyMarks()
	if d.has("pocket", "slant") {
		d.pocketMarks()
	}
	d.bandSums()
}

func (d *drafter) flyMarks() {
	d.Part("front")
	d.Solved("front.straight_centre", "straight of the centre front", d.Point("front.fork_start").Y, "from the waist seam to where the fork curve begins")
	d.Value("fly.length", "fly, waist seam to its end", "least(fly_length, front.straight_centre)", "the fly ends where the fork curve begins, if not before")
	d.Measure("front.fly_end", "end of the fly", "front.waist_centre", down("down the centre-front line"), "fly.length", "the zip ends here; notch it")
	d.Part("fly facing")
	d.Value("fly.cut_length", "fly facing and shield as cut", "fly.length + 0.75 in + waist_allowance", "a little longer than the fly, to close below it")
	d.Value("fly.cut_width", "fly facing and shield, width as cut", "fly_width", "cut double and folded")
	d.Value("fly.folded", "fly facing and shield, folded", "(fly.cut_width - 2 * seam_allowance)/2", "half of what is left inside the allowances")
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
	if rec.Has("front.dart_leg_out") {
		s, _ := waist.Nearest(d.Point("front.dart_leg_out"))
		room -= s
	}
	room -= pocketGap
	if room < leastMouth {
		d.refuse = &garment.Impossible{
			What: "between dart and side there is " + d.in.Format.Text(unit.Length(room)) + " of waist for the pocket mouth",
			Mend: "leave out the dart or the pocket, or set the dart nearer the centre",
		}
		return
	}
	d.Solved("pocket.room", "waist between dart and side", room, "measured along the waist, a finger's breadth kept from the dart")
	d.Value("pocket.along", "pocket mouth, along the waist", "least(pocket_along_waist, pocket.room)", "from the side seam along the waist")
	d.Along("front.pocket_top", "pocket mouth at the waist", "front.waist", "front.waist_side", true, "pocket.along", "where the hand goes in")
	d.Along("front.pocket_low", "pocket mouth at the side", "front.side", "front.waist_side", false, "pocket_down_side", "where the hand goes in")
	at, low := d.Point("front.pocket_top"), d.Point("front.pocket_low")
	d.Curve("front.pocket_mouth", "pocket mouth", hollowed(at, low, d.Get("pocket_hollow")), "a slant, hollowed towards the centre", "pocket_hollow")

	d.Solved("pocket.low_level", "lower end of the mouth below the waist line", low.Y, "straight down")
	d.Value("pocket.bottom", "pocket bag, waist line to its bottom", "pocket.low_level + pocket_depth", "so far below the mouth")
	inner := d.Point("front.waist_side").X - d.Get("pocket_width")
	crease, fly := d.Point("front.crease_fork").X, d.Point("front.waist_centre").X+d.Get("fly_width")/2
	inner = math.Max(inner, math.Max(crease, fly)+pocketGap)
	d.Solved("pocket.inner", "inner edge of the pocket bag from the centre front", inner, "clear of the crease and of the fly", "pocket_width", "fly_width")
}

// hollowed is a curve from a to b, bowed to the right of its travel by depth.
func hollowed(a, b geom.Pt, depth float64) geom.Path {
	v := b.Sub(a)
	off := v.Unit().Right().Scale(depth * 4 / 3)
	return geom.Path{{A: a, B: a.Lerp(b, 1.0/3).Add(off), C: a.Lerp(b, 2.0/3).Add(off), D: b}}
}

func (d *drafter) bandSums() {
	rec, _ := d.Record()
	d.Part("waistband")
	for _, part := range []string{"front", "back"} {
		w := rec.Path(part + ".waist")
		l := w.Len()
		if rec.Has(part + ".dart_leg_in") {
			a, _ := w.Nearest(d.Point(part + ".dart_leg_in"))
			b, _ := w.Nearest(d.Point(part + ".dart_leg_out"))
			l -= b - a
		}
		d.Solved(part+".waist_closed", part+" waist, dart closed", l, "measured along the waist seam")
	}
	front := "front.waist_closed"
	if d.frontWaistTuck() > 0 {
		front = "front.waist_closed - tuck_cloth"
	}
	d.Value("band.front", "band, front", front, "the made-up front")
	d.Value("band.waist", "made-up waist", "2 * (band.front + back.waist_closed)", "both fronts and both backs, darts and tucks sewn; measure the sewn garment before you cut the band")
	d.Value("band.length", "band, end to end", "band.waist + band_lap", "the made-up waist and the lap")
	d.Value("band.cut_length", "band as cut, length", "band.length + 2 * seam_allowance", "and an allowance at each end")
	d.Value("band.cut_width", "band as cut, width", "2 * waistband_width + 2 * waist_allowance", "folded double, with an allowance on each long edge")
	if d.Get("belt_loops") > 0 {
		d.Part("belt loops")
		d.Value("loops.each", "one loop as cut", "waistband_width + 1 in", "the band's width and an inch to sew down")
		d.Value("loops.strip", "loop strip", "belt_loops * loops.each", "all the loops in one strip")
	}
}
