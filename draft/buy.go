package draft

import (
	"errors"
	"fmt"
	"slices"

	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// Purchase is how much cloth of one width must be bought, laid one way.
type Purchase struct {
	Width  unit.Length
	Fold   lay.Fold
	OneWay bool
	Length unit.Length // that the lay takes
	Bought unit.Length // as a shop sells it ...
	SoldBy unit.Length // ... by this step
	// Wide, when it is set, is why nothing will do at this width.
	Wide *lay.TooWideError
}

// Widths are the widths that cloth is commonly woven in, for whoever measures
// in f (common practice): 36, 45, 54 and 58 to 60 inches, of which the least is
// counted on.
func Widths(f unit.Format) []unit.Length {
	if f.System.Metric() {
		return []unit.Length{90 * unit.Centimetre, 115 * unit.Centimetre, 140 * unit.Centimetre, 150 * unit.Centimetre}
	}
	return []unit.Length{36 * unit.Inch, 45 * unit.Inch, 54 * unit.Inch, 58 * unit.Inch}
}

// OffTheBolt is cloth of a kind as a shop has it, without width. Margin, gap,
// shrinkage, repeats, nap and the step it is sold by are those of the job's
// first cloth of that kind. The error is a *job.Bad when that cannot be used.
func OffTheBolt(r *Result, kind piece.Cloth) (lay.Cloth, error) {
	c := lay.Cloth{Kind: kind, SoldBy: r.Format.SoldBy()}
	i := slices.IndexFunc(r.Job.Cloth, func(o job.Cloth) bool { return kindOf(o.Kind) == kind && len(o.Outline) == 0 })
	if i < 0 {
		return c, nil
	}
	c, err := clothOf(r.Job, i)
	c.Length, c.Flaws = 0, nil
	return c, err
}

// BuyOf lays the pieces on a cloth off the bolt.
func BuyOf(r *Result, c lay.Cloth, opt lay.Options) (Purchase, error) {
	c = r.opened(c)
	p := Purchase{Width: c.Width, Fold: c.Fold, OneWay: c.OneWay, SoldBy: c.SoldBy}
	items, err := lay.Items(r.Pieces, c)
	if err != nil {
		return p, fmt.Errorf("lay: %w", err)
	}
	opt.Round = r.Format.Finest()
	laid, err := lay.Pack(c, items, opt)
	if errors.As(err, &p.Wide) {
		return p, nil
	}
	if err != nil {
		return p, fmt.Errorf("lay: %w", err)
	}
	p.Length, p.Bought = laid.Length, c.Bought(laid.Length)
	return p, nil
}

// Buy says how much of a kind of cloth to buy at each width: folded lengthwise
// and open, without nap and with it. See OffTheBolt.
func Buy(r *Result, kind piece.Cloth, widths []unit.Length, opt lay.Options) ([]Purchase, error) {
	c, err := OffTheBolt(r, kind)
	if err != nil {
		return nil, err
	}
	var all []Purchase
	for _, width := range widths {
		for _, fold := range []lay.Fold{lay.Lengthwise, lay.Open} {
			for _, oneWay := range []bool{false, true} {
				c.Width, c.Fold, c.OneWay = width, fold, oneWay
				p, err := BuyOf(r, c, opt)
				if err != nil {
					return nil, err
				}
				all = append(all, p)
			}
		}
	}
	return all, nil
}
