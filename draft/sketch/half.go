package sketch

import (
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
)

// half is one panel, to be measured as it is worn.
type half struct {
	panel             piece.Panel
	top, side, inseam geom.Path
	hem               piece.Edge
	legs              bool
	folded            bool // its centre is the fold of the cloth: no seam
	// the centre line, from the waist down, carried on endlessly
	from geom.Pt
	down geom.Vec
	out  geom.Vec // square to it, to the side
	fork geom.Pt  // where the legs part; the foot of the centre line where they do not
	// darts of the panel
	darts []piece.Dart
	tuck  float64 // taken in across the leg
}

func newHalf(panels []piece.Panel, darts []piece.Dart, behind bool) (half, bool) {
	for _, p := range panels {
		if p.Behind != behind {
			continue
		}
		top, okTop := p.At(piece.Top)
		side, okSide := p.At(piece.Side)
		hem, okHem := p.At(piece.Foot)
		centre, okCentre := p.At(piece.Centre)
		if !okTop || !okSide || !okHem || !okCentre {
			continue
		}
		h := half{panel: p, top: top.Sew, side: side.Sew, hem: hem, folded: centre.Fold, from: centre.Sew.End(), fork: centre.Sew.Start()}
		h.down = centre.Sew.Start().Sub(h.from).Unit()
		h.out = h.down.Left()
		if inseam, ok := p.At(piece.BetweenLegs); ok {
			h.legs, h.inseam, h.fork = true, inseam.Sew, inseam.Sew.End()
		}
		for _, s := range p.Seen {
			h.tuck += s.Takes.MM()
		}
		for _, d := range darts {
			if d.Panel == p.Name {
				h.darts = append(h.darts, d)
			}
		}
		return h, true
	}
	return half{}, false
}

// intake is what a dart takes in at the depth of p.
func (h half) intake(d piece.Dart, p geom.Pt) float64 {
	top := d.Legs[0].Lerp(d.Legs[1], 0.5)
	deep := d.Point.Sub(top).Dot(h.down)
	if deep <= 0 {
		return 0
	}
	share := p.Sub(top).Dot(h.down) / deep
	return math.Max(0, 1-math.Max(0, share)) * d.Legs[0].Dist(d.Legs[1])
}

// across is how far p lies from the centre line with the darts before it
// closed. A point within a dart lies where its legs meet.
func (h half) across(p geom.Pt) float64 {
	x := p.Sub(h.from).Dot(h.out)
	for _, d := range h.darts {
		in := h.intake(d, p)
		begins := d.Legs[0].Lerp(d.Point, 1-in/math.Max(d.Legs[0].Dist(d.Legs[1]), 1e-9)).Sub(h.from).Dot(h.out)
		x -= math.Max(0, math.Min(in, p.Sub(h.from).Dot(h.out)-begins))
	}
	return x
}

// waist is the length of the top edge with its darts closed.
func (h half) waist() float64 {
	l := h.top.Len()
	for _, d := range h.darts {
		a, _ := h.top.Nearest(d.Legs[0])
		b, _ := h.top.Nearest(d.Legs[1])
		l -= b - a
	}
	return l
}

// seat is the width of the panel from the centre line to the side, s along it.
func (h half) seat(s float64) float64 {
	at, _ := h.side.At(s)
	return h.across(at)
}

// leg is the width of the panel across the leg, s along the side, tucks sewn, and
// where its inside lies.
func (h half) leg(s float64) (width float64, inside geom.Pt) {
	at, _ := h.side.At(s)
	inside = h.fork
	switch on := h.inseam.CrossLine(at, geom.Vec{X: 1}); {
	case len(on) > 0:
		inside, _ = h.inseam.At(on[0])
	case at.Y > h.inseam.Start().Y:
		inside = h.inseam.Start()
	}
	return math.Abs(at.X-inside.X) - h.tuck, inside
}

// level is how far along the side a level lies: along the panel's own square
// above the fork, along the cloth's below.
func (h half) level(p geom.Pt) float64 {
	dir := h.out
	if h.below(p) {
		dir = geom.Vec{X: 1}
	}
	if on := h.side.CrossLine(p, dir); len(on) > 0 {
		return on[0]
	}
	if p.Y < h.side.Start().Y {
		return 0
	}
	return h.side.Len()
}

// nearFork is how far above the tip of the fork the leg is taken to begin, mm:
// a tip may be dropped below the fork line.
const nearFork = 40

// below reports whether p lies on a leg.
func (h half) below(p geom.Pt) bool { return h.legs && p.Y > h.fork.Y-nearFork }

// topAt is the height of the top edge over p.
func (h half) topAt(p geom.Pt) float64 {
	if on := h.top.CrossLine(p, geom.Vec{Y: 1}); len(on) > 0 {
		at, _ := h.top.At(on[0])
		return at.Y
	}
	if p.X > h.top.End().X {
		return h.top.End().Y
	}
	return h.top.Start().Y
}
