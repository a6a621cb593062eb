package quote

import (
	"chalkfold/draft/plain"
	"chalkfold/draft/say"
)

// Write writes the quote as part of a record; see Read.
func (q Quote) Write(w *plain.Writer) {
	w.Open('{')
	q.write(w)
	if len(q.Lines) > 0 {
		w.Key("lines").Open('[')
		for _, l := range q.Lines {
			l.write(w.Next())
		}
		w.Shut(']')
	}
	w.TextIf("given", q.Given)
	w.TruthIf("open", q.Open)
	if len(q.Paid) > 0 {
		w.Key("paid").Open('[')
		for _, p := range q.Paid {
			w.Next().Open('{')
			w.TextIf("id", p.ID)
			w.Key("day").Text(p.Day)
			w.Key("amount").Int(int64(p.Amount))
			w.Shut('}')
		}
		w.Shut(']')
	}
	w.Shut('}')
}

// Write writes the terms as a record of their own; see ReadTerms.
func (t Terms) Write(w *plain.Writer) {
	w.Open('{')
	t.write(w)
	w.Shut('}')
}

func (t Terms) write(w *plain.Writer) {
	w.TextIf("currency", t.Currency.Sign)
	w.IntIf("digits", int64(t.Currency.Digits))
	w.IntIf("margin", int64(t.Margin))
	w.IntIf("step", int64(t.Step))
	w.IntIf("deposit", int64(t.Deposit))
	w.TruthIf("flat", t.Flat)
	w.TruthIf("free", t.Free)
}

func (t *Terms) read(r *plain.Reader, key string) {
	switch key {
	case "currency":
		t.Currency.Sign = r.Text()
	case "digits":
		t.Currency.Digits = int(within(r, 3))
	case "margin":
		t.Margin = Percent(within(r, int64(MostMargin)))
	case "step":
		t.Step = Money(within(r, int64(most)))
	case "deposit":
		t.Deposit = Percent(within(r, int64(MostDeposit)))
	case "flat":
		t.Flat = r.Truth()
	case "free":
		t.Free = r.Truth()
	}
}

func (l Line) write(w *plain.Writer) {
	w.Open('{')
	w.Key("id").Text(l.ID)
	w.TextIf("name", l.Name)
	w.TruthIf("own", l.Own)
	w.IntIf("count", int64(l.Count))
	w.TruthIf("fixed", l.Fixed)
	w.TextIf("per", string(l.Per))
	w.IntIf("price", int64(l.Price))
	w.TruthIf("spare", l.Spare)
	w.Shut('}')
}

// Read reads a quote. What is no amount that can be reckoned with fails r.
func Read(r *plain.Reader) (q Quote) {
	for key := range r.Object() {
		switch key {
		case "lines":
			q.Lines = nil
			for range r.List() {
				q.Lines = append(q.Lines, readLine(r))
			}
		case "given":
			q.Given = r.Text()
		case "open":
			q.Open = r.Truth()
		case "paid":
			q.Paid = nil
			for range r.List() {
				q.Paid = append(q.Paid, readPayment(r))
			}
		default:
			q.read(r, key)
		}
	}
	return q
}

// ReadTerms reads what Terms.Write has written.
func ReadTerms(r *plain.Reader) (t Terms) {
	for key := range r.Object() {
		t.read(r, key)
	}
	return t
}

func readLine(r *plain.Reader) (l Line) {
	for key := range r.Object() {
		switch key {
		case "id":
			l.ID = r.Text()
		case "name":
			l.Name = r.Text()
		case "own":
			l.Own = r.Truth()
		case "count":
			l.Count = Quantity(within(r, int64(mostQuantity)))
		case "fixed":
			l.Fixed = r.Truth()
		case "per":
			l.Per = Per(r.Text())
		case "price":
			l.Price = Money(within(r, int64(most)))
		case "spare":
			l.Spare = r.Truth()
		}
	}
	l.renew()
	return l
}

func readPayment(r *plain.Reader) (p Payment) {
	for key := range r.Object() {
		switch key {
		case "id":
			p.ID = r.Text()
		case "day":
			p.Day = r.Text()
		case "amount":
			p.Amount = Money(within(r, int64(most)))
		}
	}
	return p
}

// within reads a whole number of nought to limit.
func within(r *plain.Reader, limit int64) int64 {
	n := r.Int()
	if n < 0 || n > limit {
		r.Fail(say.Of("must be from 0 to %d", limit))
		return 0
	}
	return n
}
