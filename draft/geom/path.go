package geom

import "math"

// Path is curves joined end to end. The nil path is empty and has no start.
type Path []Curve

// Polyline returns the straight path through pts.
func Polyline(pts ...Pt) Path {
	var p Path
	for i := 1; i < len(pts); i++ {
		p = append(p, Line(pts[i-1], pts[i]))
	}
	return p
}

// Start returns the first point. It panics on an empty path.
func (p Path) Start() Pt { return p[0].A }

// End returns the last point. It panics on an empty path.
func (p Path) End() Pt { return p[len(p)-1].D }

// StartDir returns the unit direction of travel at the start.
func (p Path) StartDir() Vec { return p[0].Tangent(0) }

// EndDir returns the unit direction of travel at the end.
func (p Path) EndDir() Vec { return p[len(p)-1].Tangent(1) }

// Len returns the arc length in mm.
func (p Path) Len() float64 {
	sum := 0.0
	for _, c := range p {
		sum += c.Len()
	}
	return sum
}

// At returns the point and the unit direction of travel at arc length s,
// held to 0..Len.
func (p Path) At(s float64) (Pt, Vec) {
	for i, c := range p {
		l := c.Len()
		if s <= l || i == len(p)-1 {
			t := c.ParamAt(s)
			return c.At(t), c.Tangent(t)
		}
		s -= l
	}
	return Pt{}, Vec{}
}

// Split cuts p at arc length s; a cut at or beyond an end leaves one part nil.
func (p Path) Split(s float64) (Path, Path) {
	if s <= 0 {
		return nil, p
	}
	for i, c := range p {
		l := c.Len()
		if s < l-lengthTol {
			a, b := c.Split(c.ParamAt(s))
			return append(append(Path{}, p[:i]...), a), append(Path{b}, p[i+1:]...)
		}
		if s <= l+lengthTol {
			return append(Path{}, p[:i+1]...), append(Path{}, p[i+1:]...)
		}
		s -= l
	}
	return p, nil
}

// sliver is the length of a curve, mm, that nobody draws by itself. An allowance
// beside it would cross itself.
const sliver = 0.2

// Between returns the part from arc length a to b. Where a cut leaves a sliver of a
// curve at an end, its neighbour reaches as far.
func (p Path) Between(a, b float64) Path {
	first, _ := p.Split(b)
	_, part := first.Split(a)
	if n := len(part) - 1; n > 0 && part[n].isSliver() {
		part = part[:n].reaching(part[n].D)
	}
	if len(part) > 1 && part[0].isSliver() {
		part = part[1:].Reverse().reaching(part[0].A).Reverse()
	}
	return part
}

// isSliver goes by the control points, which lie no nearer to each other than along
// the curve: no arc is measured for it.
func (c Curve) isSliver() bool {
	return c.A.Sub(c.B).Len()+c.B.Sub(c.C).Len()+c.C.Sub(c.D).Len() < sliver
}

// reaching returns p with its end moved by a hair, to there.
func (p Path) reaching(end Pt) Path {
	q := append(Path{}, p...)
	last := &q[len(q)-1]
	last.C, last.D = last.C.Add(end.Sub(last.D)), end
	return q
}

// Reverse returns p run backwards.
func (p Path) Reverse() Path {
	q := make(Path, len(p))
	for i, c := range p {
		q[len(p)-1-i] = c.Reverse()
	}
	return q
}

// Map returns p with every point mapped by m.
func (p Path) Map(m Affine) Path {
	q := make(Path, len(p))
	for i, c := range p {
		q[i] = c.Map(m)
	}
	return q
}

// Join returns p followed by q. The caller sees to it that they meet.
func (p Path) Join(q ...Path) Path {
	r := append(Path{}, p...)
	for _, x := range q {
		r = append(r, x...)
	}
	return r
}

// Flatten returns the points of a polyline within tol mm of p, both ends
// included.
func (p Path) Flatten(tol float64) []Pt {
	if len(p) == 0 {
		return nil
	}
	pts := []Pt{p[0].A}
	for _, c := range p {
		pts = c.flatten(pts, tol)
	}
	return pts
}

// Stop is a point on the way along a path: where it is, and the unit directions
// in which it is come to and left. They differ where the path bends.
type Stop struct {
	At      Pt
	In, Out Vec
}

// Stops returns the points of Flatten, none twice in a row, with the ways of the
// path there, which are those of its curves and not of the chords between.
func (p Path) Stops(tol float64) []Stop {
	if len(p) == 0 {
		return nil
	}
	way := p.StartDir()
	stops := []Stop{{p.Start(), way, way}}
	for _, c := range p {
		n := c.chords(tol)
		if c.A.Dist(c.D) > sameTol || n > 1 {
			stops[len(stops)-1].Out = c.Tangent(0)
		}
		for i := 1; i <= n; i++ {
			t := float64(i) / float64(n)
			at := c.At(t)
			if i == n {
				at = c.D
			}
			if stops[len(stops)-1].At.Dist(at) > sameTol {
				way := c.Tangent(t)
				stops = append(stops, Stop{at, way, way})
			}
		}
	}
	return stops
}

// sameTol is how far apart, mm, points may lie that are one.
const sameTol = 1e-6

// Nearest returns the arc length of the point of p nearest to q, and how far
// it is.
func (p Path) Nearest(q Pt) (s, dist float64) {
	dist = math.Inf(1)
	at, t := -1, 0.0
	for i, c := range p {
		if c.farther(q, dist) {
			continue
		}
		if u, d := c.nearest(q); d < dist {
			at, t, dist = i, u, d
		}
	}
	if at < 0 {
		return 0, dist
	}
	for _, c := range p[:at] {
		s += c.Len()
	}
	if c := p[at]; c.IsLine() {
		return s + t*c.Len(), dist
	}
	return s + p[at].lenTo(t), dist
}

// farther reports whether no point of c can be nearer to q than dist: a curve
// never leaves the box around its handles.
func (c Curve) farther(q Pt, dist float64) bool {
	dx := max(min(c.A.X, c.B.X, c.C.X, c.D.X)-q.X, q.X-max(c.A.X, c.B.X, c.C.X, c.D.X), 0)
	dy := max(min(c.A.Y, c.B.Y, c.C.Y, c.D.Y)-q.Y, q.Y-max(c.A.Y, c.B.Y, c.C.Y, c.D.Y), 0)
	return dx*dx+dy*dy >= dist*dist
}

// Within reports whether q may lie within tol of p: false only when it cannot.
func (p Path) Within(q Pt, tol float64) bool {
	for _, c := range p {
		if !c.farther(q, tol) {
			return true
		}
	}
	return false
}

func (c Curve) nearest(q Pt) (t, dist float64) {
	if c.IsLine() {
		d := c.D.Sub(c.A)
		if l2 := d.Dot(d); l2 > 0 {
			t = math.Min(1, math.Max(0, q.Sub(c.A).Dot(d)/l2))
		}
		return t, c.At(t).Dist(q)
	}
	// The distance is least at an end, or where the way to q stands square to
	// the curve: at a root of (c − q)·c′, of degree five.
	p := [4]Vec{c.A.Sub(q), c.B.Sub(q), c.C.Sub(q), c.D.Sub(q)}
	d := [3]Vec{c.B.Sub(c.A), c.C.Sub(c.B), c.D.Sub(c.C)}
	cubic, square, fifth := [4]float64{1, 3, 3, 1}, [3]float64{1, 2, 1}, [6]float64{1, 5, 10, 10, 5, 1}
	var g quintic
	for i := range p {
		for j := range d {
			g[i+j] += cubic[i] * square[j] * p[i].Dot(d[j]) / fifth[i+j]
		}
	}
	dist = c.A.Dist(q)
	try := func(u float64) {
		if e := c.At(u).Dist(q); e < dist {
			t, dist = u, e
		}
	}
	g.roots(0, 1, rootDepth, try)
	try(1)
	return t, dist
}

// quintic is a polynomial of degree five on an interval, in Bernstein form.
type quintic [6]float64

// rootDepth is how often an interval is halved before what is left of it, a
// millionth, is taken for a root.
const rootDepth = 20

// roots hands over every root of g, which stands for t0 to t1: where the
// coefficients change sign once there is one; where they do so more often the
// interval is halved.
func (g quintic) roots(t0, t1 float64, depth int, found func(float64)) {
	changes, last := 0, 0.0
	for _, v := range g {
		if v*last < 0 {
			changes++
		}
		if v != 0 {
			last = v
		}
	}
	switch {
	case last == 0, changes == 0 && g[0] != 0 && g[5] != 0:
		return // nowhere, or equally everywhere
	case changes == 1 && g[0]*g[5] < 0:
		for t1-t0 > 1e-12 {
			l, r := g.halves()
			m := (t0 + t1) / 2
			if l[0]*l[5] <= 0 {
				g, t1 = l, m
			} else {
				g, t0 = r, m
			}
		}
		found((t0 + t1) / 2)
		return
	case depth == 0:
		found((t0 + t1) / 2)
		return
	}
	l, r := g.halves()
	m := (t0 + t1) / 2
	l.roots(t0, m, depth-1, found)
	r.roots(m, t1, depth-1, found)
}

// halves splits g in the middle of its interval (de Casteljau).
func (g quintic) halves() (l, r quintic) {
	l[0], r[5] = g[0], g[5]
	for n := 5; n > 0; n-- {
		for i := range n {
			g[i] = (g[i] + g[i+1]) / 2
		}
		l[6-n], r[n-1] = g[0], g[n-1]
	}
	return l, r
}

// CrossLine returns the arc lengths, in order, at which p crosses the endless
// line through o along dir.
func (p Path) CrossLine(o Pt, dir Vec) []float64 {
	var out []float64
	n := dir.Unit().Left()
	run := 0.0
	for _, c := range p {
		side := func(t float64) float64 { return c.At(t).Sub(o).Dot(n) }
		steps := 24
		if c.IsLine() {
			steps = 1
		}
		prev := side(0)
		for i := 1; i <= steps; i++ {
			t1 := float64(i) / float64(steps)
			next := side(t1)
			if prev == 0 || prev*next < 0 {
				lo, hi := float64(i-1)/float64(steps), t1
				f := prev
				for range 60 {
					m := (lo + hi) / 2
					if v := side(m); v*f <= 0 {
						hi = m
					} else {
						lo, f = m, v
					}
				}
				s := run
				if c.IsLine() {
					s += hi * c.Len()
				} else {
					s += c.lenTo(hi)
				}
				if prev == 0 {
					s = run
					if !c.IsLine() {
						s += c.lenTo(float64(i-1) / float64(steps))
					}
				}
				out = append(out, s)
			}
			prev = next
		}
		run += c.Len()
	}
	if len(p) > 0 && p.End().Sub(o).Dot(n) == 0 {
		out = append(out, run)
	}
	return out
}

// Bounds returns the box around p, within tol mm.
func (p Path) Bounds(tol float64) Rect { return BoundsOf(p.Flatten(tol)) }
