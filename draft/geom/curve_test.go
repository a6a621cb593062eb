package geom_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"pgregory.net/rapid"

	"chalkfold/draft/geom"
)

// quadrature integrates the speed of a curve with gonum's Gauss–Legendre rule,
// in panels so small that a cusp inside one does no harm.
func quadrature(c geom.Curve) float64 {
	const panels = 2048
	sum := 0.0
	speed := func(t float64) float64 {
		u := 1 - t
		dx := 3*u*u*(c.B.X-c.A.X) + 6*u*t*(c.C.X-c.B.X) + 3*t*t*(c.D.X-c.C.X)
		dy := 3*u*u*(c.B.Y-c.A.Y) + 6*u*t*(c.C.Y-c.B.Y) + 3*t*t*(c.D.Y-c.C.Y)
		return math.Hypot(dx, dy)
	}
	for i := range panels {
		sum += quad.Fixed(speed, float64(i)/panels, float64(i+1)/panels, 8, quad.Legendre{}, 0)
	}
	return sum
}

const lenTol = 1e-4 // mm, as the package promises

func TestCurveLengthAgainstQuadrature(t *testing.T) {
	for _, tt := range []struct{ name, path string }{
		{"fork curve", "M 0 0 C 0 60 -20 95 -67 100"},
		{"hip curve", "M 0 0 C 12 70 20 140 20 215"},
		{"quarter circle", "M 100 0 C 100 55.228475 55.228475 100 0 100"},
		{"s-bend", "M 0 0 C 300 0 -300 500 0 500"},
		{"loop", "M 0 0 C 900 700 -800 700 100 0"},
		{"cusp", "M 0 0 C 100 100 0 100 100 0"},
		{"handle on its end", "M 0 0 C 0 0 40 90 100 100"},
		{"both handles on the ends", "M 0 0 C 0 0 100 100 100 100"},
		{"back along itself", "M 0 0 C 300 0 -200 0 100 0"},
		{"a point", "M 5 5 C 5 5 5 5 5 5"},
	} {
		c := path(t, tt.path)[0]
		t.Run(tt.name, func(t *testing.T) { close1(t, "length", c.Len(), quadrature(c), lenTol) })
	}
	t.Run("any curve", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			c := geom.Curve{A: anyPt().Draw(t, "a"), B: anyPt().Draw(t, "b"), C: anyPt().Draw(t, "c"), D: anyPt().Draw(t, "d")}
			close1(t, "length", c.Len(), quadrature(c), lenTol)
		})
	})
}

func TestCircleLength(t *testing.T) {
	// Four cubics with the handle 0.5522847498 r follow a circle within
	// 2.8e-4 r, and its length within 1.5e-4 of itself.
	const k = 55.22847498
	c := geom.Curve{A: geom.Pt{X: 100}, B: geom.Pt{X: 100, Y: k}, C: geom.Pt{X: k, Y: 100}, D: geom.Pt{Y: 100}}
	close1(t, "quarter of 2πr", c.Len(), 50*math.Pi, 50*math.Pi*1.5e-4)
}

func TestParamAtIsTheLengthAlong(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := geom.Curve{A: anyPt().Draw(t, "a"), B: anyPt().Draw(t, "b"), C: anyPt().Draw(t, "c"), D: anyPt().Draw(t, "d")}
		s := rapid.Float64Range(0, 1).Draw(t, "share") * c.Len()
		head, tail := c.Split(c.ParamAt(s))
		close1(t, "length of the head", head.Len(), s, 3*lenTol)
		close1(t, "head and tail", head.Len()+tail.Len(), c.Len(), 3*lenTol)
	})
}

func TestParamAtHoldsToTheEnds(t *testing.T) {
	c := path(t, "M 0 0 C 0 60 -20 95 -67 100")[0]
	for _, tt := range []struct{ s, want float64 }{{-5, 0}, {0, 0}, {c.Len(), 1}, {c.Len() + 5, 1}} {
		if got := c.ParamAt(tt.s); got != tt.want {
			t.Errorf("ParamAt(%g) = %g, want %g", tt.s, got, tt.want)
		}
	}
}

func TestTangentAndCurvature(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := geom.Curve{A: anyPt().Draw(t, "a"), B: anyPt().Draw(t, "b"), C: anyPt().Draw(t, "c"), D: anyPt().Draw(t, "d")}
		u := rapid.Float64Range(0.01, 0.99).Draw(t, "t")
		const h = 1e-5
		chord := c.At(u + h).Sub(c.At(u - h))
		if c.Deriv(u).Len() < 50 {
			t.Skip("too near a cusp for differences")
		}
		close1(t, "angle between tangent and chord", c.Tangent(u).AngleTo(chord), 0, 1e-4)
		turned := c.Tangent(u - h).Cross(c.Tangent(u + h))
		k := turned / (2 * h * c.Deriv(u).Len())
		close1(t, "curvature", c.Curvature(u), k, 1e-5+1e-3*math.Abs(k))
	})
}

func TestCurvatureIsPositiveClockwise(t *testing.T) {
	// From 3 o'clock down to 6 o'clock, y down, is clockwise.
	c := path(t, "M 100 0 C 100 55.228475 55.228475 100 0 100")[0]
	close1(t, "1/r", c.Curvature(0.5), 0.01, 1e-4)
	close1(t, "reversed", c.Reverse().Curvature(0.5), -0.01, 1e-4)
}

func TestTangentAtAHandleOnItsEnd(t *testing.T) {
	for _, tt := range []struct {
		path string
		t    float64
		want geom.Vec
	}{
		{"M 0 0 C 0 0 0 50 100 100", 0, geom.Vec{Y: 1}},
		{"M 0 0 C 50 100 100 100 100 100", 1, geom.Vec{X: 1}},
		{"M 0 0 C 0 0 100 0 100 0", 0, geom.Vec{X: 1}},
	} {
		got := path(t, tt.path)[0].Tangent(tt.t)
		close2(t, tt.path, geom.Pt(got), geom.Pt(tt.want), 1e-9)
	}
}
