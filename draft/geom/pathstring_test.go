package geom_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chalkfold/draft/geom"
)

// path reads "M 0 0 L 10 0 C 20 0 20 10 10 10 Z": absolute places, a letter
// before each stretch.
func path(t testing.TB, s string) geom.Path {
	t.Helper()
	var p geom.Path
	var at, start geom.Pt
	words := strings.Fields(s)
	num := func(i int) float64 {
		if i >= len(words) {
			t.Fatalf("path %q ends early", s)
		}
		v, err := strconv.ParseFloat(words[i], 64)
		if err != nil {
			t.Fatalf("path %q: %v", s, err)
		}
		return v
	}
	pt := func(i int) geom.Pt { return geom.Pt{X: num(i), Y: num(i + 1)} }
	for i := 0; i < len(words); {
		switch words[i] {
		case "M":
			at = pt(i + 1)
			start = at
			i += 3
		case "L":
			p = append(p, geom.Line(at, pt(i+1)))
			at = pt(i + 1)
			i += 3
		case "C":
			p = append(p, geom.Curve{A: at, B: pt(i + 1), C: pt(i + 3), D: pt(i + 5)})
			at = pt(i + 5)
			i += 7
		case "Z":
			p = append(p, geom.Line(at, start))
			at = start
			i++
		default:
			t.Fatalf("path %q: what is %q?", s, words[i])
		}
	}
	return p
}

// ring reads "0 0, 10 0, 10 10".
func ring(t testing.TB, s string) []geom.Pt {
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

// anyPt draws a point of a garment piece: up to a metre off.
func anyPt() *rapid.Generator[geom.Pt] {
	return rapid.Custom(func(t *rapid.T) geom.Pt {
		c := rapid.Float64Range(-1000, 1000)
		return geom.Pt{X: c.Draw(t, "x"), Y: c.Draw(t, "y")}
	})
}

// anyPath draws up to five lines and curves end to end.
func anyPath() *rapid.Generator[geom.Path] {
	return rapid.Custom(func(t *rapid.T) geom.Path {
		at := anyPt().Draw(t, "start")
		var p geom.Path
		for range rapid.IntRange(1, 5).Draw(t, "curves") {
			end := anyPt().Draw(t, "end")
			c := geom.Line(at, end)
			if rapid.Bool().Draw(t, "curved") {
				c = geom.Curve{A: at, B: anyPt().Draw(t, "b"), C: anyPt().Draw(t, "c"), D: end}
			}
			p, at = append(p, c), end
		}
		return p
	})
}

// fataler is a test or a property.
type fataler interface {
	Helper()
	Fatalf(format string, args ...any)
}

func close2(t fataler, what string, got, want geom.Pt, tol float64) {
	t.Helper()
	if d := got.Dist(want); !(d <= tol) {
		t.Fatalf("%s: got %v, want %v (%.3g mm off, %.3g allowed)", what, got, want, d, tol)
	}
}

func close1(t fataler, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Fatalf("%s: got %.9g, want %.9g ± %.3g", what, got, want, tol)
	}
}
