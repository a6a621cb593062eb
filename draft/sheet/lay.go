package sheet

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// Laid is one piece lying on the cloth.
type Laid struct {
	ID, Label string
	Ring      []geom.Pt // cut line in the piece's own frame
	At        geom.Affine
}

// Cloth is the cloth that is laid on: x runs across it from a selvedge or the
// fold at 0, y along the warp from the cut end at 0.
type Cloth struct {
	Name          string
	Width, Length unit.Length // as it lies: half the width when folded
	Used          unit.Length // from the cut end to the last point of a piece
	Folded        bool        // the fold lies at x = 0
	// Say writes a length as the maker writes it; nil writes centimetres.
	Say func(unit.Length) string
}

// Lay draws the pieces on the cloth.
func Lay(c Cloth, laid []Laid, opt Options) Drawing { return Drawing{} }
