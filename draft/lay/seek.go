package lay

import (
	"math"

	"chalkfold/draft/geom"
)

// How a better place is sought.
const (
	soughtNear = 12  // places tried near where it lies
	soughtAll  = 24  // places tried anywhere
	goneOnFrom = 3   // of which, the best, are gone on from
	apart      = 0.1 // of the size of the piece, that those lie from each other at least

	// Steps downhill, as shares of the size of the piece.
	roughFirst, roughLast = 0.25, 0.02
	fineFirst, fineLast   = 0.01, 0.0005
	// fineShare is the share of its deepest overlap that the last step is, when
	// that is less: near the end, moves must be as small as what is to be mended.
	fineShare = 0.01
)

// tried is a place and what it weighs.
type tried struct {
	place
	sum float64
}

// shortlist keeps the best places tried, the best first, and of those that lie
// close together one: to go on from the others would lead to the same place.
type shortlist struct {
	list  [goneOnFrom]tried
	n     int
	apart float64 // how far at least, across or along
}

// most is what a place must weigh less than to be taken.
func (l *shortlist) most() float64 {
	if l.n < goneOnFrom {
		return math.Inf(1)
	}
	return l.list[l.n-1].sum
}

func (l *shortlist) take(t tried) {
	if t.sum >= l.most() {
		return
	}
	k := l.beside(t.place)
	if k < 0 {
		if l.n < goneOnFrom {
			l.n++
		}
		k = l.n - 1
	} else if t.sum >= l.list[k].sum {
		return
	}
	for ; k > 0 && l.list[k-1].sum > t.sum; k-- {
		l.list[k] = l.list[k-1]
	}
	l.list[k] = t
}

// beside is which of the list lies close to a place, -1 for none.
func (l *shortlist) beside(to place) int {
	for k := range l.list[:l.n] {
		t := &l.list[k]
		if t.facing == to.facing && t.part == to.part && math.Abs(t.x-to.x) < l.apart && math.Abs(t.y-to.y) < l.apart {
			return k
		}
	}
	return -1
}

// seek looks for the place where mover i runs least into the others: here,
// nearby and anywhere, and downhill from the best of those.
func (p *packing) seek(i int) (place, bool) {
	rng := p.s.rng
	var l shortlist
	try := func(to place) { l.take(tried{to, p.weigh(i, to, l.most())}) }

	here, ok := p.into(p.at[i])
	b := p.s.facings[here.facing].box
	size := min(b.W(), b.H())
	l.apart = apart * size
	near, all := geom.Vec{X: b.W(), Y: b.H()}, soughtAll
	if p.even > 0 { // each stays about where it is
		near, all = geom.Vec{X: evenNear * p.even, Y: evenNear * p.even}, 0
	}
	if ok {
		try(here)
		for range soughtNear {
			to := here
			to.x += (rng.Float64() - 0.5) * near.X
			to.y += (rng.Float64() - 0.5) * near.Y
			to, _ = p.into(to)
			try(to)
		}
	}
	ways := p.s.ways[p.items[i]]
	for range all {
		if to, ok := p.anywhere(ways[rng.IntN(len(ways))]); ok {
			try(to)
		}
	}
	if l.n == 0 {
		return here, false
	}
	best := p.refine(i, l.list[0], size*roughFirst, size*roughLast)
	for _, t := range l.list[1:l.n] {
		if t = p.refine(i, t, size*roughFirst, size*roughLast); t.sum < best.sum {
			best = t
		}
	}
	best = p.refine(i, best, size*fineFirst, min(size*fineLast, fineShare*p.deepest(i)))
	return best.place, true
}

// anywhere returns a place by chance, and whether there is room at all.
func (p *packing) anywhere(w way) (place, bool) {
	room := p.room(w.part, w.facing)
	if !room.some {
		return place{}, false
	}
	rng := p.s.rng
	return p.into(place{w.part, w.facing, room.Min.X + rng.Float64()*room.W(), room.Min.Y + rng.Float64()*room.H()})
}

// refine goes downhill from a place, along and across the cloth and between
// them, with steps from first down to last.
func (p *packing) refine(i int, t tried, first, last float64) tried {
	step := [2]float64{first, first}
	p.rivals.none()
	for t.sum > 0 && max(step[0], step[1]) > last {
		dx, dy := step[0], step[1]
		switch p.s.rng.IntN(4) {
		case 0:
			dx = 0
		case 1:
			dy = 0
		case 2:
			dy = -dy
		}
		by := 0.5
		for _, sign := range [2]float64{1, -1} {
			to := t.place
			to.x += sign * dx
			to.y += sign * dy
			to, _ = p.into(to)
			if to == t.place {
				continue
			}
			if !p.rivals.about(to) {
				p.gatherRivals(i, t.place, max(step[0], math.Abs(to.x-t.x)), max(step[1], math.Abs(to.y-t.y)))
			}
			if sum := p.rivals.weigh(to, t.sum); sum < t.sum {
				t, by = tried{to, sum}, 1.1
				break
			}
		}
		if dx != 0 {
			step[0] *= by
		}
		if dy != 0 {
			step[1] *= by
		}
	}
	return t
}
