package ui

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/quote"
	"chalkfold/ui/bill"
	"chalkfold/ui/day"
	"chalkfold/ui/engine"
	"chalkfold/ui/kit"
)

// quoteViewed is how the quote is looked at.
type quoteViewed struct {
	of      source // what the lines were worked out from
	id      uint32 // of the task
	charges []quote.Line
	minutes int // that its order of work is reckoned at
	fault   string
	waits   bool // for charges

	open  bool              // the terms are
	typed map[string]string // what the fields hold, as typed
	bad   map[string]string // why it cannot be taken
}

// wantCharges has it worked out what a quote has from the draft, unless it is.
func (d *Desk) wantCharges() {
	v := &d.view.quote
	if d.stage != stageQuote || d.work == nil || d.work.Result == nil || v.of == d.source(string(engine.Charge)) {
		return
	}
	d.helpers.Stop(v.id)
	v.of, v.fault, v.waits = d.source(string(engine.Charge)), "", true
	of, o := v.of, engine.Order{Cloth: v.of.cloth, Machine: string(v.of.by.Machine), Weight: string(v.of.by.Weight)}
	if of.laid != (drawn{}) {
		if laid, err := d.laying.shown.Encode(d.laying.shown.Items); err == nil {
			o.Laid = laid
		}
	}
	v.id = d.ask(d.work.Result, engine.Charge, o, true, func(a engine.Answer) {
		switch {
		case v.of != of:
		case a.Is == engine.Done:
			c := engine.ReadCharges(a.Data)
			v.charges, v.minutes, v.waits = c.Lines, c.Minutes, false
			if s := &d.job.Sewing; s.Minutes == 0 {
				s.Minutes, s.Left = c.Minutes, c.Minutes
			}
		case a.Is == engine.Fault:
			v.fault, v.waits = sentenceOf(string(a.Data)), false
		}
	})
}

// quote is the quote of the open job: what is kept of it, following the draft.
// One that nothing was entered in begins with the terms of the last.
func (d *Desk) quote() quote.Quote {
	q := d.job.Quote
	if q.Empty() && q.Terms == (quote.Terms{}) {
		q.Terms = d.house.Terms
	}
	if charges := d.charges(); len(charges) > 0 {
		q = q.Follow(charges, d.house.Prices)
	}
	return q
}

// charges are what a quote has from the draft, with the hours that it takes this
// maker, and what of it lies in the drawer.
func (d *Desk) charges() []quote.Line {
	v := &d.view.quote
	out := slices.Clone(v.charges)
	for i := range out {
		l := &out[i]
		l.Spare = d.job.Sewing.Drawer[l.ID]
		if l.ID == quote.Labour {
			l.Count = quote.Hours(d.pace(d.job.File.Garment).minutes(v.minutes))
		}
	}
	return out
}

// editQuote changes the quote, and keeps it. Changes of one field that come one
// after the other are undone together; an empty field is a tap.
func (d *Desk) editQuote(field string, change func(*quote.Quote)) {
	q := d.quote().Clone()
	change(&q)
	was := d.job.Quote.Settled()
	d.job.Quote = q
	switch {
	case q.Settled() && !was && d.job.Reached[Paid] == "":
		d.job.Reach(Paid, d.today())
	case !q.Settled() && was:
		d.job.Reach(Paid, "")
	}
	d.changed(field)
	if had := d.house.Terms.Currency; had != q.Currency {
		d.house.Prices = inCurrency(d.house.Prices, had, q.Currency)
	}
	if prices := q.Prices(d.house.Prices, mainCloth); q.Terms != d.house.Terms || !maps.Equal(prices, d.house.Prices) {
		d.house.Terms, d.house.Prices = q.Terms, prices
		d.keepHouse()
	}
}

// mainCloth is the id of the line for the cloth itself.
const mainCloth = "main"

// inCurrency are prices under the same figures in another currency.
func inCurrency(prices map[string]quote.Money, from, to quote.Currency) map[string]quote.Money {
	out := map[string]quote.Money{}
	for id, m := range prices {
		out[id] = to.Take(m, from)
	}
	return out
}

// typeFigure takes what was typed at a field: take reads it into the quote. What
// cannot be taken stays in the field, with the reason, and changes nothing.
func (d *Desk) typeFigure(field, text string, take func(q *quote.Quote, text string) error) {
	v := &d.view.quote
	v.note(field, text)
	if strings.TrimSpace(text) == "" {
		text = "0"
	}
	q := d.quote().Clone()
	if err := take(&q, text); err != nil {
		v.bad[field] = d.Err(err)
		return
	}
	d.editQuote(field, func(q *quote.Quote) { _ = take(q, text) })
}

// note notes what a field holds; whether it can be taken is seen then.
func (v *quoteViewed) note(field, text string) {
	if v.typed == nil {
		v.typed, v.bad = map[string]string{}, map[string]string{}
	}
	v.typed[field] = text
	delete(v.bad, field)
}

// figure is a field's text, as typed or as it is kept, and what is wrong with it.
func (v *quoteViewed) figure(field, kept string) bill.Figure {
	if t, ok := v.typed[field]; ok {
		kept = t
	}
	return bill.Figure{Text: kept, Bad: v.bad[field]}
}

func (d *Desk) quoteView() bill.View {
	at, q := &d.view.quote, d.quote()
	s, c := q.Sum(), q.Currency
	v := bill.View{
		Words: d.Words, Missing: at.fault, TermsOpen: at.open, Open: q.Open, Asked: s.Total > 0, Sends: d.browser.Sends,
		Given: day.Day(q.Given).Text(d.Words), Pay: at.figure("pay", ""), Told: d.view.share.told, ToldOf: d.view.share.of,
		OnLine: d.typeLine,
		OnAdd: func() {
			d.editQuote("", func(q *quote.Quote) {
				q.Lines = append(q.Lines, quote.Line{ID: d.freeLine(*q), Own: true, Count: quote.One, Per: quote.Piece})
			})
		},
		OnRemove: func(id string) {
			d.editQuote("", func(q *quote.Quote) { q.Remove(id) })
		},
		OnGive: d.giveQuote, OnTerms: func() { at.open = !at.open }, OnTerm: d.typeTerm, Flat: q.Flat, Free: q.Free,
		OnFlat: func(yes bool) {
			at.typed, at.bad = nil, nil // the figures are others
			d.editQuote("", func(q *quote.Quote) { q.Flat = yes })
		},
		OnFree:    func(yes bool) { d.editQuote("", func(q *quote.Quote) { q.Free = yes }) },
		OnOpen:    func() { d.editQuote("", func(q *quote.Quote) { q.Open = !q.Open }) },
		OnPay:     d.typePayment,
		OnReceive: d.receive,
		OnBack: func() {
			d.editQuote("", func(q *quote.Quote) { q.Paid = q.Paid[:max(0, len(q.Paid)-1)] })
		},
		OnWhole: func() {
			d.editQuote("", func(q *quote.Quote) { q.Receive(d.payment(q.Sum().Owed)) })
		},
		OnText: func(send bool) {
			d.sendText(d.bill().Message(d.Words), send, func(told string) { d.tellShared(bill.Text, told) })
		},
		OnFile: d.shareFile, OnStop: d.stopFile,
	}
	follows := slices.ContainsFunc(q.Lines, func(l quote.Line) bool { return !l.Own })
	switch {
	case follows:
	case d.work.Result != nil || d.waiting:
		v.Waits = at.waits || d.waiting
	case len(q.Lines) == 0:
		v.Missing = d.T("Cloth and notions are here once the draft is made. What else you charge can be written down now.")
	}
	for _, l := range q.Lines {
		v.Lines = append(v.Lines, d.lineView(l, q))
	}
	v.Terms = map[string]bill.Figure{
		bill.Currency: at.figure(bill.Currency, c.Sign), bill.Margin: at.figure(bill.Margin, orBlank(q.Margin == 0, q.Margin.Text(d.Words))),
		bill.Step: at.figure(bill.Step, orBlank(q.Step == 0, c.Bare(q.Step, d.Words))), bill.Deposit: at.figure(bill.Deposit, orBlank(q.Deposit == 0, q.Deposit.Text(d.Words))),
	}
	for _, p := range q.Paid {
		v.Payments = append(v.Payments, bill.Payment{Day: day.Day(p.Day).Text(d.Words), Amount: c.Text(p.Amount, d.Words)})
	}
	if s.Total > 0 {
		v.Total = d.F("In all %s", c.Text(s.Total, d.Words))
	}
	if s.Owed > 0 {
		v.Whole = c.Text(s.Owed, d.Words)
	}
	for _, l := range q.Later(d.charges()) {
		v.Later = append(v.Later, d.F("%s: agreed %s, now %s", kit.Sentence(d.T(l.Name)), l.Per.Much(l.Given, d.Words), l.Per.Much(l.Now, d.Words)))
	}
	v.Inner, v.Rows = d.innerRows(q), d.bill().Rows(d.Words)
	if m := d.view.share.made; m.id != 0 {
		v.Making, v.Percent = m.what, percent(m.now, m.in)
	}
	return v
}

// orBlank is a figure, nothing where there is none.
func orBlank(none bool, figure string) string {
	if none {
		return ""
	}
	return figure
}

func (d *Desk) lineView(l quote.Line, q quote.Quote) bill.Line {
	at, c := &d.view.quote, q.Currency
	out := bill.Line{
		ID: l.ID, Name: kit.Sentence(l.Named(d.Words)), Own: l.Own,
		Count: at.figure(lineField(l.ID, bill.Count), orBlank(l.Count == 0, l.Per.Of(l.Count, d.Words))),
		Price: at.figure(lineField(l.ID, bill.Price), orBlank(l.Price == 0, c.Bare(l.Price, d.Words))),
	}
	if l.Own {
		out.Name = l.Name
	}
	if l.Per != quote.Piece {
		out.Per = d.Say(l.Per)
	}
	if q.Charged(l) {
		out.Amount = c.Bare(q.Amount(l), d.Words)
	}
	switch {
	case l.Spare && q.Free:
		out.Note = d.T("in the drawer: not charged")
	case l.Spare:
		out.Note = d.T("in the drawer")
	case l.ID == quote.Labour && at.minutes > 0:
		out.Note = d.reckoned(at.minutes)
	}
	return out
}

func lineField(id, figure string) string { return "quote." + id + "." + figure }

// freeLine is an id for a line that the maker adds.
func (d *Desk) freeLine(q quote.Quote) string {
	for n := 1; ; n++ {
		if id := fmt.Sprintf("own-%d", n); q.Line(id) == nil {
			return id
		}
	}
}

// innerRows are what the maker alone sees.
func (d *Desk) innerRows(q quote.Quote) []quote.Row {
	s, c := q.Sum(), q.Currency
	rows := []quote.Row{{Name: d.T("all lines"), Amount: c.Bare(s.Lines, d.Words)}}
	add := func(m quote.Money, name string) {
		if m != 0 {
			rows = append(rows, quote.Row{Name: name, Amount: c.Bare(m, d.Words)})
		}
	}
	add(s.Margin, d.T("your margin"))
	add(s.Rounding, d.T("rounded up by"))
	rows = append(rows, quote.Row{Weight: quote.Break}, quote.Row{Weight: quote.Strong, Name: d.T("in all"), Amount: c.Text(s.Total, d.Words)})
	add(s.Deposit, d.T("before the cut"))
	if s.Paid > 0 {
		add(s.Paid, d.T("received"))
		rows = append(rows, quote.Row{Weight: quote.Strong, Name: d.T("owed"), Amount: c.Text(s.Owed, d.Words)})
	}
	return rows
}

// typeLine takes what was typed at a line.
func (d *Desk) typeLine(id, figure, text string) {
	field := lineField(id, figure)
	switch figure {
	case bill.Name:
		d.editQuote(field, func(q *quote.Quote) {
			if l := q.Line(id); l != nil {
				l.Name = clip(text)
			}
		})
	case bill.Count:
		d.typeFigure(field, text, func(q *quote.Quote, text string) error {
			n, err := quote.ParseQuantity(text)
			if l := q.Line(id); l != nil && err == nil {
				l.Count, l.Fixed = n, true
			}
			return err
		})
	default:
		d.typeFigure(field, text, func(q *quote.Quote, text string) error {
			m, err := q.Currency.Parse(text)
			if l := q.Line(id); l != nil && err == nil {
				l.Price = m
			}
			return err
		})
	}
}

// typeTerm takes what was typed at one of the terms.
func (d *Desk) typeTerm(id, text string) {
	d.typeFigure(id, text, func(q *quote.Quote, text string) (err error) {
		switch id {
		case bill.Currency:
			if text == "0" {
				text = ""
			}
			q.SetCurrency(quote.CurrencyOf(clipTo(text, 12)))
		case bill.Margin:
			q.Margin, err = quote.ParsePercent(text, quote.MostMargin)
		case bill.Step:
			q.Step, err = q.Currency.Parse(text)
		default:
			q.Deposit, err = quote.ParsePercent(text, quote.MostDeposit)
		}
		return err
	})
	if id == bill.Currency { // amounts are shown anew, with its decimals
		v := &d.view.quote
		v.typed, v.bad = map[string]string{id: text}, map[string]string{}
	}
}

// giveQuote has the quote agreed today, or open again.
func (d *Desk) giveQuote() {
	d.view.quote.typed, d.view.quote.bad = nil, nil
	d.editQuote("", func(q *quote.Quote) {
		if q.Given != "" {
			q.Given = ""
			return
		}
		q.Given = string(d.today())
	})
}

// typePayment takes what was typed as received; it is written down by receive.
func (d *Desk) typePayment(text string) { d.view.quote.note("pay", text) }

func (d *Desk) receive() {
	v := &d.view.quote
	text := v.typed["pay"]
	if strings.TrimSpace(text) == "" {
		return
	}
	m, err := d.quote().Currency.Parse(text)
	if err != nil {
		v.bad["pay"] = d.Err(err)
		return
	}
	delete(v.typed, "pay")
	p := d.payment(m)
	d.editQuote("", func(q *quote.Quote) { q.Receive(p) })
}

// payment is money that comes in today.
func (d *Desk) payment(m quote.Money) quote.Payment {
	return quote.Payment{ID: d.deps.NewID(), Day: string(d.today()), Amount: m}
}

// bill is the quote as the client gets it.
func (d *Desk) bill() quote.Bill {
	q := d.quote().Clone()
	for i, p := range q.Paid {
		q.Paid[i].Day = day.Day(p.Day).Text(d.Words)
	}
	b := quote.Bill{Quote: q, For: d.clientName(d.job.Client), Due: d.job.Due.Full(d.Words), Receipt: len(q.Paid) > 0, Title: d.garmentName(d.job.File.Garment)}
	if r := d.work.Result; r != nil {
		b.Title = draft.Title(r)
	}
	return b
}

// owed is what is still to be paid of a job that was asked for: "95.00 GHS".
func (j *Job) owed() string {
	q := j.Quote
	if s := q.Sum(); s.Owed > 0 && (q.Given != "" || s.Paid > 0) {
		return q.Currency.Text(s.Owed, nil)
	}
	return ""
}
