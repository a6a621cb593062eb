package trouser

import (
	"math"

	"chalkfold/draft/garment/dart"
	"chalkfold/draft/geom"
)

// forkMarks are the marks that fork curves and inseams are drawn from, front
// and back.
type forkMarks struct {
	front, back []geom.Pt // fork tip, thigh, knee and hem, on the inside of the leg
	top, hip    [2]geom.Pt
	fork        geom.Pt // the fork line at the centre front
	trued       bool    // the fork truing is on
}

func (d *drafter) forkMarks() forkMarks {
	in := func(part string) []geom.Pt {
		return []geom.Pt{d.Point(part + ".fork_tip"), d.Point(part + ".thigh_in"), d.Point(part + ".knee_in"), d.Point(part + ".hem_in")}
	}
	m := d.centreMarks()
	m.front, m.back = in("front"), in("back")
	return m
}

func (d *drafter) centreMarks() forkMarks {
	return forkMarks{
		top:  [2]geom.Pt{d.Point("front.waist_centre"), d.Point("back.waist_centre")},
		hip:  [2]geom.Pt{d.Point("front.hip_centre"), d.Point("back.hip_centre")},
		fork: d.Point("front.fork_centre"), trued: d.in.Trues(trueFork),
	}
}

// How high above the fork line a trued fork curve leaves the centre line, as
// a share of how far the fork reaches: enough to turn in without a corner.
const (
	frontForkHeight = 0.9
	backForkHeight  = 0.62
)

// start is where a fork curve leaves its centre line: at the hip line as
// spoken; trued, higher when the hip line is too near the fork to turn in.
func (m forkMarks) start(back bool) geom.Pt {
	i, share, tip := 0, frontForkHeight, m.front[0]
	if back {
		i, share, tip = 1, backForkHeight, m.back[0]
	}
	at, top := m.hip[i], m.top[i]
	want := m.fork.Y - share*(m.fork.X-tip.X)
	if !m.trued || at.Y <= want {
		return at
	}
	// Never above the upper third: there must be a straight to sew the fly on.
	return top.Lerp(at, math.Max(1.0/3, (want-top.Y)/(at.Y-top.Y)))
}

// forkShape is what the truing of fork and inseams finds.
type forkShape struct {
	drop              float64   // of the back fork tip, mm
	frontIn, backIn   geom.Path // tip to hem
	frontDir, backDir geom.Vec  // of the fork curves as they reach their tips
}

// maxForkShare is how much of the way to its chord the end of a fork curve may
// be turned before the curve loses its hollow.
const maxForkShare = 0.35

// forkAt works out the inseams and the fork's ends for a back tip dropped by
// drop. The two inside angles at the tips must make 180°, so what the inseams
// lean is given to the fork curves, each in proportion to its own chord; when
// that would take their hollow the back inseam is started steeper.
func (d *drafter) forkAt(m forkMarks, drop float64) forkShape {
	front := m.front
	back := append([]geom.Pt(nil), m.back...)
	back[0].Y += drop
	s := forkShape{drop: drop, frontIn: legLine(front, natural), backIn: legLine(back, natural)}
	s.frontDir, s.backDir = geom.Vec{X: -1}, geom.Vec{X: -1}
	if !m.trued {
		return s
	}
	lean := func(p geom.Path) float64 { v := p.StartDir(); return math.Atan2(v.X, v.Y) }
	chord := func(a, tip geom.Pt) float64 { return math.Atan2(tip.Y-a.Y, a.X-tip.X) }
	gf, gb := chord(m.start(false), front[0]), chord(m.start(true), back[0])
	leanF := lean(s.frontIn)
	room := maxForkShare * (gf + gb)
	if leanF+lean(s.backIn) > room {
		steep := math.Max(0.02, room-leanF)
		s.backIn = legLine(back, math.Tan(steep))
	}
	share := (leanF + lean(s.backIn)) / (gf + gb)
	dir := func(rise float64) geom.Vec { return geom.Vec{X: -math.Cos(rise), Y: math.Sin(rise)} }
	s.frontDir, s.backDir = dir(gf*share), dir(gb*share)
	return s
}

// mostDrop is the furthest a back fork tip may drop, mm: more is no truing.
const mostDrop = 4 * 25.4

// settle finds the drop for which the inseams agree; false when there is none.
func (d *drafter) settle(m forkMarks) (forkShape, bool) {
	want := d.Get("inseam_stretch")
	drop, ok := dart.Solve(0, func(x float64) float64 {
		s := d.forkAt(m, x)
		return s.frontIn.Len() - want - s.backIn.Len()
	})
	return d.forkAt(m, drop), ok && math.Abs(drop) <= mostDrop
}

// seam is the length of the whole fork seam, waist to waist.
func (d *drafter) seam(m forkMarks, s forkShape) float64 {
	sum := 0.0
	for i, dir := range []geom.Vec{s.frontDir, s.backDir} {
		start, tip := m.start(i == 1), m.front[0]
		if i == 1 {
			tip = m.back[0].Add(geom.Vec{Y: s.drop})
		}
		curve, _ := d.forkCurve(start, start.Sub(m.top[i]).Unit(), tip, dir)
		sum += m.top[i].Dist(start) + curve.Len()
	}
	return sum
}

// leastLetOut is the least that a fork is let out by: a sixteenth. mostLetOut
// keeps the back fork within what makers draw.
const (
	leastLetOut = 25.4 / 16
	mostLetOut  = 1.5 * 25.4
)

// letOutFork gives back what smoothing takes from the length of the fork seam:
// the back fork reaches further, until the seam is as long as the spoken one.
func (d *drafter) letOutFork() {
	out, ok := d.letOut()
	if !ok || out < leastLetOut {
		return
	}
	d.Solved("back.let_out", d.T("back fork let out"), math.Min(out, mostLetOut), d.T("found so that smoothing the fork curve does not shorten the fork seam"))
	d.Renew("back.reach_let_out", d.T("back fork extension, let out"), "back.reach", "back.reach + back.let_out", d.T("smoothing the fork curve may not shorten the fork seam"))
}

// letOut finds by how much the back fork is let out: as before the fitting, so
// that an alteration does what it says and nothing besides.
func (d *drafter) letOut() (float64, bool) {
	if len(d.in.Altered) > 0 {
		plain := newDrafter(d.in.Unaltered())
		plain.forkOnly = true
		if plain.draw() != nil {
			return 0, false // the draft itself says why
		}
		rec, err := plain.Record()
		if err != nil || !rec.Has("back.let_out") {
			return 0, false
		}
		return rec.Value("back.let_out"), true
	}
	forkLine := d.Point("front.fork_centre").Y
	at := func(out float64) forkMarks {
		m := d.centreMarks()
		m.front = []geom.Pt{d.Point("front.fork_tip"), d.Point("front.thigh_in"), d.Point("front.knee_in"), d.Point("front.hem_in")}
		tip := geom.Pt{X: m.front[0].X - d.Get("back.reach") - out, Y: forkLine}
		crease := d.Point("front.crease_fork")
		if d.in.Trues(trueLeg) {
			crease = tip.Lerp(d.Point("back.fork_side"), 0.5).Add(geom.Vec{X: -d.Get("leg_set")})
		}
		m.back = []geom.Pt{tip}
		for i, l := range []string{"thigh", "knee", "hem"} {
			m.back = append(m.back, geom.Pt{X: crease.X - d.Get("back."+l+"_width")/2, Y: m.front[i+1].Y})
		}
		return m
	}
	spoken := at(0)
	spoken.trued = false
	want := d.seam(spoken, d.forkAt(spoken, 0))
	return dart.Solve(0, func(x float64) float64 {
		m := at(x)
		s := d.forkAt(m, 0)
		if d.in.Trues(trueInseam) {
			s, _ = d.settle(m)
		}
		return d.seam(m, s) - want
	})
}

// forkCurve draws a fork curve as full as the rule asks, and tells how full;
// trued, rounder where the allowance outside it could not follow so tight a
// hollow.
func (d *drafter) forkCurve(a geom.Pt, u geom.Vec, tip geom.Pt, v geom.Vec) (geom.Curve, float64) {
	const spare = 1.15
	full := d.Get("fork_fullness")
	c := cornered(a, u, tip, v, full)
	if !d.in.Trues(trueFork) {
		return c, full
	}
	best, limit := tightest(c), 1/(spare*d.Get("seam_allowance"))
	if d.by != nil {
		return evenly(func(full float64) geom.Curve { return cornered(a, u, tip, v, full) }, full, limit)
	}
	for try := 0.35; try < 0.8 && best > limit; try += 0.05 {
		if o := cornered(a, u, tip, v, try); tightest(o) < best {
			c, best, full = o, tightest(o), try
		}
	}
	return c, full
}

// evenly is the curve whose fullness is nearest to full and which is nowhere
// tighter than limit, or as little tighter as can be. It changes evenly with the
// marks that it is drawn through, so that those can be solved for.
func evenly(draw func(full float64) geom.Curve, full, limit float64) (geom.Curve, float64) {
	c := draw(full)
	if tightest(c) <= limit {
		return c, full
	}
	best := full
	for try := 0.35; try < 0.8; try += 0.05 {
		if o := draw(try); tightest(o) < tightest(c) {
			best, c = try, o
		}
	}
	if tightest(c) > limit {
		return c, best
	}
	lo, hi := full, best // too tight, and not
	for range 20 {
		if mid := (lo + hi) / 2; tightest(draw(mid)) > limit {
			lo = mid
		} else {
			hi = mid
		}
	}
	return draw(hi), hi
}

// tightest is the greatest curvature of c in 1/mm.
func tightest(c geom.Curve) float64 {
	k := 0.0
	for i := range 33 {
		k = math.Max(k, math.Abs(c.Curvature(float64(i)/32)))
	}
	return k
}

// cornered runs from a along u to the tip along v, drawn into the corner where
// the two directions meet by the share full.
func cornered(a geom.Pt, u geom.Vec, tip geom.Pt, v geom.Vec, full float64) geom.Curve {
	b, c := a.Add(u.Scale(a.Dist(tip)/3)), tip.Add(v.Scale(-a.Dist(tip)/3))
	if x, ok := geom.CrossLines(a, u, tip, v.Neg()); ok && x.Sub(a).Dot(u) > 0 && x.Sub(tip).Dot(v) < 0 {
		b, c = a.Lerp(x, full), tip.Lerp(x, full)
	}
	return geom.Curve{A: a, B: b, C: c, D: tip}
}
