package lay

import (
	"cmp"
	"math"

	"chalkfold/draft/unit"
)

// Merit is how good a lay is, by what counts for whoever cuts it, the first
// thing first.
type Merit struct {
	Out    int         // items without a place
	Short  unit.Length // wanting of the length at hand
	Bought unit.Length // length, as a shop sells it
	Offcut float64     // largest rectangle left in one, mm² in whole dm²: less is no use
	Cuts   int         // into what is left: steps of its near edge beyond the first
	Odd    int         // grain lines that begin on no round figure
}

// MeritOf weighs a lay. round is what counts as a round figure to chalk.
func MeritOf(c Cloth, items []Item, r Result, round unit.Length) Merit {
	m := Merit{Out: len(r.Out), Short: r.ShortBy, Bought: c.Bought(r.Length)}
	if len(r.Left) > 0 {
		m.Offcut = r.Left[0].Area()
	}
	if left, ok := Leftover(c, items, r); ok {
		m.Offcut = math.Max(m.Offcut, left.Rect.W()*left.Rect.H())
		m.Cuts = len(left.Outline)/2 - 2
	}
	const dm2 = 100 * 100
	m.Offcut = dm2 * math.Floor(m.Offcut/dm2)
	for _, p := range r.Placements {
		at := p.At.Pt(items[p.Item].Grain[0])
		if !even(at.X, round.MM()) || !even(at.Y, round.MM()) {
			m.Odd++
		}
	}
	return m
}

// even reports whether v is a whole number of steps, within a quarter of a
// millimetre.
func even(v, step float64) bool { return math.Abs(math.Remainder(v, step)) < 0.25 }

// Compare is below nought when m is the better lay, above when o is.
func (m Merit) Compare(o Merit) int {
	return cmp.Or(
		cmp.Compare(m.Out, o.Out),
		cmp.Compare(m.Short, o.Short),
		cmp.Compare(m.Bought, o.Bought),
		cmp.Compare(o.Offcut, m.Offcut),
		cmp.Compare(m.Cuts, o.Cuts),
		cmp.Compare(m.Odd, o.Odd),
	)
}
