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

// Buy lays the pieces of a kind on the bolt, at each width: folded lengthwise
// and open, with nap and without. Margin, gap, shrinkage, repeats and the step
// it is sold by are those of the job's first cloth of that kind.
func Buy(r *Result, kind piece.Cloth, widths []unit.Length, opt lay.Options) ([]Purchase, error) {
	c := lay.Cloth{Kind: kind, SoldBy: r.Format.SoldBy()}
	if i := slices.IndexFunc(r.Job.Cloth, func(o job.Cloth) bool { return kindOf(o.Kind) == kind && len(o.Outline) == 0 }); i >= 0 {
		var err error
		if c, err = clothOf(r.Job, i); err != nil {
			return nil, err
		}
		c.Length, c.Flaws = 0, nil
	}
	var all []Purchase
	for _, width := range widths {
		for _, fold := range []lay.Fold{lay.Lengthwise, lay.Open} {
			for _, oneWay := range []bool{false, true} {
				c.Width, c.Fold, c.OneWay = width, fold, oneWay
				p, err := buy(r, c, opt)
				if err != nil {
					return nil, err
				}
				all = append(all, p)
			}
		}
	}
	return all, nil
}

func buy(r *Result, c lay.Cloth, opt lay.Options) (Purchase, error) {
	p := Purchase{Width: c.Width, Fold: c.Fold, OneWay: c.OneWay, SoldBy: c.SoldBy}
	items, err := lay.Items(r.Pieces, c)
	if err != nil {
		return p, fmt.Errorf("lay: %w", err)
	}
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
