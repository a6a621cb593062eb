// Package sheettest holds made-up pieces for the tests of sheet and of its
// writers: a curved one, a folded one, long thin ones and tiny ones.
package sheettest

import (
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

const in = 25.4

// Pieces returns the pieces, the front first.
func Pieces() []piece.Piece {
	return []piece.Piece{
		Front(),
		leg("back", "Back", 40, 5.25),
		Oblong("waistband", "Waistband", 36*in, 5*in, 1, false),
		Oblong("fly-facing", "Fly facing", 4*in, 7*in, 2, true),
		Pocket(),
		Oblong("loop-strip", "Belt loop strip", 1*in, 20*in, 1, false),
		Oblong("loop", "Belt loop", 1*in, 3*in, 6, false),
		Oblong("welt", "Welt", 2*in, 1.5*in, 2, false),
	}
}

// Front returns half a pair of trousers, with a curved fork, a crease, a dart
// and notches.
func Front() piece.Piece { return leg("front", "Front", 0, 2.625) }

func leg(id, name string, tilt, ext float64) piece.Piece {
	pt := func(x, y float64) geom.Pt { return geom.Pt{X: x * in, Y: y * in} }
	cf, side := pt(0, 0).Add(geom.Vec{X: tilt, Y: -tilt / 3}), pt(10.5, 0)
	tip, crease := pt(-ext, 11), (10.5-ext)/2
	hemSide, hemIn := pt(crease+4.25, 41), pt(crease-4.25, 41)
	side1 := pt(10.5, 9)
	edges := []piece.Edge{
		edge("waist", 0.5*in, geom.Path{geom.Line(cf, side)}),
		edge("side", 0.5*in, geom.Path{
			{A: side, B: pt(10.9, 3), C: pt(10.7, 6), D: side1},
			{A: side1, B: pt(10.3, 16), C: hemSide.Add(geom.Vec{Y: -200}), D: hemSide},
		}),
		edge("hem", 2*in, geom.Path{geom.Line(hemSide, hemIn)}),
		edge("inseam", 0.5*in, geom.Path{{A: hemIn, B: hemIn.Add(geom.Vec{Y: -300}), C: pt(-ext+1.5, 16), D: tip}}),
		edge("fork", 0.5*in, geom.Path{
			{A: tip, B: pt(-ext+1.4, 10.9), C: pt(0, 9.8), D: pt(0.1, 7)},
			geom.Line(pt(0.1, 7), cf),
		}),
	}
	p := piece.Piece{
		ID: id, Name: name, Cloth: piece.Main, Count: 2, Pairs: true, Edges: edges,
		Grain: geom.Line(pt(crease, 14), pt(crease, 30)),
		Lines: []piece.Line{
			{Name: "crease", Kind: piece.CreaseLine, Path: geom.Polyline(pt(crease, 4), pt(crease, 41))},
			{Name: "dart", Kind: piece.DartLine, Path: geom.Polyline(pt(crease-0.5, 0), pt(crease, 4))},
			{Name: "dart", Kind: piece.DartLine, Path: geom.Polyline(pt(crease+0.5, 0), pt(crease, 4))},
			{Name: "pocket mouth", Path: geom.Path{{A: pt(7.5, 0), B: pt(7.6, 3), C: pt(8.6, 5.5), D: pt(10.75, 6)}}},
		},
		Marks: []piece.Mark{{Name: "dart point", At: pt(crease, 4)}, {Name: "pocket end", At: pt(8.1, 3.2)}},
	}
	for i, at := range []struct {
		edge int
		s    float64
	}{{1, 9 * in}, {1, 20 * in}, {3, 14 * in}, {4, 10 * in}, {0, 2 * in}} {
		q, dir := edges[at.edge].Sew.At(at.s)
		p.Notches = append(p.Notches, piece.Notch{Name: "balance", Number: i + 1, At: q, Out: dir.Left()})
	}
	return cut(p)
}

// Oblong returns a straight piece w by h mm inside its allowance of ½ in; the
// tiny ones have their cut line at half that.
func Oblong(id, name string, w, h float64, count int, pairs bool) piece.Piece {
	allow := 0.5 * in
	if math.Min(w, h) < 2*in {
		allow = 0.25 * in
	}
	q := []geom.Pt{{}, {X: w}, {X: w, Y: h}, {Y: h}}
	p := piece.Piece{
		ID: id, Name: name, Cloth: piece.Main, Count: count, Pairs: pairs, CrossGrain: id == "waistband",
		AnyGrain: id == "loop-strip",
		Grain:    geom.Line(geom.Pt{X: w / 2, Y: h * 0.2}, geom.Pt{X: w / 2, Y: h * 0.8}),
	}
	for i, n := range []string{"top", "right", "foot", "left"} {
		p.Edges = append(p.Edges, edge(n, allow, geom.Polyline(q[i], q[(i+1)%4])))
	}
	return cut(p)
}

// Pocket returns a pocket bag that lies on the fold.
func Pocket() piece.Piece {
	q := []geom.Pt{{}, {X: 6 * in}, {X: 6 * in, Y: 9 * in}, {Y: 11 * in}}
	p := piece.Piece{
		ID: "pocket-bag", Name: "Pocket bag ẹọṣ", Cloth: piece.Lining, Count: 2, Note: "mouth 6⅝ in",
		AnyGrain: true, Grain: geom.Line(geom.Pt{X: 2 * in, Y: 2 * in}, geom.Pt{X: 2 * in, Y: 7 * in}),
	}
	p.Edges = []piece.Edge{
		edge("top", 0.5*in, geom.Polyline(q[0], q[1])),
		edge("right", 0.5*in, geom.Polyline(q[1], q[2])),
		edge("foot", 0.5*in, geom.Path{{A: q[2], B: geom.Pt{X: 6 * in, Y: 11 * in}, C: geom.Pt{X: 3 * in, Y: 11 * in}, D: q[3]}}),
		{Name: "fold", Sew: geom.Polyline(q[3], q[0]), Fold: true},
	}
	return cut(p)
}

func edge(name string, allow float64, p geom.Path) piece.Edge {
	return piece.Edge{Name: name, Sew: p, AllowStart: unit.Length(allow), AllowEnd: unit.Length(allow)}
}

// cut fills Sew and Cut: each edge moved out by its allowance, neighbours
// carried on until they meet.
func cut(p piece.Piece) piece.Piece {
	var off [][]geom.Pt
	for _, e := range p.Edges {
		flat := e.Sew.Flatten(piece.FlattenTol)
		p.Sew = append(p.Sew, flat[:len(flat)-1]...)
		var moved []geom.Pt
		for i, q := range flat {
			dir := flat[min(i+1, len(flat)-1)].Sub(flat[max(i-1, 0)]).Unit()
			moved = append(moved, q.Add(dir.Left().Scale(e.AllowStart.MM())))
		}
		off = append(off, moved)
	}
	for i, a := range off {
		b := off[(i+1)%len(off)]
		n := len(a)
		p.Cut = append(p.Cut, a[1:n-1]...)
		if x, ok := geom.CrossLines(a[n-1], a[n-1].Sub(a[n-2]), b[0], b[1].Sub(b[0])); ok {
			p.Cut = append(p.Cut, x)
		} else {
			p.Cut = append(p.Cut, a[n-1])
		}
	}
	return p
}
