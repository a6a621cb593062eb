package sketch

import (
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
)

// view draws one half of the garment with h before the eye and other behind it.
func (o outline) view(h, other half, worn piece.Worn) []part {
	v := &viewer{o: o, h: h, top: o.waist(h)}
	band := geom.Translate(geom.Vec{Y: -worn.Band.MM()})
	if far := o.waist(other); far.Start().Y < v.top.Start().Y {
		v.add(Within, far.Join(v.top.Reverse()).Map(band), across)
	}
	v.add(Cloth, o.silhouette(v.top), across)
	if worn.Band > 0 {
		upper := v.top.Map(band).Map(geom.Affine{A: 1 - worn.BandIn.MM()/4/o.rows[0].edge, D: 1})
		half := v.top.Join(geom.Polyline(v.top.End(), upper.End()), upper.Reverse())
		v.add(Band, half, across)
		v.gathers(worn)
	}
	v.centre()
	v.hem()
	v.darts()
	for _, s := range h.panel.Seen {
		v.seen(s)
	}
	v.lap(worn)
	v.loops(worn)
	return v.parts
}

// silhouette is the half of the garment below the band.
func (o outline) silhouette(top geom.Path) geom.Path {
	half := top.Join(o.outside)
	foot := o.outside.End()
	if o.legs {
		half = half.Join(geom.Polyline(foot, o.inside.End()), o.inside.Reverse())
	} else {
		half = half.Join(geom.Polyline(foot, geom.Pt{Y: foot.Y}))
	}
	return half
}

type viewer struct {
	o     outline
	h     half
	top   geom.Path // as drawn
	parts []part
}

func (v *viewer) add(role Role, p geom.Path, on where) {
	v.parts = append(v.parts, part{Shape{role, p}, on})
}

// both draws a line on both hands, or on one.
func (v *viewer) both(role Role, p geom.Path, on piece.Hand) {
	// Seen from behind, the wearer's left is on the left.
	right, left := piece.LeftHand, piece.RightHand
	if v.h.panel.Behind {
		right, left = left, right
	}
	at := map[piece.Hand]where{piece.BothHands: beside, right: onRight, left: onLeft}
	v.add(role, p, at[on])
}

func (v *viewer) centre() {
	if v.h.folded {
		return
	}
	end := geom.Pt{Y: v.o.hemY}
	if v.o.legs {
		end.Y = v.o.forkY
	}
	v.add(Seam, geom.Polyline(v.top.Start(), end), middle)
}

// hem draws the stitching of what is turned up.
func (v *viewer) hem() {
	if !v.h.hem.Turned || v.h.hem.AllowStart <= 0 {
		return
	}
	r := v.o.at(v.o.hemY - v.h.hem.AllowStart.MM())
	line := geom.Polyline(geom.Pt{X: r.in, Y: r.y}, geom.Pt{X: r.edge, Y: r.y})
	v.both(Stitching, line, piece.BothHands)
}

func (v *viewer) darts() {
	for _, d := range v.h.darts {
		leg, point := v.onTop(d.Legs[0]), v.place(d.Point)
		if d.Sewn {
			v.both(Seam, geom.Polyline(leg, point), piece.BothHands)
			continue
		}
		// The fold lies to the centre, under the front.
		under := v.topPt(math.Max(0, leg.X-d.Legs[0].Dist(d.Legs[1])/2))
		v.both(Folded, geom.Polyline(leg, point), piece.BothHands)
		v.both(Under, geom.Polyline(under, point), piece.BothHands)
	}
}

func (v *viewer) seen(s piece.Seen) {
	role := map[piece.SeenKind]Role{
		piece.Stitching: Stitching, piece.Mouth: Mouth, piece.Pressed: Crease, piece.Tucked: Tuck, piece.TurnedUp: Folded, piece.Beneath: Under,
	}[s.Kind]
	v.both(role, v.within(v.path(s.Path)), s.On)
}

// within draws what would lie beside the outline on it: past the fork the
// outline runs in one sweep.
func (v *viewer) within(p geom.Path) geom.Path {
	for i := range p {
		for _, at := range []*geom.Pt{&p[i].A, &p[i].B, &p[i].C, &p[i].D} {
			if on := v.o.outside.CrossLine(*at, geom.Vec{X: 1}); len(on) > 0 {
				edge, _ := v.o.outside.At(on[0])
				at.X = math.Min(at.X, edge.X)
			}
		}
	}
	return p
}

// gathers draws the folds of a gathered band.
func (v *viewer) gathers(worn piece.Worn) {
	const apart = 18 // mm
	for x := apart / 2.0; worn.Gathered && x < v.o.rows[0].edge; x += apart {
		at := v.topPt(x)
		v.both(Seam, geom.Polyline(at.Add(geom.Vec{Y: -0.85 * worn.Band.MM()}), at.Add(geom.Vec{Y: -0.15 * worn.Band.MM()})), piece.BothHands)
	}
}

// buttonSize is across, mm (common practice).
const buttonSize = 15

// lap draws where the band opens at the centre: its end, and the button on the hand that
// lies on top.
func (v *viewer) lap(worn piece.Worn) {
	if worn.Lap == piece.BothHands || worn.Band <= 0 || v.h.panel.Behind != worn.LapBehind {
		return
	}
	mid := v.top.Start()
	v.add(Seam, geom.Polyline(mid, mid.Add(geom.Vec{Y: -worn.Band.MM()})), middle)
	r := math.Min(buttonSize, worn.Band.MM()/2) / 2
	at := geom.Pt{X: 2 * r, Y: mid.Y - worn.Band.MM()/2}
	v.both(Fastening, round(at, r), worn.Lap)
}

// loopOver is how far a loop reaches over the band, mm.
const loopOver = 5

func (v *viewer) loops(worn piece.Worn) {
	w := worn.LoopWidth.MM() / 2
	for _, l := range worn.Loops {
		if l.Panel != v.h.panel.Name && l.Panel != v.h.panel.Like {
			continue
		}
		at := v.onTop(l.At)
		ring := func(mid geom.Pt) geom.Path {
			lo, hi := mid.Y+loopOver, mid.Y-worn.Band.MM()-loopOver
			return geom.Polyline(geom.Pt{X: mid.X - w, Y: hi}, geom.Pt{X: mid.X + w, Y: hi},
				geom.Pt{X: mid.X + w, Y: lo}, geom.Pt{X: mid.X - w, Y: lo}, geom.Pt{X: mid.X - w, Y: hi})
		}
		if at.X < 1 {
			v.add(Loop, ring(geom.Pt{Y: at.Y}), middle)
			continue
		}
		at.X = math.Min(at.X, v.o.rows[0].edge-w)
		v.both(Loop, ring(at), piece.BothHands)
	}
}

// topPt is the point of the top edge so far from the middle.
func (v *viewer) topPt(x float64) geom.Pt {
	if on := v.top.CrossLine(geom.Pt{X: x}, geom.Vec{Y: 1}); len(on) > 0 {
		p, _ := v.top.At(on[0])
		return p
	}
	return v.top.End()
}

// onTop is where a point of the panel's top edge lies.
func (v *viewer) onTop(p geom.Pt) geom.Pt {
	return v.topPt(v.h.across(p) / math.Max(v.h.seat(0), 1) * v.o.rows[0].edge)
}

// nearTop is how far below the waist the drawing follows the top edge, mm.
const nearTop = 200

// place is where a point of the panel lies.
func (v *viewer) place(p geom.Pt) geom.Pt {
	s := v.h.level(p)
	y := math.Min(p.Y+v.o.raised(v.h), v.o.hemY)
	r := v.o.at(y)
	if v.h.below(p) {
		w, inside := v.h.leg(s)
		return geom.Pt{X: r.in + (r.edge-r.in)*(p.X-inside.X)/math.Max(w+v.h.tuck, 1), Y: y}
	}
	x := r.edge * v.h.across(p) / math.Max(v.h.seat(s), 1)
	deep := p.Y - v.h.topAt(p)
	follow := math.Max(0, 1-math.Max(0, deep)/nearTop)
	y += follow * (v.topPt(x).Y + deep - y)
	return geom.Pt{X: x, Y: y}
}

// steps is in how many straight steps a curve is laid out. A straight line stays
// one.
const steps = 10

func (v *viewer) path(p geom.Path) geom.Path {
	var pts []geom.Pt
	for i, c := range p {
		if c.IsLine() {
			pts = append(pts, v.place(c.A), v.place(c.D))
			continue
		}
		for t := range steps + 1 {
			if t > 0 || i == 0 {
				pts = append(pts, v.place(c.At(float64(t)/steps)))
			}
		}
	}
	return geom.Polyline(pts...)
}

// round is a circle.
func round(c geom.Pt, r float64) geom.Path {
	const k = 0.5522847498
	at := func(x, y float64) geom.Pt { return geom.Pt{X: c.X + x*r, Y: c.Y + y*r} }
	return geom.Path{
		{A: at(1, 0), B: at(1, k), C: at(k, 1), D: at(0, 1)},
		{A: at(0, 1), B: at(-k, 1), C: at(-1, k), D: at(-1, 0)},
		{A: at(-1, 0), B: at(-1, -k), C: at(-k, -1), D: at(0, -1)},
		{A: at(0, -1), B: at(k, -1), C: at(1, -k), D: at(1, 0)},
	}
}
