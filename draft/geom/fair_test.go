package geom_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"chalkfold/draft/geom"
)

// A fair line runs through its points, and direction and curvature run on.
func TestFairRunsOn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 7).Draw(t, "n")
		pts := []geom.Pt{{X: rapid.Float64Range(-300, 300).Draw(t, "x")}}
		for len(pts) < n {
			pts = append(pts, geom.Pt{
				X: rapid.Float64Range(-300, 300).Draw(t, "x"),
				Y: pts[len(pts)-1].Y + rapid.Float64Range(10, 400).Draw(t, "step"),
			})
		}
		wish := func(name string) float64 {
			if rapid.Bool().Draw(t, name+" natural") {
				return math.NaN()
			}
			return rapid.Float64Range(-2, 2).Draw(t, name)
		}
		p := geom.Fair(pts, wish("first"), wish("last"))
		if len(p) != n-1 {
			t.Fatalf("%d curves through %d points", len(p), n)
		}
		for i, c := range p {
			if c.A.Dist(pts[i]) > 1e-9 || c.D.Dist(pts[i+1]) > 1e-9 {
				t.Fatalf("curve %d runs from %v to %v, want %v to %v", i, c.A, c.D, pts[i], pts[i+1])
			}
			if i == 0 {
				continue
			}
			if turn := p[i-1].Tangent(1).AngleTo(c.Tangent(0)); turn > 1e-6 {
				t.Errorf("a corner of %g at point %d", turn, i)
			}
			if a, b := p[i-1].Curvature(1), c.Curvature(0); math.Abs(a-b) > 1e-6*(1+math.Abs(a)) {
				t.Errorf("the curvature jumps from %g to %g at point %d", a, b, i)
			}
		}
	})
}

func TestFairKeepsWishedSlopes(t *testing.T) {
	pts := ring(t, "0 0, 20 100, 25 300")
	p := geom.Fair(pts, 0.4, 0)
	close1(t, "first", p.StartDir().X/p.StartDir().Y, 0.4, 1e-9)
	close1(t, "last", p.EndDir().X/p.EndDir().Y, 0, 1e-9)
}

func TestFairNaturalEndsAreStraight(t *testing.T) {
	nan := math.NaN()
	p := geom.Fair(ring(t, "0 0, 20 100, 5 300"), nan, nan)
	close1(t, "first curvature", p[0].Curvature(0), 0, 1e-9)
	close1(t, "last curvature", p[1].Curvature(1), 0, 1e-9)
}

func TestFairOfALineIsTheLine(t *testing.T) {
	nan := math.NaN()
	for i, c := range geom.Fair(ring(t, "0 0, 10 100, 25 250"), nan, nan) {
		if !c.IsLine() {
			t.Errorf("curve %d of points in line is not straight: %v", i, c)
		}
	}
	if p := geom.Fair(ring(t, "0 0"), nan, nan); p != nil {
		t.Errorf("one point makes %v, want no path", p)
	}
}
