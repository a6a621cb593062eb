package lay

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
)

// enlarged returns p as it is cut from cloth that is still to shrink: its cut
// line, its fold, its grain line and where it matches, larger along the grain and across it. A
// piece that may lie on any grain is made larger both ways by the larger of
// the two.
func (c Cloth) enlarged(p piece.Piece) piece.Piece {
	if c.ShrinksAlong == 0 && c.ShrinksAcross == 0 {
		return p
	}
	along, across := 1/(1-c.ShrinksAlong/100), 1/(1-c.ShrinksAcross/100)
	if p.AnyGrain {
		along = max(along, across)
		across = along
	}
	turn := grainTurn(p)
	m := linear(turn, false).Then(geom.Affine{A: across, D: along}).Then(linear(-turn, false))
	p.Cut = geom.MapPts(p.Cut, m)
	p.Match.At = m.Pt(p.Match.At)
	p.Grain = p.Grain.Map(m)
	edges := p.Edges
	p.Edges = make([]piece.Edge, len(edges))
	for i, e := range edges {
		e.Sew = e.Sew.Map(m)
		p.Edges[i] = e
	}
	return p
}
