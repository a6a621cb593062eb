package quote

import (
	"slices"

	"chalkfold/draft/say"
)

// Per is what a price is for.
type Per string

// What prices are for.
const (
	Piece Per = "piece"
	Yard  Per = "yd"
	Metre Per = "m"
	Hour  Per = "h"
)

// In is its name, as it stands after a quantity.
func (p Per) In(w *say.Words) string {
	switch p {
	case Yard:
		return w.T("yd")
	case Metre:
		return w.T("m")
	case Hour:
		return w.T("h")
	case Piece:
	}
	return "×"
}

// A Line is one thing that is charged.
type Line struct {
	// ID tells lines apart: what follows the draft has the same one in each job,
	// such as "main" or "zip", by which its price is remembered.
	ID string
	// Name is what it is, said by say.Words where the line follows the draft, as
	// the maker wrote it where it does not.
	Name  string
	Own   bool // the maker added it
	Count Quantity
	Fixed bool // the maker wrote the quantity: it does not follow the draft
	Per   Per
	Price Money
	Spare bool // it lies in the drawer, and need not be bought
}

// Of is a quantity of it as it is told, without what it counts.
func (p Per) Of(q Quantity, w *say.Words) string {
	if p == Yard || p == Hour {
		return q.Eighths(w)
	}
	return q.Text(w)
}

// Much is how much of it there is: "2¼ yd", "3".
func (p Per) Much(q Quantity, w *say.Words) string {
	if p == Piece {
		return p.Of(q, w)
	}
	return p.Of(q, w) + " " + w.Say(p)
}

// The ids of lines that are told apart from others: the maker's own work, and the
// tape for a hem that is turned under as well.
const (
	Labour = "labour"
	Hem    = "hem"
)

// Hours is so many minutes as hours, to the nearest quarter of one, half up; at
// least a quarter of any work.
func Hours(minutes int) Quantity {
	const quarter = 15
	if minutes <= 0 {
		return 0
	}
	return min(Quantity(max(1, (minutes+quarter/2)/quarter))*One/4, mostQuantity)
}

// Terms are what a maker charges by. They are kept from one quote to the next.
type Terms struct {
	Currency Currency
	Margin   Percent // on all lines together
	Step     Money   // totals are rounded up to a multiple of it
	Deposit  Percent // of the total, to be paid before the cut
	Flat     bool    // labour is charged by the piece, not by the hour
	Free     bool    // what lies in the drawer is not charged
}

// The largest shares that are taken.
const (
	MostMargin  = Percent(1000 * 100)
	MostDeposit = Percent(100 * 100)
)

// Payment is money that came in.
type Payment struct {
	ID     string
	Day    string // as ISO 8601 writes it
	Amount Money
}

// Quote is what one job costs.
type Quote struct {
	Terms
	Lines []Line
	// Given is the day on which it was given to the client, as ISO 8601 writes it;
	// empty until then.
	Given string
	Open  bool // the client is told what each line costs
	Paid  []Payment
}

// Empty reports whether nothing was entered or charged.
func (q Quote) Empty() bool {
	return q.Given == "" && len(q.Paid) == 0 && !slices.ContainsFunc(q.Lines, func(l Line) bool { return l.Own || l.Price != 0 || l.Fixed })
}

// Sum is what a quote comes to. Lines, Margin and Rounding add up to Total; Paid
// and Owed as well. Owed is below nought when more was paid than asked.
type Sum struct {
	Lines    Money
	Margin   Money
	Rounding Money
	Total    Money
	Deposit  Money
	Paid     Money
	Owed     Money
}

// Charged reports whether a line costs something.
func (q Quote) Charged(l Line) bool { return l.Price != 0 && (!q.Free || !l.Spare) }

// Amount is what a line comes to.
func (q Quote) Amount(l Line) Money {
	if !q.Charged(l) {
		return 0
	}
	return l.Count.Times(l.Price)
}

// Sum adds the quote up.
func (q Quote) Sum() Sum {
	var s Sum
	for _, l := range q.Lines {
		s.Lines += q.Amount(l)
	}
	s.Margin = q.Margin.Of(s.Lines)
	s.Total = upTo(s.Lines+s.Margin, q.Step)
	s.Rounding = s.Total - s.Lines - s.Margin
	s.Deposit = min(upTo(q.Deposit.Of(s.Total), q.Step), s.Total)
	for _, p := range q.Paid {
		s.Paid += p.Amount
	}
	s.Owed = s.Total - s.Paid
	return s
}

// Settled reports whether something was asked and all of it is paid.
func (q Quote) Settled() bool {
	s := q.Sum()
	return s.Total > 0 && s.Owed <= 0
}

// Follow puts the lines of a draft into the quote, each at the price that it has
// already or else at that of prices; see PriceKey. What the maker added or wrote
// stays; what the draft has no more goes. A quote that was given stays as it is.
func (q Quote) Follow(draft []Line, prices map[string]Money) Quote {
	if q.Given != "" {
		return q
	}
	var lines []Line
	for _, l := range draft {
		l = q.by(l)
		l.Price = prices[l.PriceKey()]
		had := q.Line(l.ID)
		switch {
		case had == nil || had.Own:
		case had.Per == l.Per:
			if l.Price = had.Price; had.Fixed {
				l.Count, l.Fixed = had.Count, true
			}
		case had.Per == Piece && had.Fixed && l.ID != Labour: // agreed on as a whole
			l.Count, l.Fixed, l.Per, l.Price = had.Count, true, Piece, had.Price
		}
		lines = append(lines, l)
	}
	for _, l := range q.Lines {
		if l.Own {
			lines = append(lines, l)
		}
	}
	q.Lines = lines
	return q
}

// by is a line of the draft as these terms charge it.
func (t Terms) by(l Line) Line {
	if l.ID == Labour && t.Flat {
		l.Count, l.Per = One, Piece
	}
	return l
}

// PriceKey is under what its price is remembered: what it is, and what the price
// is for, since that of a yard is none of a metre.
func (l Line) PriceKey() string { return l.ID + " " + string(l.Per) }

// Line is the line of that id; nil when there is none.
func (q Quote) Line(id string) *Line {
	i := slices.IndexFunc(q.Lines, func(l Line) bool { return l.ID == id })
	if i < 0 {
		return nil
	}
	return &q.Lines[i]
}

// A Change is a line whose quantity in the draft is no longer what was given.
type Change struct {
	Name       string
	Per        Per
	Given, Now Quantity // nought of what is not in it
}

// Later lists what the draft would have in a quote that was given, but for the
// labour, which was agreed on, and what is bought in any case.
func (q Quote) Later(draft []Line) []Change {
	if q.Given == "" {
		return nil
	}
	var out []Change
	for _, now := range draft {
		was := q.Line(now.ID)
		switch {
		case now.ID == Labour, now.ID == Hem:
		case was == nil:
			out = append(out, Change{now.Name, now.Per, 0, now.Count})
		case !was.Fixed && was.Count != now.Count && was.Per == now.Per:
			out = append(out, Change{now.Name, now.Per, was.Count, now.Count})
		}
	}
	for _, was := range q.Lines {
		if !was.Own && !was.Fixed && !slices.ContainsFunc(draft, func(l Line) bool { return l.ID == was.ID }) {
			out = append(out, Change{was.Name, was.Per, was.Count, 0})
		}
	}
	return out
}

// Prices are what the lines cost each, by their keys, to begin the next quote
// with, but that of one id: the cloth itself costs something else each time.
func (q Quote) Prices(into map[string]Money, but string) map[string]Money {
	out := map[string]Money{}
	for id, p := range into {
		out[id] = p
	}
	for _, l := range q.Lines {
		if !l.Own && l.ID != but {
			out[l.PriceKey()] = l.Price
			if l.Price == 0 {
				delete(out, l.PriceKey())
			}
		}
	}
	return out
}

// Clone shares nothing with q.
func (q Quote) Clone() Quote {
	q.Lines, q.Paid = slices.Clone(q.Lines), slices.Clone(q.Paid)
	return q
}

// Remove takes a line out that the maker added.
func (q *Quote) Remove(id string) {
	q.Lines = slices.DeleteFunc(q.Lines, func(l Line) bool { return l.Own && l.ID == id })
}

// Receive notes money that came in.
func (q *Quote) Receive(p Payment) {
	if p.Amount > 0 {
		q.Paid = append(q.Paid, p)
	}
}

// SetCurrency changes the currency. Amounts stay what they are called: 12.50 is
// 13 of a currency without decimals.
func (q *Quote) SetCurrency(c Currency) {
	had := q.Currency
	for i := range q.Lines {
		q.Lines[i].Price = c.Take(q.Lines[i].Price, had)
	}
	for i := range q.Paid {
		q.Paid[i].Amount = c.Take(q.Paid[i].Amount, had)
	}
	q.Step, q.Currency = c.Take(q.Step, had), c
}
