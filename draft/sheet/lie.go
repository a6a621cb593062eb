package sheet

import (
	"math"
	"slices"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
)

// Lie says where a piece lies on the sheets: turned by whole degrees about its
// origin, then moved by hundredths of a millimetre. It can be kept, and a piece
// laid there again lies where it lay to the last digit.
type Lie struct {
	ID         string // of the piece
	Turn, X, Y int
}

const lieUnit = 0.01 // mm

func (l Lie) at() geom.Affine {
	return geom.RotateAbout(geom.Pt{}, float64(l.Turn)*math.Pi/180).
		Then(geom.Translate(geom.Vec{X: float64(l.X) * lieUnit, Y: float64(l.Y) * lieUnit}))
}

// liesOf returns where pieces lie, to the nearest that a Lie can say.
func liesOf(pieces []piece.Piece, at []geom.Affine) []Lie {
	out := make([]Lie, len(pieces))
	for i, p := range pieces {
		m := at[i]
		turn := int(math.Round(math.Atan2(m.B, m.A) * 180 / math.Pi))
		out[i] = Lie{p.ID, (turn + 360) % 360, int(math.Round(m.E / lieUnit)), int(math.Round(m.F / lieUnit))}
	}
	return out
}

// settled moves pieces to where a Lie can say that they lie.
func settled(pieces []piece.Piece, at []geom.Affine) []geom.Affine {
	out := make([]geom.Affine, len(at))
	for i, l := range liesOf(pieces, at) {
		out[i] = l.at()
	}
	return out
}

// lay returns where the pieces of an edition lay.
func (g grid) lay(e Edition, tile TileOptions) ([]geom.Affine, error) {
	if len(e.Lies) == 0 {
		return g.arrange(e.Pieces, tile)
	}
	at := make([]geom.Affine, len(e.Pieces))
	for i, p := range e.Pieces {
		k := slices.IndexFunc(e.Lies, func(l Lie) bool { return l.ID == p.ID })
		if k < 0 {
			return nil, say.Errorf("where piece %q was printed is not known; print the whole pattern anew", p.ID)
		}
		at[i] = e.Lies[k].at()
	}
	return at, nil
}
