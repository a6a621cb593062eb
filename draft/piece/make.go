package piece

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// NewEdge is an edge with the same allowance all along.
func NewEdge(name string, sew geom.Path, allow unit.Length) Edge {
	return Edge{Name: name, Sew: sew, AllowStart: allow, AllowEnd: allow}
}

// OnPanel names an edge of a panel.
func OnPanel(panel, edge string) Ref { return Ref{Panel: panel, Edge: edge} }

// OnPiece names an edge of a piece.
func OnPiece(id, edge string) Ref { return Ref{Piece: id, Edge: edge} }

// NotchAt marks the point so far along the edge, mm.
func (e Edge) NotchAt(along float64, name string, number int) Notch {
	p, dir := e.Sew.At(along)
	return Notch{Name: name, Number: number, At: p, Out: dir.Left()}
}

// NotchNear marks the point of the edge nearest to a mark.
func (e Edge) NotchNear(at geom.Pt, name string, number int) Notch {
	along, _ := e.Sew.Nearest(at)
	return e.NotchAt(along, name, number)
}

// Rectangle is a piece with its long side on the grain: w across, h along. Its
// edges are named from the top, clockwise.
func Rectangle(id, name string, cloth Cloth, w, h unit.Length, names [4]string, allow [4]unit.Length) Piece {
	c := [4]geom.Pt{{}, {X: w.MM()}, {X: w.MM(), Y: h.MM()}, {Y: h.MM()}}
	p := Piece{ID: id, Name: name, Cloth: cloth, Count: 1}
	for i := range 4 {
		p.Edges = append(p.Edges, NewEdge(names[i], geom.Polyline(c[i], c[(i+1)%4]), allow[i]))
	}
	x := w.MM() / 2
	p.Grain = geom.Line(geom.Pt{X: x, Y: h.MM() * 0.2}, geom.Pt{X: x, Y: h.MM() * 0.8})
	return p
}

// FoldedAt is the piece with a line at x, h long, along which it is folded.
func (p Piece) FoldedAt(x, h unit.Length) Piece {
	p.Lines = append(p.Lines, Line{Name: say.Word("fold"), Kind: FoldLine, Path: geom.Polyline(geom.Pt{X: x.MM()}, geom.Pt{X: x.MM(), Y: h.MM()})})
	return p
}
