package sheet

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// TileOptions say how a drawing is cut into sheets.
type TileOptions struct {
	Job    string
	Margin unit.Length // zero is 10 mm; less is refused
	// Glue is the strip at the right and the foot of a sheet that the next
	// sheet is glued onto; ButtJoin leaves none.
	Glue     unit.Length // zero is 10 mm
	ButtJoin bool
}

// Page is one sheet.
type Page struct {
	Row, Col int       // from 1
	Window   geom.Rect // the part of the drawing shown, in the drawing's frame
	Sheet    Drawing   // in the frame of the paper, the paper its Bounds
}

// Tiled is a drawing cut into sheets.
type Tiled struct {
	Paper       Paper
	Rows, Cols  int
	Pages       []Page
	Sheets      int
	BoundSheets int // no way to print it needs fewer
}

// Drawings returns the sheets in order, for a writer.
func (t Tiled) Drawings() []Drawing {
	out := make([]Drawing, len(t.Pages))
	for i, p := range t.Pages {
		out[i] = p.Sheet
	}
	return out
}

// OnPaper places the pieces so that they touch few sheets.
func OnPaper(pieces []piece.Piece, paper Paper, opt Options, tile TileOptions) (Drawing, error) {
	return Drawing{}, nil
}

// Tiles cuts d into sheets.
func Tiles(d Drawing, paper Paper, opt TileOptions) (Tiled, error) { return Tiled{}, nil }
