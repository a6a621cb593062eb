package trouser

import (
	"math"

	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// forkShape is what the truing of fork and inseams finds.
type forkShape struct {
	drop              float64   // of the back fork tip, mm
	frontIn, backIn   geom.Path // tip to hem
	frontDir, backDir geom.Vec  // of the fork curves as they reach their tips
	stretched         bool
}

func (d *drafter) inMarks(part string) []geom.Pt {
	return []geom.Pt{d.Point(part + ".fork_tip"), d.Point(part + ".thigh_in"), d.Point(part + ".knee_in"), d.Point(part + ".hem_in")}
}

// maxForkShare is how much of the way to its chord the end of a fork curve may
// be turned before the curve loses its hollow.
const maxForkShare = 0.35

// forkAt works out the inseams and the fork's ends for a back tip dropped by
// drop. The two inside angles at the tips must make 180°, so what the inseams
// lean is given to the fork curves, each in proportion to its own chord; when
// that would take their hollow the back inseam is started steeper.
func (d *drafter) forkAt(drop float64) forkShape {
	front, back := d.inMarks("front"), d.inMarks("back")
	back[0].Y += drop
	s := forkShape{drop: drop, frontIn: geom.Smooth(front, natural, natural), backIn: geom.Smooth(back, natural, natural)}
	s.frontDir, s.backDir = geom.Vec{X: -1}, geom.Vec{X: -1}
	if !d.in.Trues(trueFork) {
		return s
	}
	lean := func(p geom.Path) float64 { v := p.StartDir(); return math.Atan2(v.X, v.Y) }
	chord := func(a, tip geom.Pt) float64 { return math.Atan2(tip.Y-a.Y, a.X-tip.X) }
	gf, gb := chord(d.forkStart("front"), front[0]), chord(d.forkStart("back"), back[0])
	leanF := lean(s.frontIn)
	room := maxForkShare * (gf + gb)
	if leanF+lean(s.backIn) > room {
		steep := math.Max(0.02, room-leanF)
		s.backIn = geom.Smooth(back, math.Tan(steep), natural)
	}
	share := (leanF + lean(s.backIn)) / (gf + gb)
	dir := func(rise float64) geom.Vec { return geom.Vec{X: -math.Cos(rise), Y: math.Sin(rise)} }
	s.frontDir, s.backDir = dir(gf*share), dir(gb*share)
	return s
}

// How high above the fork line a trued fork curve leaves the centre line, as
// a share of how far the fork reaches: enough to turn in without a corner.
const (
	frontForkHeight = 0.9
	backForkHeight  = 0.62
)

// forkStart is where the fork curve leaves the centre line: at the hip line as
// spoken; trued, higher when the hip line is too near the fork to turn in.
func (d *drafter) forkStart(part string) geom.Pt {
	at := d.Point(part + ".hip_centre")
	if !d.in.Trues(trueFork) {
		return at
	}
	share := map[string]float64{"front": frontForkHeight, "back": backForkHeight}[part]
	tip, top := d.Point(part+".fork_tip"), d.Point(part+".waist_centre")
	want := d.Get("fork_level") - share*(d.Point("front.fork_centre").X-tip.X)
	if at.Y <= want {
		return at
	}
	// Never above the upper third: there must be a straight to sew the fly on.
	return top.Lerp(at, math.Max(1.0/3, (want-top.Y)/(at.Y-top.Y)))
}

// lines lays the truings that need the whole shape, then every sew line.
func (d *drafter) lines() error {
	if d.Err() != nil {
		return nil
	}
	d.Part("front")
	dart := d.frontDart()
	d.trued(trueWaist, func() { d.squareFront(dart) })
	d.Part("back")
	if d.in.Trues(trueWaist) || d.in.Trues(trueSide) {
		d.squareBack()
	}
	fork := d.forkAt(0)
	d.trued(trueInseam, func() {
		want := d.Get("inseam_stretch")
		drop, ok := solve(0, func(x float64) float64 {
			s := d.forkAt(x)
			return s.frontIn.Len() - want - s.backIn.Len()
		})
		if !ok || math.Abs(drop) > 4*25.4 {
			return
		}
		fork = d.forkAt(drop)
		d.Solved("back.tip_drop", "back fork tip dropped", drop, "found so that the back inseam is as long as the front inseam, less what is stretched")
		d.Shift("back.fork_tip_dropped", "back fork tip, dropped", "back.fork_tip", down("straight down"), "back.tip_drop",
			"until the inseams agree")
	})
	if d.Err() != nil {
		return nil
	}
	if tip, thigh := d.Point("back.fork_tip").Y, d.Point("back.thigh_in").Y; tip > thigh-minStep.MM() {
		return &garment.Impossible{
			What: "the back fork tip drops to " + unit.Format{}.Text(unit.Length(thigh-tip)) + " above the thigh line",
			Mend: "take a smaller back fork, or measure thigh and hip again",
		}
	}
	d.panelLines("front", fork.frontIn, fork.frontDir)
	d.waistLines("front", dart)
	d.panelLines("back", fork.backIn, fork.backDir)
	d.waistLines("back", d.backDartTo(d.Point("back.waist_side")))
	d.smallParts()
	return nil
}

// panelLines lays side, hem, inseam, fork and centre line of one panel.
func (d *drafter) panelLines(part string, inseam geom.Path, tipDir geom.Vec) {
	d.Part(part)
	smooth := func(f func()) {
		if d.in.Trues(trueFork) {
			d.Truing(trueFork, f)
		} else {
			f()
		}
	}
	centre := map[string]string{"front": "centre-front line", "back": "seat line"}[part]
	start := d.forkStart(part)
	d.Place(part+".fork_start", part+" fork curve leaves the "+centre, part+".waist_centre", "down the "+centre, start,
		"the fork curve begins at the hip line, or above it where the rise is short")
	top, tip := d.Point(part+".waist_centre"), d.Point(part+".fork_tip")
	d.Curve(part+".centre", centre, geom.Polyline(start, top), "straight")
	smooth(func() {
		d.Curve(part+".fork", part+" fork curve",
			geom.Path{d.forkCurve(part, start, start.Sub(top).Unit(), tip, tipDir)},
			"from the centre line to the fork tip, running on smoothly into the other panel's")
	})
	d.Curve(part+".side", part+" side seam", d.sideMarks(part).path(), "through the side marks")
	d.Straight(part+".hem", part+" hem", "square to the crease", part+".hem_out", part+".hem_in")
	d.Curve(part+".inseam", part+" inseam", inseam, "from the fork tip through the inside marks")
	d.Straight(part+".crease", part+" crease", "on the grain", part+".crease_fork", part+".crease_hem")
}

// forkCurve draws a fork curve as full as the rule asks; trued, less full where
// the allowance outside it could not follow so tight a hollow.
func (d *drafter) forkCurve(part string, a geom.Pt, u geom.Vec, tip geom.Pt, v geom.Vec) geom.Curve {
	const spare = 1.15
	full := d.Get("fork_fullness")
	c := forkCurve(a, u, tip, v, full)
	if !d.in.Trues(trueFork) {
		return c
	}
	best, limit := tightest(c), 1/(spare*d.Get("seam_allowance"))
	for try := 0.35; try < 0.8 && best > limit; try += 0.05 {
		if o := forkCurve(a, u, tip, v, try); tightest(o) < best {
			c, best, full = o, tightest(o), try
		}
	}
	d.Ratio(part+".fork_fullness", part+" fork fullness, as drawn", full, "as the rule, or rounder so that the allowance can follow the hollow")
	return c
}

// tightest is the greatest curvature of c in 1/mm.
func tightest(c geom.Curve) float64 {
	k := 0.0
	for i := range 33 {
		k = math.Max(k, math.Abs(c.Curvature(float64(i)/32)))
	}
	return k
}

// forkCurve runs from a along u to the tip along v, drawn into the corner where
// the two directions meet by the share full.
func forkCurve(a geom.Pt, u geom.Vec, tip geom.Pt, v geom.Vec, full float64) geom.Curve {
	b, c := a.Add(u.Scale(a.Dist(tip)/3)), tip.Add(v.Scale(-a.Dist(tip)/3))
	if x, ok := geom.CrossLines(a, u, tip, v.Neg()); ok && x.Sub(a).Dot(u) > 0 && x.Sub(tip).Dot(v) < 0 {
		b, c = a.Lerp(x, full), tip.Lerp(x, full)
	}
	return geom.Curve{A: a, B: b, C: c, D: tip}
}

// waistLines lays the waist and its dart.
func (d *drafter) waistLines(part string, dart dartShape) {
	d.Part(part)
	centre, side := d.Point(part+".waist_centre"), d.Point(part+".waist_side")
	var w waistShape
	lay := func(f func()) { f() }
	if d.in.Trues(trueWaist) {
		dir0 := geom.Vec{X: 1}
		if part == "back" {
			dir0 = d.seatDir().Left()
		}
		w = squaredWaist(centre, dir0, side, sideSquare(d.sideMarks(part).path()), dart)
		lay = func(f func()) { d.Truing(trueWaist, f) }
	} else {
		w = straightWaist(centre, side, dart)
	}
	if !dart.none && w.cap != nil {
		mid := w.legs[0].Lerp(w.legs[1], 0.5)
		d.Place(part+".dart_top", part+" dart, middle at the waist", part+".waist_centre", "along the waist", mid, "so far from the centre")
		d.Place(part+".dart_point", part+" dart point", part+".dart_top", "square down from the waist", dart.point, "the dart's length")
		d.Place(part+".dart_leg_in", part+" dart leg, centre side", part+".dart_top", "along the waist to the centre", w.legs[0], "half the dart on each side")
		d.Place(part+".dart_leg_out", part+" dart leg, side", part+".dart_top", "along the waist to the side", w.legs[1], "half the dart on each side")
	}
	lay(func() {
		d.Curve(part+".waist", part+" waist", w.path(), "from the centre to the side; over the dart as it lies when folded to the centre")
	})
}
