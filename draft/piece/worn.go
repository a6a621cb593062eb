package piece

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Place is where an edge of a panel lies in the garment as it is worn.
type Place uint8

// The places. The zero Place is nowhere in particular.
const (
	Elsewhere   Place = iota
	Top               // under the band
	Side              // between front and back
	Foot              // a hem
	BetweenLegs       // the inside of a leg
	Fork              // from there to the centre
	Centre            // in the middle of the body
	Neck              // round the neck
	Shoulder          // between front and back, over the shoulder
	Armhole           // round the arm
)

// Hand is a side of the body, as its wearer tells it.
type Hand uint8

// The hands. The zero Hand is both.
const (
	BothHands Hand = iota
	LeftHand
	RightHand
)

// Of names something of that side, whose name is given in the language of w; what
// is of both keeps its name.
func (h Hand) Of(name string, w *say.Words) string {
	switch h {
	case LeftHand:
		return w.F("%s, left", name)
	case RightHand:
		return w.F("%s, right", name)
	case BothHands:
	}
	return name
}

// SeenKind is what a line that is seen is.
type SeenKind uint8

// The kinds of line that are seen on the finished garment.
const (
	Stitching SeenKind = iota // from the right side through all layers
	Mouth                     // of a pocket
	Pressed                   // a crease
	Tucked                    // a crease that is stitched
	Beneath                   // on the inside: the hem of a lining
	TurnedUp                  // the upper edge of a turn-up
)

// Seen is a line on a panel that is seen from outside on the finished garment.
type Seen struct {
	Kind SeenKind
	Path geom.Path
	On   Hand // which of the two panels has it
	// Takes is how much cloth it takes in across, all along: a tuck.
	Takes unit.Length
}

// Loop is a loop over the band, in its place on the top edge of a panel. One
// that is not in the middle of the body is there on both hands.
type Loop struct {
	Panel string
	At    geom.Pt
}

// Worn is what shows of the finished garment besides its panels.
type Worn struct {
	Band      unit.Length // height of the band above the panels
	BandIn    unit.Length // how much shorter its upper edge is, all round
	Gathered  bool        // the band is gathered
	Lap       Hand        // which end lies on top at the centre front; BothHands when none does
	LapBehind bool        // the ends lie at the centre back instead
	Loops     []Loop
	LoopWidth unit.Length
}
