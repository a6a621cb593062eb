package draft_test

import (
	"bytes"
	"image/png"
	"math"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/bench"
	"chalkfold/draft/lay"
	"chalkfold/draft/quote"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/pdf/noto"
	"chalkfold/draft/sheet/strip"
	"chalkfold/draft/unit"
)

// charged is the line of that id.
func charged(t *testing.T, lines []quote.Line, id string) quote.Line {
	t.Helper()
	l := quote.Quote{Lines: lines}.Line(id)
	if l == nil {
		t.Fatalf("no line %q in %+v", id, lines)
	}
	return *l
}

// What is charged is what a shop cuts off for the lay: in eighths of a yard.
func TestCharges(t *testing.T) {
	r := example(t, "alto-3.json")
	laid, err := draft.Lay(r, 0, lay.Options{Work: 1})
	if err != nil {
		t.Fatal(err)
	}
	lines, minutes, err := draft.Charges(r, laid, bench.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	main := charged(t, lines, "main")
	yards := float64(main.Count) / float64(quote.One)
	over := yards*36 - laid.Length.MM()/25.4
	if main.Per != quote.Yard || over < 0 || over >= 36.0/8 || math.Mod(yards*8, 1) != 0 {
		t.Errorf("%v yd are charged for a lay of %v mm", yards, laid.Length.MM())
	}
	notions, err := draft.Notions(r, bench.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	if len(lines) != len(notions)+2 { // cloth and labour
		t.Errorf("%d lines for %d notions", len(lines), len(notions))
	}
	for _, n := range notions {
		if l := charged(t, lines, n.ID); l.Count != n.Count || l.Count <= 0 || l.Per != n.Per || l.Name != n.Name {
			t.Errorf("%+v: %+v", n, l)
		}
	}
	tape, least := charged(t, lines, "tape"), unit.Length(0)
	for _, n := range r.Notions {
		if n.ID == "tape" {
			least = n.Least
		}
	}
	if over := float64(tape.Count)/1000*914.4 - least.MM(); tape.Per != quote.Yard || over < 0 || over >= 914.4/8 {
		t.Errorf("%+v of tape where %.0f mm are sewn in", tape, least.MM())
	}
	tasks, err := draft.Order(r, bench.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	sum := 0
	for _, task := range tasks {
		sum += task.Minutes
	}
	if l := charged(t, lines, quote.Labour); l.Per != quote.Hour || minutes != sum || math.Abs(float64(l.Count)/1000*60-float64(sum)) > 7.5 {
		t.Errorf("labour for %d minutes: %+v, %d", sum, l, minutes)
	}

	j := r.Job
	j.Units.System = unit.Centimetres
	var m draft.Maker
	if r, err = m.Make(j); err != nil {
		t.Fatal(err)
	}
	if lines, _, err = draft.Charges(r, laid, bench.Setting{}); err != nil {
		t.Fatal(err)
	}
	main = charged(t, lines, "main")
	if metres := float64(main.Count) / 1000; main.Per != quote.Metre || math.Abs(metres-yards*0.9144) > 0.2 || main.Count%100 != 0 {
		t.Errorf("%v m where %v yd are taken", metres, yards)
	}
}

func bill() quote.Bill {
	return quote.Bill{
		Quote: quote.Quote{
			Terms: quote.Terms{Currency: quote.CurrencyOf("GHS"), Margin: 2000, Step: 500, Deposit: 5000},
			Lines: []quote.Line{
				{ID: "main", Name: "main cloth", Count: 2250, Per: quote.Yard, Price: 4000},
				{ID: "lining", Name: "lining", Count: 500, Per: quote.Yard},
				{ID: "zip", Name: "zip, closed at its lower end", Count: 1000, Per: quote.Piece, Price: 350},
				{ID: "hook", Name: "button, or hook and bar, for the band", Count: 1000, Per: quote.Piece, Price: 100},
				{ID: "own-1", Own: true, Name: "initials sewn on the pocket, in the choir's colour", Count: 1000, Per: quote.Piece, Price: 1_500_000},
				{ID: quote.Labour, Name: "labour", Count: 5000, Per: quote.Hour, Price: 1200},
			},
			Open: true, Paid: []quote.Payment{{Day: "10 May 2031", Amount: 9500}},
		},
		Title: "Alto 3, trousers", For: "Alto 3", Due: "Sat 17 May 2031", Receipt: true,
	}
}

func TestBillSheet(t *testing.T) {
	b := bill()
	for _, paper := range append(sheet.Papers(), sheet.Rolls()...) {
		d, err := draft.BillSheet(b, paper, nil)
		if err != nil {
			t.Errorf("%s: %v", paper.Name, err)
			continue
		}
		readable(t, "bill on "+paper.Name, []sheet.Drawing{d})
		text := said(d)
		for _, r := range b.Rows(nil) {
			if r.Amount != "" && !strings.Contains(text, r.Amount) {
				t.Errorf("%s: %s is missing", paper.Name, r.Amount)
			}
		}
	}
	for range 200 {
		b.Lines = append(b.Lines, quote.Line{Own: true, Name: "one more", Count: 1000, Per: quote.Piece, Price: 1})
	}
	if _, err := draft.BillSheet(b, sheet.A4(), nil); err == nil {
		t.Error("two hundred lines are on one sheet")
	}
}

func TestBillStrip(t *testing.T) {
	var b bytes.Buffer
	if err := draft.BillStrip(&b, noto.Sans(), bill(), nil); err != nil {
		t.Fatal(err)
	}
	head, err := png.DecodeConfig(&b)
	if err != nil || head.Width != strip.Width || head.Height > 1500 {
		t.Errorf("%d by %d dots, %v", head.Width, head.Height, err)
	}
}
