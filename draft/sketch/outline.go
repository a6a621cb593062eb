package sketch

import (
	"math"
	"slices"

	"chalkfold/draft/geom"
)

// How the legs lie (common practice among those who sketch).
const (
	parted  = 0.012 // the inside of a leg from the middle, of the way down: they are seen as two
	settled = 0.4   // of the inside leg: from here down it has its full width
)

// samples is at how many levels seat and leg are measured.
const samples = 12

// row is the garment at one level: y, and x from the middle.
type row struct {
	s        float64 // along the side of the front
	y        float64
	in, edge float64
}

// outline is the right half of the garment, front and back alike.
type outline struct {
	rows    []row // from waist to hem
	forkY   float64
	legs    bool
	sideY   float64 // of the side at the waist
	hemY    float64
	outside geom.Path // down the side
	inside  geom.Path // down the inside of the leg, empty without legs
}

func newOutline(front, back half) (outline, bool) {
	end := front.side.Len()
	fork := end
	if front.legs {
		fork = front.level(front.fork)
	}
	foot := front.side.End()
	o := outline{legs: front.legs, forkY: front.fork.Y, hemY: foot.Y, sideY: front.side.Start().Y}
	if o.legs && (fork <= 0 || fork >= end || !back.legs) {
		return outline{}, false
	}
	for i := range samples {
		s := fork * float64(i) / samples
		o.add(front, s, (front.seat(s)+back.seat(s))/2)
	}
	if !o.legs {
		o.add(front, end, (front.seat(end)+back.seat(end))/2)
	} else {
		o.layLegs(front, back, fork, end)
	}
	o.fitWaist(front, back)
	for i, r := range o.rows {
		if r.edge <= 0 || i > 0 && r.y <= o.rows[i-1].y {
			return outline{}, false
		}
	}
	down := o.rows
	if o.legs { // past the fork in the same sweep
		down = append(slices.Clone(o.rows[:samples]), o.rows[samples+1:]...)
	}
	o.outside = fair(down, func(r row) float64 { return r.edge })
	if o.legs {
		o.inside = fair(o.rows[samples:], func(r row) float64 { return r.in })
	}
	return o, true
}

// fitWaist gives the waist as it is drawn the length of the waist seam: the tape
// lies along its curve. What that takes is lost again half way to the fork.
func (o *outline) fitWaist(front, back half) {
	more := (front.waist() + back.waist() - o.waist(front).Len() - o.waist(back).Len()) / 2
	const over = samples / 2
	for i := range over {
		o.rows[i].edge += more * (1 - float64(i)/over)
	}
}

func (o *outline) add(front half, s, edge float64) {
	at, _ := front.side.At(s)
	o.rows = append(o.rows, row{s: s, y: at.Y, edge: edge})
}

// layLegs measures the legs from where they are settled, and leans them out as
// far as their hems need. From the fork down to there the lines run in one sweep.
func (o *outline) layLegs(front, back half, fork, end float64) {
	seat := (front.seat(fork) + back.seat(fork)) / 2
	leg := o.hemY - o.forkY
	o.add(front, fork, seat)
	from := end - (end-fork)*(1-settled)
	for i := range samples + 1 {
		s := from + (end-from)*float64(i)/samples
		f, _ := front.leg(s)
		b, _ := back.leg(s * back.side.Len() / end)
		o.add(front, s, (f+b)/2)
	}
	hem := o.rows[len(o.rows)-1].edge
	lean := math.Max(parted, parted+(hem-seat)/2/leg)
	for i, r := range o.rows[samples+1:] {
		y := r.y - o.forkY
		// One that is wider than the seat hangs in folds above its hem.
		r.edge = math.Min(r.edge, math.Max(seat, seat+(hem-seat)*y/leg))
		r.in = math.Max(seat/2+lean*y-r.edge/2, parted*y)
		r.edge += r.in
		o.rows[samples+1+i] = r
	}
}

func fair(rows []row, x func(row) float64) geom.Path {
	pts := make([]geom.Pt, len(rows))
	for i, r := range rows {
		pts[i] = geom.Pt{X: x(r), Y: r.y}
	}
	return geom.Fair(pts, math.NaN(), math.NaN())
}

// at is the garment at a height.
func (o outline) at(y float64) row {
	first, last := o.rows[0], o.rows[len(o.rows)-1]
	if y <= first.y {
		return first
	}
	for i := 1; i < len(o.rows); i++ {
		if b := o.rows[i]; y <= b.y {
			a := o.rows[i-1]
			t := (y - a.y) / (b.y - a.y)
			return row{s: a.s + (b.s-a.s)*t, y: y, in: a.in + (b.in-a.in)*t, edge: a.edge + (b.edge-a.edge)*t}
		}
	}
	return last
}

// waist is the top edge of one view, from the middle to the side.
func (o outline) waist(h half) geom.Path {
	mid, edge := geom.Pt{Y: o.raised(h) + h.from.Y}, geom.Pt{X: o.rows[0].edge, Y: o.sideY}
	third := edge.X / 3
	return geom.Path{{
		A: mid, B: geom.Pt{X: third, Y: mid.Y},
		C: geom.Pt{X: edge.X - third, Y: edge.Y + (mid.Y-edge.Y)/3}, D: edge,
	}}
}

// raised is how far a panel must be moved down for its side to begin where the
// front's does.
func (o outline) raised(h half) float64 { return o.sideY - h.side.Start().Y }
