package engine

import (
	"chalkfold/draft"
	"chalkfold/draft/plain"
	"chalkfold/draft/quote"
)

// charge works out what a quote has from the draft; see ReadCharges.
func charge(made *draft.Result, o Order) ([]byte, error) {
	l, err := laidOf(made, o)
	if err != nil {
		return nil, err
	}
	w := &plain.Writer{}
	quote.Quote{Lines: draft.Charges(made, l)}.Write(w)
	return w.Done()
}

// ReadCharges reads the lines that a Charge has told; none of what is none.
func ReadCharges(data []byte) []quote.Line {
	r := plain.Read(data)
	q := quote.Read(r)
	if r.End() != nil {
		return nil
	}
	return q.Lines
}
