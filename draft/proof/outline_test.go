package proof_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/unit"
)

// Each row spoils a piece, or what was cut for it; its outline check stops the
// cut and says where. The panels are left as they were.
func TestOutlineFaults(t *testing.T) {
	for _, tt := range []struct {
		name  string
		spoil func(p *piece.Piece)
		check string
		say   string
	}{
		{"no rings", func(p *piece.Piece) { p.Sew, p.Cut = nil, nil }, "outline: front", "has no outline"},
		{"a cut line pulled in at the side", func(p *piece.Piece) {
			for i, q := range p.Cut {
				if q.X > 200 && q.Y > 100 && q.Y < 590 {
					p.Cut[i].X -= 2
				}
			}
		}, "outline: front", "the cut line does not stand its allowance off the side"},
		{"an allowance forgotten", func(p *piece.Piece) { p.Edges[3].AllowStart, p.Edges[3].AllowEnd = 25, 25 }, "outline: front", "does not stand its allowance off the centre"},
		{"a cut line beside the piece", func(p *piece.Piece) { p.Cut = geom.MapPts(p.Cut, geom.Translate(geom.Vec{X: 500})) }, "outline: front", "does not stand its allowance off"},
		{"both lines the wrong way round", func(p *piece.Piece) { slices.Reverse(p.Sew); slices.Reverse(p.Cut) }, "outline: front", "encloses no cloth"},
		{"a sew line that crosses itself", func(p *piece.Piece) {
			i := slices.IndexFunc(p.Sew, func(q geom.Pt) bool { return q == pt(0, hem) })
			p.Sew = slices.Insert(p.Sew, i, pt(60, hem-100), pt(-5, hem-60))
		}, "outline: front", "the sew line crosses itself"},
		{"a cut line that crosses itself", func(p *piece.Piece) {
			// a loop in the corner at the hem, away from the middles of edges
			p.Cut = append(p.Cut, pt(-12.7, 60), pt(-40, 30), pt(-40, 50), pt(-12.7, 20))
		}, "outline: front", "the cut line crosses itself"},
		{"a cut line inside the sew line", func(p *piece.Piece) {
			// where the cut line leaves the hem for the centre
			n := len(p.Cut)
			for i, q := range p.Cut {
				if next := p.Cut[(i+1)%n]; q.X < 0 && q.Y > hem-1 && next.Y < 100 {
					p.Cut = slices.Insert(p.Cut, i+1, pt(-12.7, 520), pt(20, 510), pt(-12.7, 500))
					return
				}
			}
		}, "outline: front", "the cut line runs inside the sew line"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s := newSkirt(t)
			p := s.piece("front")
			p.Cut, p.Sew, p.Edges = slices.Clone(p.Cut), slices.Clone(p.Sew), slices.Clone(p.Edges)
			tt.spoil(p)
			f := find(t, s.prove(), tt.check)
			if f.Level != proof.Stops || !strings.Contains(f.Say, tt.say) {
				t.Errorf("%s: %s, %q; want it to stop the cut and say %q", tt.check, f.Level, f.Say, tt.say)
			}
			if f.Mend == "" || f.At == nil || f.Panel != "front" {
				t.Errorf("no mend or no place: %+v", f)
			}
			figured(t, f)
		})
	}
}

// At a corner within an edge, as at the mouth of a dart, the cut line turns before
// or after the sew line does, and stands further off: it is measured beside the
// corner, also where that is the very middle of the edge, and a fault is found.
func TestCornerInTheMiddleOfAnEdge(t *testing.T) {
	p, err := piece.Outline(piece.Piece{ID: "top", Name: "Top", Edges: []piece.Edge{
		edge("waist", geom.Polyline(pt(0, 0), pt(100, 30), pt(200, 0)), 12.7), edge("side", geom.Polyline(pt(200, 0), pt(200, 300)), 12.7),
		edge("foot", geom.Polyline(pt(200, 300), pt(0, 300)), 12.7), edge("centre", geom.Polyline(pt(0, 300), pt(0, 0)), 12.7),
	}})
	if err != nil {
		t.Fatal(err)
	}
	prove := func() proof.Finding {
		return find(t, proof.Of(nil, []piece.Piece{p}, piece.Claims{}, nil), "outline: Top")
	}
	if f := prove(); f.Level != proof.Fine {
		t.Errorf("a corner in the middle of the waist: %s, %s", f.Level, f.Say)
	}
	p.Edges[0].AllowStart, p.Edges[0].AllowEnd = 14, 14
	if f := prove(); f.Level != proof.Stops || !strings.Contains(f.Say, "off the waist") {
		t.Errorf("an allowance that was not cut: %s, %s", f.Level, f.Say)
	}
}

// A hollow is followed by its allowance while its radius is the larger.
func TestHollowTighterThanItsAllowance(t *testing.T) {
	for _, tt := range []struct {
		radius float64
		allow  unit.Length
		want   proof.Level
	}{
		{30, 12.7, proof.Fine}, {14, 12.7, proof.Fine}, {12, 12.7, proof.Stops}, {6, 12.7, proof.Stops}, {6, 5, proof.Fine},
	} {
		const k = 0.5522847498 // a quarter round as a cubic
		r := tt.radius
		round := geom.Curve{A: pt(200, 100), B: pt(200-r*k, 100), C: pt(200-r, 100+r-r*k), D: pt(200-r, 100+r)}
		p := piece.Piece{ID: "bib", Name: "Bib", Edges: []piece.Edge{
			edge("top", geom.Polyline(pt(0, 0), pt(300, 0)), tt.allow), edge("right", geom.Polyline(pt(300, 0), pt(300, 100)), tt.allow),
			edge("hollow", geom.Path{geom.Line(pt(300, 100), pt(200, 100)), round, geom.Line(round.D, pt(200-r, 300))}, tt.allow),
			edge("foot", geom.Polyline(pt(200-r, 300), pt(0, 300)), tt.allow), edge("left", geom.Polyline(pt(0, 300), pt(0, 0)), tt.allow),
		}}
		p, err := piece.Outline(p)
		if err != nil {
			t.Fatal(err)
		}
		f := find(t, proof.Of(nil, []piece.Piece{p}, piece.Claims{}, nil), "outline: Bib")
		if f.Level != tt.want {
			t.Errorf("radius %v, allowance %v: %s (%s), want %s", r, tt.allow.MM(), f.Level, f.Say, tt.want)
		}
	}
}

// A round that bulges outwards may be as tight as it likes.
func TestBulgeMayBeTight(t *testing.T) {
	const k, r = 0.5522847498, 4.0
	round := geom.Curve{A: pt(100-r, 0), B: pt(100-r+r*k, 0), C: pt(100, r-r*k), D: pt(100, r)}
	p, err := piece.Outline(piece.Piece{ID: "tab", Name: "Tab", Edges: []piece.Edge{
		edge("top", geom.Path{geom.Line(pt(0, 0), round.A), round, geom.Line(round.D, pt(100, 100))}, 12.7),
		edge("foot", geom.Polyline(pt(100, 100), pt(0, 100)), 12.7), edge("left", geom.Polyline(pt(0, 100), pt(0, 0)), 12.7),
	}})
	if err != nil {
		t.Fatal(err)
	}
	if f := find(t, proof.Of(nil, []piece.Piece{p}, piece.Claims{}, nil), "outline: Tab"); f.Level != proof.Fine {
		t.Errorf("a tight bulge: %s, %s", f.Level, f.Say)
	}
}

// A turned-up hem is square to the grain and its allowance lies flat.
func TestHemFaults(t *testing.T) {
	const square, flat = "hem of the front, square", "hem of the front, turned up"
	for _, tt := range []struct {
		name  string
		spoil func(t *testing.T, s *skirt)
		want  map[string]proof.Level
	}{
		{"grain half a degree off holds", func(_ *testing.T, s *skirt) { s.piece("front").Grain = geom.Line(pt(80, 200), pt(82.6, 500)) }, nil},
		{"grain two degrees off", func(_ *testing.T, s *skirt) { s.piece("front").Grain = geom.Line(pt(80, 200), pt(90.5, 500)) }, map[string]proof.Level{square: proof.Stops}},
		{"an allowance that flares", func(_ *testing.T, s *skirt) {
			p := s.piece("front")
			p.Cut = slices.Clone(p.Cut)
			for i, q := range p.Cut {
				if q.Y > hem+50 && q.X > 100 {
					p.Cut[i].X += 3
				}
			}
		}, map[string]proof.Level{flat: proof.Stops}},
		{"no mirror where the sides lean", func(t *testing.T, s *skirt) {
			t.Helper()
			p := s.piece("front")
			p.Edges = slices.Clone(p.Edges)
			side := p.Edges[1].Sew
			p.Edges[1].Sew = geom.Path{side[0], geom.Line(side[1].A, pt(180, hem))}
			p.Edges[2].Sew = geom.Polyline(pt(180, hem), pt(0, hem))
			p.Edges[2].Turned = false
			s.outline(t)
			p.Edges[2].Turned = true // claimed, and not cut so
		}, map[string]proof.Level{flat: proof.Stops}},
		{"an allowance that was not cut", func(_ *testing.T, s *skirt) {
			p := s.piece("front")
			p.Cut = slices.Clone(p.Sew)
		}, map[string]proof.Level{flat: proof.Stops, "outline: front": proof.Stops}},
		{"mirrored where the sides lean", func(t *testing.T, s *skirt) {
			t.Helper()
			p := s.piece("front")
			p.Edges = slices.Clone(p.Edges)
			side := p.Edges[1].Sew
			p.Edges[1].Sew = geom.Path{side[0], geom.Line(side[1].A, pt(180, hem))}
			p.Edges[2].Sew = geom.Polyline(pt(180, hem), pt(0, hem))
			s.outline(t)
		}, nil},
		{"a slanting hem", func(t *testing.T, s *skirt) {
			t.Helper()
			p := s.piece("front")
			p.Edges = slices.Clone(p.Edges)
			p.Edges[2].Sew = geom.Polyline(p.Edges[2].Sew.Start(), pt(0, hem-20))
			p.Edges[3].Sew = geom.Polyline(pt(0, hem-20), pt(0, 0))
			s.outline(t)
		}, map[string]proof.Level{square: proof.Stops}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s := newSkirt(t)
			tt.spoil(t, s)
			r := s.prove()
			for _, f := range r.Findings {
				figured(t, f)
			}
			got := faults(r)
			delete(got, "cut as proved: front") // the piece alone was changed, which is a fault of its own
			if !maps.Equal(got, tt.want) && len(got)+len(tt.want) > 0 {
				t.Errorf("found %v, want %v", got, tt.want)
			}
		})
	}
}

func TestLevels(t *testing.T) {
	for l, want := range map[proof.Level]string{proof.Fine: "fine", proof.Mind: "mind", proof.Stops: "stops the cut"} {
		if l.String() != want {
			t.Errorf("%d is called %q, want %q", l, l, want)
		}
	}
	r := proof.Report{Findings: []proof.Finding{{Check: "a", Level: proof.Mind}, {Check: "b"}, {Check: "c", Level: proof.Mind}}}
	if r.Stopped() {
		t.Error("stopped by what is only to be minded")
	}
	if got := r.At(proof.Mind); len(got) != 2 || got[0].Check != "a" || got[1].Check != "c" {
		t.Errorf("to be minded: %v", got)
	}
	r.Findings = append(r.Findings, proof.Finding{Check: "d", Level: proof.Stops})
	if !r.Stopped() || len(r.At(proof.Stops)) != 1 || len(r.At(proof.Fine)) != 1 {
		t.Errorf("levels of %v", r.Findings)
	}
	if (proof.Report{}).Stopped() {
		t.Error("an empty report stops the cut")
	}
}

func TestFigureText(t *testing.T) {
	for _, tt := range []struct {
		figure proof.Figure
		format unit.Format
		want   string
	}{
		{proof.Figure{V: 25.4 * 41.5}, unit.Format{}, "41½ in"},
		{proof.Figure{V: 25.4 * 41.5}, unit.Format{System: unit.Centimetres}, "105.4 cm"},
		{proof.Figure{V: 176.04, Degrees: true}, unit.Format{}, "176.0°"},
		{proof.Figure{V: -3}, unit.Format{Den: 16}, "−⅛ in"},
	} {
		if got := tt.figure.Text(tt.format); got != tt.want {
			t.Errorf("%v is shown as %q, want %q", tt.figure, got, tt.want)
		}
	}
}
