package trouser_test

import (
	"math"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"

	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/rules"
)

// cutOrders are pairs whose cut lines are measured: bodies of all sizes,
// wide allowances, inlay, every leg.
func cutOrders(t *testing.T) map[string]order {
	t.Helper()
	return map[string]order{
		"hip 42":                   {Body: measured(t, hip42)},
		"as spoken":                {Body: measured(t, hip42), Spoken: true},
		"large man, wide seams":    {Body: measured(t, largeMan), Rules: rules.Values{"seam_allowance": "3/4 in", "hem_allowance": "3 in", "centre_back_inlay": "1 1/2 in"}},
		"small woman, taper, tuck": {Body: measured(t, smallWoman), Style: garment.Style{"leg": "tapered", "crease": "tuck"}, Rules: rules.Values{"centre_back_inlay": "1 in"}},
		"wide thigh, free leg":     {Body: measured(t, wideThigh), Style: garment.Style{"leg": "free", "pocket": "none"}},
	}
}

// Every cut line is sound by an independent library, holds its sew line, and
// stands its allowance off the middle stretch of every edge.
func TestCutLines(t *testing.T) {
	for name, o := range cutOrders(t) {
		m := o.draft(t)
		for _, p := range m.Pieces {
			cut := polygon(p.Cut)
			if err := cut.Validate(); err != nil {
				t.Errorf("%s: cut line of the %s: %v", name, p.Name, err)
				continue
			}
			if a := cut.Area(); math.Abs(p.Area()-a) > 1e-6*a {
				t.Errorf("%s: the %s takes %.1f mm², by the library %.1f", name, p.Name, p.Area(), a)
			}
			edge := cut.Boundary()
			for _, e := range p.Edges {
				if e.Turned {
					continue
				}
				wide := math.Max(e.AllowStart.MM(), e.AllowEnd.MM())
				clear, total := math.Max(2.5*wide, 5), e.Sew.Len()
				for along := clear; along < total-clear; along += 10 {
					at, dir := e.Sew.At(along)
					want := e.AllowStart.MM() + (e.AllowEnd-e.AllowStart).MM()*along/total
					out := at.Add(dir.Left().Scale(want))
					if d, _ := sf.Distance(edge, point(out)); d > 0.25 {
						t.Errorf("%s: the cut line of the %s is %.2f mm off its %.1f on the %s, %.0f mm along", name, p.Name, d, want, e.Name, along)
					}
				}
			}
		}
	}
}

// Turned up over the hem line, the allowance lies on the leg and its edge is
// as wide as the leg there, within the 1.5 mm that the proof allows.
func TestHemLiesFlat(t *testing.T) {
	for name, o := range cutOrders(t) {
		m := o.draft(t)
		for _, id := range []string{"front", "back"} {
			p := m.Must(t, id)
			y := m.Record.Point(id + ".crease_hem").Y
			cut := polygon(p.Cut)
			var up []geom.Pt
			top := y
			for _, q := range p.Cut {
				if q.Y >= y-0.02 {
					up = append(up, geom.Pt{X: q.X, Y: 2*y - q.Y})
					top = math.Min(top, 2*y-q.Y)
				}
			}
			for _, q := range up {
				if d, _ := sf.Distance(cut, point(q)); d > 1.5 {
					t.Errorf("%s: turned up, the hem of the %s stands %.2f mm off the leg", name, id, d)
				}
			}
			line := sf.NewLineString(sf.NewSequence([]float64{-1e4, top + 0.01, 1e4, top + 0.01}, sf.DimXY)).AsGeometry()
			width := func(g sf.Geometry) float64 {
				x, err := sf.Intersection(g, line)
				if err != nil {
					t.Fatal(err)
				}
				return x.Length()
			}
			if a, b := width(polygon(up)), width(cut); math.Abs(a-b) > 1.5 {
				t.Errorf("%s: turned up, the edge of the %s is %.2f mm wide where the leg is %.2f", name, id, a, b)
			}
		}
	}
}

// An inlay is cloth at the top of the seat seam that runs to nothing at the
// fork, and nowhere else.
func TestInlay(t *testing.T) {
	plain := order{Body: measured(t, hip42)}.draft(t).Must(t, "back")
	inlaid := order{Body: measured(t, hip42), Rules: rules.Values{"centre_back_inlay": "1 1/2 in"}}.draft(t).Must(t, "back")
	a, b := polygon(plain.Cut), polygon(inlaid.Cut)
	more, err := sf.Difference(b, a)
	if err != nil {
		t.Fatal(err)
	}
	var centre piece.Edge
	for _, e := range plain.Edges {
		if e.Name == "centre" {
			centre = e
		}
	}
	// a wedge 1½ wide at the top, with the corner at the waist
	wedge := centre.Sew.Len() * 1.5 * 25.4 / 2
	if got := more.Area(); got < wedge || got > wedge+1.5*25.4*3*12.7 {
		t.Errorf("the inlay adds %.0f mm², a wedge of 1½ in is %.0f", got, wedge)
	}
	if less, err := sf.Difference(a, b); err != nil || less.Area() > 1 {
		t.Errorf("the inlay takes cloth away: %.2f mm², %v", less.Area(), err)
	}
	// full at the waist, half of it half way, nothing at the fork
	for _, share := range []float64{0.25, 0.5, 0.75, 0.97} {
		at, dir := centre.Sew.At(share * centre.Sew.Len())
		edge := at.Add(dir.Left().Scale(12.7 + share*1.5*25.4))
		if d, _ := sf.Distance(b.Boundary(), point(edge)); d > 0.25 {
			t.Errorf("%.0f %% up the seat seam, the inlay is %.2f mm off its %.1f", 100*share, d, share*1.5*25.4)
		}
	}
}

// The inside corner at the fork is square to the inseam, which is sewn first.
func TestForkCornerSquare(t *testing.T) {
	for name, o := range cutOrders(t) {
		m := o.draft(t)
		for _, id := range []string{"front", "back"} {
			p := m.Must(t, id)
			inseam := m.Edge(t, id, "inseam")
			tip, dir := inseam.End(), inseam.EndDir()
			allow := p.Edges[0].AllowStart.MM()
			for _, e := range p.Edges {
				if e.Name == "inseam" {
					allow = e.AllowEnd.MM()
				}
			}
			// the end of the allowance: a straight of its width, square to the
			// inseam's own direction, on the inseam's line
			found := false
			for i, q := range p.Cut {
				next := p.Cut[(i+1)%len(p.Cut)]
				v := next.Sub(q)
				onLine := math.Abs(next.Sub(tip).Cross(dir)) < 0.05 && next.Sub(tip).Dot(dir) > 0
				if onLine && math.Abs(v.Len()-allow) < 0.05 && math.Abs(v.Dot(dir)) < 0.05 {
					found = true
				}
			}
			if !found {
				t.Errorf("%s: the corner of the %s at the fork is not square to the inseam", name, id)
			}
		}
	}
}
