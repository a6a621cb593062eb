package draft

import (
	"errors"
	"fmt"
	"slices"

	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
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
// first cloth of that kind, whose width need not be known yet. The error is a
// *job.Bad when they cannot be used.
func OffTheBolt(r *Result, kind piece.Cloth) (lay.Cloth, error) {
	i := slices.IndexFunc(r.Job.Cloth, func(o job.Cloth) bool { return kindOf(o.Kind) == kind && len(o.Outline) == 0 })
	if i < 0 {
		return lay.Cloth{Kind: kind, SoldBy: r.Format.SoldBy()}, nil
	}
	// Which length is at hand is nothing to it, nor its flaws, nor yet a width.
	of := r.Job.Cloth[i]
	of.Length, of.Flaws = unit.Quantity{}, nil
	read, c := readCloth(r.Job, i, of)
	if wrong := slices.DeleteFunc(read.problems, func(p *job.Problem) bool { return p.Path == read.path+".width" }); len(wrong) > 0 {
		return c, bad(wrong...)
	}
	return c, nil
}

// ErrNothingToBuy says that other cloths take every piece.
var ErrNothingToBuy = say.Errorf("nothing is left to buy: the cloths before it take every piece")

// CutBefore is what is cut from the cloths of the job that are laid on before one,
// and are of its kind: remnants, or what is at hand.
func CutBefore(r *Result, cloth int, opt lay.Options) (lay.Want, error) {
	cut := lay.Want{}
	for i := range r.Job.Cloth {
		if i >= cloth || cloth >= len(r.Job.Cloth) || !SameKind(r.Job.Cloth[i], r.Job.Cloth[cloth]) {
			continue
		}
		l, err := SpreadAfter(r, i, cut)
		if err != nil {
			return nil, err
		}
		if len(l.Items) == 0 {
			continue
		}
		if err := l.pack(r, opt); err != nil {
			return nil, err
		}
		cut.Cut(l.Items, l.Result)
	}
	return cut, nil
}

// BuyOf lays the pieces on a cloth off the bolt, but for the copies that are cut from
// other cloth.
func BuyOf(r *Result, c lay.Cloth, cut lay.Want, opt lay.Options) (Purchase, error) {
	c = r.opened(c)
	p := Purchase{Width: c.Width, Fold: c.Fold, OneWay: c.OneWay, SoldBy: c.SoldBy}
	items, err := lay.ItemsFor(r.Pieces, c, lay.WantOf(r.Pieces).Without(cut))
	if err != nil {
		return p, fmt.Errorf("lay: %w", err)
	}
	if len(items) == 0 {
		return p, ErrNothingToBuy
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
// and open, without nap and with it, besides what is cut from other cloth. See
// OffTheBolt.
func Buy(r *Result, kind piece.Cloth, cut lay.Want, widths []unit.Length, opt lay.Options) ([]Purchase, error) {
	c, err := OffTheBolt(r, kind)
	if err != nil {
		return nil, err
	}
	var all []Purchase
	for _, width := range widths {
		for _, fold := range []lay.Fold{lay.Lengthwise, lay.Open} {
			for _, oneWay := range []bool{false, true} {
				c.Width, c.Fold, c.OneWay = width, fold, oneWay
				p, err := BuyOf(r, c, cut, opt)
				if err != nil {
					return nil, err
				}
				all = append(all, p)
			}
		}
	}
	return all, nil
}
