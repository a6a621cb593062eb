package piece

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// Cloth says which cloth a piece is cut from.
type Cloth string

// The cloths of a garment.
const (
	Main        Cloth = "main"
	Lining      Cloth = "lining"
	Interfacing Cloth = "interfacing"
)

// Corner says how the cut line turns at the end of an edge.
type Corner uint8

const (
	// Mitre carries both cut lines on until they meet, cut off square when the
	// tip would stand further out than MitreLimit times the wider allowance.
	Mitre Corner = iota
	// Square ends the allowance square to the sew line of the edge that is
	// sewn first, so that the seam that crosses it can be trimmed even.
	Square
)

// Edge is one named stretch of the sew line.
type Edge struct {
	Name string    // "waist", "side", "hem" ...
	Sew  geom.Path // in the outline's direction: clockwise as seen on the cloth
	// AllowStart and AllowEnd are the allowance at the two ends, running evenly
	// from one to the other: an inlay may taper.
	AllowStart, AllowEnd unit.Length
	Corner               Corner // at the end of this edge
	// Turned: the allowance is turned up along this edge, so that it takes the
	// mirrored shape of its neighbours, whatever their Corner says. Along an edge
	// that curves it is longer than what it comes to lie on, and is eased in.
	Turned bool
	// Extended: the piece goes on beyond this edge of its panel, as a turn-up does.
	Extended bool
	Fold     bool // lies on the fold of the cloth: no allowance, mirrored there
	Place    Place
}

// Notch is a small mark across the allowance. A numbered notch is paired with
// the notch of the same number on the piece that is sewn to it; one without a
// number meets a seam or marks a place, which its name tells.
type Notch struct {
	Name   string
	Number int
	At     geom.Pt  // on the sew line
	Out    geom.Vec // unit, outward
}

// LineKind is what a line inside a piece is for.
type LineKind uint8

// The kinds of line. The zero LineKind is a plain one.
const (
	PlainLine LineKind = iota
	CreaseLine
	DartLine // a leg of a dart or pleat
	FoldLine
)

// Match is where the stripes or checks of the cloth must lie on a piece as they
// lie on others. At is on its sew line, where the seam meets theirs. The zero
// Match asks for nothing.
type Match struct {
	At geom.Pt
	// Along names what cross stripes must meet, at equal heights: a seam.
	Along string
	// Across names what lengthwise stripes must run on over: pieces cut from one
	// panel, and the two of a pair, which are each other's mirror image.
	Across string
}

// Line is a line drawn inside a piece: crease, dart leg, fold. Its name is for
// the eye alone.
type Line struct {
	Name string
	Kind LineKind
	Path geom.Path
}

// Mark is a point inside a piece: dart point, pocket end, button.
type Mark struct {
	Name string
	At   geom.Pt
}

// Piece is one piece of the garment, ready to be cut. Pieces are not changed
// once built.
type Piece struct {
	ID    string // stable, ASCII, unique in a draft: "front", "fly-facing"
	Name  string // what the maker calls it: "Front"
	Cloth Cloth
	Count int  // how many to cut in all
	Pairs bool // half of them are cut turned over
	// Hand is the side on which it is worn, where the other side has a piece of its
	// own; Over: it is drawn as the other side's is seen, and is cut turned over.
	Hand Hand
	Over bool
	// Halves are, of a piece that cannot be cut on the fold since its halves differ,
	// the left and the right, each as it lies on its own panel, its fold where they
	// meet. The piece is drawn as its left half is, the right beyond the fold.
	Halves []Piece
	Note   string
	// On is the panel that the piece lies on, in whose frame it is drawn; ""
	// when it has a frame of its own.
	On    string
	Edges []Edge
	Grain geom.Curve // straight, along the warp
	// AnyGrain: may be laid along or across the cloth as well (pocket bags);
	// CrossGrain: may be laid at a quarter turn as a gift when
	// cloth is short (waistband).
	AnyGrain, CrossGrain bool
	Notches              []Notch
	Match                Match
	Lines                []Line
	Marks                []Mark
	Sew                  []geom.Pt // ring, clockwise, within FlattenTol
	Cut                  []geom.Pt // ring, clockwise, within FlattenTol
}

// FlattenTol is how far, in mm, the points of Sew and Cut may stand off the
// curves they follow: a twentieth of a chalk line.
const FlattenTol = 0.05

// Halved are pieces with those that are cut whole, since their halves differ, in
// halves.
func Halved(all []Piece) []Piece {
	var out []Piece
	for _, p := range all {
		if len(p.Halves) == 0 {
			out = append(out, p)
		}
		out = append(out, p.Halves...)
	}
	return out
}

// Area returns the area inside the cut line in mm².
func (p Piece) Area() float64 { return geom.Area(p.Cut) }

// Bounds returns the box around the cut line.
func (p Piece) Bounds() geom.Rect { return geom.BoundsOf(p.Cut) }
