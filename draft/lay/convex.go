package lay

import (
	"math"
	"slices"

	"chalkfold/draft/geom"
)

// clockwise returns the ring run clockwise as seen on the cloth, so that its
// area is positive.
func clockwise(ring []geom.Pt) []geom.Pt {
	if geom.Area(ring) >= 0 {
		return ring
	}
	out := slices.Clone(ring)
	slices.Reverse(out)
	return out
}

// turnOf returns the cross product of ab and bc: positive for an outward
// corner of a clockwise ring.
func turnOf(a, b, c geom.Pt) float64 { return b.Sub(a).Cross(c.Sub(b)) }

// convexParts cuts a simple clockwise ring into convex parts, as few as it can
// find. A ring with a cut in to a hole is done with ears, of which every side
// that can be spared is taken out again (Hertel and Mehlhorn 1983). It returns
// nil when the ring is not simple.
func convexParts(ring []geom.Pt) [][]geom.Pt {
	if isConvex(ring) {
		return [][]geom.Pt{ring}
	}
	if parts := cutParts(ring); parts != nil {
		return parts
	}
	var out [][]geom.Pt
	for _, part := range mergeParts(ring, ears(ring)) {
		pts := make([]geom.Pt, len(part))
		for i, v := range part {
			pts[i] = ring[v]
		}
		out = append(out, pts)
	}
	return out
}

func isConvex(ring []geom.Pt) bool {
	n := len(ring)
	for i := range ring {
		if turnOf(ring[i], ring[(i+1)%n], ring[(i+2)%n]) < 0 {
			return false
		}
	}
	return true
}

// ears cuts the ring into triangles of corner numbers. Corners at the same place, as a ring with a cut to its hole has, are
// allowed. It returns nil when no ear is left before the end.
func ears(ring []geom.Pt) [][]int {
	n := len(ring)
	left := make([]int, n)
	for i := range left {
		left[i] = i
	}
	var out [][]int
	for i, missed := 0, 0; len(left) > 3; {
		m := len(left)
		i %= m
		a, b, c := left[(i+m-1)%m], left[i], left[(i+1)%m]
		if isEar(ring, left, a, b, c) {
			if turnOf(ring[a], ring[b], ring[c]) > 0 {
				out = append(out, []int{a, b, c})
			}
			left = slices.Delete(left, i, i+1)
			missed = 0
			continue
		}
		i++
		if missed++; missed > m {
			return nil
		}
	}
	if turnOf(ring[left[0]], ring[left[1]], ring[left[2]]) > 0 {
		out = append(out, left)
	}
	return out
}

func isEar(ring []geom.Pt, left []int, a, b, c int) bool {
	pa, pb, pc := ring[a], ring[b], ring[c]
	t := turnOf(pa, pb, pc)
	if t < 0 {
		return false
	}
	if t == 0 {
		// A flat corner goes without a triangle, a spike only when it closes.
		return pb.Sub(pa).Dot(pc.Sub(pb)) >= 0 || pa == pc || pa == pb || pb == pc
	}
	for _, v := range left {
		p := ring[v]
		if v == a || v == b || v == c || p == pa || p == pb || p == pc {
			continue
		}
		if turnOf(pa, pb, p) >= 0 && turnOf(pb, pc, p) >= 0 && turnOf(pc, pa, p) >= 0 {
			return false
		}
	}
	return true
}

// mergeParts joins neighbouring parts as long as the joint part is convex.
func mergeParts(ring []geom.Pt, parts [][]int) [][]int {
	for i := 0; i < len(parts); i++ {
		for joined := true; joined; {
			joined = false
			for j := i + 1; j < len(parts); j++ {
				if m := joinParts(ring, parts[i], parts[j]); m != nil {
					parts[i] = m
					parts = slices.Delete(parts, j, j+1)
					joined = true
					j--
				}
			}
		}
	}
	return parts
}

// joinParts returns a and b as one part when they share an edge and the whole
// is convex, else nil.
func joinParts(ring []geom.Pt, a, b []int) []int {
	for i, u := range a {
		v := a[(i+1)%len(a)]
		j := slices.Index(b, v)
		if j < 0 || b[(j+1)%len(b)] != u {
			continue
		}
		// a: ... u v ...; b: ... v u ...
		m := make([]int, 0, len(a)+len(b)-2)
		for k := range a {
			m = append(m, a[(i+1+k)%len(a)]) // v ... u
		}
		for k := 2; k < len(b); k++ {
			m = append(m, b[(j+k)%len(b)]) // past u, up to before v
		}
		for k := range m {
			p, q, r := ring[m[k]], ring[m[(k+1)%len(m)]], ring[m[(k+2)%len(m)]]
			if turnOf(p, q, r) < 0 {
				return nil
			}
		}
		return m
	}
	return nil
}

// convexSum returns the sum of two convex clockwise rings: all p + q.
func convexSum(a, b []geom.Pt) []geom.Pt {
	i, j := lowest(a), lowest(b)
	na, nb := len(a), len(b)
	out := make([]geom.Pt, 0, na+nb)
	for ea, eb := 0, 0; ea < na || eb < nb; {
		p, q := a[(i+ea)%na], b[(j+eb)%nb]
		out = append(out, geom.Pt{X: p.X + q.X, Y: p.Y + q.Y})
		turn := 0.0
		if ea < na && eb < nb {
			turn = a[(i+ea+1)%na].Sub(p).Cross(b[(j+eb+1)%nb].Sub(q))
		}
		switch {
		case eb >= nb || (ea < na && turn > 0):
			ea++
		case ea >= na || turn < 0:
			eb++
		default:
			ea++
			eb++
		}
	}
	return out
}

// lowest returns the corner with the least y, then the least x: where the
// edges of a clockwise ring begin to turn from the +x direction.
func lowest(ring []geom.Pt) int {
	k := 0
	for i, p := range ring {
		if p.Y < ring[k].Y || (p.Y == ring[k].Y && p.X < ring[k].X) {
			k = i
		}
	}
	return k
}

// around returns a ring of sixteen corners that holds the circle of radius r
// about the origin.
func around(r float64) []geom.Pt {
	const n = 16
	r /= math.Cos(math.Pi / n)
	out := make([]geom.Pt, n)
	for i := range out {
		s, c := math.Sincos(2 * math.Pi * float64(i) / n)
		out[i] = geom.Pt{X: r * c, Y: r * s}
	}
	return out
}
