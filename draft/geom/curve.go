package geom

import "math"

// Curve is a cubic Bézier from A to D with handles B and C. A straight line is
// the cubic whose handles stand at its thirds; Line makes one.
type Curve struct{ A, B, C, D Pt }

// straightTol is how far, as a share of the chord, a handle may stand off the
// chord of what still counts as straight: rounding only.
const straightTol = 1e-9

// Line returns the straight curve from a to d.
func Line(a, d Pt) Curve { return Curve{a, a.Lerp(d, 1.0/3), a.Lerp(d, 2.0/3), d} }

// IsLine reports whether c is straight and runs evenly.
func (c Curve) IsLine() bool {
	tol := straightTol * (1 + c.A.Dist(c.D))
	return c.B.Dist(c.A.Lerp(c.D, 1.0/3)) <= tol && c.C.Dist(c.A.Lerp(c.D, 2.0/3)) <= tol
}

// At returns the point at parameter t, 0 to 1.
func (c Curve) At(t float64) Pt {
	u := 1 - t
	a, b, cc, d := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
	return Pt{a*c.A.X + b*c.B.X + cc*c.C.X + d*c.D.X, a*c.A.Y + b*c.B.Y + cc*c.C.Y + d*c.D.Y}
}

// Deriv returns the derivative at t; its length is the speed in mm per unit t.
func (c Curve) Deriv(t float64) Vec {
	u := 1 - t
	return c.B.Sub(c.A).Scale(3 * u * u).Plus(c.C.Sub(c.B).Scale(6 * u * t)).Plus(c.D.Sub(c.C).Scale(3 * t * t))
}

// Tangent returns the unit direction of travel at t. At an end whose handle
// stands on it, the direction is taken towards the next distinct handle.
func (c Curve) Tangent(t float64) Vec {
	v := c.Deriv(t)
	if v.Len() > 1e-9 {
		return v.Unit()
	}
	if t < 0.5 {
		if w := c.C.Sub(c.A); w.Len() > 1e-9 {
			return w.Unit()
		}
	} else if w := c.D.Sub(c.B); w.Len() > 1e-9 {
		return w.Unit()
	}
	return c.D.Sub(c.A).Unit()
}

// Curvature returns the signed curvature at t in 1/mm; with y down it is
// positive where the curve turns clockwise as seen on the cloth.
func (c Curve) Curvature(t float64) float64 {
	d1 := c.Deriv(t)
	u := 1 - t
	b2 := c.C.Sub(c.B).Plus(c.A.Sub(c.B))
	c2 := c.D.Sub(c.C).Plus(c.B.Sub(c.C))
	d2 := b2.Scale(6 * u).Plus(c2.Scale(6 * t))
	s := d1.Len()
	if s < 1e-9 {
		return 0
	}
	return d1.Cross(d2) / (s * s * s)
}

// gauss8 is the eight-point Gauss–Legendre rule on [-1, 1] (Abramowitz and
// Stegun, table 25.4).
var gauss8 = [4][2]float64{ //nolint:gochecknoglobals // a table of constants
	{0.1834346424956498, 0.3626837833783620},
	{0.5255324099163290, 0.3137066458778873},
	{0.7966664774136267, 0.2223810344533745},
	{0.9602898564975363, 0.1012285362903763},
}

// lengthTol is the error allowed in the length of one curve, mm: a
// thousandth of what a tape can show.
const lengthTol = 1e-4

// Len returns the arc length in mm, within lengthTol.
func (c Curve) Len() float64 {
	if c.IsLine() {
		return c.A.Dist(c.D)
	}
	return c.lenTo(1)
}

func (c Curve) gauss(t0, t1 float64) float64 {
	h, m := (t1-t0)/2, (t1+t0)/2
	sum := 0.0
	for _, g := range gauss8 {
		sum += g[1] * (c.Deriv(m-h*g[0]).Len() + c.Deriv(m+h*g[0]).Len())
	}
	return sum * h
}

// lenTo is the arc length from A to t1. It sums the stretches between the places
// where the curve runs slowest: near a cusp the speed bends too sharply for a
// rule that spans it.
func (c Curve) lenTo(t1 float64) float64 {
	cuts, n := c.slowest()
	t0, sum := 0.0, 0.0
	for _, t := range cuts[:n] {
		if t > t0 && t < t1 {
			sum += c.adapt(t0, t, c.gauss(t0, t), 20, false)
			t0 = t
		}
	}
	return sum + c.adapt(t0, t1, c.gauss(t0, t1), 20, false)
}

// slowest returns, in order, the places at which the speed of c is least or
// most; none when its handles lead on without turning back, since then it has
// no cusp.
func (c Curve) slowest() (cuts [3]float64, n int) {
	a, b, d := c.B.Sub(c.A), c.C.Sub(c.B), c.D.Sub(c.C)
	if a.Dot(b) >= 0 && b.Dot(d) >= 0 && a.Dot(d) >= 0 {
		return cuts, 0
	}
	// A third of the derivative is p + qt + rt²; the speed stands still where
	// it is square to its own derivative, at the roots of a cubic.
	p, q, r := a, b.Plus(a.Neg()).Scale(2), d.Plus(b.Scale(-2)).Plus(a)
	k0, k1, k2, k3 := p.Dot(q), q.Dot(q)+2*p.Dot(r), 3*q.Dot(r), 2*r.Dot(r)
	f := func(t float64) float64 { return k0 + t*(k1+t*(k2+t*k3)) }
	// Between the turning points of the cubic there is one root at most.
	ends := [4]float64{0, 1, 1, 1}
	m := 1
	if disc := k2*k2 - 3*k1*k3; disc > 0 && k3 > 0 {
		w := math.Sqrt(disc)
		for _, t := range [2]float64{(-k2 - w) / (3 * k3), (-k2 + w) / (3 * k3)} {
			if t > 0 && t < 1 {
				ends[m] = t
				m++
			}
		}
	}
	for i := range m {
		lo, hi := ends[i], 1.0
		if i+1 < m {
			hi = ends[i+1]
		}
		if (f(lo) < 0) == (f(hi) < 0) {
			continue
		}
		rising := f(hi) >= 0
		for range 50 {
			if t := (lo + hi) / 2; (f(t) >= 0) == rising {
				hi = t
			} else {
				lo = t
			}
		}
		cuts[n] = (lo + hi) / 2
		n++
	}
	return cuts, n
}

// adapt halves until a stretch and its halves agree twice running: they can
// agree once by chance. What is no number never will, and is no number.
func (c Curve) adapt(t0, t1, whole float64, depth int, agreed bool) float64 {
	m := (t0 + t1) / 2
	l, r := c.gauss(t0, m), c.gauss(m, t1)
	agree := math.Abs(l+r-whole) < lengthTol/100
	if depth == 0 || agree && agreed || math.IsNaN(l+r) {
		return l + r
	}
	return c.adapt(t0, m, l, depth-1, agree) + c.adapt(m, t1, r, depth-1, agree)
}

// ParamAt returns the t at arc length s from A, held to 0..Len.
func (c Curve) ParamAt(s float64) float64 {
	total := c.Len()
	if s <= 0 || total == 0 {
		return 0
	}
	if s >= total {
		return 1
	}
	if c.IsLine() {
		return s / total
	}
	t, lo, hi := s/total, 0.0, 1.0
	for range 40 {
		err := c.lenTo(t) - s
		if math.Abs(err) < lengthTol/10 {
			break
		}
		if err > 0 {
			hi = t
		} else {
			lo = t
		}
		next := t - err/math.Max(c.Deriv(t).Len(), 1e-9)
		if next <= lo || next >= hi {
			next = (lo + hi) / 2
		}
		t = next
	}
	return t
}

// Split cuts c at t.
func (c Curve) Split(t float64) (Curve, Curve) {
	ab, bc, cd := c.A.Lerp(c.B, t), c.B.Lerp(c.C, t), c.C.Lerp(c.D, t)
	abc, bcd := ab.Lerp(bc, t), bc.Lerp(cd, t)
	m := abc.Lerp(bcd, t)
	return Curve{c.A, ab, abc, m}, Curve{m, bcd, cd, c.D}
}

// Reverse returns c run from D to A.
func (c Curve) Reverse() Curve { return Curve{c.D, c.C, c.B, c.A} }

// Map returns c with every point mapped by m.
func (c Curve) Map(m Affine) Curve { return Curve{m.Pt(c.A), m.Pt(c.B), m.Pt(c.C), m.Pt(c.D)} }

// flatten appends points after A up to and with D, within tol of c.
func (c Curve) flatten(dst []Pt, tol float64) []Pt {
	n := c.chords(tol)
	for i := 1; i < n; i++ {
		dst = append(dst, c.At(float64(i)/float64(n)))
	}
	return append(dst, c.D)
}

// chords is how many chords, even in t, stay within tol of c.
func (c Curve) chords(tol float64) int {
	if c.IsLine() {
		return 1
	}
	// Wang's bound: the second differences give the steps that keep the chord
	// within tol of the curve.
	d1 := c.C.Sub(c.B).Plus(c.A.Sub(c.B)).Len()
	d2 := c.D.Sub(c.C).Plus(c.B.Sub(c.C)).Len()
	n := int(math.Ceil(math.Sqrt(6 * math.Max(d1, d2) / (8 * tol))))
	return max(n, 2)
}
