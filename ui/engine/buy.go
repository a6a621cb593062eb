package engine

import (
	"slices"

	"chalkfold/draft"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/plain"
	"chalkfold/draft/unit"
)

// Bolt is how much to buy of cloth of one width; nought where a piece goes
// across it in no way.
type Bolt struct {
	Width, Folded, Open unit.Length
	OneWay              bool
	SoldBy              unit.Length // the step to which it is rounded up
}

// together are the steps of each lay where several garments are bought for: a third of
// the quick lay of five pairs of trousers, and some 3 in 100 longer.
const together = 600

// buy lays the pieces on cloth of each width on sale, and that at hand, and
// tells each as it is worked out.
func (r *run) buy(made *draft.Result, o Order) ([]byte, error) {
	c, err := draft.OffTheBolt(made, piece.Cloth(o.Kind))
	if err != nil {
		return nil, err
	}
	cut, err := lay.ReadWant(o.Cut)
	if err != nil {
		return nil, err
	}
	widths := draft.Widths(made.Format)
	if c.Width > 0 && !slices.Contains(widths, c.Width) {
		at, _ := slices.BinarySearch(widths, c.Width)
		widths = slices.Insert(widths, at, c.Width)
	}
	opt := lay.Options{Seed: o.Seed, Work: o.Work, Stop: func() bool { return !r.goOn() }}
	if opt.Work == 0 && len(made.Of) > 1 {
		opt.Work = together
	}
	r.of = 2 * len(widths)
	for _, width := range widths {
		b := Bolt{Width: width, OneWay: c.OneWay, SoldBy: c.SoldBy}
		for _, way := range []struct {
			fold lay.Fold
			into *unit.Length
		}{{lay.Lengthwise, &b.Folded}, {lay.Open, &b.Open}} {
			c.Width, c.Fold = width, way.fold
			p, err := draft.BuyOf(made, c, cut, opt)
			if err != nil {
				return nil, err
			}
			if r.now++; !r.goOn() {
				return nil, errStopped
			}
			*way.into = p.Bought
		}
		r.tell(Answer{ID: r.id, Is: Part, Now: r.now, Of: r.of, Data: b.encode()})
	}
	return nil, nil
}

func (b Bolt) encode() []byte {
	w := &plain.Writer{}
	w.Open('{')
	w.Key("width").Int(micro(b.Width))
	w.IntIf("folded", micro(b.Folded))
	w.IntIf("open", micro(b.Open))
	w.IntIf("sold_by", micro(b.SoldBy))
	w.TruthIf("one_way", b.OneWay)
	w.Shut('}')
	data, err := w.Done()
	if err != nil {
		return nil
	}
	return data
}

// micro is a length in thousandths of a millimetre, as lengths are told here.
func micro(l unit.Length) int64 { return int64(l.MM()*perMM + 0.5) }

// ReadBolt reads what a Buy has told; false when it is none.
func ReadBolt(data []byte) (b Bolt, ok bool) {
	r := plain.Read(data)
	for key := range r.Object() {
		if key == "one_way" {
			b.OneWay = r.Truth()
			continue
		}
		l := unit.Length(r.Int()) / perMM
		switch key {
		case "width":
			b.Width = l
		case "folded":
			b.Folded = l
		case "open":
			b.Open = l
		case "sold_by":
			b.SoldBy = l
		}
	}
	return b, len(data) > 0 && r.End() == nil
}
