package tape

import (
	"chalkfold/draft/body"
	"chalkfold/draft/geom"
)

// aspect is the side that a body is drawn from.
type aspect uint8

const (
	fromFront aspect = iota
	fromBack
	fromSide
	seated // from the side, on a chair
)

// place is where the tape lies for one measurement.
type place struct {
	seen   aspect
	arms   bool
	near   geom.Path // the tape as it is seen
	hidden geom.Path // the rest of it, behind the body or between the legs
	length bool      // it runs from one place to another, and not round
	cord   geom.Path // the cord on the waist, where the tape begins or ends at it
	pins   []geom.Pt // what it is read at
	high   float64   // heights between which the body is shown
	low    float64
}

// placeOf is where the tape lies; it reports whether it is known.
func (f form) placeOf(id body.ID) (place, bool) {
	switch id {
	case body.WaistGirth, body.TopHipGirth, body.ThighGirth, body.KneeGirth, body.CalfGirth, body.AnkleGirth,
		body.NeckGirth, body.ChestGirth, body.UnderBustGirth, body.UpperArmGirth, body.WristGirth:
		return f.round(id), true
	case body.HipGirth: // from the side, where the fullest part of the seat is seen
		front, back := f.profile(id)
		p := ringed(pt(back, f.hip), pt(front, f.hip))
		p.seen, p.high, p.low = fromSide, f.armpit, f.thigh-0.06*f.stature
		return p, true
	case body.HeelGirth:
		p := ringed(f.heel().Add(geom.Vec{X: 4, Y: -6}), f.instep())
		p.seen, p.high, p.low = fromSide, f.calf, -0.01*f.stature
		return p, true
	default:
		p, ok := f.along(id)
		p.length = true
		return p, ok
	}
}

// round is the tape round a part of the body, level, seen from the front.
func (f form) round(id body.ID) place {
	h := f.at(id)
	middle, half := 0.0, f.wide[id]
	margin := 0.2 * f.stature
	var p place
	switch id {
	case body.ThighGirth, body.KneeGirth, body.CalfGirth, body.AnkleGirth:
		middle, half = f.leg(id)
	case body.UpperArmGirth:
		middle = f.armMiddle(h)
		p.arms = true
	case body.WristGirth:
		middle = f.wristAt().X
		p.arms, margin = true, 0.1*f.stature
	case body.NeckGirth:
		margin = 0.14 * f.stature
	default: // of the trunk
	}
	r := ringed(pt(middle-half, h), pt(middle+half, h))
	p.near, p.hidden = r.near, r.hidden
	p.high, p.low = min(h+margin, 1.01*f.stature), max(h-margin, -0.01*f.stature)
	return p
}

// ringed is a tape round the body from a to b: in front it hangs a little, as a
// level ring is seen from above.
func ringed(a, b geom.Pt) place {
	sag := b.Sub(a).Right().Scale(0.12)
	return place{
		near:   geom.Path{{A: a, B: a.Add(sag), C: b.Add(sag), D: b}},
		hidden: geom.Path{{A: a, B: a.Add(sag.Neg()), C: b.Add(sag.Neg()), D: b}},
	}
}

// along is the tape from one place of the body to another.
func (f form) along(id body.ID) (place, bool) {
	s := f.stature
	front, back := f.profile(body.WaistGirth)
	side := place{seen: fromSide, cord: geom.Polyline(pt(back, f.waist), pt(front, f.waist)), high: f.armpit, low: f.thigh - 0.06*s}
	hipFront, hipBack := f.profile(body.HipGirth)
	flank := (front + back + hipFront + hipBack) / 4 // the middle of the side
	switch id {
	case body.WaistToHips:
		side.near = geom.Polyline(pt(flank, f.waist), pt(flank, f.hip))
		side.hidden = geom.Polyline(pt(hipBack, f.hip), pt(hipFront, f.hip))
		return side, true
	case body.BodyRise:
		drop := f.seatDrop()
		side.seen = seated
		side.near = geom.Polyline(pt(flank, f.waist-drop), pt(flank, f.fork-drop))
		side.cord = geom.Polyline(pt(back, f.waist-drop), pt(front, f.waist-drop))
		side.high, side.low = f.chest-drop, -0.01*s
		return side, true
	case body.TotalCrotchLength, body.FrontCrotchLength, body.BackCrotchLength:
		before, behind := f.throughTheFork()
		switch id {
		case body.FrontCrotchLength:
			side.near, side.hidden = before, behind
		case body.BackCrotchLength:
			side.near, side.hidden = behind, before
		default:
			side.near = before.Join(behind)
		}
		if id != body.TotalCrotchLength {
			side.pins = []geom.Pt{before.End()}
		}
		return side, true
	case body.OutsideLegLength, body.LeftSideLength, body.RightSideLength:
		side.near = geom.Polyline(pt(flank, f.waist), pt(flank, 0))
		side.high, side.low = f.armpit, -0.01*s
		return side, true
	case body.InsideLegLength:
		return place{near: geom.Polyline(pt(0, f.fork), pt(0, 0)), high: f.waist, low: -0.01 * s}, true
	case body.KneeHeight:
		middle, _ := f.leg(body.KneeGirth)
		return place{near: geom.Polyline(pt(middle, f.knee), pt(middle, 0)), pins: []geom.Pt{pt(middle, f.knee)}, high: f.thigh, low: -0.01 * s}, true
	case body.WaistToKnee:
		side.near = geom.Polyline(pt(flank, f.waist), pt(flank, f.knee))
		side.low = f.knee - 0.1*s
		return side, true
	case body.Stature:
		beside := f.shoulderAt + 0.16*s
		return place{arms: true, near: geom.Polyline(pt(beside, s), pt(beside, 0)), cord: geom.Polyline(pt(-0.08*s, s), pt(beside, s)), high: 1.02 * s, low: -0.01 * s}, true
	case body.ShoulderLength:
		return place{near: geom.Polyline(f.neckSide(), pt(f.shoulderAt, f.shoulder)), high: s, low: f.underBust}, true
	case body.BackWaistLength:
		waist := f.wide[body.WaistGirth]
		return place{
			seen: fromBack, near: geom.Polyline(pt(0, f.nape), pt(0, f.waist)),
			cord: geom.Polyline(pt(-waist, f.waist), pt(waist, f.waist)), pins: []geom.Pt{pt(0, f.nape)}, high: s, low: f.hip,
		}, true
	case body.NeckBaseGirth:
		r := ringed(f.neckSide().Add(geom.Vec{X: -2 * f.neckSide().X}), f.neckSide())
		r.high, r.low = s, f.armpit
		return r, true
	case body.BackWidth:
		across := f.shoulderAt * 0.93
		level := (f.shoulder + f.armpit) / 2
		return place{seen: fromBack, near: geom.Polyline(pt(-across, level), pt(across, level)), high: s, low: f.waist}, true
	case body.ScyeDepth:
		across := f.wide[body.ChestGirth]
		return place{
			seen: fromBack, near: geom.Polyline(pt(0, f.nape), pt(0, f.armpit)),
			cord: geom.Polyline(pt(-across, f.armpit), pt(across, f.armpit)), pins: []geom.Pt{pt(0, f.nape)}, high: s, low: f.waist,
		}, true
	case body.NeckToBust, body.BustPoints, body.FrontWaist:
		left, right := pt(-f.wide[body.ChestGirth]*bustApart, f.chest), pt(f.wide[body.ChestGirth]*bustApart, f.chest)
		p := place{near: geom.Polyline(f.neckSide(), right), pins: []geom.Pt{right}, high: s, low: f.topHip}
		switch id {
		case body.BustPoints:
			p.near, p.pins = geom.Polyline(left, right), []geom.Pt{left, right}
		case body.FrontWaist:
			waist := f.wide[body.WaistGirth]
			p.near = geom.Polyline(f.neckSide(), right, pt(right.X, f.waist))
			p.cord = geom.Polyline(pt(-waist, f.waist), pt(waist, f.waist))
		default: // neck to bust
		}
		return p, true
	case body.ArmLength:
		return place{seen: fromBack, arms: true, near: f.overTheElbow(), high: s, low: f.wrist - 0.1*s}, true
	default:
		return place{}, false
	}
}

// bustApart is how far a bust point is from the middle, of half the width of the
// chest (from memory).
const bustApart = 0.55

// overTheElbow runs down the outside of the right arm.
func (f form) overTheElbow() geom.Path {
	a := f.at(body.UpperArmGirth)
	elbow := (f.wide[body.UpperArmGirth] + f.wide[body.WristGirth]) / 2
	w := f.wristAt()
	return smooth(
		pt(f.shoulderAt, f.shoulder), pt(f.armMiddle(a)+f.wide[body.UpperArmGirth]+2, a),
		pt(f.elbowAt().X+elbow+2, f.elbow), pt(w.X+f.wide[body.WristGirth]+2, f.wrist),
	)
}

// throughTheFork is the tape from the front of the waist between the legs to
// the back of it, in two parts that meet at the inside-leg seam.
func (f form) throughTheFork() (before, behind geom.Path) {
	low := pt(-4, f.fork)
	front, back := f.profile(body.WaistGirth)
	belly, _ := f.profile(body.TopHipGirth)
	hip, seat := f.profile(body.HipGirth)
	rise := f.hip - f.fork
	before = smooth(pt(front, f.waist), pt(belly, f.topHip), pt(hip*0.94, f.hip), pt(hip*0.62, f.fork+0.3*rise))
	a := before.End()
	before = before.Join(geom.Path{{A: a, B: a.Add(before.EndDir().Scale(0.35 * rise)), C: pt(low.X+hip*0.3, f.fork), D: low}})
	_, top := f.profile(body.TopHipGirth)
	up := smooth(pt(back, f.waist), pt(top, f.topHip), pt(seat, f.hip), pt(seat*0.84, f.fork+0.3*rise))
	b := up.End()
	up = up.Join(geom.Path{{A: b, B: b.Add(up.EndDir().Scale(0.4 * rise)), C: pt(low.X+seat*0.3, f.fork), D: low}})
	return before, up.Reverse()
}
