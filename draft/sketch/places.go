package sketch

import (
	"math"
	"slices"

	"chalkfold/draft/geom"
)

// Places finds spots on one view of a flat sketch, so that something can be drawn
// on any garment alike.
type Places struct {
	cloth     geom.Path
	top, mid  float64 // of the centre: where it begins and where it ends
	from, end float64 // of the whole garment
}

// Places returns those of a view.
func (v View) Places() Places {
	var p Places
	for _, s := range v {
		if s.Role == Cloth {
			p.cloth = s.Path
		}
	}
	box := p.cloth.Bounds(1)
	p.from, p.end = box.Min.Y, box.Max.Y
	p.top, p.mid = p.from, p.end
	var on []float64
	for _, s := range p.cloth.CrossLine(geom.Pt{X: 0.01}, geom.Vec{Y: 1}) {
		at, _ := p.cloth.At(s)
		on = append(on, at.Y)
	}
	if len(on) > 1 {
		p.top, p.mid = slices.Min(on), slices.Max(on)
	}
	return p
}

// inset keeps what is drawn off the ends of the garment, mm.
const inset = 2

// At is the spot so far across, from the middle of the body or the inside of a leg
// (0) to the edge (1), and so far down: from where the centre begins (0) to where
// it ends (1), and from there to the hem (2). It lies on the right of the drawing.
func (p Places) At(across, down float64) geom.Pt {
	y := p.top + down*(p.mid-p.top)
	if down > 1 {
		y = p.mid + (down-1)*(p.end-p.mid)
	}
	y = math.Max(p.from+inset, math.Min(p.end-inset, y))
	var on []float64
	for _, s := range p.cloth.CrossLine(geom.Pt{Y: y}, geom.Vec{X: 1}) {
		if at, _ := p.cloth.At(s); at.X > 0.01 {
			on = append(on, at.X)
		}
	}
	in, out := 0.0, 0.0
	if len(on) > 0 {
		out = slices.Max(on)
	}
	if len(on)%2 == 0 && len(on) > 0 {
		in = slices.Min(on)
	}
	return geom.Pt{X: in + across*(out-in), Y: y}
}
