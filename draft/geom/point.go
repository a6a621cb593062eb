package geom

import "math"

// Pt is a point in the plane of the cloth: millimetres, y growing downwards
// from waist to hem.
type Pt struct{ X, Y float64 }

// Vec is a displacement in millimetres.
type Vec struct{ X, Y float64 }

// Add returns p moved by v.
func (p Pt) Add(v Vec) Pt { return Pt{p.X + v.X, p.Y + v.Y} }

// Sub returns the displacement from q to p.
func (p Pt) Sub(q Pt) Vec { return Vec{p.X - q.X, p.Y - q.Y} }

// Lerp returns the point a share t of the way from p to q.
func (p Pt) Lerp(q Pt, t float64) Pt { return Pt{p.X + (q.X-p.X)*t, p.Y + (q.Y-p.Y)*t} }

// Dist returns the distance from p to q in millimetres.
func (p Pt) Dist(q Pt) float64 { return q.Sub(p).Len() }

// Plus returns v + w.
func (v Vec) Plus(w Vec) Vec { return Vec{v.X + w.X, v.Y + w.Y} }

// Scale returns v times k.
func (v Vec) Scale(k float64) Vec { return Vec{v.X * k, v.Y * k} }

// Dot returns the scalar product of v and w.
func (v Vec) Dot(w Vec) float64 { return v.X*w.X + v.Y*w.Y }

// Cross returns the z component of v × w. With y down it is positive when w
// lies clockwise of v as seen on the cloth.
func (v Vec) Cross(w Vec) float64 { return v.X*w.Y - v.Y*w.X }

// Len returns the length of v. Lengths on cloth are far from overflowing, so
// the root is taken plainly; the conversions forbid a fused multiply-add, which
// would round differently from one processor to the next.
func (v Vec) Len() float64 { return math.Sqrt(float64(v.X*v.X) + float64(v.Y*v.Y)) }

// Unit returns v scaled to length 1; the zero vector stays zero.
func (v Vec) Unit() Vec {
	l := v.Len()
	if l == 0 {
		return v
	}
	return Vec{v.X / l, v.Y / l}
}

// Right returns v turned a quarter turn clockwise as seen on the cloth.
func (v Vec) Right() Vec { return Vec{-v.Y, v.X} }

// Left returns v turned a quarter turn anticlockwise as seen on the cloth:
// the outward side of an outline that runs clockwise.
func (v Vec) Left() Vec { return Vec{v.Y, -v.X} }

// Neg returns v reversed.
func (v Vec) Neg() Vec { return Vec{-v.X, -v.Y} }

// Rotate returns v turned clockwise, as seen on the cloth, by rad.
func (v Vec) Rotate(rad float64) Vec {
	s, c := math.Sincos(rad)
	return Vec{v.X*c - v.Y*s, v.X*s + v.Y*c}
}

// AngleTo returns the unsigned angle between v and w in radians, 0 to π.
func (v Vec) AngleTo(w Vec) float64 { return math.Abs(math.Atan2(v.Cross(w), v.Dot(w))) }

// Affine is a map of the plane: x' = A x + C y + E, y' = B x + D y + F.
// The zero value maps everything to the origin; start from Identity.
type Affine struct{ A, B, C, D, E, F float64 }

// Identity leaves every point where it is.
func Identity() Affine { return Affine{A: 1, D: 1} }

// Translate moves every point by v.
func Translate(v Vec) Affine { return Affine{A: 1, D: 1, E: v.X, F: v.Y} }

// MirrorX reflects in the vertical line at x: what a folded cloth does.
func MirrorX(x float64) Affine { return Affine{A: -1, D: 1, E: 2 * x} }

// RotateAbout turns everything clockwise, as seen on the cloth, by rad about p.
func RotateAbout(p Pt, rad float64) Affine {
	s, c := math.Sincos(rad)
	return Affine{A: c, B: s, C: -s, D: c, E: p.X - c*p.X + s*p.Y, F: p.Y - s*p.X - c*p.Y}
}

// Then returns the map that does m first and n after it.
func (m Affine) Then(n Affine) Affine {
	return Affine{
		A: n.A*m.A + n.C*m.B, B: n.B*m.A + n.D*m.B,
		C: n.A*m.C + n.C*m.D, D: n.B*m.C + n.D*m.D,
		E: n.A*m.E + n.C*m.F + n.E, F: n.B*m.E + n.D*m.F + n.F,
	}
}

// Pt maps a point.
func (m Affine) Pt(p Pt) Pt { return Pt{m.A*p.X + m.C*p.Y + m.E, m.B*p.X + m.D*p.Y + m.F} }

// Vec maps a displacement: no translation.
func (m Affine) Vec(v Vec) Vec { return Vec{m.A*v.X + m.C*v.Y, m.B*v.X + m.D*v.Y} }

// Mirrors reports whether m turns the cloth over.
func (m Affine) Mirrors() bool { return m.A*m.D-m.B*m.C < 0 }

// Rect is an axis-parallel box. The zero value is the point at the origin,
// not an empty box.
type Rect struct{ Min, Max Pt }

// W returns the width of r.
func (r Rect) W() float64 { return r.Max.X - r.Min.X }

// H returns the height of r.
func (r Rect) H() float64 { return r.Max.Y - r.Min.Y }

// Union returns the smallest box around r and s.
func (r Rect) Union(s Rect) Rect {
	return Rect{
		Pt{math.Min(r.Min.X, s.Min.X), math.Min(r.Min.Y, s.Min.Y)},
		Pt{math.Max(r.Max.X, s.Max.X), math.Max(r.Max.Y, s.Max.Y)},
	}
}

// Overlaps reports whether r and s share more than an edge.
func (r Rect) Overlaps(s Rect) bool {
	return r.Min.X < s.Max.X && s.Min.X < r.Max.X && r.Min.Y < s.Max.Y && s.Min.Y < r.Max.Y
}

// BoundsOf returns the box around pts; the zero box for none.
func BoundsOf(pts []Pt) Rect {
	if len(pts) == 0 {
		return Rect{}
	}
	r := Rect{pts[0], pts[0]}
	for _, p := range pts[1:] {
		r.Min.X, r.Min.Y = math.Min(r.Min.X, p.X), math.Min(r.Min.Y, p.Y)
		r.Max.X, r.Max.Y = math.Max(r.Max.X, p.X), math.Max(r.Max.Y, p.Y)
	}
	return r
}
