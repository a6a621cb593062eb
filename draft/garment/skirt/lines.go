package skirt

import (
	"math"

	"chalkfold/draft/garment"
	"chalkfold/draft/garment/dart"
	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// natural leaves an end of a line as it falls.
func natural() float64 { return math.NaN() }

// sidePath draws a side: fair from the waist to the hip, and straight from there
// to the hem.
func sidePath(waist, hip, hem geom.Pt) geom.Path {
	return append(geom.Fair([]geom.Pt{waist, hip}, natural(), (hem.X-hip.X)/(hem.Y-hip.Y)), geom.Line(hip, hem))
}

func (d *drafter) side(part string) geom.Path {
	return sidePath(d.Point(part+".waist_side"), d.Point(part+".hip_side"), d.Point(part+".hem_side"))
}

// dartsTo sets the darts of a part for a side mark: as spoken square to the
// straight line from its centre to the side, trued on the grain.
func (d *drafter) dartsTo(part string, side geom.Pt) []dart.Shape {
	var out []dart.Shape
	if d.In.Trues(trueWaist) {
		side.Y = d.Point(part + ".waist_centre").Y
	}
	for i := 1; i <= d.darts[part]; i++ {
		out = append(out, dart.New(d.Point(part+".waist_centre"), side,
			d.Get(dartStep(part, i, "from")), d.Get(part+".dart"), d.Get(dartStep(part, i, "length"))))
	}
	return out
}

// waist draws the waist of a part to a side mark.
func (d *drafter) waist(part string, side geom.Pt) dart.Edge {
	centre, darts := d.Point(part+".waist_centre"), d.dartsTo(part, side)
	if !d.In.Trues(trueWaist) {
		return dart.Straight(centre, side, darts)
	}
	// Square to the side.
	dir := sidePath(side, d.Point(part+".hip_side"), d.Point(part+".hem_side")).StartDir().Left()
	return dart.Squared(centre, geom.Vec{X: 1}, side, dir, darts)
}

// mostRise is the most that a side is raised, mm.
const mostRise = 1.5 * 25.4

// raise moves the front side up until the waist, with the darts closed, can run
// fair and meet the side squarely. On the body the waist turns by the lean of
// the side and by what the closed darts take in; a fair arc rises half of that,
// less what opening the darts lets the side drop.
func (d *drafter) raise() {
	from, hip := d.Point("front.waist_side"), d.Point("front.hip_side")
	lift := from.Y
	from.Y = d.Point("front.waist_out").Y - d.Get("side_raise")
	lift -= from.Y // of this side alone, on top
	turn, drop := math.Max(0, (hip.X-from.X)/(hip.Y-from.Y)), 0.0
	for i, one := range d.dartsTo("front", from) {
		turn += 2 * one.Half
		drop += 2 * one.Half * (d.Get("front.waist_width") - d.Get(dartStep("front", i+1, "from")))
	}
	rise := math.Max(0, math.Min(turn*d.Get("front.waist_made")/2-drop, mostRise))
	d.Solved("front.side_rise", d.T("front side above the waist line"), rise, d.T("found so that the waist, darts closed, runs fair and meets the leaning side squarely"))
	d.Move("front.waist_side_raised", d.T("front side at the waist, raised"), "front.waist_side", d.T("straight up or down"), geom.Pt{X: from.X, Y: lift - rise},
		d.T("the waist must meet the side squarely"))
}

// lines lays the truings that need the whole shape, then every sew line.
func (d *drafter) lines() {
	if d.Err() != nil {
		return
	}
	d.Part("front")
	d.Trued(trueWaist, func() {
		d.raise()
		d.keepWaist("front", func(x float64) geom.Pt { return geom.Pt{X: x, Y: d.Point("front.waist_side").Y} })
	})
	d.Part("back")
	if d.refuse == nil && (d.In.Trues(trueWaist) || d.In.Trues(trueSide)) {
		d.settleBack()
	}
	if d.refuse != nil {
		return
	}
	for _, part := range parts() {
		d.panelLines(part)
	}
	if d.refuse == nil && d.Err() == nil {
		d.openings()
		d.bandSums()
	}
}

// keepWaist moves a side mark level, along what at gives, until the waist, darts
// closed, measures what it must.
func (d *drafter) keepWaist(part string, at func(x float64) geom.Pt) {
	want, from := d.Get(part+".waist_made"), d.Point(part+".waist_side")
	x, ok := dart.Solve(from.X, func(x float64) float64 { return d.waist(part, at(x)).Closed - want })
	to := at(x)
	if !ok || to.Y > d.Point(part+".hip_side").Y-minStep.MM() {
		d.refuseSide(part, d.Point(part+".hip_side").X-x)
		return
	}
	d.Move(part+".waist_side_kept", d.F("%s side at the waist, waist kept", d.T(part)), part+".waist_side", d.T("level"), to,
		d.T("until the waist line, darts closed, measures the waist of this part"))
}

// settleBack finds the back side mark for which the waist, darts closed, and the
// side seam both measure what they must; either can be left as it is.
func (d *drafter) settleBack() {
	want, hip, hem := d.side("front").Len(), d.Point("back.hip_side"), d.Point("back.hem_side")
	start := d.Point("back.waist_side")
	level := func(x float64) geom.Pt {
		p := geom.Pt{X: x, Y: start.Y}
		for range 12 {
			off := sidePath(p, hip, hem).Len() - want
			p.Y = math.Min(p.Y+off, hip.Y-minStep.MM())
			if math.Abs(off) < 1e-4 {
				break
			}
		}
		return p
	}
	if !d.In.Trues(trueSide) {
		level = func(x float64) geom.Pt { return geom.Pt{X: x, Y: start.Y} }
	}
	if !d.In.Trues(trueWaist) {
		d.Trued(trueSide, func() {
			d.Move("back.waist_side_level", d.T("back side at the waist, up or down"), "back.waist_side", d.T("straight up or down"), level(start.X),
				d.T("until the back side is as long as the front side"))
		})
		return
	}
	d.Trued(trueWaist, func() { d.keepWaist("back", level) })
}

// refuseSide says that no side seam can take up what hip and waist differ by.
func (d *drafter) refuseSide(part string, in float64) {
	no := &garment.Impossible{
		What: d.F("between hip and waist the %s would have to be taken in by %s at the side, more than so short a seam can", d.T(part), d.In.Format.Text(unit.Length(in))),
		Mend: d.F("sew more darts in the %s, or let darts take in more", d.T(part)),
	}
	if in < 0 {
		no.What = d.F("between hip and waist the %s would have to go out by %s at the side, more than so short a seam can", d.T(part), d.In.Format.Text(unit.Length(-in)))
		no.Mend = d.T("measure the waist and the hip again, or take the darts away")
	}
	d.refuse = no
}

// panelLines lays side, hem, centre and waist of one part.
func (d *drafter) panelLines(part string) {
	d.Part(part)
	w := d.waist(part, d.Point(part+".waist_side"))
	if w.Broken {
		d.refuse = &garment.Impossible{
			What: d.F("the darts of the %s do not lie inside the waist", d.T(part)),
			Mend: d.T("take fewer darts, or narrower ones"),
		}
		return
	}
	for i, one := range w.Darts {
		d.dartMarks(part, i+1, one)
	}
	d.MaybeTrued(trueWaist, func() {
		d.Curve(part+".waist", d.F("%s waist", d.T(part)), w.Path, d.T("from the centre to the side; over the darts as they lie when folded to the centre"))
	})
	side := d.side(part)
	d.Curve(part+".side", d.F("%s side seam", d.T(part)), side, d.T("in one sweep to the hip, straight from there"))
	centre := d.Point(part + ".hem_centre")
	hem := geom.Polyline(side.End(), centre)
	if d.In.Trues(trueHem) && !d.Has("shape", "straight") {
		hem = hemPath(side.End(), side.EndDir().Right(), d.hemBend(part), centre)
	}
	lay := func() {
		d.Curve(part+".hem", d.F("%s hem", d.T(part)), hem, d.T("square to the centre and to the side"))
	}
	if d.Has("shape", "straight") {
		lay() // there is nothing to mend
	} else {
		d.MaybeTrued(trueHem, lay)
	}
	d.Straight(part+".centre", map[string]string{"front": d.T("centre-front line"), "back": d.T("centre-back line")}[part], d.T("straight, on the grain"), part+".hem_centre", part+".waist_centre")
}

// hemPath is a hem from the side, which it leaves along dir, to bend, and
// straight from there to the centre.
func hemPath(side geom.Pt, dir geom.Vec, bend, centre geom.Pt) geom.Path {
	h := side.Dist(bend) / 3
	return geom.Path{{A: side, B: side.Add(dir.Scale(h)), C: bend.Add(geom.Vec{X: h}), D: bend}, geom.Line(bend, centre)}
}

// dartMarks lays the legs, the fold and the point of a dart, told from the
// straight line between the ends of the waist, which the hand can draw at once.
func (d *drafter) dartMarks(part string, i int, one dart.Opened) {
	centre, side := part+".waist_centre", part+".waist_side"
	name := d.dartName(part, i)
	lay := func(what, label string, at geom.Pt, why string) {
		d.Offset(dartStep(part, i, what), label, centre, side, at, why, dartStep(part, i, "from"), part+".dart", dartStep(part, i, "length"))
	}
	half := d.T("half the dart on this side of its middle")
	lay("in", d.F("%s, leg on the centre's side", name), one.Legs[0], half)
	lay("top", d.F("%s, middle, over the fold", name), one.Top, d.T("the cloth of the dart, folded to the centre, must reach the waist seam"))
	lay("out", d.F("%s, leg on the side's side", name), one.Legs[1], half)
	lay("point", d.F("%s, point", name), one.Point, d.T("the dart's length below the straight line"))
}

// openings lays where zip, vent and slits end.
func (d *drafter) openings() {
	part, line, from := "back", "back.centre", "back.waist_centre"
	back := d.Has("closure", "zip_back")
	if !back {
		part, line, from = "front", "front.side", "front.waist_side"
	}
	d.Part(part)
	d.Along(part+".zip_end", d.T("end of the zip"), line, from, back, "least(zip_length, hem_level * 2/3)", d.T("the zip ends here; notch it"))
	height := map[string]string{"vent": "vent_height", "slit": "slit_height", "side_slits": "slit_height"}[d.In.Style["opening"]]
	if height == "" {
		return
	}
	part, line, from, back = "back", "back.centre", "back.hem_centre", false
	if d.Has("opening", "side_slits") {
		part, line, from, back = "front", "front.side", "front.hem_side", true
	}
	d.Part(part)
	d.Value("opening.height", d.T("hem to the top of the opening"), "least("+height+", (hem_level - hip_level) * 3/5)", d.T("it ends well below the hip"))
	d.Along(part+".opening_top", d.T("top of the opening"), line, from, back, "opening.height", d.T("sewn to here, open below; notch it"))
	if d.Has("opening", "vent") {
		d.ventMarks()
	}
}

// ventMarks lays what laps over at a vent.
func (d *drafter) ventMarks() {
	out := toCentre(d.T("square out beyond the centre back"))
	d.Measure("back.vent_hem", d.T("vent at the hem"), "back.hem_centre", out, "vent_width", d.T("so far the vent laps over"))
	d.Value("vent.edge", d.T("vent, hem to the slant"), "opening.height - vent_width/2", d.T("its top slants down, so that it hangs"))
	d.Measure("back.vent_top", d.T("vent, lower end of its slanted top"), "back.vent_hem", up(d.T("straight up")), "vent.edge", d.Why("vent.edge"))
	d.Straight("back.vent", d.T("vent, edge"), d.T("straight, on the grain"), "back.vent_hem", "back.vent_top")
	d.Straight("back.vent_slant", d.T("vent, slanted top"), d.T("straight"), "back.vent_top", "back.opening_top")
}
