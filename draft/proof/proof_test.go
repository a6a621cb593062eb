package proof_test

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/unit"
)

// faults are the findings that are not fine, by check.
func faults(r proof.Report) map[string]proof.Level {
	out := map[string]proof.Level{}
	for _, f := range r.Findings {
		if f.Level != proof.Fine {
			out[f.Check] = f.Level
		}
	}
	return out
}

// figured: what cannot be measured has no figure, which could be neither shown
// nor written.
func figured(t *testing.T, f proof.Finding) {
	t.Helper()
	for _, v := range []float64{f.Figure.V, f.Want.V, f.Tolerance.V} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Errorf("%s: figure %v, want %v, tolerance %v", f.Check, f.Figure.V, f.Want.V, f.Tolerance.V)
		}
	}
}

func find(t *testing.T, r proof.Report, check string) proof.Finding {
	t.Helper()
	i := slices.IndexFunc(r.Findings, func(f proof.Finding) bool { return f.Check == check })
	if i < 0 {
		t.Fatalf("no finding of %q", check)
	}
	return r.Findings[i]
}

// A draft that keeps its claims passes every check, and every claim is
// checked.
func TestGoodDraftPasses(t *testing.T) {
	s := newSkirt(t)
	r := s.prove()
	if bad := faults(r); len(bad) > 0 || r.Stopped() {
		t.Fatalf("the good skirt has faults: %v", r.Findings)
	}
	var checks []string
	for _, f := range r.Findings {
		checks = append(checks, f.Check)
		if f.Mend != "" {
			t.Errorf("%s is fine and yet to be mended: %q", f.Check, f.Mend)
		}
		if f.Say == "" {
			t.Errorf("%s says nothing", f.Check)
		}
	}
	slices.Sort(checks)
	want := []string{
		"cut as proved: back", "cut as proved: front", "front crease", "front dart legs", "front dart, waist across it", "hem of the back, square", "hem of the back, turned up",
		"hem of the front, square", "hem of the front, turned up", "hip girth", "notches in pairs", "notches: side seam", "notches: waist to band", "outline: back", "outline: band",
		"outline: front", "pocket mouth", "side seam", "stepping in", "turn of the side", "waist at the centre front", "waist at the side", "waist girth", "waist to band",
	}
	if !slices.Equal(checks, want) {
		t.Errorf("checked\n%q, want\n%q", checks, want)
	}
}

// Each row breaks one thing; what it breaks is found, at its level, and
// nothing else is.
func TestFaultsAreFound(t *testing.T) {
	stop, mind := proof.Stops, proof.Mind
	grow := func(v *geom.Pt, dx, dy float64) { *v = v.Add(geom.Vec{X: dx, Y: dy}) }
	for _, tt := range []struct {
		name  string
		spoil func(s *skirt)
		want  map[string]proof.Level
	}{
		{"a side 1.4 mm short holds", func(s *skirt) { s.lengthen("back", -1.4) }, nil},
		{"a side 3 mm short", func(s *skirt) { s.lengthen("back", -3) }, map[string]proof.Level{"side seam": stop}},
		{"a side 3 mm long", func(s *skirt) { s.lengthen("back", 3) }, map[string]proof.Level{"side seam": stop}},
		{"a side to be stretched 6 mm, and cut so", func(s *skirt) { s.lengthen("back", -6); s.seam("side seam").Shorter = 6 }, nil},
		{"a side to be stretched 6 mm, cut full", func(s *skirt) { s.seam("side seam").Shorter = 6 }, map[string]proof.Level{"side seam": stop}},
		{"a side to be stretched 6 mm, cut 10 short", func(s *skirt) { s.lengthen("back", -10); s.seam("side seam").Shorter = 6 }, map[string]proof.Level{"side seam": stop}},
		{"a dart forgotten in the band", func(s *skirt) { s.seam("waist to band").LessA = 0 }, map[string]proof.Level{"waist to band": stop}},
		{"no lap on the band", func(s *skirt) { s.seam("waist to band").LessB = 0 }, map[string]proof.Level{"waist to band": stop}},
		{"a seam to an edge that is not there", func(s *skirt) { s.seam("side seam").B[0].Edge = "inseam" }, map[string]proof.Level{"side seam": stop, "notches in pairs": stop}},

		{"hip 0.2 mm under the body, rounding", func(s *skirt) { s.girth("hip").Body += 40.2; s.girth("hip").Ease = 0 }, nil},
		{"hip 1 mm under the body", func(s *skirt) { s.girth("hip").Body += 41; s.girth("hip").Ease = 0 }, map[string]proof.Level{"hip girth": stop}},
		{"hip under an estimated body", func(s *skirt) { s.girth("hip").Body += 60; s.girth("hip").Estimated = true }, map[string]proof.Level{"hip girth": mind}},
		{"hip under the garment that fits", func(s *skirt) { s.girth("hip").Body += 41; s.girth("hip").Ease = 0; s.girth("hip").Garment = true }, map[string]proof.Level{"hip girth": stop}},
		{"hip with less ease than chosen", func(s *skirt) { s.girth("hip").Ease += 5 }, map[string]proof.Level{"hip girth": mind}},
		{"hip with more ease than chosen", func(s *skirt) { s.girth("hip").Ease -= 5 }, map[string]proof.Level{"hip girth": mind}},
		{"hip 2.9 mm off what was chosen", func(s *skirt) { s.girth("hip").Ease -= 2.9 }, nil},
		{"hip that may be roomy", func(s *skirt) { s.girth("hip").Ease -= 25; s.girth("hip").Roomy = true }, nil},
		{"hip that may be roomy and is not", func(s *skirt) { s.girth("hip").Ease += 5; s.girth("hip").Roomy = true }, map[string]proof.Level{"hip girth": mind}},
		{"a tuck forgotten", func(s *skirt) { s.girth("hip").Spans[0].Less = 6 }, map[string]proof.Level{"hip girth": mind}},
		{"hip measured beside the panel", func(s *skirt) { s.girth("hip").Spans[0].Through = pt(100, 5000) }, map[string]proof.Level{"hip girth": stop}},
		{"hip of a panel that is not there", func(s *skirt) { s.girth("hip").Spans[1].Panel = "yoke" }, map[string]proof.Level{"hip girth": stop}},
		{"waist of an edge that is not there", func(s *skirt) { s.girth("waist").Spans[1].Edge = "top" }, map[string]proof.Level{"waist girth": stop}},
		{"a narrower front", func(s *skirt) {
			for i := range s.panels[0].Edges {
				s.panels[0].Edges[i].Sew = s.panels[0].Edges[i].Sew.Map(geom.Affine{A: 0.9, D: 1})
			}
		}, map[string]proof.Level{
			"hip girth": stop, "waist girth": stop, "waist to band": stop, "front dart, waist across it": stop, "notches in pairs": stop,
			"notches: waist to band": stop, "front crease": stop, "cut as proved: front": stop,
		}},

		{"a peak in the waist at the side", func(s *skirt) {
			grow(&s.edge("front", "waist").Sew[2].C, 0, 8)
			grow(&s.edge("front", "waist").Sew[2].B, 0, 4)
		}, map[string]proof.Level{"waist at the side": mind, "front dart, waist across it": mind, "outline: front": stop}}, // cut as it was before
		{"a slant at the centre front", func(s *skirt) {
			e := s.edge("front", "centre")
			*e = edge("centre", geom.Polyline(pt(60, hem), pt(0, 0)), seamAllow)
		}, map[string]proof.Level{"waist at the centre front": mind, "front crease": stop, "cut as proved: front": stop, "hip girth": mind}},
		{"a corner of a panel that is not there", func(s *skirt) { s.claims.Angles[0].Corners[1].Panel = "yoke" }, map[string]proof.Level{"waist at the side": stop}},
		{"a corner of an edge that is not there", func(s *skirt) { s.claims.Angles[0].Corners[1].Edge = "fork" }, map[string]proof.Level{"waist at the side": stop}},

		{"dart legs 0.4 mm unequal hold", func(s *skirt) { s.claims.Darts[0].Legs[1].Y += 0.4 }, nil},
		{"a dart leg 2 mm short", func(s *skirt) { s.claims.Darts[0].Point.X += 10 }, map[string]proof.Level{"front dart legs": stop}},
		{"a waist straight across the dart", func(s *skirt) {
			e := s.edge("front", "waist")
			e.Sew = geom.Polyline(pt(0, 0), pt(90, 0), pt(110, 0), pt(220, 0))
		}, map[string]proof.Level{"front dart, waist across it": mind, "waist at the side": mind, "cut as proved: front": stop}},
		{"a dart off its edge", func(s *skirt) { grow(&s.claims.Darts[0].Legs[0], 0, 4); grow(&s.claims.Darts[0].Legs[1], 0, 4) }, map[string]proof.Level{"front dart, waist across it": stop}},
		{"a dart at the end of its edge", func(s *skirt) {
			d := &s.claims.Darts[0]
			d.Legs = [2]geom.Pt{pt(0, 0), pt(20, 0)}
			d.Point = pt(10, 100)
		}, map[string]proof.Level{"front dart, waist across it": stop}},
		{"a dart in an edge that is not there", func(s *skirt) { s.claims.Darts[0].Edge = "top" }, map[string]proof.Level{"front dart": stop}},

		{"a pocket mouth too small", func(s *skirt) { s.bound("pocket mouth").Figure = 99 }, map[string]proof.Level{"pocket mouth": mind}},
		{"a pocket mouth too large", func(s *skirt) { s.bound("pocket mouth").Figure = 121 }, map[string]proof.Level{"pocket mouth": mind}},
		{"a pocket mouth just large enough", func(s *skirt) { s.bound("pocket mouth").Figure = 99.96 }, nil},
		{"a pocket mouth with no bounds", func(s *skirt) { b := s.bound("pocket mouth"); b.Figure, b.Least, b.Most = 1, nil, nil }, nil},
		{"a pocket mouth with an upper bound alone", func(s *skirt) { b := s.bound("pocket mouth"); b.Figure, b.Least = 121, nil }, map[string]proof.Level{"pocket mouth": mind}},
		{"no stepping in", func(s *skirt) { s.bound("stepping in").Figure = 90 }, map[string]proof.Level{"stepping in": stop}},

		{"a notch 0.9 mm off holds", func(s *skirt) { s.pieces[1].Notches[0].At = s.along("back", "side", 150.9) }, nil},
		{"a notch 3 mm off", func(s *skirt) { s.pieces[1].Notches[0].At = s.along("back", "side", 153) }, map[string]proof.Level{"notches: side seam": stop}},
		{"a notch without its fellow", func(s *skirt) { s.pieces[1].Notches = s.pieces[1].Notches[1:] }, map[string]proof.Level{"notches in pairs": stop}},
		{"a notch of another number", func(s *skirt) { s.pieces[1].Notches[0].Number = 2 }, map[string]proof.Level{"notches in pairs": stop}},
		{"a notch beside its edge", func(s *skirt) { grow(&s.pieces[1].Notches[0].At, 5, 0) }, map[string]proof.Level{"notches in pairs": stop}},
		{"a band without its centre-back notch", func(s *skirt) { s.pieces[2].Notches = slices.Delete(s.pieces[2].Notches, 1, 2) }, map[string]proof.Level{"notches: waist to band": stop}},
		{"a band without notches", func(s *skirt) { s.pieces[2].Notches = nil }, map[string]proof.Level{"notches: waist to band": stop}},
		{"a band notch 2 mm off", func(s *skirt) { grow(&s.pieces[2].Notches[0].At, 2, 0) }, map[string]proof.Level{"notches: waist to band": stop}},

		{"a piece cut smaller than its panel", func(s *skirt) {
			for i := range s.pieces[1].Edges {
				s.pieces[1].Edges[i].Sew = s.pieces[1].Edges[i].Sew.Map(geom.Affine{A: 0.98, D: 1})
			}
		}, map[string]proof.Level{"cut as proved: back": stop, "outline: back": stop}},
		{"a piece without its side", func(s *skirt) { s.pieces[1].Edges[1].Name = "edge" }, map[string]proof.Level{"cut as proved: back": stop}},

		{"a crease 0.4 mm off the middle holds", func(s *skirt) { grow(&s.claims.Middle[0].Through, 0.4, 0) }, nil},
		{"a crease 2 mm off the middle", func(s *skirt) { grow(&s.claims.Middle[0].Through, 2, 0) }, map[string]proof.Level{"front crease": stop}},
		{"a crease beside the panel", func(s *skirt) { grow(&s.claims.Middle[0].Through, 0, 5000) }, map[string]proof.Level{"front crease": stop}},
		{"a side that turns too sharply", func(s *skirt) { s.claims.Turns[0].Most = 0.1 }, map[string]proof.Level{"turn of the side": mind}},
		{"the turn of an edge that is not there", func(s *skirt) { s.claims.Turns[0].Edge.Edge = "fork" }, map[string]proof.Level{"turn of the side": stop}},

		{"an opening measured on the waist, too small", func(s *skirt) {
			most := unit.Length(5000)
			s.bound("stepping in").Of = piece.Measured{Girth: "waist", Plus: 10}
			s.bound("stepping in").Least = &most
		}, map[string]proof.Level{"stepping in": stop}},
		{"an opening measured by a notch", func(s *skirt) {
			least := unit.Length(s.edge("front", "side").Sew.Len() - 150 + 1)
			s.bound("stepping in").Of = piece.Measured{Notch: piece.Ref{Panel: "front", Edge: "side"}, Named: "hip", Times: 1}
			s.bound("stepping in").Least = &least
		}, map[string]proof.Level{"stepping in": stop}},
		{"an opening measured by a notch that is not there", func(s *skirt) {
			s.bound("stepping in").Of = piece.Measured{Notch: piece.Ref{Panel: "front", Edge: "side"}, Named: "zip", Times: 1}
		}, map[string]proof.Level{"stepping in": stop}},
		{"an opening measured on a girth that is not there", func(s *skirt) { s.bound("stepping in").Of.Girth = "knee" }, map[string]proof.Level{"stepping in": stop}},
		{"an opening measured along edges", func(s *skirt) {
			s.bound("stepping in").Of.Edges = []piece.Ref{{Panel: "front", Edge: "side"}, {Panel: "front", Edge: "yoke"}}
		}, map[string]proof.Level{"stepping in": stop}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s := newSkirt(t)
			tt.spoil(s)
			r := s.prove()
			got := faults(r)
			if !maps.Equal(got, tt.want) && len(got)+len(tt.want) > 0 {
				t.Fatalf("found %v, want %v", got, tt.want)
			}
			if r.Stopped() != slices.Contains(slices.Collect(maps.Values(tt.want)), stop) {
				t.Errorf("stopped: %t", r.Stopped())
			}
			for i, f := range r.Findings {
				if i > 0 && f.Level > r.Findings[i-1].Level {
					t.Errorf("%s (%s) comes after %s (%s)", f.Check, f.Level, r.Findings[i-1].Check, r.Findings[i-1].Level)
				}
				if f.Level != proof.Fine && f.Say == "" {
					t.Errorf("%s says nothing", f.Check)
				}
				figured(t, f)
			}
		})
	}
}

// What is wrong is said with its figure, what it should be, how far it may be
// off, the mend, and where to look.
func TestFindingsSayWhatAndWhere(t *testing.T) {
	s := newSkirt(t)
	full := s.edge("back", "side").Sew.Len()
	s.lengthen("back", -4)
	short := full - s.edge("back", "side").Sew.Len()
	s.girth("hip").Body += 60
	s.claims.Angles[1].Want, s.claims.Angles[1].Tol = 80, 3
	r := s.prove()

	f := find(t, r, "side seam")
	if math.Abs(f.Figure.V+short) > 1e-6 || f.Want.V != 0 || f.Tolerance.V != 1.5 || f.Figure.Degrees {
		t.Errorf("side seam: figure %v, want %v, tolerance %v; want %v, 0, 1.5", f.Figure, f.Want, f.Tolerance, -short)
	}
	if f.Mend != "make the sides equal" || f.Panel != "front" || !strings.Contains(f.Say, "do not meet") {
		t.Errorf("side seam: %q, mend %q, at the %q", f.Say, f.Mend, f.Panel)
	}
	g := find(t, r, "hip girth")
	body := s.girth("hip").Body
	if math.Abs(g.Figure.V-(body.MM()-20)) > 0.1 || math.Abs(g.Want.V-(body+40).MM()) > 1e-9 || g.Mend != "give the hip its ease" {
		t.Errorf("hip: figure %v, want %v, mend %q", g.Figure, g.Want, g.Mend)
	}
	if !strings.Contains(g.Say, "less than the body") || g.Panel != "front" || g.At == nil || *g.At != pt(100, 200) {
		t.Errorf("hip: %q at %v on the %q", g.Say, g.At, g.Panel)
	}
	a := find(t, r, "waist at the centre front")
	if !a.Figure.Degrees || math.Abs(a.Figure.V-90) > 1e-6 || a.Want.V != 80 || a.Tolerance.V != 3 || a.At == nil || *a.At != pt(0, 0) {
		t.Errorf("centre front: %v against %v ± %v at %v", a.Figure, a.Want, a.Tolerance, a.At)
	}

	// Measured figures are kept beside the findings.
	if len(r.Seams) != 2 || r.Seams[0].Name != "side seam" || math.Abs((r.Seams[0].A-r.Seams[0].B).MM()-short) > 1e-6 || r.Seams[0].Allowed != 1.5 {
		t.Errorf("seams %+v", r.Seams)
	}
	if math.Abs((r.Seams[1].A - r.Seams[1].B).MM()) > 1e-6 {
		t.Errorf("waist to band, darts and lap off: %+v", r.Seams[1])
	}
	i := slices.IndexFunc(r.Girths, func(g proof.Girth) bool { return g.Name == "hip" })
	if i < 0 || r.Girths[i].Body != body || math.Abs((r.Girths[i].Draft-r.Girths[i].Body-r.Girths[i].Ease).MM()) > 1e-9 {
		t.Errorf("girths %+v", r.Girths)
	}
}

// Girths are measured across the panel where the line through the mark runs,
// on the stretch that holds the mark, and may be measured to a line that
// stands for the edge.
func TestSpans(t *testing.T) {
	// a U: two legs 50 wide, 100 apart, joined at the top
	u := geom.Polyline(pt(0, 0), pt(200, 0), pt(200, 300), pt(150, 300), pt(150, 100), pt(50, 100), pt(50, 300), pt(0, 300), pt(0, 0))
	panel := piece.Panel{Name: "u"}
	for i, c := range u {
		panel.Edges = append(panel.Edges, piece.Edge{Name: fmt.Sprint(i), Sew: geom.Path{c}})
	}
	left := geom.Line(pt(0, 0), pt(0, 300))
	along := geom.Vec{X: 4, Y: -3} // from the foot of the left leg it runs out over the top
	over := func(edge int) piece.Over {
		return piece.Over{Edge: fmt.Sprint(edge), Through: pt(100, 50), Dir: geom.Vec{X: 1}}
	}
	for _, tt := range []struct {
		name string
		span piece.Span
		want float64
	}{
		{"across the top", piece.Span{Through: pt(20, 50), Dir: geom.Vec{X: 1}}, 200},
		{"across the left leg", piece.Span{Through: pt(20, 200), Dir: geom.Vec{X: 1}}, 50},
		{"across the right leg", piece.Span{Through: pt(180, 200), Dir: geom.Vec{X: -3}}, 50},
		{"down the left leg", piece.Span{Through: pt(20, 200), Dir: geom.Vec{Y: 2}}, 300},
		{"at a slant", piece.Span{Through: pt(100, 50), Dir: geom.Vec{X: 1, Y: 1}}, 100 * math.Sqrt2},
		{"to a line inside the left edge", piece.Span{Through: pt(20, 50), Dir: geom.Vec{X: 1}, Base: geom.Line(pt(10, 0), pt(10, 300))}, 190},
		{"to a line inside the right edge", piece.Span{Through: pt(20, 50), Dir: geom.Vec{X: 1}, Base: geom.Line(pt(180, 0), pt(180, 300))}, 180},
		{"to where it runs out", piece.Span{Through: pt(20, 80), Dir: along, Base: left}, 20*1.25 + 80/0.6},
		{"out over the top, of a level what lies that way", piece.Span{Through: pt(20, 80), Dir: along, Base: left, Over: over(0)}, 200 * 0.8},
		{"not out over the top, the level left alone", piece.Span{Through: pt(20, 80), Dir: geom.Vec{X: 1}, Base: left, Over: over(0)}, 200},
		{"out, but over another edge than it may", piece.Span{Through: pt(20, 80), Dir: along, Base: left, Over: over(1)}, 20*1.25 + 80/0.6},
	} {
		tt.span.Panel, tt.span.Times = "u", 1
		c := piece.Claims{Girths: []piece.Girth{{Name: "span", Body: 1, Spans: []piece.Span{tt.span}}}}
		r := proof.Of([]piece.Panel{panel}, nil, c, nil)
		if len(r.Girths) != 1 || math.Abs(r.Girths[0].Draft.MM()-tt.want) > 1e-6 {
			t.Errorf("%s: %+v, want %v", tt.name, r.Girths, tt.want)
		}
	}
}
