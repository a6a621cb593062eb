package lay

import (
	"cmp"
	"slices"

	"chalkfold/draft/geom"
)

// takeOut takes a length out anywhere along a part of the cloth: what lies past
// it moves up.
func (q *squeeze) takeOut(at []place, part int, cut float64) {
	line := q.s.rng.Float64() * q.lens[part]
	for i := range at {
		if at[i].part == part && q.moved(at[i]).Min.Y > line {
			at[i].y -= cut
		}
	}
}

// eitherPart reports whether mover i may lie on the folded part as well as on
// the opened rest.
func (q *squeeze) eitherPart(i int) bool {
	ways := q.s.ways[q.items[i]]
	return ways[len(ways)-1].part == 1
}

// foldsAgain folds all of the cloth for the same length as is left or, when it
// is all folded, opens out what the largest single needs. It reports whether
// there is any.
func (q *squeeze) foldsAgain(at []place) bool {
	open, some := q.bestLens[1] == 0, false
	rest := 0.0
	for i := range at {
		if q.eitherPart(i) {
			some = true
			b := q.s.facings[at[i].facing].box
			rest = max(rest, min(b.H(), b.W()))
		}
	}
	if !some {
		return false
	}
	if !open {
		rest = q.s.lockedTo[1]
	}
	q.lens = [2]float64{(q.total(q.lens) - rest) / q.s.cloth.lengths(), rest}
	for i := range at {
		if !q.eitherPart(i) {
			continue
		}
		for _, w := range q.s.ways[q.items[i]] {
			if to, ok := q.anywhere(w); ok && (w.part == 1) == open {
				at[i] = to
				break
			}
		}
	}
	return true
}

// exchange puts two large pieces, not alike, in each other's places, middle on
// middle.
func (q *squeeze) exchange(at []place) {
	size := func(i int) float64 { b := q.s.facings[at[i].facing].box; return b.W() * b.H() }
	order := make([]int, len(at))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(size(b), size(a)) })
	large := order[:(len(at)+1)/2]
	for range 20 {
		a, b := large[q.s.rng.IntN(len(large))], large[q.s.rng.IntN(len(large))]
		if at[a].part != at[b].part || size(a)-size(b) < 0.01*size(a) {
			continue
		}
		v := middle(q.moved(at[b])).Sub(middle(q.moved(at[a])))
		at[a].x, at[a].y = at[a].x+v.X, at[a].y+v.Y
		at[b].x, at[b].y = at[b].x-v.X, at[b].y-v.Y
		return
	}
}

func middle(b geom.Rect) geom.Pt { return b.Min.Lerp(b.Max, 0.5) }
