package lay

import (
	"cmp"
	"math"
	"slices"

	"chalkfold/draft/geom"
)

// touchTol is how deep, in mm, two pieces may run into each other and still
// only touch: rounding, a hundred-thousandth of what Verify lets pass.
const touchTol = 1e-7

// seg is a straight stretch of places, from a to b.
type seg struct{ a, b geom.Pt }

// half is the half plane n·p < d.
type half struct{ nx, ny, d float64 }

// hull is a convex region of places, open: its edge is not part of it.
type hull struct {
	box   geom.Rect
	edges []half
}

// nofit are the places, for the origin of a moving piece, at which it would
// overlap a piece that lies at the origin: the union of hulls. rim is the edge
// of that union.
type nofit struct {
	box   geom.Rect
	hulls []hull
	rim   []seg
	rimOf []int32 // edge of each stretch of the rim, counted through all hulls
}

// newNofit works out the places for parts b moving round parts a, grown by
// gap.
func newNofit(a, b [][]geom.Pt, gap float64) *nofit {
	f := &nofit{}
	rings := sums(a, b, gap)
	f.hulls, f.box = newHulls(rings)
	var c clipper
	edge := int32(0)
	for _, r := range rings {
		for i, p := range r {
			s := seg{p, r[(i+1)%len(r)]}
			if s.a.Dist(s.b) < touchTol {
				continue
			}
			c.start(s)
			c.cutAway(f, geom.Vec{})
			f.rim = c.rest(f.rim)
			for len(f.rimOf) < len(f.rim) {
				f.rimOf = append(f.rimOf, edge)
			}
			edge++
		}
	}
	return f
}

// sums returns the sums of each part of a with each of b turned about, grown by
// gap.
func sums(a, b [][]geom.Pt, gap float64) [][]geom.Pt {
	var rings [][]geom.Pt
	for _, q := range b {
		back := make([]geom.Pt, len(q))
		for i, p := range q {
			back[i] = geom.Pt{X: -p.X, Y: -p.Y}
		}
		if gap > 0 {
			back = convexSum(back, around(gap))
		}
		for _, p := range a {
			rings = append(rings, convexSum(p, back))
		}
	}
	return rings
}

// newHulls returns the insides of the rings, and the box round them all.
func newHulls(rings [][]geom.Pt) (hulls []hull, box geom.Rect) {
	for i, r := range rings {
		h := newHull(r)
		hulls = append(hulls, h)
		if i == 0 {
			box = h.box
		}
		box = box.Union(h.box)
	}
	return hulls, box
}

func newHull(r []geom.Pt) hull {
	h := hull{box: geom.BoundsOf(r)}
	for i, p := range r {
		d := r[(i+1)%len(r)].Sub(p)
		l := d.Len()
		if l < touchTol {
			continue
		}
		nx, ny := d.Y/l, -d.X/l // outward of a clockwise ring
		h.edges = append(h.edges, half{nx, ny, nx*p.X + ny*p.Y - touchTol})
	}
	return h
}

// clipper takes stretches out of one seg.
type clipper struct {
	s   seg
	box geom.Rect
	out [][2]float64 // the stretches taken out, as shares of s
}

func (c *clipper) start(s seg) {
	c.s = s
	c.box = geom.Rect{
		Min: geom.Pt{X: math.Min(s.a.X, s.b.X), Y: math.Min(s.a.Y, s.b.Y)},
		Max: geom.Pt{X: math.Max(s.a.X, s.b.X), Y: math.Max(s.a.Y, s.b.Y)},
	}
	c.out = c.out[:0]
}

// cutAway takes out what lies inside f moved by v; it reports whether nothing
// at all is left.
func (c *clipper) cutAway(f *nofit, v geom.Vec) bool {
	if !meets(c.box, f.box, v) {
		return false
	}
	for i := range f.hulls {
		h := &f.hulls[i]
		if !meets(c.box, h.box, v) {
			continue
		}
		if t0, t1 := h.span(c.s, v); t0 < t1 {
			if t0 <= 0 && t1 >= 1 {
				c.out = append(c.out[:0], [2]float64{0, 1})
				return true
			}
			c.out = append(c.out, [2]float64{t0, t1})
		}
	}
	return false
}

func meets(a, b geom.Rect, v geom.Vec) bool {
	return a.Min.X < b.Max.X+v.X && a.Max.X > b.Min.X+v.X &&
		a.Min.Y < b.Max.Y+v.Y && a.Max.Y > b.Min.Y+v.Y
}

// span returns the shares of s between which it lies inside h moved by v.
func (h *hull) span(s seg, v geom.Vec) (t0, t1 float64) {
	ax, ay, bx, by := s.a.X-v.X, s.a.Y-v.Y, s.b.X-v.X, s.b.Y-v.Y
	t0, t1 = 0, 1
	for _, e := range h.edges {
		da, db := e.nx*ax+e.ny*ay-e.d, e.nx*bx+e.ny*by-e.d
		switch {
		case da >= 0 && db >= 0:
			return 1, 0
		case da > 0:
			t0 = math.Max(t0, da/(da-db))
		case db > 0:
			t1 = math.Min(t1, da/(da-db))
		}
		if t0 >= t1 {
			return 1, 0
		}
	}
	return t0, t1
}

// rest appends what is left of the seg.
func (c *clipper) rest(dst []seg) []seg {
	if len(c.out) == 0 {
		return append(dst, c.s)
	}
	slices.SortStableFunc(c.out, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	from := 0.0
	for i, o := range c.out {
		if o[0] > from || (i == 0 && o[0] > 0) {
			dst = append(dst, c.part(from, o[0]))
		}
		from = math.Max(from, o[1])
	}
	if from < 1 {
		dst = append(dst, c.part(from, 1))
	}
	return dst
}

func (c *clipper) part(t0, t1 float64) seg {
	s := c.s
	if t0 > 0 {
		s.a = c.s.a.Lerp(c.s.b, t0)
	}
	if t1 < 1 {
		s.b = c.s.a.Lerp(c.s.b, t1)
	}
	return s
}
