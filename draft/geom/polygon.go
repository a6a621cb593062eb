package geom

import (
	"cmp"
	"math"
	"slices"
)

// Area returns the signed area of the ring pts in mm²: positive when it runs
// clockwise as seen on the cloth (y down).
func Area(pts []Pt) float64 {
	sum := 0.0
	for i, p := range pts {
		q := pts[(i+1)%len(pts)]
		sum += p.X*q.Y - q.X*p.Y
	}
	return sum / 2
}

// Contains reports whether the ring holds q, by the crossing rule; a point on
// the ring may go either way.
func Contains(ring []Pt, q Pt) bool {
	if len(ring) == 0 {
		return false
	}
	in := false
	a := ring[len(ring)-1]
	for _, b := range ring {
		if (a.Y > q.Y) != (b.Y > q.Y) && q.X < a.X+(q.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
		a = b
	}
	return in
}

// RingDist returns the distance from q to the nearest point of the ring, mm.
func RingDist(ring []Pt, q Pt) float64 {
	best := math.Inf(1)
	for i, b := range ring {
		a := ring[len(ring)-1]
		if i > 0 {
			a = ring[i-1]
		}
		best = min(best, SegDist(a, b, q))
	}
	return best
}

// SegDist returns the distance from q to the segment ab, mm.
func SegDist(a, b, q Pt) float64 {
	d := b.Sub(a)
	t := 0.0
	if l2 := d.Dot(d); l2 > 0 {
		t = max(0, min(1, q.Sub(a).Dot(d)/l2))
	}
	return a.Add(d.Scale(t)).Dist(q)
}

// MapPts returns pts mapped by m.
func MapPts(pts []Pt, m Affine) []Pt {
	out := make([]Pt, len(pts))
	for i, p := range pts {
		out[i] = m.Pt(p)
	}
	return out
}

// CrossLines returns where the endless lines p+v and q+w meet; false when they
// are parallel within one part in 10⁹.
func CrossLines(p Pt, v Vec, q Pt, w Vec) (Pt, bool) {
	d := v.Cross(w)
	if math.Abs(d) <= 1e-9*v.Len()*w.Len() {
		return Pt{}, false
	}
	return p.Add(v.Scale(q.Sub(p).Cross(w) / d)), true
}

// SegCross returns where the closed segments ab and cd cross; false when they
// do not, or when they are parallel.
func SegCross(a, b, c, d Pt) (Pt, bool) {
	r, s := b.Sub(a), d.Sub(c)
	den := r.Cross(s)
	if den == 0 {
		return Pt{}, false
	}
	t, u := c.Sub(a).Cross(s)/den, c.Sub(a).Cross(r)/den
	if t < 0 || t > 1 || u < 0 || u > 1 {
		return Pt{}, false
	}
	return a.Add(r.Scale(t)), true
}

// SelfCross returns a place at which the ring crosses itself; false when it is
// simple. Neighbours sharing a corner do not count, nor does a point given
// twice in a row.
func SelfCross(ring []Pt) (Pt, bool) {
	ring = Tidy(ring, 0)
	n := len(ring)
	// Sides in the order of their upper ends: a side is compared only with those
	// that begin above its lower end.
	type side struct {
		i                  int
		loX, hiX, loY, hiY float64
	}
	sides := make([]side, n)
	for i, a := range ring {
		b := ring[(i+1)%n]
		sides[i] = side{i, min(a.X, b.X), max(a.X, b.X), min(a.Y, b.Y), max(a.Y, b.Y)}
	}
	slices.SortStableFunc(sides, func(a, b side) int { return cmp.Compare(a.loY, b.loY) })
	for k, s := range sides {
		for _, t := range sides[k+1:] {
			if t.loY > s.hiY {
				break
			}
			if t.loX > s.hiX || t.hiX < s.loX {
				continue
			}
			i, j := min(s.i, t.i), max(s.i, t.i)
			if j-i < 2 || i == 0 && j == n-1 {
				continue
			}
			if x, ok := SegCross(ring[i], ring[(i+1)%n], ring[j], ring[(j+1)%n]); ok {
				return x, true
			}
		}
	}
	return Pt{}, false
}

// Tidy drops points that lie within tol of the one before, and last points
// that lie within tol of the first.
func Tidy(ring []Pt, tol float64) []Pt {
	out := make([]Pt, 0, len(ring))
	for _, p := range ring {
		if len(out) == 0 || out[len(out)-1].Dist(p) > tol {
			out = append(out, p)
		}
	}
	for len(out) > 1 && out[0].Dist(out[len(out)-1]) <= tol {
		out = out[:len(out)-1]
	}
	return out
}
