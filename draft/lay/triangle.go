package lay

import (
	"errors"
	"math"
	"math/bits"

	"chalkfold/draft/geom"
)

// spotPt is a point in thousandths of a millimetre. Coordinates stay under
// 2³⁰ (a kilometre), so that products fit in 64 bits.
type spotPt struct{ x, y int64 }

// triangle runs clockwise as seen on the cloth.
type triangle [3]spotPt

var (
	errCrossed = errors.New("its ring crosses itself or has no area")
	errFar     = errors.New("its ring lies more than a kilometre off")
)

// whole rounds a ring to whole thousandths of a millimetre.
func whole(ring []geom.Pt) []spotPt {
	out := make([]spotPt, 0, len(ring))
	for _, p := range ring {
		q := spotPt{micron(p.X), micron(p.Y)}
		if len(out) == 0 || out[len(out)-1] != q {
			out = append(out, q)
		}
	}
	for len(out) > 1 && out[0] == out[len(out)-1] {
		out = out[:len(out)-1]
	}
	return out
}

// cross returns (b-a) × (c-b).
func cross(a, b, c spotPt) int64 { return (b.x-a.x)*(c.y-b.y) - (b.y-a.y)*(c.x-b.x) }

// triangles cuts a ring into triangles, ear by ear, and proves the cut by the
// area: the triangles together are exactly as large as the ring.
func triangles(ring []spotPt) ([]triangle, error) {
	const far = 1 << 30
	var twice int64
	for i, p := range ring {
		if p.x < -far || p.x > far || p.y < -far || p.y > far {
			return nil, errFar
		}
		q := ring[(i+1)%len(ring)]
		twice += p.x*q.y - q.x*p.y
	}
	left := append([]spotPt(nil), ring...)
	if twice < 0 {
		for i, j := 0, len(left)-1; i < j; i, j = i+1, j-1 {
			left[i], left[j] = left[j], left[i]
		}
		twice = -twice
	}
	if twice == 0 {
		return nil, errCrossed
	}
	var out []triangle
	var sum int64
	for i, missed := 0, 0; len(left) >= 3; {
		n := len(left)
		i %= n
		a, b, c := left[(i+n-1)%n], left[i], left[(i+1)%n]
		t := cross(a, b, c)
		if t < 0 || t > 0 && holdsCorner(left, a, b, c) {
			i++
			if missed++; missed > n {
				return nil, errCrossed
			}
			continue
		}
		if t > 0 {
			out = append(out, triangle{a, b, c})
			sum += t
		}
		left = append(left[:i], left[i+1:]...)
		missed = 0
	}
	if sum != twice {
		return nil, errCrossed
	}
	return out, nil
}

// holdsCorner reports whether a corner of the ring, other than at a, b or c,
// lies in the triangle abc.
func holdsCorner(ring []spotPt, a, b, c spotPt) bool {
	for _, p := range ring {
		if p != a && p != b && p != c && cross(a, b, p) >= 0 && cross(b, c, p) >= 0 && cross(c, a, p) >= 0 {
			return true
		}
	}
	return false
}

func (t triangle) box() (lo, hi spotPt) {
	lo = spotPt{min(t[0].x, t[1].x, t[2].x), min(t[0].y, t[1].y, t[2].y)}
	hi = spotPt{max(t[0].x, t[1].x, t[2].x), max(t[0].y, t[1].y, t[2].y)}
	return lo, hi
}

// overlap reports whether a triangle of a and one of b run into each other by
// more than tol in every direction.
func overlap(a, b []triangle, tol int64) bool {
	return anyPair(a, b, -tol, func(s, t triangle) bool { return deeper(s, t, tol) && deeper(t, s, tol) })
}

// nearer reports whether a triangle of a and one of b are less than gap apart.
func nearer(a, b []triangle, gap int64) bool {
	return anyPair(a, b, gap, func(s, t triangle) bool { return cornerNear(s, t, gap) || cornerNear(t, s, gap) })
}

// anyPair reports whether test holds for two triangles whose boxes are less
// than reach apart.
func anyPair(a, b []triangle, reach int64, test func(s, t triangle) bool) bool {
	for _, s := range a {
		slo, shi := s.box()
		for _, t := range b {
			tlo, thi := t.box()
			if slo.x-thi.x < reach && tlo.x-shi.x < reach && slo.y-thi.y < reach && tlo.y-shi.y < reach && test(s, t) {
				return true
			}
		}
	}
	return false
}

// deeper reports whether t reaches more than tol across each side of s: the
// depth of two convex shapes is the least over the sides of both.
func deeper(s, t triangle, tol int64) bool {
	for i, p := range s {
		q := s[(i+1)%3]
		nx, ny := q.y-p.y, p.x-q.x // outward
		depth := int64(math.MinInt64)
		for _, r := range t {
			depth = max(depth, (p.x-r.x)*nx+(p.y-r.y)*ny)
		}
		if depth <= tol*root(nx*nx+ny*ny) {
			return false
		}
	}
	return true
}

// cornerNear reports whether a corner of s is less than gap from a side of t.
func cornerNear(s, t triangle, gap int64) bool {
	for _, p := range s {
		for i, a := range t {
			if nearSide(a, t[(i+1)%3], p, gap) {
				return true
			}
		}
	}
	return false
}

func nearSide(a, b, p spotPt, gap int64) bool {
	dx, dy, px, py := b.x-a.x, b.y-a.y, p.x-a.x, p.y-a.y
	dot, l2 := px*dx+py*dy, dx*dx+dy*dy
	switch {
	case dot <= 0:
		return px*px+py*py < gap*gap
	case dot >= l2:
		qx, qy := p.x-b.x, p.y-b.y
		return qx*qx+qy*qy < gap*gap
	}
	// |cross| / len < gap, with both sides squared in 128 bits.
	c := px*dy - py*dx
	if c < 0 {
		c = -c
	}
	h1, l1 := bits.Mul64(uint64(c), uint64(c))
	h2, l3 := bits.Mul64(uint64(gap*gap), uint64(l2))
	return h1 < h2 || h1 == h2 && l1 < l3
}

// root returns the whole part of the square root of v, which is not negative.
func root(v int64) int64 {
	r := int64(math.Sqrt(float64(v)))
	for r*r > v {
		r--
	}
	for (r+1)*(r+1) <= v {
		r++
	}
	return r
}
