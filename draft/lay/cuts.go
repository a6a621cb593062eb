package lay

import (
	"math"

	"chalkfold/draft/geom"
)

// cutParts cuts a simple clockwise ring into convex parts: from each corner
// that turns inwards to another such corner when one straight cut mends both,
// else to any corner that mends it, else halfway between its two sides to the
// edge across. That is at most one part more than there are such corners, and
// at least half as many. It returns nil when the parts do not add up.
func cutParts(ring []geom.Pt) [][]geom.Pt {
	todo, out := [][]geom.Pt{ring}, [][]geom.Pt(nil)
	sum := 0.0
	for n := 0; len(todo) > 0; n++ {
		r := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		a, b, done := cutOnce(r)
		switch {
		case done:
			out = append(out, r)
			sum += geom.Area(r)
		case a == nil || n > 4*len(ring):
			return nil
		default:
			todo = append(todo, a, b)
		}
	}
	if area := geom.Area(ring); math.Abs(sum-area) > 1e-9*area {
		return nil
	}
	return out
}

// inwards reports whether corner v turns inwards by more than rounding.
func inwards(r []geom.Pt, v int) bool {
	n := len(r)
	in, out := r[v].Sub(r[(v+n-1)%n]), r[(v+1)%n].Sub(r[v])
	return in.Cross(out) < -1e-12*in.Len()*out.Len()
}

// mends reports whether a cut from corner v along d leaves no inward turn at v
// on either side.
func mends(r []geom.Pt, v int, d geom.Vec) bool {
	n := len(r)
	return r[v].Sub(r[(v+n-1)%n]).Cross(d) >= 0 && r[(v+1)%n].Sub(r[v]).Cross(d) >= 0
}

// sees reports whether the straight from corner v to corner u meets no other
// edge.
func sees(r []geom.Pt, v, u int) bool {
	n := len(r)
	if u == (v+1)%n || v == (u+1)%n {
		return false
	}
	for i := range r {
		j := (i + 1) % n
		if i == v || j == v || i == u || j == u {
			continue
		}
		if _, hit := geom.SegCross(r[v], r[u], r[i], r[j]); hit {
			return false
		}
	}
	return true
}

// cutOnce makes one cut, or says that r is convex and none is needed.
func cutOnce(r []geom.Pt) (a, b []geom.Pt, done bool) {
	done = true
	first, from, to := -1, -1, -1
	rank, dist := 0, math.Inf(1)
	for v := range r {
		if !inwards(r, v) {
			continue
		}
		done = false
		if first < 0 {
			first = v
		}
		for u := range r {
			d := r[u].Sub(r[v])
			if u == v || !mends(r, v, d) {
				continue
			}
			k := 1
			if inwards(r, u) && mends(r, u, d.Neg()) {
				k = 2
			}
			if l := d.Len(); k > rank || k == rank && l < dist {
				if sees(r, v, u) {
					rank, dist, from, to = k, l, v, u
				}
			}
		}
	}
	switch {
	case done:
		return nil, nil, true
	case rank > 0:
		return stretch(r, from, to), stretch(r, to, from), false
	}
	k, x := across(r, first)
	if k < 0 {
		return nil, nil, false
	}
	return append(stretch(r, first, k), x), append(stretch(r, (k+1)%len(r), first), x), false
}

// stretch returns the corners from i on to j, both included.
func stretch(r []geom.Pt, i, j int) []geom.Pt {
	out := []geom.Pt{r[i]}
	for i != j {
		i = (i + 1) % len(r)
		out = append(out, r[i])
	}
	return out
}

// across returns the edge, by its first corner, that is met halfway between
// the two sides of corner v run on into the ring, and where.
func across(r []geom.Pt, v int) (k int, x geom.Pt) {
	n := len(r)
	d := r[v].Sub(r[(v+n-1)%n]).Unit().Plus(r[v].Sub(r[(v+1)%n]).Unit())
	k = -1
	best := math.Inf(1)
	for i := range r {
		j := (i + 1) % n
		if i == v || j == v {
			continue
		}
		e := r[j].Sub(r[i])
		den := d.Cross(e)
		if den == 0 {
			continue
		}
		w := r[i].Sub(r[v])
		t, s := w.Cross(e)/den, w.Cross(d)/den
		if t > 0 && s >= 0 && s <= 1 && t < best {
			best, k, x = t, i, r[v].Add(d.Scale(t))
		}
	}
	return k, x
}
