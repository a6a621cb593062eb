package bench

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// Part is a part of the work; its tasks are commonly done together.
type Part uint8

// The parts, in their order.
const (
	Prepare Part = iota
	Shaping      // darts, pleats, tucks
	Pockets
	Opening // fly, zip, vent, slit
	Seams
	Inside // lining, facings
	Band
	Hem
	Finish
)

// Run is a stretch of an edge of a piece that a task fastens.
type Run struct {
	Piece, Edge string     // ID and name; an empty name is every edge of the piece
	On          piece.Hand // which of a pair, or which half of a piece cut on the fold
	// From and To are along the edge; no To is its end.
	From, To unit.Length
}

// Line is a line of a task that is no edge: a dart, a fold, a row of stitches.
type Line struct {
	Piece string
	Path  geom.Path
}

// Stitch is how a task is sewn.
type Stitch uint8

// The stitches. The zero Stitch is none.
const (
	Unsewn Stitch = iota
	Seam          // lockstitch, for good
	Fine          // shorter: fine tucks, curves that are clipped
	Top           // seen from outside
	Baste         // long, to be taken out
	Neaten        // over a raw edge
	ByHand
)

// Task is one step of the work. Its texts are in the reader's language.
type Task struct {
	ID      string // unique in a job: "side"
	Part    Part
	Name    string // "Side seams"
	Do      string // two sentences
	After   []string
	Pieces  []string // IDs of what is taken in hand
	Sews    []Run    // each edge with an allowance is fastened by one task
	Along   []Run    // edges that it goes along, and fastens nothing
	Lines   []Line
	Single  bool // each edge is sewn by itself, not two together
	Stitch  Stitch
	Allow   unit.Length // from the cut edge to the stitches; 0 is none
	Press   string
	Minutes int
	// MadeUp: the waist is measured here.
	MadeUp bool
}

// Has reports whether a piece is taken in hand.
func (t Task) Has(id string) bool {
	for _, p := range t.Pieces {
		if p == id {
			return true
		}
	}
	return false
}

// Stretch returns the line of a run on an edge: empty when the edge is another
// or so short that there is none.
func (r Run) Stretch(p piece.Piece, e piece.Edge) geom.Path {
	if r.Piece != p.ID || r.Edge != "" && r.Edge != e.Name {
		return nil
	}
	to := e.Sew.Len()
	if r.To > 0 {
		to = min(to, r.To.MM())
	}
	if to-r.From.MM() < 0.01 {
		return nil
	}
	return e.Sew.Between(r.From.MM(), to)
}
