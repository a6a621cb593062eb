package piece_test

import (
	"math"
	"slices"
	"strconv"
	"strings"

	sf "github.com/peterstace/simplefeatures/geom"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// fataler is a test or a property.
type fataler interface {
	Helper()
	Fatal(args ...any)
	Fatalf(format string, args ...any)
}

// path reads "M 0 0 L 10 0 C 20 0 20 10 10 10": absolute places, mm.
func path(t fataler, s string) geom.Path {
	t.Helper()
	var p geom.Path
	var at geom.Pt
	words := strings.Fields(s)
	for i := 0; i < len(words); {
		n := map[string]int{"M": 2, "L": 2, "C": 6}[words[i]]
		if n == 0 || i+n >= len(words) {
			t.Fatalf("path %q: what is %q?", s, words[i])
		}
		v := make([]float64, n)
		for k := range v {
			var err error
			if v[k], err = strconv.ParseFloat(words[i+1+k], 64); err != nil {
				t.Fatalf("path %q: %v", s, err)
			}
		}
		end := geom.Pt{X: v[n-2], Y: v[n-1]}
		switch words[i] {
		case "L":
			p = append(p, geom.Line(at, end))
		case "C":
			p = append(p, geom.Curve{A: at, B: geom.Pt{X: v[0], Y: v[1]}, C: geom.Pt{X: v[2], Y: v[3]}, D: end})
		}
		at = end
		i += n + 1
	}
	return p
}

// edges reads one edge a line: "name allowance [square] [turned] [fold]: path",
// the allowance in mm, or "from>to" where it runs from one to another.
func edges(t fataler, s string) []piece.Edge {
	t.Helper()
	var out []piece.Edge
	for line := range strings.Lines(strings.TrimSpace(s)) {
		head, run, ok := strings.Cut(line, ":")
		words := strings.Fields(head)
		if !ok || len(words) < 2 {
			t.Fatalf("edge %q: want name, allowance, path", line)
		}
		from, to, two := strings.Cut(words[1], ">")
		if !two {
			to = from
		}
		a, errA := strconv.ParseFloat(from, 64)
		b, errB := strconv.ParseFloat(to, 64)
		if errA != nil || errB != nil {
			t.Fatalf("edge %q: what allowance is %q?", line, words[1])
		}
		e := piece.Edge{Name: words[0], Sew: path(t, run), AllowStart: unit.Length(a), AllowEnd: unit.Length(b)}
		if slices.Contains(words, "square") {
			e.Corner = piece.Square
		}
		e.Turned, e.Fold = slices.Contains(words, "turned"), slices.Contains(words, "fold")
		out = append(out, e)
	}
	return out
}

// outlined draws the rings of a piece of these edges.
func outlined(t fataler, s string) piece.Piece {
	t.Helper()
	p, err := piece.Outline(piece.Piece{ID: "try", Name: "Try", Edges: edges(t, s)})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// ring reads "0 0, 10 0, 10 10".
func ring(t fataler, s string) []geom.Pt {
	t.Helper()
	var out []geom.Pt
	for _, w := range strings.Split(s, ",") {
		f := strings.Fields(w)
		if len(f) != 2 {
			t.Fatalf("ring %q: what is %q?", s, w)
		}
		x, errX := strconv.ParseFloat(f[0], 64)
		y, errY := strconv.ParseFloat(f[1], 64)
		if errX != nil || errY != nil {
			t.Fatalf("ring %q: what is %q?", s, w)
		}
		out = append(out, geom.Pt{X: x, Y: y})
	}
	return out
}

// sameRing reports whether got runs through want in the same direction, from
// whichever point, within tol; points of got on the straight between two of
// want do not matter.
func sameRing(got, want []geom.Pt, tol float64) bool {
	got = corners(got)
	if len(got) != len(want) {
		return false
	}
	for shift := range want {
		if !slices.ContainsFunc(indices(len(want)), func(i int) bool { return got[(i+shift)%len(got)].Dist(want[i]) > tol }) {
			return true
		}
	}
	return false
}

func indices(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// corners drops the points at which a ring does not turn.
func corners(pts []geom.Pt) []geom.Pt {
	var out []geom.Pt
	n := len(pts)
	for i, p := range pts {
		in, on := p.Sub(pts[(i+n-1)%n]), pts[(i+1)%n].Sub(p)
		if in.AngleTo(on) > 1e-6 {
			out = append(out, p)
		}
	}
	return out
}

// polygon hands a ring to the independent geometry library.
func polygon(pts []geom.Pt) sf.Geometry {
	var xy []float64
	for i := range len(pts) + 1 {
		p := pts[i%len(pts)]
		xy = append(xy, p.X, p.Y)
	}
	return sf.NewPolygon([]sf.LineString{sf.NewLineString(sf.NewSequence(xy, sf.DimXY))}).AsGeometry()
}

// sampled is a path as a run of close points, not by the project's flattening.
func sampled(p geom.Path) sf.Geometry {
	var xy []float64
	for i, c := range p {
		for k := range 101 {
			if k == 0 && i > 0 {
				continue
			}
			q := c.At(float64(k) / 100)
			xy = append(xy, q.X, q.Y)
		}
	}
	return sf.NewLineString(sf.NewSequence(xy, sf.DimXY)).AsGeometry()
}

// points are the points of a ring, without the lines between them.
func points(ring []geom.Pt) sf.Geometry {
	out := make([]sf.Point, len(ring))
	for i, p := range ring {
		out[i] = sf.NewPoint(sf.Coordinates{XY: sf.XY{X: p.X, Y: p.Y}})
	}
	return sf.NewMultiPoint(out).AsGeometry()
}

func spot(p geom.Pt) sf.Geometry {
	return sf.NewPoint(sf.Coordinates{XY: sf.XY{X: p.X, Y: p.Y}}).AsGeometry()
}

// apart is the distance of p from g by the independent library.
func apart(t fataler, p geom.Pt, g sf.Geometry) float64 {
	t.Helper()
	d, ok := sf.Distance(spot(p), g)
	if !ok {
		t.Fatal("no distance from nothing")
	}
	return d
}

// sound checks with the independent library that both rings are simple, run
// clockwise, and that the cut line holds the sew line.
func sound(t fataler, p piece.Piece) {
	t.Helper()
	cut, sew := polygon(p.Cut), polygon(p.Sew)
	if err := cut.Validate(); err != nil {
		t.Fatalf("%s: cut line: %v", p.ID, err)
	}
	if err := sew.Validate(); err != nil {
		t.Fatalf("%s: sew line: %v", p.ID, err)
	}
	// with no allowance the two lines are one, but for rounding and tidying
	for _, q := range p.Sew {
		if d := apart(t, q, cut); d > piece.FlattenTol {
			t.Fatalf("%s: the sew line is %v mm outside the cut line at %v", p.ID, d, q)
		}
	}
	if a, want := p.Area(), cut.Area(); math.Abs(a-want) > 1e-6*want || a <= 0 {
		t.Fatalf("%s: area %v mm², want %v", p.ID, a, want)
	}
}
