package piece

import "chalkfold/draft/geom"

// Card is a curve to be traced from a card that is laid on chalked marks. It
// lies in the frame of its panel.
type Card struct {
	No    int // from 1
	Name  string
	Panel string
	Line  string // the step of the record that draws the curve
	Path  geom.Path
	Marks []CardMark // along the path: both ends, and what lies between
}

// CardMark is a mark on a card. The same mark has the same letter on every card
// of a draft.
type CardMark struct {
	Letter string // "A"
	Name   string // of the mark, as the chalk guide says it
	Notch  int    // the number of the notch there; 0 when it has none
	At     geom.Pt
}

// Ends returns the marks at the two ends.
func (c Card) Ends() (from, to CardMark) { return c.Marks[0], c.Marks[len(c.Marks)-1] }
