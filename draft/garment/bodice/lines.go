package bodice

import (
	"math"

	"chalkfold/draft/garment"
	"chalkfold/draft/garment/dart"
	"chalkfold/draft/geom"
	"chalkfold/draft/say"
)

// lines lays the truings that need the whole shape, then every sew line.
func (d *drafter) lines() {
	if d.Err() != nil {
		return
	}
	d.Part("back")
	d.settle("back")
	d.Part("front")
	d.settle("front")
	if d.refuse != nil {
		return
	}
	if d.Has("bust_dart", "from_shoulder") {
		d.turnToShoulder()
	}
	for _, part := range parts() {
		d.panelLines(part)
	}
	if d.refuse == nil && d.Err() == nil {
		d.zip()
	}
}

// sideDart is the bust dart in the side, as it is drawn: it points to the bust
// point and ends short of it.
func (d *drafter) sideDart(top, end geom.Pt) []dart.Shape {
	if d.Get("bust_dart") < leastDart.MM() {
		return nil
	}
	point := d.Point("front.bust_point")
	y := math.Min(point.Y+d.Get("bust_dart_lower"), end.Y-minStep.MM()-d.Get("bust_dart"))
	y = math.Max(y, top.Y+minStep.MM()/2+d.Get("bust_dart")/2)
	foot := top.Lerp(end, (y-top.Y)/(end.Y-top.Y))
	short := d.Get("bust_dart_short")
	return []dart.Shape{dart.To(point.Add(foot.Sub(point).Unit().Scale(short)), foot, d.Get("bust_dart"))}
}

// side draws the side of a part from its underarm to a mark at the waist.
func (d *drafter) side(part string, top, end geom.Pt) dart.Edge {
	if part == "front" {
		return dart.Fair(top, end, d.sideDart(top, end))
	}
	return dart.Fair(top, end, nil)
}

// settle finds the underarm and the side at the waist for which the part measures
// what it must at the level of the bust and at the waist, and the front side is
// as long as the back side; any of them can be left as it is.
func (d *drafter) settle(part string) {
	if d.refuse != nil || d.Err() != nil {
		return
	}
	top, end := d.Point(part+".underarm"), d.Point(part+".waist_side")
	startTop, startEnd := top, end
	bust, waist, level := d.In.Trues(trueBust), d.In.Trues(trueWaist), d.In.Trues(trueSide) && part == "front"
	long := 0.0
	if level {
		long = d.side("back", d.Point("back.underarm"), d.Point("back.waist_side")).Closed
	}
	const near = 1e-3 // mm
	ok := true
	for range 30 {
		was := [2]geom.Pt{top, end}
		if level && ok {
			end.Y, ok = dart.Solve(end.Y, func(y float64) float64 { return d.side(part, top, geom.Pt{X: end.X, Y: y}).Closed - long })
		}
		if waist && ok {
			end.X, ok = dart.Solve(end.X, func(x float64) float64 {
				return d.waist(part, top, geom.Pt{X: x, Y: end.Y}).Closed - d.Get(part+".waist_made")
			})
		}
		if bust && ok {
			top.X, ok = dart.Solve(top.X, func(x float64) float64 {
				return d.bustAt(part, geom.Pt{X: x, Y: top.Y}, end) - d.Get(part+".bust_part")
			})
		}
		if !ok || was[0].Dist(top)+was[1].Dist(end) < near {
			break
		}
	}
	if !ok || d.side(part, top, end).Broken || end.X < d.Get(part+".waist_made")/2 || end.Y < top.Y+2*minStep.MM() {
		d.refuse = &garment.Impossible{
			What: d.F("no side of the %s makes bust, waist and seam what they must be", d.T(part)), Mend: d.T("measure chest, waist and the waist lengths again, or change what the darts take in"),
		}
		return
	}
	move := func(truing, step, label, mark, way string, from, to geom.Pt, why string) {
		d.Trued(truing, func() {
			if from != to {
				d.Move(part+"."+step, label, part+"."+mark, way, to, why)
			}
		})
	}
	move(trueBust, "underarm_kept", d.F("%s underarm, bust kept", d.T(part)), "underarm", d.T("along the scye line"), startTop, top, d.T("until it measures what it must at the level of the bust"))
	move(trueSide, "waist_side_level", d.F("%s side at the waist, up or down", d.T(part)), "waist_side", d.T("straight up or down"), startEnd, geom.Pt{X: startEnd.X, Y: end.Y}, d.T("until the front side, its dart closed, is as long as the back side"))
	move(trueWaist, "waist_side_kept", d.F("%s side at the waist, waist kept", d.T(part)), "waist_side", d.T("level"), geom.Pt{X: startEnd.X, Y: end.Y}, end, d.T("until the waist line, dart closed, measures the waist of this part"))
}

// bustAt is how wide a part is at the level of the bust, its waist dart closed.
func (d *drafter) bustAt(part string, top, end geom.Pt) float64 {
	y := d.Get("front.bust_level")
	if part == "back" {
		y = d.Get("back.waist_level") - (d.Get("front.waist_level") - y)
	}
	if y <= top.Y {
		return top.X
	}
	on := d.side(part, top, end).Path.CrossLine(geom.Pt{Y: y}, geom.Vec{X: 1})
	if len(on) == 0 {
		return top.X
	}
	at, _ := d.side(part, top, end).Path.At(on[0])
	if part == "back" && d.darted[part] {
		deep := d.Get("back.dart_length")
		at.X -= d.Get("back.dart") * math.Max(0, 1-(d.Get("back.waist_level")-y)/deep)
	}
	return at.X
}

// waistDart is the waist dart of a part, which hangs on the grain. The waist runs
// from the side to the centre.
func (d *drafter) waistDart(part string) []dart.Shape {
	if !d.darted[part] {
		return nil
	}
	foot := geom.Pt{X: d.Get(part + ".dart_from"), Y: d.Point(part + ".waist_centre").Y}
	if part == "back" {
		foot.X += d.Get("back.dart") / 2
	}
	return []dart.Shape{dart.To(foot.Add(geom.Vec{Y: -d.Get(part + ".dart_length")}), foot, d.Get(part+".dart"))}
}

// waist draws the waist of a part from a side mark, square to the side from an
// underarm.
func (d *drafter) waist(part string, top, end geom.Pt) dart.Edge {
	side := d.side(part, top, end)
	if side.Broken {
		return dart.Edge{Broken: true}
	}
	return d.waistOf(part, end, side)
}

// turnToShoulder shuts the side dart and opens it in the shoulder: what lies
// between the two is turned about the bust point.
func (d *drafter) turnToShoulder() {
	shapes := d.sideDart(d.Point("front.underarm"), d.Point("front.waist_side"))
	if len(shapes) == 0 || d.refuse != nil || d.Err() != nil {
		return
	}
	e := d.side("front", d.Point("front.underarm"), d.Point("front.waist_side"))
	if e.Broken {
		d.refuse = d.noDart("front")
		return
	}
	p := d.Point("front.bust_point")
	a, b := e.Darts[0].Legs[0].Sub(p), e.Darts[0].Legs[1].Sub(p)
	turn := geom.RotateAbout(p, math.Atan2(a.Cross(b), a.Dot(b)))
	mid := d.Point("front.neck_side").Lerp(d.Point("front.shoulder_end"), 0.5)
	d.Place("front.dart_fixed", d.T("shoulder dart, leg on the neck's side"), "front.neck_side", d.T("along the shoulder, half way"), mid, d.T("the dart begins in the middle of the shoulder"))
	d.Place("front.dart_turned", d.T("shoulder dart, leg on the arm's side"), "front.dart_fixed", d.T("across the dart"), turn.Pt(mid), d.T("turned about the bust point until the side dart is shut"))
	for _, m := range []struct{ name, label string }{
		{"shoulder_end", d.T("front end of the shoulder, turned")}, {"across", d.T("front armhole where it is measured across, turned")}, {"underarm", d.T("front underarm, turned")},
	} {
		at := "front." + m.name
		d.Move(at+"_turned", m.label, at, d.T("about the bust point"), turn.Pt(d.Point(at)), d.T("turned about the bust point until the side dart is shut"))
	}
	d.Trued(trueBust, func() { d.keepTurned(turn) })
}

// keepTurned moves the turned underarm until the tape, from the centre over the
// bust point, still measures what it must.
func (d *drafter) keepTurned(turn geom.Affine) {
	p, from, end := d.Point("front.bust_point"), d.Point("front.underarm"), d.Point("front.waist_side")
	out, want := turn.Vec(geom.Vec{X: 1}), d.Get("front.bust_part")-p.X
	by, ok := dart.Solve(0, func(x float64) float64 {
		top := from.Add(out.Scale(x))
		at, crosses := geom.CrossLines(p, out, top, end.Sub(top))
		if !crosses {
			return x
		}
		return at.Sub(p).Dot(out) - want
	})
	if ok && d.Get("front.bust_level") > d.Get("front.scye_level") {
		d.Move("front.underarm_turned_kept", d.T("front underarm, bust kept"), "front.underarm", d.T("along the scye line"), from.Add(out.Scale(by)),
			d.T("until the front measures what it must at the level of the bust"))
	}
}

func (d *drafter) noDart(part string) *garment.Impossible {
	return &garment.Impossible{
		What: d.F("a dart of the %s does not lie inside its edge", d.T(part)), Mend: d.T("take a smaller dart, or measure the lengths again"),
	}
}

// shoulder draws the shoulder of a part: with the dart in it when it was turned
// there.
func (d *drafter) shoulder(part string) dart.Edge {
	a, b := d.Point(part+".neck_side"), d.Point(part+".shoulder_end")
	rec, _ := d.Record()
	if part == "back" || !rec.Has("front.dart_turned") {
		return dart.Fair(a, b, nil)
	}
	in, out, p := d.Point("front.dart_fixed"), d.Point("front.dart_turned"), d.Point("front.bust_point")
	mid := in.Lerp(out, 0.5)
	apex := p.Add(mid.Sub(p).Unit().Scale(d.Get("bust_dart_short")))
	return dart.Fair(a, b, []dart.Shape{dart.To(apex, mid, in.Dist(out))})
}

// panelLines lays neck, shoulder, armhole, side, waist and centre of one part.
func (d *drafter) panelLines(part string) {
	if d.Err() != nil || d.refuse != nil {
		return
	}
	d.Part(part)
	turned := part == "front" && d.Has("bust_dart", "from_shoulder")
	side, shoulder := d.side(part, d.Point(part+".underarm"), d.Point(part+".waist_side")), d.shoulder(part)
	if turned {
		side = dart.Fair(d.Point("front.underarm"), d.Point("front.waist_side"), nil)
	}
	waist := d.waistOf(part, d.Point(part+".waist_side"), side)
	if side.Broken || shoulder.Broken || waist.Broken {
		d.refuse = d.noDart(part)
		return
	}
	for _, one := range side.Darts {
		d.dartMarks(part, "bustdart", d.T("bust dart"), one, "underarm", "waist_side", "bust_dart")
	}
	for _, one := range shoulder.Darts {
		d.dartMarks(part, "bustdart", d.T("bust dart"), one, "neck_side", "shoulder_end", "bust_dart")
	}
	for _, one := range waist.Darts {
		d.dartMarks(part, "waistdart", d.F("%s waist dart", d.T(part)), one, "waist_side", "waist_centre", part+".dart")
	}
	neck, armhole := d.curves(part, shoulder.Path, side.Path)
	d.MaybeTrued(trueShoulder, func() {
		d.Curve(part+".neck", d.F("%s neck", d.T(part)), neck, d.T("from the centre to the neck point, square at both"))
	})
	d.Curve(part+".shoulder", d.F("%s shoulder", d.T(part)), shoulder.Path, d.T("straight, its dart closed"))
	d.MaybeTrued(trueShoulder, func() {
		d.Curve(part+".armhole", d.F("%s armhole", d.T(part)), armhole, d.T("square to the shoulder, through the mark across, square to the side"))
	})
	d.Curve(part+".side", d.F("%s side seam", d.T(part)), side.Path, d.T("straight, its dart closed"))
	d.MaybeTrued(trueWaist, func() {
		d.Curve(part+".waist", d.F("%s waist", d.T(part)), waist.Path, d.T("from the side to the centre; over the dart as it lies when folded to the side"))
	})
	d.Straight(part+".centre", map[string]string{"front": d.T("centre-front line"), "back": d.T("centre-back line")}[part], d.T("straight, on the grain"), part+".waist_centre", part+".neck_centre")
}

// waistOf is the waist of a part whose side is drawn.
func (d *drafter) waistOf(part string, at geom.Pt, side dart.Edge) dart.Edge {
	centre, darts := d.Point(part+".waist_centre"), d.waistDart(part)
	if side.Broken {
		return dart.Edge{Broken: true}
	}
	if !d.In.Trues(trueWaist) {
		return dart.Straight(at, centre, darts)
	}
	return dart.Squared(at, side.Path.EndDir().Right(), centre, geom.Vec{X: -1}, darts)
}

// curves draws neck and armhole: trued square to the shoulder and the side, as
// spoken upright and level.
func (d *drafter) curves(part string, shoulder, side geom.Path) (neck, armhole geom.Path) {
	start, end := d.Point(part+".neck_centre"), shoulder.Start()
	neckDir, armDir, underDir := geom.Vec{Y: -1}, geom.Vec{Y: 1}, geom.Vec{X: 1}
	if d.In.Trues(trueShoulder) {
		neckDir, armDir, underDir = shoulder.StartDir().Left(), shoulder.EndDir().Right(), side.StartDir().Left()
	}
	// The less a neck rises, the rounder it must run into the shoulder for its
	// allowance to follow.
	rise := math.Abs(end.Y - start.Y)
	rise = math.Max(rise*0.5, math.Min(rise*0.9, 18))
	neck = geom.Path{{A: start, B: start.Add(geom.Vec{X: (end.X - start.X) * 0.55}), C: end.Add(neckDir.Scale(-rise)), D: end}}
	from, to, across := shoulder.End(), side.Start(), d.Point(part+".across")
	down := d.acrossDir(part)
	h1, h2 := from.Dist(across), across.Dist(to)
	armhole = geom.Path{
		{A: from, B: from.Add(armDir.Scale(h1 * 0.2)), C: across.Add(down.Scale(-h1 * 0.4)), D: across},
		{A: across, B: across.Add(down.Scale(h2 * 0.4)), C: to.Add(underDir.Scale(-h2 * 0.45)), D: to},
	}
	return neck, armhole
}

// acrossDir is the way the armhole runs where it is measured across: down, or
// turned as the armhole was.
func (d *drafter) acrossDir(part string) geom.Vec {
	rec, _ := d.Record()
	if part == "front" && rec.Has("front.dart_turned") {
		p := d.Point("front.bust_point")
		a, b := d.Point("front.dart_fixed").Sub(p), d.Point("front.dart_turned").Sub(p)
		return geom.Vec{Y: 1}.Rotate(math.Atan2(a.Cross(b), a.Dot(b)))
	}
	return geom.Vec{Y: 1}
}

// dartMarks lays the legs, the fold and the point of a dart, told from the
// straight line between the ends of its edge.
func (d *drafter) dartMarks(part, dartID, name string, one dart.Opened, start, end, width string) {
	lay := func(what, label string, at geom.Pt, why string) {
		d.Offset(part+"."+dartID+"_"+what, label, part+"."+start, part+"."+end, at, why, width)
	}
	half := d.T("half the dart on this side of its middle")
	lay("leg1", d.F("%s, first leg", name), one.Legs[0], half)
	lay("top", d.F("%s, middle, over the fold", name), one.Top, d.T("the cloth of the dart, folded, must reach the seam"))
	lay("leg2", d.F("%s, second leg", name), one.Legs[1], half)
	lay("point", d.F("%s, point", name), one.Point, d.T("it ends short of the fullest place"))
}

// zip lays where the zip ends.
func (d *drafter) zip() {
	if d.Has("closure", "zip_back") {
		return // it opens all the centre back
	}
	d.Part(say.Word("back"))
	d.Solved("back.side_length", d.T("length of the side"), d.Point("back.underarm").Dist(d.Point("back.waist_side")), d.T("underarm to waist"))
	formula := "back.side_length - 1 in"
	if d.Get("bodice_zip") > 0 {
		formula = "least(bodice_zip, back.side_length - 1 in)"
	}
	d.Along("back.zip_end", d.T("end of the zip"), "back.side", "back.waist_side", true, formula, d.T("the zip ends here; notch it"))
}
