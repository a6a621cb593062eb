package quote

import (
	"strings"

	"chalkfold/draft/plain"
	"chalkfold/draft/say"
)

// Bill is a quote as the client gets it, or the receipt for what was paid. The
// days of its payments stand as they are told.
type Bill struct {
	Quote
	Title   string // the garment, and the job's ticket
	For     string // the client; empty to name nobody
	Due     string // the day that is promised, as it is told; empty when there is none
	Receipt bool   // money came in
}

// Weight is how a row of a bill stands out.
type Weight uint8

// The weights.
const (
	Plain Weight = iota
	Strong
	Break // a line across; the row holds nothing
)

// Row is one row of a bill: what it is, how it comes about, what it comes to.
// Sum and Amount may be empty.
type Row struct {
	Weight            Weight
	Name, Sum, Amount string
	Open              bool // the sum comes to the amount
}

// Reckoned is how the row comes about and what it comes to.
func (r Row) Reckoned() string {
	switch {
	case r.Sum == "" || r.Amount == "":
		return r.Sum + r.Amount
	case r.Open:
		return r.Sum + " = " + r.Amount
	}
	return r.Sum + ", " + r.Amount
}

// Head is what stands above the rows.
func (b Bill) Head(w *say.Words) []string {
	head := []string{w.T("Quote")}
	if b.Receipt {
		head[0] = w.T("Receipt")
	}
	add := func(text, said string) {
		if text != "" {
			head = append(head, said)
		}
	}
	add(b.Title, b.Title)
	add(b.For, w.F("For: %s", b.For))
	add(b.Due, w.F("Promised for %s", b.Due))
	return head
}

// Rows is what the client is told: what goes into the garment, with what each
// costs when the quote is open, and what it comes to.
func (b Bill) Rows(w *say.Words) []Row {
	c, s := b.Currency, b.Sum()
	var rows []Row
	for _, l := range b.Lines {
		if l.Count == 0 || l.Price == 0 && !l.Own && !l.brought() {
			continue
		}
		row := Row{Name: l.Named(w)}
		if l.Per != Piece || l.Count != One {
			row.Sum = l.Per.Much(l.Count, w)
		}
		switch {
		case !b.Charged(l):
			row.Amount = w.T("not charged")
		case b.Open:
			row.Open, row.Sum, row.Amount = true, l.Per.Much(l.Count, w)+" × "+c.Bare(l.Price, w), c.Bare(b.Amount(l), w)
		}
		rows = append(rows, row)
	}
	if b.Open && s.Margin+s.Rounding != 0 {
		rows = append(rows, Row{Name: w.T("The workshop's costs, rounded"), Amount: c.Bare(s.Margin+s.Rounding, w)})
	}
	rows = append(rows, Row{Weight: Break}, Row{Weight: Strong, Name: w.T("In all"), Amount: c.Text(s.Total, w)})
	if s.Deposit > 0 && len(b.Paid) == 0 {
		rows = append(rows, Row{Name: w.T("Before the cut"), Amount: c.Text(s.Deposit, w)},
			Row{Name: w.T("When it is fetched"), Amount: c.Text(s.Total-s.Deposit, w)})
	}
	for _, p := range b.Paid {
		rows = append(rows, Row{Name: w.F("Received on %s", p.Day), Amount: c.Text(p.Amount, w)})
	}
	switch {
	case len(b.Paid) == 0:
	case s.Owed > 0:
		rows = append(rows, Row{Weight: Strong, Name: w.T("Still to be paid"), Amount: c.Text(s.Owed, w)})
	case s.Owed < 0:
		rows = append(rows, Row{Weight: Strong, Name: w.T("To be given back"), Amount: c.Text(-s.Owed, w)})
	default:
		rows = append(rows, Row{Weight: Strong, Name: w.T("Paid in full")})
	}
	return rows
}

// brought reports whether it is what a client commonly brings: the cloths. What
// else has no price is not worth telling.
func (l Line) brought() bool { return l.ID == "main" || l.ID == "lining" }

// Named is the line's name as it is told.
func (l Line) Named(w *say.Words) string {
	if l.Own {
		return l.Name
	}
	return w.T(l.Name)
}

// Message is the bill as plain text to send: short lines with no layout, so that
// no chat breaks it.
func (b Bill) Message(w *say.Words) string {
	var t strings.Builder
	t.WriteString(strings.Join(b.Head(w), "\n") + "\n")
	for _, r := range b.Rows(w) {
		if r.Weight == Break {
			t.WriteString("\n")
			continue
		}
		line := r.Name
		if how := r.Reckoned(); how != "" {
			line = w.F("%s: %s", line, how)
		}
		t.WriteString(line + "\n")
	}
	return t.String()
}

// Encode writes the bill for whoever draws it beside the page.
func (b Bill) Encode() ([]byte, error) {
	w := &plain.Writer{}
	w.Open('{')
	w.Key("quote")
	b.Write(w)
	w.TextIf("title", b.Title)
	w.TextIf("for", b.For)
	w.TextIf("due", b.Due)
	w.TruthIf("receipt", b.Receipt)
	w.Shut('}')
	return w.Done()
}

// DecodeBill reads what Encode has written.
func DecodeBill(data []byte) (Bill, error) {
	var b Bill
	r := plain.Read(data)
	for key := range r.Object() {
		switch key {
		case "quote":
			b.Quote = Read(r)
		case "title":
			b.Title = r.Text()
		case "for":
			b.For = r.Text()
		case "due":
			b.Due = r.Text()
		case "receipt":
			b.Receipt = r.Truth()
		}
	}
	if err := r.End(); err != nil {
		return Bill{}, say.Errorf("the quote cannot be read: %v", err)
	}
	return b, nil
}
