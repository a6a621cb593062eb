package lay

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"chalkfold/draft/geom"
)

// wavy draws a simple ring of many points, such as a flattened curve has.
func wavy() *rapid.Generator[[]geom.Pt] {
	return rapid.Custom(func(t *rapid.T) []geom.Pt {
		n := rapid.IntRange(5, 200).Draw(t, "points")
		r := rapid.Float64Range(100, 400).Draw(t, "radius")
		depth := rapid.Float64Range(0, 0.8).Draw(t, "depth")
		waves := float64(rapid.IntRange(1, 6).Draw(t, "waves"))
		out := make([]geom.Pt, n)
		for i := range out {
			a := 2 * math.Pi * float64(i) / float64(n)
			s, c := math.Sincos(a)
			d := r * (1 + depth*math.Sin(waves*a))
			out[i] = geom.Pt{X: d * c, Y: d * s}
		}
		return out
	})
}

func TestEncloseHoldsTheRing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := wavy().Draw(t, "ring")
		tol := rapid.SampledFrom([]float64{0.1, 1, 10}).Draw(t, "tol")
		out := enclose(ring, tol)
		if len(out) > len(ring) {
			t.Fatalf("%d points made of %d", len(out), len(ring))
		}
		for _, p := range ring {
			if !geom.Contains(out, p) && geom.RingDist(out, p) > 1e-6 {
				t.Fatalf("%v of the ring is outside", p)
			}
		}
		for i, p := range out {
			for k := range 8 {
				q := p.Lerp(out[(i+1)%len(out)], float64(k)/8)
				if d := geom.RingDist(ring, q); d > tol+1e-6 {
					t.Fatalf("%v is %.4f mm off the ring, %.4f allowed", q, d, tol)
				}
				if geom.Contains(ring, q) && geom.RingDist(ring, q) > 1e-6 {
					t.Fatalf("%v runs inside the ring", q)
				}
			}
		}
	})
}

func TestEncloseThinsACurve(t *testing.T) {
	circle := make([]geom.Pt, 400)
	for i := range circle {
		s, c := math.Sincos(2 * math.Pi * float64(i) / 400)
		circle[i] = geom.Pt{X: 200 * c, Y: 200 * s}
	}
	// An n-gon round a circle of radius r stands r(1/cos(π/n) - 1) outside: 1
	// mm at 200 mm takes 32 sides. Edges are dropped in pairs, so that the
	// count halves until it would be too few: under twice the least.
	if n := len(enclose(circle, 1)); n < 32 || n >= 64 {
		t.Errorf("%d sides round a circle, want 32 to 63", n)
	}
}

func TestConvexPartsAddUp(t *testing.T) {
	check := func(t interface {
		Helper()
		Fatalf(string, ...any)
	}, ring []geom.Pt, parts [][]geom.Pt,
	) {
		t.Helper()
		sum := 0.0
		for _, p := range parts {
			sum += geom.Area(p)
			for i := range p {
				if inwards(p, i) {
					t.Fatalf("part %v is not convex", p)
				}
			}
		}
		if area := geom.Area(ring); math.Abs(sum-area) > 1e-9*area {
			t.Fatalf("parts of %.6f mm² make %.6f mm²", area, sum)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		ring := wavy().Draw(t, "ring")
		parts := convexParts(ring)
		check(t, ring, parts)
		turns := 0
		for i := range ring {
			if inwards(ring, i) {
				turns++
			}
		}
		if len(parts) > turns+1 {
			t.Fatalf("%d parts for %d inward corners", len(parts), turns)
		}
	})
	// A remnant: the box around it with a cut in to it.
	l := []geom.Pt{{}, {X: 400}, {X: 400, Y: 600}, {X: 1000, Y: 600}, {X: 1000, Y: 1000}, {Y: 1000}}
	check(t, frame(l), convexParts(frame(l)))
}

func TestConvexSum(t *testing.T) {
	square := []geom.Pt{{}, {X: 2}, {X: 2, Y: 2}, {Y: 2}}
	tri := []geom.Pt{{}, {X: 3}, {Y: 4}}
	// Mixed areas of a square of side a and a shape of width w and height h:
	// |A| + |B| + a(w + h).
	sum := convexSum(square, tri)
	if got := geom.Area(sum); math.Abs(got-(4+6+2*(3+4))) > 1e-12 || !isConvex(sum) {
		t.Errorf("sum %v has area %g, want 24", sum, got)
	}
}
