package piece_test

import (
	"math"
	"slices"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
)

func TestEveryLegIsSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyLeg(t)
		sound(t, p)
		wide := 10.0
		for _, e := range p.Edges {
			if !e.Turned {
				wide = math.Max(wide, math.Max(e.AllowStart.MM(), e.AllowEnd.MM()))
			}
		}
		cut := points(p.Cut)
		for _, e := range p.Edges {
			// clear of its corners, where a neighbour with less runs up to it
			clear := 2.5 * wide
			if e.Turned || e.Sew.Len() < 2.5*clear {
				continue
			}
			least := math.Min(e.AllowStart.MM(), e.AllowEnd.MM())
			if d, ok := sf.Distance(cut, sampled(e.Sew.Between(clear, e.Sew.Len()-clear))); !ok || d < least-2*piece.FlattenTol {
				t.Fatalf("the cut line comes within %.3f mm of the %s, its allowance is %.3f", d, e.Name, least)
			}
		}
		up, hem := folded(t, p)
		for _, q := range up {
			if d := apart(t, q, polygon(p.Cut)); d > 1.5 {
				t.Fatalf("turned up by %v mm, the hem stands %.2f mm off the piece", hem.AllowStart.MM(), d)
			}
		}
	})
}

// moved is p with every edge mapped by m, outlined anew. A map that mirrors
// turns the run of the edges round, as it does for the left half of a pair.
func moved(t fataler, p piece.Piece, m geom.Affine) piece.Piece {
	t.Helper()
	q := piece.Piece{ID: p.ID}
	for _, e := range p.Edges {
		e.Sew = e.Sew.Map(m)
		if m.Mirrors() {
			e.Sew = e.Sew.Reverse()
			e.AllowStart, e.AllowEnd = e.AllowEnd, e.AllowStart
		}
		q.Edges = append(q.Edges, e)
	}
	if m.Mirrors() {
		slices.Reverse(q.Edges)
	}
	q, err := piece.Outline(q)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// farthest is the farthest that one in five points of a ring lies off another.
func farthest(t fataler, a, b []geom.Pt) float64 {
	t.Helper()
	off := 0.0
	for _, r := range [][2][]geom.Pt{{a, b}, {b, a}} {
		line := polygon(r[1]).Boundary()
		for i := 0; i < len(r[0]); i += 5 {
			off = math.Max(off, apart(t, r[0][i], line))
		}
	}
	return off
}

// Moved or turned on the table, a piece has the same cut line; turned over, the
// mirrored one. A squared corner names the edge before it, so that the mirror
// is tried on mitred and turned-up ones.
func TestCutLineMovesWithThePiece(t *testing.T) {
	// curves are flattened anew, and what is moved off a curve bends more
	const tol = 3 * piece.FlattenTol
	rapid.Check(t, func(t *rapid.T) {
		p := anyLeg(t)
		turn := geom.RotateAbout(geom.Pt{X: rapid.Float64Range(-500, 500).Draw(t, "x"), Y: 100}, rapid.Float64Range(-3, 3).Draw(t, "turn"))
		if off := farthest(t, moved(t, p, turn).Cut, geom.MapPts(p.Cut, turn)); off > tol {
			t.Fatalf("turned on the table, the cut line is %v mm off", off)
		}
		for i := range p.Edges {
			p.Edges[i].Corner = piece.Mitre
		}
		p, err := piece.Outline(p)
		if err != nil {
			t.Fatal(err)
		}
		over := geom.MirrorX(rapid.Float64Range(-500, 500).Draw(t, "fold"))
		if off := farthest(t, moved(t, p, over).Cut, geom.MapPts(p.Cut, over)); off > tol {
			t.Fatalf("turned over, the cut line is %v mm off", off)
		}
	})
}

func TestPanel(t *testing.T) {
	panel := piece.Panel{Name: "front", Edges: edges(t, front)}
	e, ok := panel.Edge("fork")
	if !ok || e.Name != "fork" {
		t.Errorf("the fork edge is %+v, %t", e, ok)
	}
	if _, ok := panel.Edge("dart"); ok {
		t.Error("an edge was found that is not there")
	}
	if got, want := geom.Area(panel.Ring()), polygon(outlined(t, front).Sew).Area(); math.Abs(got-want) > 1e-6*want {
		t.Errorf("the panel's ring holds %v mm², its piece's sew line %v", got, want)
	}
}

// A dart takes in what of the edge lies between its legs, along the edge.
func TestDartIntake(t *testing.T) {
	for _, tt := range []struct {
		name, edge string
		legs       [2]geom.Pt
		want       float64
	}{
		{"straight", "waist 10: M 0 0 L 240 0", [2]geom.Pt{{X: 90}, {X: 115.4}}, 25.4},
		{"over a cap", "waist 10: M 0 0 L 90 0 L 100 -10 L 110 0 L 240 0", [2]geom.Pt{{X: 90}, {X: 110}}, 20 * math.Sqrt2},
		{"nothing taken in", "waist 10: M 0 0 L 240 0", [2]geom.Pt{{X: 90}, {X: 90}}, 0},
	} {
		d := piece.Dart{Legs: tt.legs}
		if got := d.Intake(edges(t, tt.edge)[0]).MM(); math.Abs(got-tt.want) > 1e-6 {
			t.Errorf("%s: %v mm taken in, want %v", tt.name, got, tt.want)
		}
	}
}
