package lay

import (
	"math"
	"math/bits"

	"chalkfold/draft/geom"
)

// place is where and which way round an item lies in a packing.
type place struct {
	part   int // of the table: 0 the folded part or open cloth, 1 the opened rest
	facing int
	x, y   float64 // of the facing's origin; y from the start of its part
}

// packing is a lay in which pieces may still run into each other. It pulls them
// apart by moving one at a time to where it runs least into the others; what
// stays in the way weighs more and more. This is guided local search (Voudouris
// and Tsang 1995), as Egeblad, Nielsen and Odgaard 2007 and Umetani and others
// 2009 took it to laying.
type packing struct {
	s     *Search
	items []int // that move; the rest is locked
	fixed [2][]laid
	lens  [2]float64 // usable length of each part
	// stripes is where they fall, when some must meet.
	stripes phases
	even    float64 // grain lines begin on multiples of this; nought is anywhere

	at      []place // by mover
	box     []geom.Rect
	depth   []float64 // of mover i into what is numbered j: j < len(items) another mover, else fixed
	least   []float64 // how much that weighs at first
	heed    []float64 // how much it weighs now
	wide    int       // numbers in a row of these
	rooms   []roomy   // of the facings in each part, for the lengths roomsIn
	roomsIn [2]float64
	todo    []int // movers still to be moved in this pass
	list    []int // see near
	finder  *finder
	rivals  rivals
}

func newPacking(s *Search, items []int, fixed [2][]laid, lens [2]float64) *packing {
	n := len(items)
	p := &packing{
		s: s, items: items, fixed: fixed, lens: lens,
		at: make([]place, n), box: make([]geom.Rect, n), wide: n + max(len(fixed[0]), len(fixed[1])),
	}
	lo, hi := s.cloth.across(s.cloth.Fold == Lengthwise)
	p.finder = newFinder(n, geom.Rect{Min: geom.Pt{X: lo}, Max: geom.Pt{X: hi, Y: max(lens[0], lens[1])}})
	p.depth, p.heed = make([]float64, n*p.wide), make([]float64, n*p.wide)
	p.least = p.leastHeed()
	return p
}

// leastHeed returns how much each overlap weighs at first: the more, the larger
// the two are, since the larger are harder to get out of each other's way.
func (p *packing) leastHeed() []float64 {
	size, mean := make([]float64, p.wide), 0.0
	for i, item := range p.items {
		b := p.s.facings[p.s.ways[item][0].facing].box
		size[i] = math.Sqrt(b.W() * b.H())
		mean += size[i] / float64(len(p.items))
	}
	for k := len(p.items); k < p.wide; k++ {
		size[k] = mean
	}
	least := make([]float64, 0, len(p.heed))
	for _, a := range size[:len(p.items)] {
		for _, b := range size {
			least = append(least, math.Sqrt(a*b)/mean)
		}
	}
	return least
}

// row returns what a table of movers holds for mover i.
func (p *packing) row(of []float64, i int) []float64 { return of[i*p.wide : (i+1)*p.wide] }

// put lays mover i, and brings up to date what it runs into.
func (p *packing) put(i int, to place) {
	p.at[i] = to
	p.box[i] = p.moved(to)
	p.finder.put(i, p.box[i])
	row := p.row(p.depth, i)
	for j := range p.items {
		if row[j] != 0 {
			row[j], p.depth[j*p.wide+i] = 0, 0
		}
	}
	for _, j := range p.near(i) {
		d := p.s.depths(p.at[j].facing, to.facing).at(to.x-p.at[j].x, to.y-p.at[j].y)
		row[j], p.depth[j*p.wide+i] = d, d
	}
	fixed := row[len(p.items):]
	clear(fixed)
	for k := range p.fixed[to.part] {
		fixed[k] = p.depthInto(k, to)
	}
}

// near lists the other movers that mover i may run into. The list holds until
// the next call.
func (p *packing) near(i int) []int {
	b, gap := &p.box[i], p.s.cloth.Gap.MM()
	n := p.finder.near(b.Min.X-gap, b.Max.X+gap, b.Min.Y-gap, b.Max.Y+gap)
	p.list = p.list[:0]
	for k := range p.finder.words {
		for set := n.word(k); set != 0; set &= set - 1 {
			if j := 64*k + bits.TrailingZeros64(set); j != i && p.at[j].part == p.at[i].part {
				p.list = append(p.list, j)
			}
		}
	}
	return p.list
}

// moved returns the box of what lies at a place.
func (p *packing) moved(to place) geom.Rect {
	b, v := p.s.facings[to.facing].box, geom.Vec{X: to.x, Y: to.y}
	return geom.Rect{Min: b.Min.Add(v), Max: b.Max.Add(v)}
}

// depthInto returns how deep a piece at a place runs into what is fixed there.
func (p *packing) depthInto(k int, to place) float64 {
	l := p.fixed[to.part][k]
	at := p.fixedAt(to.part, l)
	return p.s.depths(l.facing, to.facing).at(to.x-at.X, to.y-at.Y)
}

// fixedAt is where something fixed lies on its part of the table: flaws on the
// opened rest are measured from the cut edge, what is locked there from where it
// begins.
func (p *packing) fixedAt(part int, l laid) geom.Vec {
	if part == 1 && p.s.facings[l.facing].bare {
		l.at.Y -= p.lens[0]
	}
	return l.at
}

// overlap is how deep everything runs into everything, in all.
func (p *packing) overlap() float64 {
	sum := 0.0
	for i := range p.items {
		for _, d := range p.row(p.depth, i)[i+1:] {
			sum += d
		}
	}
	return sum
}

// deepest is how deep mover i runs into anything at most.
func (p *packing) deepest(i int) float64 {
	d := 0.0
	for _, v := range p.row(p.depth, i) {
		if v > d {
			d = v
		}
	}
	return d
}

// weigh returns how deep mover i would run into the others at a place, weighed;
// anything from most on when it is no less than that.
func (p *packing) weigh(i int, to place, most float64) float64 {
	gap := p.s.cloth.Gap.MM()
	f := &p.s.facings[to.facing].box
	x0, x1, y0, y1 := f.Min.X+to.x-gap, f.Max.X+to.x+gap, f.Min.Y+to.y-gap, f.Max.Y+to.y+gap
	sum := 0.0
	heed := p.row(p.heed, i)
	near := p.finder.near(x0, x1, y0, y1)
	for k := range p.finder.words {
		for set := near.word(k); set != 0; set &= set - 1 {
			j := 64*k + bits.TrailingZeros64(set)
			b := &p.box[j]
			if b.Min.X >= x1 || b.Max.X <= x0 || b.Min.Y >= y1 || b.Max.Y <= y0 || j == i || p.at[j].part != to.part {
				continue
			}
			q := &p.at[j]
			if d := p.s.depths(q.facing, to.facing).at(to.x-q.x, to.y-q.y); d > 0 {
				if sum += d * heed[j]; sum >= most {
					return sum
				}
			}
		}
	}
	for k := range p.fixed[to.part] {
		if d := p.depthInto(k, to); d > 0 {
			if sum += d * heed[len(p.items)+k]; sum >= most {
				return sum
			}
		}
	}
	return sum
}

// roomy is the box of places for a facing in a part of the table, and whether
// there is any.
type roomy struct {
	geom.Rect
	some bool
}

// room returns the room for a facing in a part of the table. It is worked out
// once for all facings, for as long as the lengths of the parts stay.
func (p *packing) room(part, facing int) *roomy {
	if p.rooms == nil || p.roomsIn != p.lens {
		p.rooms, p.roomsIn = p.rooms[:0], p.lens
		for part := range p.lens {
			lo, hi := p.s.cloth.across(part == 1)
			for i := range p.s.facings {
				box, ok := p.s.facings[i].room(lo, hi, p.lens[part])
				p.rooms = append(p.rooms, roomy{box, ok})
			}
		}
	}
	return &p.rooms[part*len(p.s.facings)+facing]
}

// into returns the place drawn into the strip, onto the stripes and onto round
// figures, and whether it goes in at all.
func (p *packing) into(to place) (place, bool) {
	room := p.room(to.part, to.facing)
	if !room.some {
		return to, false
	}
	to.x, to.y = clamp(to.x, room.Min.X, room.Max.X), clamp(to.y, room.Min.Y, room.Max.Y)
	if p.stripes == nil && p.even == 0 {
		return to, true
	}
	rows, columns := true, true
	c, f, top := &p.s.cloth, &p.s.facings[to.facing], 0.0
	if to.part == 1 {
		top = p.lens[0]
	}
	if from, bound := p.stripes.bound(f.ties[0], -top); bound {
		to.y, rows = nearest(to.y, room.Min.Y, room.Max.Y, from, c.RepeatAlong.MM())
	} else if p.even > 0 {
		to.y, rows = nearest(to.y, room.Min.Y, room.Max.Y, -f.grain.Y, p.even)
	}
	if from, bound := p.stripes.bound(f.ties[1], c.axis(to.part == 1)); bound {
		to.x, columns = nearest(to.x, room.Min.X, room.Max.X, from, c.RepeatAcross.MM())
	} else if p.even > 0 && !f.onFold {
		to.x, columns = nearest(to.x, room.Min.X, room.Max.X, -f.grain.X, p.even)
	}
	return to, rows && columns
}

// How many times as much an overlap weighs after a pass, or how much less.
const (
	fewTimes, manyTimes = 1.2, 2.0
	lessHeed            = 0.95
)

// heedMore makes what is still in the way weigh more, the deepest most, and the
// rest less again.
func (p *packing) heedMore() {
	deepest := 0.0
	for i := range p.items {
		deepest = max(deepest, p.deepest(i))
	}
	for k, d := range p.depth {
		if d > 0 {
			p.heed[k] *= fewTimes + (manyTimes-fewTimes)*d/deepest
		} else {
			p.heed[k] *= lessHeed
			if p.heed[k] < p.least[k] {
				p.heed[k] = p.least[k]
			}
		}
	}
}

// gather lists, in any order, the movers that run into something.
func (p *packing) gather() {
	p.todo = p.todo[:0]
	for i := range p.items {
		if p.deepest(i) > 0 {
			p.todo = append(p.todo, i)
		}
	}
	p.s.rng.Shuffle(len(p.todo), func(a, b int) { p.todo[a], p.todo[b] = p.todo[b], p.todo[a] })
}

// move moves the next mover of those gathered, unless it is free by now.
func (p *packing) move() {
	i := p.todo[len(p.todo)-1]
	p.todo = p.todo[:len(p.todo)-1]
	if p.deepest(i) > 0 {
		if to, ok := p.seek(i); ok {
			p.put(i, to)
		}
	}
}

// clamp is written out, as other comparisons of the inner loops are: the min and
// max of the language are calls in wasm, and many times slower.
func clamp(v, lo, hi float64) float64 {
	if v > hi {
		v = hi
	}
	if v < lo {
		return lo
	}
	return v
}
