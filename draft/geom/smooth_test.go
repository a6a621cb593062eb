package geom_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"chalkfold/draft/geom"
)

func TestSmoothNeverOvershoots(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 8).Draw(t, "n")
		pts := make([]geom.Pt, n)
		y := 0.0
		for i := range pts {
			pts[i] = geom.Pt{X: rapid.Float64Range(-300, 300).Draw(t, "x"), Y: y}
			y += rapid.Float64Range(1, 400).Draw(t, "step")
		}
		// A wished slope may be up to three times that of its chord before the
		// curve must swing out (Fritsch and Carlson 1980, lemma 2).
		wish := func(a, b geom.Pt, what string) float64 {
			if rapid.Bool().Draw(t, what+" natural") {
				return math.NaN()
			}
			return rapid.Float64Range(0, 3).Draw(t, what) * (b.X - a.X) / (b.Y - a.Y)
		}
		p := geom.Smooth(pts, wish(pts[0], pts[1], "first"), wish(pts[n-2], pts[n-1], "last"))
		if len(p) != n-1 {
			t.Fatalf("%d curves through %d points", len(p), n)
		}
		for i, c := range p {
			close2(t, "start", c.A, pts[i], 0)
			close2(t, "end", c.D, pts[i+1], 0)
			lo, hi := min(c.A.X, c.D.X), max(c.A.X, c.D.X)
			prev := c.A
			for k := 1; k <= 50; k++ {
				q := c.At(float64(k) / 50)
				if q.X < lo-1e-9 || q.X > hi+1e-9 {
					t.Fatalf("curve %d swings to x = %.6f, beyond %.6f..%.6f", i, q.X, lo, hi)
				}
				if (q.X-prev.X)*(c.D.X-c.A.X) < -1e-9 {
					t.Fatalf("curve %d turns back at %v", i, q)
				}
				if q.Y <= prev.Y {
					t.Fatalf("curve %d does not grow in y at %v", i, q)
				}
				prev = q
			}
			if i > 0 {
				close1(t, "no corner", p[i-1].Tangent(1).AngleTo(c.Tangent(0)), 0, 1e-6)
			}
		}
	})
}

func TestSmoothKeepsWishedSlopes(t *testing.T) {
	pts := ring(t, "0 0, 20 100, 25 300")
	p := geom.Smooth(pts, 0.4, 0)
	close1(t, "first", p.StartDir().X/p.StartDir().Y, 0.4, 1e-9)
	close1(t, "last", p.EndDir().X/p.EndDir().Y, 0, 1e-9)
}

func TestSmoothOfALineIsTheLine(t *testing.T) {
	nan := math.NaN()
	p := geom.Smooth(ring(t, "0 0, 10 100, 25 250"), nan, nan)
	for i, c := range p {
		if !c.IsLine() {
			t.Errorf("curve %d of points in line is not straight: %v", i, c)
		}
	}
	if p := geom.Smooth(ring(t, "0 0"), nan, nan); p != nil {
		t.Errorf("one point makes %v, want no path", p)
	}
}
