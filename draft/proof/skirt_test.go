package proof_test

import (
	"math"
	"slices"
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/unit"
)

// skirt is a made-up garment that claims something of every kind, and keeps
// it: a front with a sewn dart, a back without, a band. A test breaks one
// thing and sees it found.
type skirt struct {
	panels []piece.Panel
	pieces []piece.Piece
	claims piece.Claims
}

func pt(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }

func (s *skirt) prove() proof.Report { return proof.Of(s.panels, s.pieces, s.claims, nil) }

const (
	waistAllow, seamAllow, hemAllow = unit.Length(12.7), unit.Length(12.7), unit.Length(50.8)
	lap                             = unit.Length(50.8)
	hem                             = 600.0
)

func edge(name string, sew geom.Path, allow unit.Length) piece.Edge {
	return piece.Edge{Name: name, Sew: sew, AllowStart: allow, AllowEnd: allow}
}

// quarter closes a panel: a waist, a side of the depth given below it, hem and
// centre line. The side leaves the waist square to its end.
func quarter(name string, waist geom.Path) piece.Panel {
	top := waist.End()
	down := waist.EndDir().Right()
	straight, foot := pt(top.X, 160), pt(top.X, hem)
	side := geom.Path{{A: top, B: top.Add(down.Scale(40)), C: pt(top.X, 120), D: straight}, geom.Line(straight, foot)}
	turned := edge("hem", geom.Polyline(foot, pt(0, hem)), hemAllow)
	turned.Turned = true
	return piece.Panel{Name: name, Edges: []piece.Edge{
		edge("waist", waist, waistAllow), edge("side", side, seamAllow), turned,
		edge("centre", geom.Polyline(pt(0, hem), waist.Start()), seamAllow),
	}}
}

// newSkirt draws it. The front's waist bends at the dart by the dart's angle,
// so that it is one line with the dart closed.
func newSkirt(t *testing.T) *skirt {
	t.Helper()
	point := pt(100, 100)
	legs := [2]geom.Pt{pt(90, 0), pt(110, 0)}
	bend := 2 * math.Atan2(10, 100)
	right := geom.Vec{X: math.Cos(bend), Y: math.Sin(bend)}
	sideAt := legs[1].Add(right.Scale(110))
	front := quarter("front", geom.Polyline(pt(0, 0), legs[0], legs[1], sideAt))
	// The back's waist falls along the same slope at the side.
	back := quarter("back", geom.Path{{A: pt(0, 0), B: pt(70, 0), C: sideAt.Add(right.Scale(-70)), D: sideAt}})

	s := &skirt{panels: []piece.Panel{front, back}}
	for _, p := range s.panels {
		s.pieces = append(s.pieces, piece.Piece{
			ID: p.Name, Name: p.Name, Count: 2, Pairs: true, On: p.Name, Edges: slices.Clone(p.Edges), Grain: geom.Line(pt(80, 200), pt(80, 500)),
		})
	}
	fw, _ := front.Edge("waist")
	bw, _ := back.Edge("waist")
	dart := piece.Dart{Name: "front dart", Panel: "front", Edge: "waist", Point: point, Legs: legs, Sewn: true}
	round := 2 * (fw.Sew.Len() - dart.Intake(fw).MM() + bw.Sew.Len())
	band := geom.Rect{Max: pt(round+lap.MM(), 50)}
	s.pieces = append(s.pieces, piece.Piece{ID: "band", Name: "band", Count: 1, Edges: []piece.Edge{
		edge("top", geom.Polyline(band.Min, pt(band.Max.X, 0)), seamAllow), edge("end", geom.Polyline(pt(band.Max.X, 0), band.Max), seamAllow),
		edge("waist", geom.Polyline(band.Max, pt(0, 50)), seamAllow), edge("lap", geom.Polyline(pt(0, 50), band.Min), seamAllow),
	}})
	for i, panel := range []string{"front", "back"} {
		s.pieces[i].Notches = []piece.Notch{
			{Name: "hip", Number: 1, At: s.along(panel, "side", 150), Out: geom.Vec{X: 1}},
			{Name: "crease top", At: s.along(panel, "waist", 5), Out: geom.Vec{Y: -1}},
		}
	}
	side := fw.Sew.Len() - dart.Intake(fw).MM()
	for _, at := range []float64{side, side + bw.Sew.Len(), side + 2*bw.Sew.Len()} {
		s.pieces[2].Notches = append(s.pieces[2].Notches, piece.Notch{Name: "seam", At: pt(at, 50), Out: geom.Vec{Y: 1}})
	}
	s.outline(t)

	ref := func(panel, edge string) piece.Ref { return piece.Ref{Panel: panel, Edge: edge} }
	hip := 4 * sideAt.X // the side hangs straight below the end of the waist
	least, most := unit.Length(100), unit.Length(120)
	s.claims = piece.Claims{
		Seams: []piece.Seam{
			{Name: "side seam", A: []piece.Ref{ref("front", "side")}, B: []piece.Ref{ref("back", "side")}, Tol: 1.5, Mend: "make the sides equal"},
			{
				Name: "waist to band", A: []piece.Ref{ref("front", "waist"), ref("back", "waist"), ref("back", "waist"), ref("front", "waist")},
				Each: []unit.Length{dart.Intake(fw), 0, 0, dart.Intake(fw)},
				B:    []piece.Ref{{Piece: "band", Edge: "waist"}}, LessA: 2 * dart.Intake(fw), LessB: lap, Tol: 1.5, Mend: "cut the band to the made-up waist",
			},
		},
		Girths: []piece.Girth{
			{Name: "waist", Body: unit.Length(round - 12), Ease: 12, Mend: "give the waist its ease", Spans: []piece.Span{
				{Panel: "front", Edge: "waist", Times: 2, Less: dart.Intake(fw)}, {Panel: "back", Edge: "waist", Times: 2},
			}},
			{Name: "hip", Body: unit.Length(hip - 40), Ease: 40, Mend: "give the hip its ease", Spans: []piece.Span{
				{Panel: "front", Through: pt(100, 200), Dir: geom.Vec{X: 1}, Times: 2}, {Panel: "back", Through: pt(100, 200), Dir: geom.Vec{X: 1}, Times: 2},
			}},
		},
		Angles: []piece.Angle{
			{Name: "waist at the side", Corners: []piece.Ref{ref("front", "waist"), ref("back", "waist")}, Want: 180, Tol: 5, Mend: "square the waist"},
			{Name: "waist at the centre front", Corners: []piece.Ref{ref("front", "centre")}, Want: 90, Tol: 3, Mend: "square the waist"},
		},
		Darts: []piece.Dart{dart},
		Bounds: []piece.Bound{
			{Check: "pocket mouth", Say: "pocket mouth", Figure: 110, Least: &least, Most: &most, Mend: "set the pocket further down"},
			{Check: "stepping in", Say: "waist opening", Figure: 1000, Least: &least, Stops: true, Mend: "lengthen the opening"},
		},
		Middle: []piece.Middle{{Name: "front crease", Panel: "front", Through: pt(hip/8, 400), Dir: geom.Vec{X: 1}, Tol: 0.5, Mend: "set it half on each side"}},
		Turns:  []piece.Turn{{Name: "turn of the side", Edge: ref("front", "side"), Within: 100, Most: 20, Mend: "draw it fairer"}},
	}
	return s
}

// outline draws the pieces' rings anew.
func (s *skirt) outline(t *testing.T) {
	t.Helper()
	for i, p := range s.pieces {
		var err error
		if s.pieces[i], err = piece.Outline(p); err != nil {
			t.Fatal(err)
		}
	}
}

// along is the point of an edge so far from its start.
func (s *skirt) along(panel, name string, mm float64) geom.Pt {
	p, _ := s.edge(panel, name).Sew.At(mm)
	return p
}

// lengthen moves the foot of a panel's side.
func (s *skirt) lengthen(panel string, mm float64) {
	side := s.edge(panel, "side").Sew
	side[1] = geom.Line(side[1].A, side[1].D.Add(geom.Vec{Y: mm}))
}

// edge is an edge of a panel, to be changed in place.
func (s *skirt) edge(panel, name string) *piece.Edge {
	for i := range s.panels {
		for j := range s.panels[i].Edges {
			if s.panels[i].Name == panel && s.panels[i].Edges[j].Name == name {
				return &s.panels[i].Edges[j]
			}
		}
	}
	panic("no edge " + panel + " " + name)
}

func (s *skirt) piece(id string) *piece.Piece {
	return &s.pieces[slices.IndexFunc(s.pieces, func(p piece.Piece) bool { return p.ID == id })]
}

func (s *skirt) seam(name string) *piece.Seam {
	return &s.claims.Seams[slices.IndexFunc(s.claims.Seams, func(x piece.Seam) bool { return x.Name == name })]
}

func (s *skirt) girth(name string) *piece.Girth {
	return &s.claims.Girths[slices.IndexFunc(s.claims.Girths, func(x piece.Girth) bool { return x.Name == name })]
}

func (s *skirt) bound(check string) *piece.Bound {
	return &s.claims.Bounds[slices.IndexFunc(s.claims.Bounds, func(x piece.Bound) bool { return x.Check == check })]
}
