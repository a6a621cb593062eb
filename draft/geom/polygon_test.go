package geom_test

import (
	"math"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"

	"chalkfold/draft/geom"
)

// feature hands a ring to the independent geometry library.
func feature(pts []geom.Pt) sf.Geometry {
	var xy []float64
	for i := range len(pts) + 1 {
		p := pts[i%len(pts)]
		xy = append(xy, p.X, p.Y)
	}
	line := sf.NewLineString(sf.NewSequence(xy, sf.DimXY))
	return sf.NewPolygon([]sf.LineString{line}).AsGeometry()
}

// anyRing draws a simple ring: corners round a middle, in the order of their
// angles.
func anyRing() *rapid.Generator[[]geom.Pt] {
	return rapid.Custom(func(t *rapid.T) []geom.Pt {
		n := rapid.IntRange(3, 20).Draw(t, "corners")
		mid := anyPt().Draw(t, "middle")
		out := make([]geom.Pt, n)
		for i := range out {
			r := rapid.Float64Range(20, 500).Draw(t, "radius")
			s, c := math.Sincos(2 * math.Pi * (float64(i) + rapid.Float64Range(0, 0.9).Draw(t, "angle")) / float64(n))
			out[i] = mid.Add(geom.Vec{X: r * c, Y: r * s})
		}
		return out
	})
}

func TestAreaAgainstSimpleFeatures(t *testing.T) {
	for _, tt := range []struct {
		name, path string
	}{
		{"square, clockwise", "M 0 0 L 100 0 L 100 100 L 0 100 Z"},
		{"square, anticlockwise", "M 0 0 L 0 100 L 100 100 L 100 0 Z"},
		{"notched", "M 0 0 L 80 0 L 80 50 L 50 50 L 50 20 L 30 20 L 30 50 L 0 50 Z"},
		{"round", "M 100 0 C 100 55 55 100 0 100 C -55 100 -100 55 -100 0 C -100 -55 -55 -100 0 -100 C 55 -100 100 -55 100 0"},
		{"front of a leg", "M 0 0 L 220 -6 C 240 90 250 180 246 260 L 210 1000 L 20 1000 L -70 260 C -20 255 0 220 0 160 Z"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			pts := geom.Tidy(path(t, tt.path).Flatten(0.05), 1e-9)
			want := feature(pts).Area()
			close1(t, "area", math.Abs(geom.Area(pts)), want, 1e-9*want)
		})
	}
	rapid.Check(t, func(t *rapid.T) {
		pts := anyRing().Draw(t, "ring")
		want := feature(pts).Area()
		close1(t, "area", math.Abs(geom.Area(pts)), want, 1e-9*want+1e-6)
	})
}

func TestAreaIsPositiveClockwise(t *testing.T) {
	close1(t, "clockwise, y down", geom.Area(ring(t, "0 0, 10 0, 10 10, 0 10")), 100, 0)
	close1(t, "anticlockwise", geom.Area(ring(t, "0 0, 0 10, 10 10, 10 0")), -100, 0)
}

func TestContainsAgainstSimpleFeatures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pts := anyRing().Draw(t, "ring")
		b := geom.BoundsOf(pts)
		q := geom.Pt{
			X: rapid.Float64Range(b.Min.X-50, b.Max.X+50).Draw(t, "x"),
			Y: rapid.Float64Range(b.Min.Y-50, b.Max.Y+50).Draw(t, "y"),
		}
		if polyDist(append(pts, pts[0]), q) < 1e-6 {
			t.Skip("on the ring")
		}
		want := sf.Intersects(feature(pts), sf.NewPoint(sf.Coordinates{XY: sf.XY{X: q.X, Y: q.Y}}).AsGeometry())
		if got := geom.Contains(pts, q); got != want {
			t.Fatalf("holds %v: %t, want %t", q, got, want)
		}
	})
}

func TestSelfCross(t *testing.T) {
	for _, tt := range []struct {
		name, ring string
		want       bool
		at         geom.Pt
	}{
		{"square", "0 0, 10 0, 10 10, 0 10", false, geom.Pt{}},
		{"triangle", "0 0, 10 0, 5 9", false, geom.Pt{}},
		{"figure of eight", "0 0, 10 10, 10 0, 0 10", true, geom.Pt{X: 5, Y: 5}},
		{"first and last edge cross", "0 0, 10 0, 10 10, 5 -5, 4 -5", true, geom.Pt{X: 20.0 / 3}},
		{"notched", "0 0, 8 0, 8 5, 5 5, 5 2, 3 2, 3 5, 0 5", false, geom.Pt{}},
		{"a corner on an edge", "0 0, 10 0, 10 10, 5 0, 0 10", true, geom.Pt{X: 5}},
		{"a point given twice", "0 0, 10 0, 10 0, 10 10, 0 10", false, geom.Pt{}},
		{"the first point given again", "0 0, 10 0, 10 10, 0 10, 0 0", false, geom.Pt{}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			at, got := geom.SelfCross(ring(t, tt.ring))
			if got != tt.want {
				t.Fatalf("crosses: %t at %v, want %t", got, at, tt.want)
			}
			if got {
				close2(t, "place", at, tt.at, 1e-9)
			}
		})
	}
	rapid.Check(t, func(t *rapid.T) {
		pts := anyRing().Draw(t, "ring")
		if rapid.Bool().Draw(t, "swap") && len(pts) > 3 {
			i := rapid.IntRange(0, len(pts)-2).Draw(t, "i")
			pts[i], pts[i+1] = pts[i+1], pts[i]
		}
		want := feature(pts).Validate() != nil
		if at, got := geom.SelfCross(pts); got != want {
			t.Fatalf("crosses: %t at %v, want %t", got, at, want)
		}
	})
}

func TestTidy(t *testing.T) {
	for _, tt := range []struct {
		ring string
		tol  float64
		want int
	}{
		{"0 0, 10 0, 10 10", 0.1, 3},
		{"0 0, 10 0, 10 0.05, 10 10", 0.1, 3},
		{"0 0, 10 0, 10 10, 0 0", 0.1, 3},
		{"0 0, 0 0, 0 0", 0.1, 1},
	} {
		if got := geom.Tidy(ring(t, tt.ring), tt.tol); len(got) != tt.want {
			t.Errorf("Tidy(%s) = %v, want %d points", tt.ring, got, tt.want)
		}
	}
}
