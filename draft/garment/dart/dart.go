// Package dart draws an edge with darts in it, such as a waist, for any
// garment: New sets a dart, Squared draws the edge in one smooth line with the
// darts folded shut and opens them again, Straight is the edge as it is spoken.
// Solve finds the mark for which what is drawn measures what it must.
//
// An edge runs from its start to its end with the garment on its right, as an
// outline does; darts are given in that order, and their cloth is folded
// towards the start. Lengths are in mm, angles in radians.
package dart

import (
	"math"

	"chalkfold/draft/geom"
)

// Shape is a dart before its edge is drawn.
type Shape struct {
	Point geom.Pt
	Up    geom.Vec // the way its middle runs to the edge
	Half  float64  // half its angle
}

// New sets a dart of the given width and length, its middle so far from start
// along the straight line to end.
func New(start, end geom.Pt, from, width, length float64) Shape {
	along := end.Sub(start).Unit()
	foot := start.Add(along.Scale(from))
	return Shape{Point: foot.Add(along.Right().Scale(length)), Up: along.Left(), Half: math.Atan2(width/2, length)}
}

// Opened is a dart in its edge.
type Opened struct {
	Shape
	Legs [2]geom.Pt // on the edge, in its direction
	Top  geom.Pt    // of its middle, over the fold
}

// Edge is an edge drawn with its darts. A broken one has no lines: a dart's legs
// do not cut it.
type Edge struct {
	Path   geom.Path
	Darts  []Opened
	Closed float64 // its length with the darts closed
	Broken bool
}

// Straight is the edge as it is spoken: one straight line, one dart measured on
// it, or none.
func Straight(start, end geom.Pt, darts []Shape) Edge {
	along := end.Sub(start)
	var e Edge
	at := start
	for _, d := range darts {
		l, lok := geom.CrossLines(start, along, d.Point, d.Up.Rotate(-d.Half))
		r, rok := geom.CrossLines(start, along, d.Point, d.Up.Rotate(d.Half))
		if !lok || !rok || l.Sub(at).Dot(along) <= 0 || r.Sub(end).Dot(along) >= 0 {
			return Edge{Broken: true, Closed: start.Dist(end)}
		}
		e.Path = e.Path.Join(geom.Polyline(at, l), geom.Polyline(l, r))
		e.Darts = append(e.Darts, Opened{Shape: d, Legs: [2]geom.Pt{l, r}, Top: l.Lerp(r, 0.5)})
		e.Closed += at.Dist(l)
		at = r
	}
	e.Path, e.Closed = e.Path.Join(geom.Polyline(at, end)), e.Closed+at.Dist(end)
	return e
}

// Squared draws the edge in one smooth line with the darts folded shut, dir0 the
// way it leaves its start and dir1 the way it reaches its end while the darts
// are open, and opens them again.
func Squared(start geom.Pt, dir0 geom.Vec, end geom.Pt, dir1 geom.Vec, darts []Shape) Edge {
	// shut[i] folds the first i darts; open[i] opens them again.
	shut, open := []geom.Affine{geom.Identity()}, []geom.Affine{geom.Identity()}
	for i, d := range darts {
		at := shut[i].Pt(d.Point)
		shut = append(shut, shut[i].Then(geom.RotateAbout(at, -2*d.Half)))
		open = append(open, geom.RotateAbout(at, 2*d.Half).Then(open[i]))
	}
	n := len(darts)
	last, lastDir := shut[n].Pt(end), shut[n].Vec(dir1)
	h := start.Dist(last) / 3
	rest := geom.Path{{A: start, B: start.Add(dir0.Scale(h)), C: last.Add(lastDir.Scale(-h)), D: last}}
	e := Edge{Closed: rest.Len()}
	for i, d := range darts {
		at := rest.CrossLine(shut[i].Pt(d.Point), shut[i].Vec(d.Up.Rotate(-d.Half)))
		if len(at) == 0 {
			return Edge{Broken: true, Closed: e.Closed}
		}
		before, after := rest.Split(at[0])
		if before == nil || after == nil {
			return Edge{Broken: true, Closed: e.Closed}
		}
		meet := before.End()
		before = before.Map(open[i])
		o := Opened{Shape: d, Legs: [2]geom.Pt{open[i].Pt(meet), open[i+1].Pt(meet)}}
		o.Top = o.top(before)
		e.Path = e.Path.Join(before, geom.Polyline(o.Legs[0], o.Top, o.Legs[1]))
		e.Darts = append(e.Darts, o)
		rest = after
	}
	e.Path = e.Path.Join(rest.Map(open[n]))
	return e
}

// top is where the middle of the dart must reach so that, with the dart folded
// towards the start, its edge lies along the line before it.
func (o Opened) top(before geom.Path) geom.Pt {
	r := o.Point.Dist(o.Legs[0])
	if at := before.CrossLine(o.Point, o.Up.Rotate(-2*o.Half)); len(at) > 0 {
		p, _ := before.At(at[len(at)-1])
		r = o.Point.Dist(p)
	}
	return o.Point.Add(o.Up.Scale(r))
}

// Solve finds x near x0 with f(x) = 0 by the secant rule; false when it does
// not settle.
func Solve(x0 float64, f func(float64) float64) (float64, bool) {
	const settled = 1e-4 // mm
	x1 := x0 + 1
	f0, f1 := f(x0), 0.0
	for range 40 {
		if math.Abs(f0) < settled {
			return x0, true
		}
		f1 = f(x1)
		if f1 == f0 {
			return x0, false
		}
		step := f1 * (x1 - x0) / (f1 - f0)
		step = math.Max(-60, math.Min(60, step))
		x0, f0, x1 = x1, f1, x1-step
	}
	return x0, math.Abs(f0) < settled
}

// Fair draws an edge that is one straight line when its darts are folded shut,
// and opens them again.
func Fair(start, end geom.Pt, darts []Shape) Edge {
	shut, turned := geom.Identity(), 0.0
	for _, d := range darts {
		shut = shut.Then(geom.RotateAbout(shut.Pt(d.Point), -2*d.Half))
		turned += 2 * d.Half
	}
	dir := shut.Pt(end).Sub(start).Unit()
	return Squared(start, dir, end, dir.Rotate(turned), darts)
}

// To sets a dart that points to an apex from a place on its edge, and is so wide
// there.
func To(apex, foot geom.Pt, width float64) Shape {
	up := foot.Sub(apex)
	return Shape{Point: apex, Up: up.Unit(), Half: math.Atan2(width/2, up.Len())}
}
