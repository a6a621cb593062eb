package geom_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"chalkfold/draft/geom"
)

func TestPathPartsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPath().Draw(t, "path")
		total := p.Len()
		a := rapid.Float64Range(0, 1).Draw(t, "a") * total
		b := rapid.Float64Range(0, 1).Draw(t, "b") * total
		a, b = min(a, b), max(a, b)
		tol := 4 * lenTol * float64(len(p)+1)
		head, tail := p.Split(a)
		close1(t, "head", head.Len(), a, tol)
		close1(t, "tail", tail.Len(), total-a, tol)
		at, dir := p.At(a)
		if len(head) > 0 {
			close2(t, "end of the head", head.End(), at, tol)
		}
		if len(tail) > 0 {
			close2(t, "start of the tail", tail.Start(), at, tol)
		}
		close1(t, "length of the direction", dir.Len(), 1, 1e-9)
		part := p.Between(a, b)
		close1(t, "length between", part.Len(), b-a, 2*tol)
		if len(part) > 0 {
			end, _ := p.At(b)
			close2(t, "start of the part", part.Start(), at, 2*tol)
			close2(t, "end of the part", part.End(), end, 2*tol)
		}
		for i := 1; i < len(part); i++ {
			close2(t, "joint", part[i].A, part[i-1].D, 1e-9)
		}
	})
}

func TestPathReversed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPath().Draw(t, "path")
		r := p.Reverse()
		if !slices.Equal(r.Reverse(), p) {
			t.Fatal("reversed twice is another path")
		}
		tol := 4 * lenTol * float64(len(p)+1)
		close1(t, "length", r.Len(), p.Len(), tol)
		s := rapid.Float64Range(0, 1).Draw(t, "share") * p.Len()
		there, _ := p.At(s)
		back, _ := r.At(p.Len() - s)
		close2(t, "place", back, there, tol)
	})
}

func TestSplitAtTheEnds(t *testing.T) {
	p := path(t, "M 0 0 L 30 0 L 30 40")
	for _, tt := range []struct {
		s          float64
		head, tail int
	}{{-1, 0, 2}, {0, 0, 2}, {10, 1, 2}, {30, 1, 1}, {50, 2, 1}, {70, 2, 0}, {71, 2, 0}} {
		head, tail := p.Split(tt.s)
		if len(head) != tt.head || len(tail) != tt.tail {
			t.Errorf("Split(%g): %d and %d curves, want %d and %d", tt.s, len(head), len(tail), tt.head, tt.tail)
		}
	}
}

func TestJoinLeavesItsPartsAlone(t *testing.T) {
	p := append(make(geom.Path, 0, 8), path(t, "M 0 0 L 10 0")...)
	a, b := p.Join(path(t, "M 10 0 L 20 0")), p.Join(path(t, "M 10 0 L 10 30"))
	close1(t, "first", a.Len(), 20, 1e-9)
	close1(t, "second", b.Len(), 40, 1e-9)
}

// polyDist returns the distance from q to a polyline.
func polyDist(pts []geom.Pt, q geom.Pt) float64 {
	best := math.Inf(1)
	for i := 1; i < len(pts); i++ {
		d := pts[i].Sub(pts[i-1])
		u := 0.0
		if l2 := d.Dot(d); l2 > 0 {
			u = min(1, max(0, q.Sub(pts[i-1]).Dot(d)/l2))
		}
		best = min(best, q.Dist(pts[i-1].Add(d.Scale(u))))
	}
	return best
}

func TestFlattenStaysWithin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPath().Draw(t, "path")
		tol := rapid.SampledFrom([]float64{0.01, 0.05, 0.5, 5}).Draw(t, "tol")
		pts := p.Flatten(tol)
		close2(t, "start", pts[0], p.Start(), 0)
		close2(t, "end", pts[len(pts)-1], p.End(), 0)
		for range 20 {
			c := p[rapid.IntRange(0, len(p)-1).Draw(t, "curve")]
			q := c.At(rapid.Float64Range(0, 1).Draw(t, "t"))
			if d := polyDist(pts, q); d > tol+1e-9 {
				t.Fatalf("%v is %.4f mm off the flattened path, %.4f allowed", q, d, tol)
			}
		}
	})
}

// Stops are the points of Flatten, with the ways of the curves that meet there.
func TestStopsGoAsThePathGoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPath().Draw(t, "path")
		const tol, small = 0.5, 1e-4
		stops := p.Stops(tol)
		pts := geom.Tidy(append(p.Flatten(tol), geom.Pt{X: 1e6}), 1e-6)
		if len(stops) != len(pts)-1 {
			t.Fatalf("%d stops for %d points", len(stops), len(pts)-1)
		}
		for i, s := range stops {
			close2(t, "stop", s.At, pts[i], 0)
			if p.Len() < 1e-3 {
				break // too short for a way
			}
			for _, way := range []geom.Vec{s.In, s.Out} {
				if math.Abs(way.Len()-1) > 1e-9 {
					t.Fatalf("the way at %v is %v", s.At, way)
				}
			}
		}
		for _, c := range p {
			if c.A.Dist(c.B) < 1 || c.C.Dist(c.D) < 1 {
				continue // too short a handle for its way to be seen from its end
			}
			on := slices.IndexFunc(stops, func(s geom.Stop) bool { return s.At.Dist(c.A) < 1e-6 && s.Out.Dot(c.At(small).Sub(c.A).Unit()) > 0.99 })
			to := slices.IndexFunc(stops, func(s geom.Stop) bool { return s.At.Dist(c.D) < 1e-6 && s.In.Dot(c.D.Sub(c.At(1-small)).Unit()) > 0.99 })
			if on < 0 || to < 0 {
				t.Fatalf("%v is not left or come to the way it runs: %v", c, stops)
			}
		}
	})
}

func TestNearest(t *testing.T) {
	for _, tt := range []struct {
		path    string
		q       geom.Pt
		s, dist float64
	}{
		{"M 0 0 L 100 0", geom.Pt{X: 30, Y: 40}, 30, 40},
		{"M 0 0 L 100 0", geom.Pt{X: -30, Y: 40}, 0, 50},
		{"M 0 0 L 100 0 L 100 100", geom.Pt{X: 90, Y: 60}, 160, 10},
		{"M 0 0 L 100 0 L 100 100", geom.Pt{X: 103, Y: 104}, 200, 5},
	} {
		s, d := path(t, tt.path).Nearest(tt.q)
		close1(t, tt.path+" s", s, tt.s, 1e-6)
		close1(t, tt.path+" dist", d, tt.dist, 1e-9)
	}
	rapid.Check(t, func(t *rapid.T) {
		p, q := anyPath().Draw(t, "path"), anyPt().Draw(t, "q")
		s, d := p.Nearest(q)
		at, _ := p.At(s)
		close1(t, "distance of the place named", at.Dist(q), d, 1e-3)
		if best := polyDist(p.Flatten(0.01), q); d > best+0.02 {
			t.Fatalf("nearest said %.4f mm, %.4f found", d, best)
		}
	})
}

func TestCrossLine(t *testing.T) {
	right, down := geom.Vec{X: 1}, geom.Vec{Y: 1}
	for _, tt := range []struct {
		name, path string
		o          geom.Pt
		dir        geom.Vec
		want       []float64
	}{
		{"once", "M 0 0 L 0 100", geom.Pt{Y: 40}, right, []float64{40}},
		{"the line has no ends", "M 0 0 L 0 100", geom.Pt{X: 900, Y: 40}, right, []float64{40}},
		{"no crossing", "M 0 0 L 0 100", geom.Pt{Y: 140}, right, nil},
		{"at the start", "M 0 0 L 0 100", geom.Pt{}, right, []float64{0}},
		{"at the end", "M 0 0 L 0 100", geom.Pt{Y: 100}, right, []float64{100}},
		{"at a corner, once", "M 0 0 L 0 50 L 20 100", geom.Pt{Y: 50}, right, []float64{50}},
		{"touching a tip, once", "M 0 0 L 30 40 L 60 0", geom.Pt{Y: 40}, right, []float64{50}},
		{"zigzag", "M 0 0 L 30 40 L 60 0 L 90 40", geom.Pt{Y: 20}, right, []float64{25, 75, 125}},
		{"round trip", "M 0 0 L 100 0 L 100 100 L 0 100 Z", geom.Pt{X: 25}, down, []float64{25, 275}},
		{"dir any length", "M 0 0 L 0 100", geom.Pt{Y: 40}, geom.Vec{X: -7}, []float64{40}},
		{"curve at its middle", "M 0 0 C 80 0 80 100 0 100", geom.Pt{Y: 50}, right, []float64{-0.5}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			p := path(t, tt.path)
			got := p.CrossLine(tt.o, tt.dir)
			if len(got) != len(tt.want) {
				t.Fatalf("crosses at %v, want %v", got, tt.want)
			}
			for i, want := range tt.want {
				if want < 0 { // a share of the whole
					want *= -p.Len()
				}
				close1(t, "place", got[i], want, 2*lenTol)
			}
		})
	}
	rapid.Check(t, func(t *rapid.T) {
		p, o := anyPath().Draw(t, "path"), anyPt().Draw(t, "o")
		dir := geom.Vec{X: 1}.Rotate(rapid.Float64Range(0, 2*math.Pi).Draw(t, "angle"))
		got := p.CrossLine(o, dir)
		if !slices.IsSorted(got) {
			t.Fatalf("not in order: %v", got)
		}
		for _, s := range got {
			at, _ := p.At(s)
			close1(t, "off the line", at.Sub(o).Cross(dir), 0, 1e-3)
		}
		for i, c := range p {
			if i == 0 && math.Abs(c.A.Sub(o).Cross(dir)) < 1e-9 || math.Abs(c.D.Sub(o).Cross(dir)) < 1e-9 {
				t.Skip("a joint lies on the line: it may only touch there")
			}
		}
		side := func(q geom.Pt) bool { return q.Sub(o).Cross(dir) > 0 }
		if (side(p.Start()) != side(p.End())) != (len(got)%2 == 1) {
			t.Fatalf("%d crossings do not lead from one side to the other", len(got))
		}
	})
}

// TestNoSlivers cuts just beyond a joint: what is left of the next curve is no curve
// of its own, and the ends stay where they are.
func TestNoSlivers(t *testing.T) {
	p := geom.Path{geom.Line(geom.Pt{}, geom.Pt{Y: 100}), geom.Line(geom.Pt{Y: 100}, geom.Pt{X: 50, Y: 180})}
	for _, tt := range []struct {
		a, b   float64
		curves int
	}{{0, 100.1, 1}, {99.9, 190, 1}, {0, 100.3, 2}, {99.7, 190, 2}, {99.9, 100.1, 1}} {
		part := p.Between(tt.a, tt.b)
		from, _ := p.At(tt.a)
		to, _ := p.At(tt.b)
		if len(part) != tt.curves || part.Start().Sub(from).Len() > 1e-3 || part.End().Sub(to).Len() > 1e-3 {
			t.Errorf("from %g to %g: %v, want %d curves", tt.a, tt.b, part, tt.curves)
		}
	}
	if p[0].D != (geom.Pt{Y: 100}) || p[1].A != p[0].D {
		t.Error("the path itself was changed")
	}
}
