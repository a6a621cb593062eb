package engine

import (
	"chalkfold/draft"
	order "chalkfold/draft/bench"
	"chalkfold/draft/plain"
	"chalkfold/draft/quote"
)

// Charges are what a quote has from the draft.
type Charges struct {
	Lines   []quote.Line
	Minutes int // that the order of work is reckoned at
}

// charge works out what a quote has from the draft; see ReadCharges.
func charge(made *draft.Result, o Order) ([]byte, error) {
	l, err := laidOf(made, o)
	if err != nil {
		return nil, err
	}
	lines, minutes, err := draft.Charges(made, l, o.setting())
	if err != nil {
		return nil, err
	}
	w := &plain.Writer{}
	w.Open('{')
	w.Key("minutes").Int(int64(minutes))
	w.Key("quote")
	quote.Quote{Lines: lines}.Write(w)
	w.Shut('}')
	return w.Done()
}

// setting is with what the garment is sewn.
func (o Order) setting() order.Setting {
	return order.Setting{Machine: order.Machine(o.Machine), Weight: order.Weight(o.Weight)}
}

// ReadCharges reads what a Charge has told; nothing of what is none.
func ReadCharges(data []byte) (c Charges) {
	r := plain.Read(data)
	for key := range r.Object() {
		switch key {
		case "minutes":
			c.Minutes = int(r.Int())
		case "quote":
			c.Lines = quote.Read(r).Lines
		}
	}
	if r.End() != nil {
		return Charges{}
	}
	return c
}
