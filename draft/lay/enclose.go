package lay

import (
	"math"

	"chalkfold/draft/geom"
)

// encloseTol is how far, in mm, the enclosing ring of a piece may stand
// outside its cut line: the width of a chalk line. It adds about a fifth of a
// per cent to the area of a trouser leg.
const encloseTol = 1.0

// enclose returns a ring of fewer points that holds ring and stands nowhere
// further than tol outside it. ring must be simple and run clockwise as seen
// on the cloth (positive area); so does the result.
func enclose(ring []geom.Pt, tol float64) []geom.Pt {
	ring = geom.Tidy(ring, 1e-6)
	for ; tol > 1e-3; tol /= 2 {
		e := newEnclosing(ring)
		for _, share := range [...]float64{1.0 / 64, 1.0 / 16, 1.0 / 4, 1.0 / 2, 1} {
			for e.pass(tol * share) {
			}
		}
		out := e.ring()
		if _, bad := geom.SelfCross(out); !bad {
			return out
		}
	}
	return ring
}

// enclosing is a ring that only ever grows: a corner that turns inwards is
// cut across, and an edge between two corners that turn outwards is dropped by
// running its neighbours on until they meet.
type enclosing struct {
	pts        []geom.Pt
	prev, next []int
	at         []float64 // how far the corner stands off, at most
	along      []float64 // how far the edge to the next corner stands off
	n, first   int
}

func newEnclosing(ring []geom.Pt) *enclosing {
	n := len(ring)
	e := &enclosing{
		pts: append([]geom.Pt(nil), ring...), prev: make([]int, n), next: make([]int, n),
		at: make([]float64, n), along: make([]float64, n), n: n,
	}
	for i := range ring {
		e.prev[i], e.next[i] = (i+n-1)%n, (i+1)%n
	}
	return e
}

// pass makes one round with steps of at most tol; it reports whether any was
// made.
func (e *enclosing) pass(tol float64) bool {
	changed := false
	v := e.first
	for range e.n {
		if e.n <= 4 {
			break
		}
		next := e.next[v]
		if e.cut(v, tol) || e.extend(v, tol) {
			changed = true
		}
		v = next
	}
	return changed
}

func (e *enclosing) turn(v int) float64 {
	return e.pts[v].Sub(e.pts[e.prev[v]]).Cross(e.pts[e.next[v]].Sub(e.pts[v]))
}

// cut drops corner v when it turns inwards or not at all.
func (e *enclosing) cut(v int, tol float64) bool {
	if e.turn(v) > 0 {
		return false
	}
	a, b := e.prev[v], e.next[v]
	off := geom.SegDist(e.pts[a], e.pts[b], e.pts[v]) + max(e.at[v], e.along[a], e.along[v])
	if off > tol {
		return false
	}
	e.along[a] = off
	e.drop(v)
	return true
}

// extend drops the edge from v to the next corner when both turn outwards.
func (e *enclosing) extend(v int, tol float64) bool {
	w := e.next[v]
	if e.turn(v) <= 0 || e.turn(w) <= 0 {
		return false
	}
	a, b := e.prev[v], e.next[w]
	d1, d2 := e.pts[v].Sub(e.pts[a]), e.pts[w].Sub(e.pts[b])
	if d1.Cross(d2.Neg()) <= 0 {
		return false // together they turn by half a turn or more
	}
	tip, ok := geom.CrossLines(e.pts[v], d1, e.pts[w], d2)
	if !ok {
		return false
	}
	off := geom.SegDist(e.pts[v], e.pts[w], tip) + max(e.at[v], e.at[w], e.along[v])
	if off > tol || math.IsNaN(off) {
		return false
	}
	e.pts[w], e.at[w] = tip, off
	e.along[a] = max(e.along[a], off)
	e.along[w] = max(e.along[w], off)
	e.drop(v)
	return true
}

func (e *enclosing) drop(v int) {
	a, b := e.prev[v], e.next[v]
	e.next[a], e.prev[b] = b, a
	e.n--
	if e.first == v {
		e.first = b
	}
}

func (e *enclosing) ring() []geom.Pt {
	out := make([]geom.Pt, 0, e.n)
	v := e.first
	for range e.n {
		out = append(out, e.pts[v])
		v = e.next[v]
	}
	return out
}
