package lay

import (
	"cmp"
	"math"
	"slices"
)

// squeeze makes a lay shorter and shorter: it takes some of the length away,
// has the packing pull apart what runs into each other then, and takes away
// more. Where that fails it starts from another attempt that came near, with
// two pieces exchanged, and now and then it squeezes what it has by hairs.
type squeeze struct {
	packing
	best     []place // of the shortest lay so far
	bestLens [2]float64
	adding   int // the mover that is to be pressed in, -1 for none

	underWay bool
	by       float64 // share of the length that is taken away
	hairs    bool    // by hairs, from the best lay
	fails    int     // attempts in a row at this length
	pool     []missed
	near     missed // the least overlap in this attempt
	idle     int    // passes without less overlap
	strikes  int    // how often since then it went back to near
}

// How far and how long it tries.
const (
	firstBy, leastBy    = 0.01, 0.001
	firstHair, lastHair = 0.0005, 0.00001
	lessHair            = 0.85

	mostFails   = 10   // before it turns to hairs
	refoldEach  = 5    // fails; another way of folding is tried then
	lessOverlap = 0.98 // counts as less
	hopeless    = 6    // times the least overlap that an attempt at this length came to
)

// patience is how many passes without less overlap are enough, and how often in a
// row. Where a smaller step is still to come, or another attempt at the length
// came much nearer, little is.
func (q *squeeze) patience() (idle, strikes int) {
	switch {
	case q.adding >= 0:
		return 30, 1
	case q.hairs:
		return 80, 1
	case q.by > leastBy:
		return 30, 1
	case len(q.pool) > 0 && q.near.overlap > hopeless*q.pool[0].overlap:
		return 100, 1
	}
	return 200, 3
}

// missed is an attempt that failed, the pieces as they ran least into each other.
type missed struct {
	at      []place
	overlap float64
}

func newSqueeze(p *packing, from []place, lens [2]float64) *squeeze {
	q := &squeeze{packing: *p, by: firstBy}
	q.best, q.bestLens = from, lens
	return q
}

// step moves one piece; it reports whether that made a shorter lay.
func (q *squeeze) step() bool {
	if !q.underWay {
		if q.underWay = q.begin(); !q.underWay {
			q.fail()
			return false
		}
	}
	if len(q.todo) > 0 {
		q.move()
	}
	return len(q.todo) == 0 && q.endPass()
}

// endPass looks at what a pass came to.
func (q *squeeze) endPass() bool {
	sum := q.overlap()
	if sum == 0 {
		q.settle()
		q.best, q.bestLens = slices.Clone(q.at), q.used()
		q.underWay, q.fails, q.pool = false, 0, nil
		return true
	}
	if sum < q.near.overlap*lessOverlap {
		q.near, q.idle, q.strikes = missed{append(q.near.at[:0], q.at...), sum}, 0, 0
	} else {
		q.idle++
	}
	idle, strikes := q.patience()
	if q.idle >= idle {
		q.idle = 0
		if q.strikes++; q.strikes >= strikes {
			q.underWay = false
			q.fail()
			return false
		}
		q.load(q.near.at)
	}
	q.heedMore()
	q.gather()
	return false
}

// used is the length that the parts really take.
func (q *squeeze) used() [2]float64 {
	var lens [2]float64
	for i, b := range q.box {
		k := q.at[i].part
		lens[k] = max(lens[k], b.Max.Y)
	}
	for k, end := range q.s.lockedTo {
		lens[k] = max(lens[k], end)
	}
	if lens[1] > 0 && len(q.s.flaws[1]) > 0 {
		lens[0] = q.lens[0] // or the flaws would lie elsewhere on the opened rest
	}
	return lens
}

// fail takes the next smaller step; when none is left, it takes note of the
// attempt, to start from it again, or turns to hairs.
func (q *squeeze) fail() {
	q.fails++
	switch {
	case q.hairs:
		if q.by *= lessHair; q.by < lastHair {
			q.hairs, q.by, q.fails, q.pool = false, leastBy, 1, nil
		}
	case q.by > leastBy:
		q.by, q.fails = max(leastBy, q.by/2), 0
	default:
		if q.near.at != nil {
			k, _ := slices.BinarySearchFunc(q.pool, q.near.overlap, func(m missed, o float64) int { return cmp.Compare(m.overlap, o) })
			q.pool = slices.Insert(q.pool, k, q.near)
		}
		if q.fails >= mostFails {
			q.hairs, q.by, q.fails = true, firstHair, 0
		}
	}
}

// total is the length of cloth that the parts take, unfolded.
func (q *squeeze) total(lens [2]float64) float64 { return q.s.cloth.lengths()*lens[0] + lens[1] }

// begin takes length away and starts an attempt. It reports whether all the
// pieces still go in.
func (q *squeeze) begin() bool {
	q.idle, q.strikes = 0, 0
	q.near = missed{overlap: math.Inf(1)}
	copy(q.heed, q.least)
	q.lens = q.bestLens
	if q.adding >= 0 {
		return q.pressIn()
	}
	part := 0
	if q.lens[1] > 0 && q.s.rng.Float64() < q.lens[1]/(q.lens[0]+q.lens[1]) {
		part = 1
	}
	cut := q.cutFrom(part)
	if cut == 0 {
		part = 1 - part
		cut = q.cutFrom(part)
	}
	if cut == 0 {
		return false
	}
	q.lens[part] -= cut
	from := slices.Clone(q.best)
	switch {
	case q.hairs:
		q.takeOut(from, part, cut)
	case q.fails%refoldEach == refoldEach-1 && q.foldsAgain(from):
	case q.fails > 0:
		if n := len(q.pool); n > 0 {
			k := int(math.Abs(q.s.rng.NormFloat64()) * 0.25 * float64(n))
			copy(from, q.pool[min(k, n-1)].at)
		}
		q.exchange(from)
	}
	if len(q.s.locked[1]) > 0 {
		q.lens[0] = q.s.restFrom(q.lens[0])
		if q.total(q.lens) >= q.total(q.bestLens) {
			return false
		}
	}
	ok := q.load(from)
	q.gather()
	return ok
}

// cutFrom is the length to take away from a part; nought where what is locked
// there reaches too far down.
func (q *squeeze) cutFrom(part int) float64 {
	cut := q.total(q.lens) * q.by
	if part == 0 {
		cut /= q.s.cloth.lengths()
	}
	if q.lens[part] == 0 || q.lens[part]-cut < q.s.lockedTo[part] {
		return 0
	}
	return cut
}

// pressIn starts an attempt with the item that is added laid anywhere.
func (q *squeeze) pressIn() bool {
	from := slices.Clone(q.best)
	ways, some := q.s.ways[q.items[q.adding]], false
	for _, k := range q.s.rng.Perm(len(ways)) {
		if to, ok := q.anywhere(ways[k]); ok {
			from[q.adding], some = to, true
			break
		}
	}
	ok := some && q.load(from)
	q.gather()
	return ok
}

// load lays everything at the given places, drawn into the strip.
func (q *squeeze) load(at []place) bool {
	copy(q.at, at)
	all := true
	for i, to := range at {
		to, ok := q.into(to)
		all = all && ok
		q.put(i, to)
	}
	return all
}
