package lay

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// Spot is where and which way round a piece lies.
type Spot struct {
	// At maps the piece's own coordinates to the table: x across from the
	// selvedge (open) or the fold (folded lengthwise), y along the cloth from
	// the cut edge, or from the fold under a crosswise fold.
	At geom.Affine
	// Opened: it lies on the opened rest past the folded part, where x runs
	// from the left selvedge and y runs on from the folded part.
	Opened bool
}

// Placement is one item laid.
type Placement struct {
	Item int // index into the items given
	Spot
}

// Ring returns the cut line of item i as it lies.
func (p Placement) Ring(items []Item) []geom.Pt { return geom.MapPts(items[p.Item].Ring, p.At) }

// Offcut is a rectangle of cloth that no piece uses, on the straight grain.
type Offcut struct {
	Rect   geom.Rect // in the coordinates of Spot
	Opened bool
	Layers int // 2 where the cloth is folded
}

// Area returns the cloth in it, all layers, in mm².
func (o Offcut) Area() float64 { return o.Rect.W() * o.Rect.H() * float64(o.Layers) }

// Result is a whole lay. The zero value is an empty lay of no cloth.
type Result struct {
	Placements []Placement // in the order in which they were laid
	// Out are the items that found no place: only on a remnant's outline, or where
	// the cloth says LeaveOut.
	Out []int
	// Length is the cloth used, unfolded, from the cut edge.
	Length unit.Length
	// FoldedTo is the length of the folded part as it lies on the table; zero
	// on open cloth. The opened rest starts there.
	FoldedTo unit.Length
	// Density is the share of the cloth used that the pieces cover, in per
	// cent; the cloth used is width × Length, or all of a remnant.
	Density float64
	Fits    bool        // on the cloth at hand; always true on the bolt
	ShortBy unit.Length // the length wanting; zero when it fits
	Left    []Offcut    // largest first
	Work    int         // steps spent up to this result
}

// Better reports whether r is a better lay than o: more pieces laid, then less
// length.
func (r Result) Better(o Result) bool {
	if len(r.Out) != len(o.Out) {
		return len(r.Out) < len(o.Out)
	}
	return r.Length < o.Length-1e-6
}
