//go:build !js

package ui

import (
	"bytes"
	"strings"
	"testing"

	"chalkfold/draft/quote"
	"chalkfold/draft/unit"
	"chalkfold/ui/bill"
	"chalkfold/ui/engine"
)

// quoted opens the sample at its quote.
func quoted(t *testing.T) (tried, *shared) {
	t.Helper()
	b, h := onCloth(t)
	b.stage = stageQuote
	b.wants()
	b.settle()
	return b, h
}

func billLine(t *testing.T, v bill.View, id string) bill.Line {
	t.Helper()
	for _, l := range v.Lines {
		if l.ID == id {
			return l
		}
	}
	t.Fatalf("no line %s in %+v", id, v.Lines)
	return bill.Line{}
}

// TestQuote: the lines follow the draft and its lay, prices are entered once, and
// what goes out to the client adds up.
func TestQuote(t *testing.T) {
	b, h := quoted(t)
	v := b.quoteView()
	if v.Asked || v.Missing != "" {
		t.Fatalf("at first: %+v", v)
	}
	main := billLine(t, v, "main")
	bought := unit.UpTo(b.laying.shown.Length, b.work.Result.Format.SoldBy()).MM() / 914.4
	if n, err := quote.ParseQuantity(main.Count.Text); err != nil || float64(n) < 1000*bought-1 || float64(n) > 1000*bought+1 || main.Per != "yd" {
		t.Errorf("%s %s of cloth for a lay of %.3f yd", main.Count.Text, main.Per, bought)
	}
	v.OnTerm(bill.Currency, "GHS")
	v.OnTerm(bill.Step, "5")
	v.OnTerm(bill.Deposit, "50")
	v.OnLine("main", bill.Price, "40")
	v.OnLine(quote.Labour, bill.Count, "5")
	v.OnLine(quote.Labour, bill.Price, "12.50")
	v.OnLine("main", bill.Count, "2.25")
	b.settle()
	v = b.quoteView()
	if !v.Asked || v.Whole != "155.00 GHS" { // 90 and 62.50
		t.Fatalf("owed: %q", v.Whole)
	}
	if got := billLine(t, v, quote.Labour).Amount; got != "62.50" {
		t.Errorf("labour: %s", got)
	}
	v.OnLine("main", bill.Price, "4o")
	if l := billLine(t, b.quoteView(), "main"); l.Price.Bad == "" || l.Price.Text != "4o" || l.Amount != "90.00" {
		t.Errorf("what is no figure: %+v", l)
	}
	v.OnLine("main", bill.Price, "40")

	v.OnAdd()
	v.OnLine("own-1", bill.Name, "Initials on the pocket")
	v.OnLine("own-1", bill.Price, "10")
	v = b.quoteView()
	if v.Whole != "165.00 GHS" {
		t.Errorf("with a line of her own: %s", v.Whole)
	}
	v.OnGive()
	v.OnPay("82.50")
	v.OnReceive()
	v = b.quoteView()
	if v.Given == "" || len(v.Payments) != 1 || v.Whole != "82.50 GHS" || b.job.head().Owed != "82.50 GHS" || b.job.Reached[Paid] != "" {
		t.Errorf("half is paid: %+v, owed %q", v, b.job.head().Owed)
	}
	text := b.bill().Message(b.Words)
	for _, want := range []string{"Receipt", "Initials on the pocket", "In all: 165.00 GHS", "Still to be paid: 82.50 GHS"} {
		if !strings.Contains(text, want) {
			t.Errorf("the message does not say %q:\n%s", want, text)
		}
	}
	if strings.Contains(text, "62.50") || strings.Contains(text, "12.50") {
		t.Errorf("prices are told unasked:\n%s", text)
	}
	for form, starts := range map[string]string{engine.Bill: "%PDF", engine.BillStrip: "\x89PNG"} {
		v.OnFile(form, true)
		b.settle()
		if !bytes.HasPrefix(h.file, []byte(starts)) || !h.send {
			t.Errorf("%s: %.20q", form, h.file)
		}
	}
	v.OnWhole()
	if v = b.quoteView(); v.Whole != "" || b.job.Reached[Paid] == "" || b.job.head().Owed != "" {
		t.Errorf("all is paid: %+v", v)
	}
	v.OnBack()
	if b.job.Reached[Paid] != "" || b.quoteView().Whole != "82.50 GHS" {
		t.Error("a payment taken back leaves it paid")
	}

	// What was agreed stays, and is told where the draft goes on.
	b.job.SetCloth(0, b.job.Cloth(0))
	b.view.quote.charges = append([]quote.Line{}, b.view.quote.charges...)
	for i := range b.view.quote.charges {
		if b.view.quote.charges[i].ID == "thread" {
			b.view.quote.charges[i].Count = 2 * quote.One
		}
	}
	if v = b.quoteView(); len(v.Later) != 1 || !strings.Contains(v.Later[0], "agreed 1, now 2") {
		t.Errorf("later: %q", v.Later)
	}

	again := again(t, b.job)
	if again.Quote.Sum() != b.job.Quote.Sum() || again.Quote.Given != b.job.Quote.Given {
		t.Errorf("kept as %+v", again.Quote)
	}
}

// Labour is charged by the hour, as the order of work is reckoned, or by the piece;
// what lies in the drawer is charged or not. Both are kept for the next quote.
func TestChargedHow(t *testing.T) {
	b, _ := quoted(t)
	v := b.quoteView()
	labour := billLine(t, v, quote.Labour)
	n, err := quote.ParseQuantity(labour.Count.Text)
	if sewing := b.job.Sewing; err != nil || sewing.Minutes == 0 || n != quote.Hours(sewing.Minutes) || labour.Note == "" {
		t.Fatalf("%+v for %d minutes", labour, sewing.Minutes)
	}
	v.OnTerm(bill.Currency, "GHS")
	v.OnLine(quote.Labour, bill.Price, "10")
	v.OnLine("zip", bill.Price, "4")
	hours := b.quote().Sum().Total
	v.OnFlat(true)
	if l := billLine(t, b.quoteView(), quote.Labour); l.Count.Text != "1" || l.Price.Text != "" || l.Per != "" {
		t.Errorf("by the piece: %+v", l)
	}
	v.OnLine(quote.Labour, bill.Price, "50")
	if got := b.quote().Sum().Total; got != 5400 {
		t.Errorf("by the piece: %v", got)
	}
	v.OnFlat(false)
	if got := b.quote().Sum().Total; got != hours {
		t.Errorf("by the hour once more: %v, was %v", got, hours)
	}
	v.OnFlat(true)

	b.tickNotion("zip")
	if l := billLine(t, b.quoteView(), "zip"); l.Note == "" || l.Amount != "4.00" {
		t.Errorf("in the drawer: %+v", l)
	}
	v.OnFree(true)
	if l := billLine(t, b.quoteView(), "zip"); l.Amount != "" || b.quote().Sum().Total != 5000 || !strings.Contains(b.bill().Message(b.Words), "zip, closed at its lower end: not charged") {
		t.Errorf("not charged: %+v, %v\n%s", l, b.quote().Sum(), b.bill().Message(b.Words))
	}
	b.settle()
	b.newJob()
	b.openSample()
	b.stage = stageQuote
	b.settle()
	b.wants()
	b.settle()
	v = b.quoteView()
	if l := billLine(t, v, quote.Labour); !v.Flat || !v.Free || l.Price.Text != "50.00" || l.Count.Text != "1" {
		t.Errorf("the next begins with %v, %v, %+v", v.Flat, v.Free, l)
	}
}

// TestNextQuote: the next quote begins with the terms and the prices of the last,
// but for the cloth.
func TestNextQuote(t *testing.T) {
	b, _ := quoted(t)
	v := b.quoteView()
	v.OnTerm(bill.Currency, "XOF")
	v.OnTerm(bill.Margin, "20")
	v.OnLine("main", bill.Price, "4000")
	v.OnLine(quote.Labour, bill.Price, "900")
	b.settle()
	h, err := b.house.encode()
	if err != nil {
		t.Fatal(err)
	}
	house, err := decodeHouse(h)
	if err != nil || house.Terms != b.house.Terms || house.Prices["labour h"] != 900 {
		t.Fatalf("the house keeps %+v, %v", house, err)
	}
	b.newJob()
	b.openSample()
	b.stage = stageQuote
	b.settle()
	b.wants()
	b.settle()
	v = b.quoteView()
	if v.Terms[bill.Currency].Text != "XOF" || v.Terms[bill.Margin].Text != "20" || billLine(t, v, quote.Labour).Price.Text != "900" || billLine(t, v, "main").Price.Text != "" {
		t.Errorf("the next begins with %+v, %+v", v.Terms, v.Lines)
	}
}

// A quote can be begun before there is a draft.
func TestQuoteWithoutDraft(t *testing.T) {
	b, _ := quoted(t)
	b.newJob()
	b.settle()
	b.stage = stageQuote
	v := b.quoteView()
	if v.Missing == "" || len(v.Lines) != 0 {
		t.Fatalf("without a draft: %+v", v)
	}
	v.OnAdd()
	v.OnLine("own-1", bill.Price, "10")
	if v = b.quoteView(); !v.Asked {
		t.Errorf("%+v", v)
	}
	v.OnRemove("own-1")
	if v = b.quoteView(); v.Asked || len(v.Lines) != 0 {
		t.Errorf("taken out: %+v", v)
	}
}
