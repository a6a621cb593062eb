package tape

import (
	"math"

	"chalkfold/draft/body"
	"chalkfold/draft/geom"
)

// pt is a place of a drawing: x from the middle of the body, and the height
// above the floor.
func pt(x, height float64) geom.Pt { return geom.Pt{X: x, Y: -height} }

// smooth runs through places from the top down.
func smooth(pts ...geom.Pt) geom.Path { return geom.Fair(pts, math.NaN(), math.NaN()) }

// outline is the body in one view: what is filled, then what is drawn on it.
type outline struct {
	skin  []geom.Path // closed
	lines []geom.Path
	// right and left are the edges of the trunk and of the leg from the top down,
	// which a tape goes round from one to the other.
	right, left geom.Path
}

// head is an oval above the chin, its middle at x.
func (f form) head(x, wide float64) geom.Path {
	top, low := f.stature, f.chin-0.01*f.stature
	middle, half := (top+low)/2, wide/2
	const round = 0.5523 // of a quarter circle by one cubic
	h := (top - low) / 2 * round
	return geom.Path{
		{A: pt(x, top), B: pt(x+half*round, top), C: pt(x+half, middle+h), D: pt(x+half, middle)},
		{A: pt(x+half, middle), B: pt(x+half, middle-h), C: pt(x+half*round, low), D: pt(x, low)},
		{A: pt(x, low), B: pt(x-half*round, low), C: pt(x-half, middle-h), D: pt(x-half, middle)},
		{A: pt(x-half, middle), B: pt(x-half, middle+h), C: pt(x-half*round, top), D: pt(x, top)},
	}
}

// trunk is the right edge from the neck to the ankle, seen from the front.
func (f form) trunk() geom.Path {
	leg := func(id body.ID) geom.Pt {
		middle, half := f.leg(id)
		return pt(middle+half, f.at(id))
	}
	side := func(id body.ID) geom.Pt { return pt(f.wide[id], f.at(id)) }
	neck := f.wide[body.NeckGirth]
	upper := geom.Path{geom.Line(pt(neck, f.chin-0.005*f.stature), pt(neck, f.neck))}
	upper = upper.Join(
		geom.Path{{A: pt(neck, f.neck), B: pt(neck, f.nape), C: pt(neck+8, f.nape), D: f.neckSide()}},
		geom.Polyline(f.neckSide(), pt(f.shoulderAt, f.shoulder)),
		geom.Path{{
			A: pt(f.shoulderAt, f.shoulder), B: pt(f.shoulderAt+4, f.shoulder-0.02*f.stature),
			C: pt(f.wide[body.ChestGirth]*0.98, f.armpit+0.02*f.stature), D: pt(f.wide[body.ChestGirth]*0.98, f.armpit),
		}},
	)
	return upper.Join(smooth(
		pt(f.wide[body.ChestGirth]*0.98, f.armpit), side(body.ChestGirth), side(body.UnderBustGirth),
		side(body.WaistGirth), side(body.TopHipGirth), side(body.HipGirth),
		leg(body.ThighGirth), leg(body.KneeGirth), leg(body.CalfGirth), leg(body.AnkleGirth),
	))
}

// neckSide is where the shoulder begins.
func (f form) neckSide() geom.Pt { return pt(f.wide[body.NeckGirth]+14, f.nape-0.004*f.stature) }

// inner is the inside of the right leg from the fork to the ankle.
func (f form) inner() geom.Path {
	leg := func(id body.ID) geom.Pt {
		middle, half := f.leg(id)
		return pt(middle-half, f.at(id))
	}
	return smooth(pt(0, f.fork), leg(body.ThighGirth), leg(body.KneeGirth), leg(body.CalfGirth), leg(body.AnkleGirth))
}

// front is the body from the front or from the back.
func (f form) front(back, arms bool) outline {
	right := f.trunk()
	inner := f.inner()
	out, in := right.End(), inner.End()
	middle := (out.X + in.X) / 2
	foot := geom.Polyline(out, pt(middle+f.stature*0.03, f.ankle*0.2), pt(middle+f.stature*0.022, 0), pt(middle-f.stature*0.02, 0), pt(middle-f.stature*0.024, f.ankle*0.2), in)
	half := right.Join(foot, inner.Reverse())
	mirror := geom.MirrorX(0)
	whole := half.Join(half.Map(mirror).Reverse())
	o := outline{right: right, left: right.Map(mirror)}
	if arms {
		arm := f.arm()
		o.skin = append(o.skin, arm, arm.Map(mirror))
	}
	o.skin = append(o.skin, whole, f.head(0, 0.088*f.stature))
	fold := geom.Path{{A: pt(8, f.fork+4), B: pt(30, f.fork-22), C: pt(90, f.fork-16), D: pt(f.wide[body.HipGirth]*0.72, f.fork+14)}}
	if back {
		o.lines = append(o.lines, fold, fold.Map(mirror), geom.Polyline(pt(0, f.fork), pt(0, f.hip+0.3*(f.waist-f.hip))))
	}
	for _, m := range []geom.Affine{geom.Identity(), mirror} {
		knee, _ := f.leg(body.KneeGirth)
		if !back {
			o.lines = append(o.lines, geom.Path{{A: pt(knee-22, f.knee-18), B: pt(knee-14, f.knee-34), C: pt(knee+14, f.knee-34), D: pt(knee+22, f.knee-18)}}.Map(m))
		}
		if f.bust && !back {
			c := f.wide[body.ChestGirth]
			low := f.underBust + 0.3*(f.chest-f.underBust)
			o.lines = append(o.lines, geom.Path{{A: pt(c*0.14, f.chest-0.01*f.stature), B: pt(c*0.2, low-18), C: pt(c*0.75, low-22), D: pt(c*0.86, f.chest)}}.Map(m))
		}
	}
	return o
}

// elbowAt and wristAt are the middle of the right arm there, a little bent.
func (f form) elbowAt() geom.Pt { return pt(f.shoulderAt+0.035*f.stature, f.elbow) }

func (f form) wristAt() geom.Pt {
	return pt(max(f.wide[body.HipGirth], f.shoulderAt)+0.05*f.stature, f.wrist)
}

// arm is the right arm, closed.
func (f form) arm() geom.Path {
	upper, wrist := f.wide[body.UpperArmGirth], f.wide[body.WristGirth]
	elbow := (upper + wrist) / 2
	e, w := f.elbowAt(), f.wristAt()
	tip := f.wrist - 0.1*f.stature
	a := f.at(body.UpperArmGirth)
	out := smooth(
		pt(f.shoulderAt-2, f.shoulder+2), pt(f.armMiddle(a)+upper, a), pt(e.X+elbow, f.elbow), pt(w.X+wrist, f.wrist),
		pt(w.X+wrist+8, f.wrist-0.05*f.stature), pt(w.X+10, tip),
	)
	in := smooth(
		pt(f.wide[body.ChestGirth]*0.9, f.armpit+0.01*f.stature), pt(f.armMiddle(a)-upper, a), pt(e.X-elbow, f.elbow), pt(w.X-wrist, f.wrist),
		pt(w.X-wrist-6, f.wrist-0.05*f.stature), pt(w.X-14, tip),
	)
	return out.Join(geom.Polyline(out.End(), in.End()), in.Reverse())
}

// armMiddle is the middle of the right arm above the elbow.
func (f form) armMiddle(height float64) float64 {
	top := pt(f.shoulderAt-f.wide[body.UpperArmGirth]*0.6, f.armpit)
	return top.Lerp(f.elbowAt(), (f.armpit-height)/(f.armpit-f.elbow)).X
}

// profile is where the body ends in front and behind at the height of a girth,
// seen from the side. The shares are those of a standing body as it is commonly
// sketched (from memory): hollow at the waist, full behind at the hips.
func (f form) profile(id body.ID) (front, back float64) {
	share, shift := 0.5, 0.0
	switch id {
	case body.ChestGirth:
		share = 0.53
	case body.UnderBustGirth:
		share = 0.54
	case body.WaistGirth:
		share = 0.55
	case body.TopHipGirth:
		share = 0.5
	case body.HipGirth:
		share = 0.44
	case body.ThighGirth:
		shift = -10
	case body.CalfGirth:
		shift = -16
	case body.AnkleGirth:
		shift = -20
	case body.NeckGirth:
		shift = 4
	default: // as much in front as behind
	}
	t := f.thick[id]
	return t*share + shift, -t*(1-share) + shift
}

// side is the body from its right side, looking to the right.
func (f form) side() outline {
	front, back := f.edges(body.NeckGirth, body.ChestGirth, body.UnderBustGirth, body.WaistGirth, body.TopHipGirth, body.HipGirth,
		body.ThighGirth, body.KneeGirth, body.CalfGirth, body.AnkleGirth)
	heel, toe, instep := f.heel(), f.toe(), f.instep()
	foot := geom.Path{
		{A: front.End(), B: pt(front.End().X+4, f.ankle*0.8), C: pt(instep.X-6, f.ankle*0.7), D: instep},
		{A: instep, B: pt(instep.X+30, f.ankle*0.5), C: pt(toe.X, f.ankle*0.45), D: pt(toe.X, f.ankle*0.14)},
	}
	foot = foot.Join(geom.Polyline(pt(toe.X, f.ankle*0.14), toe, pt(heel.X+10, 0)),
		geom.Path{{A: pt(heel.X+10, 0), B: pt(heel.X-2, 0), C: pt(heel.X-4, f.ankle*0.4), D: back.End()}})
	return outline{
		skin: []geom.Path{f.head(8, 0.108*f.stature), front.Join(foot, back.Reverse())},
		left: back, right: front,
	}
}

// edges are the front and the back edge through the levels of those girths.
func (f form) edges(ids ...body.ID) (front, back geom.Path) {
	var fs, bs []geom.Pt
	for _, id := range ids {
		a, b := f.profile(id)
		fs, bs = append(fs, pt(a, f.at(id))), append(bs, pt(b, f.at(id)))
		if id == body.NeckGirth { // the shoulders, and the blades behind
			_, chest := f.profile(body.ChestGirth)
			fs, bs = append(fs, pt(a+6, f.nape-0.02*f.stature)), append(bs, pt(b-8, f.nape), pt(chest*0.97, f.armpit))
		}
	}
	if !f.bust {
		return smooth(fs...), smooth(bs...)
	}
	a, _ := f.profile(body.ChestGirth)
	for i, p := range fs {
		if p.Y == -f.chest {
			fs[i].X = a + 6
		}
	}
	return smooth(fs...), smooth(bs...)
}

// heel, instep and toe are of the foot seen from the side.
func (f form) heel() geom.Pt {
	_, back := f.profile(body.AnkleGirth)
	return pt(back-8, 0)
}
func (f form) toe() geom.Pt { return pt(f.heel().X+0.15*f.stature, 0) }
func (f form) instep() geom.Pt {
	front, _ := f.profile(body.AnkleGirth)
	return pt(front+14, f.ankle*0.66)
}
