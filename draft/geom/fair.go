package geom

import "math"

// Fair returns the path through pts whose x is a cubic spline of y: direction
// and curvature both run on through every point, as a bent batten does. It may
// swing a little past a point. The points must grow strictly in y. first and last are the wished slopes dx/dy at the ends; NaN leaves an end
// without curvature (the natural spline).
func Fair(pts []Pt, first, last float64) Path {
	n := len(pts)
	if n < 2 {
		return nil
	}
	// Slopes m from the tridiagonal system a·m[i-1] + b·m[i] + c·m[i+1] = r
	// (de Boor, A Practical Guide to Splines, chapter IV).
	b, c, r := make([]float64, n), make([]float64, n), make([]float64, n)
	h := func(i int) float64 { return pts[i+1].Y - pts[i].Y }
	d := func(i int) float64 { return (pts[i+1].X - pts[i].X) / h(i) }
	b[0], c[0], r[0] = 2, 1, 3*d(0)
	if !math.IsNaN(first) {
		b[0], c[0], r[0] = 1, 0, first
	}
	for i := 1; i < n; i++ {
		a, bi, ci, ri := 1.0, 2.0, 0.0, 3*d(i-1) // the natural end
		switch {
		case i < n-1:
			a, ci = h(i), h(i-1)
			bi, ri = 2*(h(i-1)+h(i)), 3*(h(i)*d(i-1)+h(i-1)*d(i))
		case !math.IsNaN(last):
			a, bi, ri = 0, 1, last
		}
		k := a / b[i-1]
		b[i], c[i], r[i] = bi-k*c[i-1], ci, ri-k*r[i-1]
	}
	m := make([]float64, n)
	m[n-1] = r[n-1] / b[n-1]
	for i := n - 2; i >= 0; i-- {
		m[i] = (r[i] - c[i]*m[i+1]) / b[i]
	}
	return hermite(pts, m)
}

// hermite joins pts by cubics with the slopes m, dx/dy.
func hermite(pts []Pt, m []float64) Path {
	p := make(Path, 0, len(pts)-1)
	for i := range len(pts) - 1 {
		h := (pts[i+1].Y - pts[i].Y) / 3
		p = append(p, Curve{
			pts[i],
			Pt{pts[i].X + m[i]*h, pts[i].Y + h},
			Pt{pts[i+1].X - m[i+1]*h, pts[i+1].Y - h},
			pts[i+1],
		})
	}
	return p
}
