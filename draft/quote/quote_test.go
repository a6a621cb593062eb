package quote_test

import (
	"maps"
	"math/big"
	"strings"
	"testing"

	"golang.org/x/text/currency"
	"pgregory.net/rapid"

	"chalkfold/draft/quote"
	"chalkfold/draft/say"
)

// Decimals of currencies, against golang.org/x/text/currency, which has them
// from CLDR; CLDR follows ISO 4217 but for a few that are written without their
// cents, such as MUR, which are left out here.
func TestCurrencyDigits(t *testing.T) {
	seen := map[int]int{}
	for _, code := range strings.Fields(
		"AED AUD BHD BIF BRL CAD CDF CHF CLP CNY CVE DJF DZD EGP ETB EUR GBP GHS GMD GNF HKD INR JOD JPY KES KMF KRW KWD LYD MAD MWK MXN MZN NAD NGN NZD OMR PHP PYG RWF SEK TND UGX USD VND VUV XAF XOF XPF ZAR ZMW") {
		u, err := currency.ParseISO(code)
		if err != nil {
			t.Fatalf("%s: %v", code, err)
		}
		digits, _ := currency.Standard.Rounding(u)
		if got := quote.CurrencyOf(code).Digits; got != digits {
			t.Errorf("%s has %d decimals, not %d", code, digits, got)
		}
		seen[digits]++
	}
	if seen[0] < 10 || seen[2] < 20 || seen[3] < 5 {
		t.Errorf("too few of some kind were looked at: %v", seen)
	}
}

func TestParse(t *testing.T) {
	for _, tt := range []struct {
		digits int
		text   string
		want   quote.Money
		why    string // in the error
	}{
		{2, "12", 1200, ""},
		{2, "12.5", 1250, ""},
		{2, "12,05", 1205, ""},
		{2, "1 200.50", 120050, ""},
		{2, "1\u00a0200", 120000, ""},
		{2, "1’200", 120000, ""},
		{2, ".5", 50, ""},
		{3, "1.234", 1234, ""},
		{2, "", 0, "no figure"},
		{2, ".", 0, "no figure"},
		{2, "-3", 0, "no figure"},
		{2, "twelve", 0, "no figure"},
		{2, "1.2.3", 0, "no figure"},
		{2, "1.234", 0, "more than 2 decimals"},
		{0, "1.5", 0, "whole number"},
		{2, "1,200", 0, "more than 2 decimals"}, // is it 1200, or 1.2?
		{0, "1,200", 0, "whole number"},
		{2, "9999999999999", 0, "more than can be reckoned"},
		{2, "1000000001", 0, "more than can be reckoned"},
	} {
		got, err := quote.Currency{Digits: tt.digits}.Parse(tt.text)
		switch {
		case tt.why == "" && (err != nil || got != tt.want):
			t.Errorf("%q: %v, %v; want %d", tt.text, got, err, tt.want)
		case tt.why != "" && (err == nil || !strings.Contains(err.Error(), tt.why)):
			t.Errorf("%q: %v, %v; want an error about %q", tt.text, got, err, tt.why)
		}
	}
}

func TestTexts(t *testing.T) {
	fr, _ := say.Find("fr")
	french := say.New(fr, nil)
	ghs := quote.CurrencyOf("GHS")
	for _, tt := range []struct{ got, want string }{
		{ghs.Text(1250, nil), "12.50 GHS"},
		{ghs.Text(1250, french), "12,50 GHS"},
		{ghs.Text(123456705, nil), "1\u00a0234\u00a0567.05 GHS"},
		{ghs.Text(-5, nil), "−0.05 GHS"},
		{quote.CurrencyOf("XOF").Text(4500, nil), "4\u00a0500 XOF"},
		{quote.CurrencyOf("TND").Text(1500, nil), "1.500 TND"},
		{quote.CurrencyOf("").Text(100, nil), "1.00"},
		{quote.Quantity(2250).Text(nil), "2.25"},
		{quote.Quantity(2000).Text(nil), "2"},
		{quote.Quantity(125).Text(french), "0,125"},
		{quote.Quantity(2250).Eighths(french), "2¼"},
		{quote.Quantity(375).Eighths(nil), "⅜"},
		{quote.Quantity(1300).Eighths(nil), "1.3"},
		{quote.Quantity(3000).Eighths(nil), "3"},
		{quote.Metre.Much(2500, nil), "2.5 m"},
		{quote.Hour.Much(2500, nil), "2½ h"},
		{quote.Piece.Much(2000, nil), "2"},
		{quote.Percent(1250).Text(nil), "12.5"},
	} {
		if tt.got != tt.want {
			t.Errorf("%q, want %q", tt.got, tt.want)
		}
	}
}

// nearest is a/b rounded to the nearest, half up, reckoned by math/big.
func nearest(a, b int64) quote.Money {
	n := new(big.Int).Add(new(big.Int).Mul(big.NewInt(2), big.NewInt(a)), big.NewInt(b))
	return quote.Money(n.Div(n, big.NewInt(2*b)).Int64())
}

func drawQuote(t *rapid.T) quote.Quote {
	q := quote.Quote{Terms: quote.Terms{
		Currency: quote.Currency{Digits: rapid.IntRange(0, 3).Draw(t, "digits")},
		Margin:   quote.Percent(rapid.IntRange(0, int(quote.MostMargin)).Draw(t, "margin")),
		Step:     quote.Money(rapid.IntRange(0, 5000).Draw(t, "step")),
		Deposit:  quote.Percent(rapid.IntRange(0, int(quote.MostDeposit)).Draw(t, "deposit")),
		Flat:     rapid.Bool().Draw(t, "flat"),
		Free:     rapid.Bool().Draw(t, "free"),
	}}
	for range rapid.IntRange(0, 8).Draw(t, "lines") {
		q.Lines = append(q.Lines, quote.Line{
			ID:    rapid.StringMatching("[a-z]{1,8}").Draw(t, "id"),
			Name:  rapid.StringMatching("[a-zé ]{0,9}").Draw(t, "name"),
			Own:   rapid.Bool().Draw(t, "own"),
			Count: quote.Quantity(rapid.IntRange(0, 50_000).Draw(t, "count")),
			Fixed: rapid.Bool().Draw(t, "fixed"),
			Per:   rapid.SampledFrom([]quote.Per{quote.Piece, quote.Yard, quote.Metre, quote.Hour}).Draw(t, "per"),
			Price: quote.Money(rapid.IntRange(0, 1_000_000).Draw(t, "price")),
			Spare: rapid.Bool().Draw(t, "spare"),
		})
	}
	for range rapid.IntRange(0, 3).Draw(t, "payments") {
		q.Paid = append(q.Paid, quote.Payment{Day: "2031-05-17", Amount: quote.Money(rapid.IntRange(0, 1_000_000).Draw(t, "paid"))})
	}
	return q
}

// A quote adds up: to the last unit, in every row that the client sees, whatever
// was entered. The figures are reckoned once more with math/big.
func TestSumsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawQuote(t)
		s := q.Sum()
		var lines quote.Money
		for _, l := range q.Lines {
			want := nearest(int64(l.Count)*int64(l.Price), 1000)
			if q.Free && l.Spare {
				want = 0
			}
			if q.Amount(l) != want {
				t.Fatalf("%v × %v is %v, want %v", l.Count, l.Price, q.Amount(l), want)
			}
			lines += want
		}
		if s.Lines != lines || s.Lines+s.Margin+s.Rounding != s.Total || s.Paid+s.Owed != s.Total {
			t.Fatalf("%+v does not add up; the lines are %v", s, lines)
		}
		if want := nearest(int64(lines)*int64(q.Margin), 10_000); s.Margin != want {
			t.Fatalf("margin %v, want %v", s.Margin, want)
		}
		if s.Rounding < 0 || q.Step > 1 && (s.Total%q.Step != 0 || s.Rounding >= q.Step) {
			t.Fatalf("%v rounded up to steps of %v: %v", s.Lines+s.Margin, q.Step, s.Total)
		}
		if s.Deposit < 0 || s.Deposit > s.Total {
			t.Fatalf("a deposit of %v on %v", s.Deposit, s.Total)
		}
		if q.Settled() != (s.Total > 0 && s.Paid >= s.Total) {
			t.Fatalf("%+v: settled is %v", s, q.Settled())
		}
	})
}

// What a draft has comes into a quote once, priced by what it is for: a price is
// never taken from one unit to another, and the rows of an open bill add up to its
// total, whatever was charged how before.
func TestFollowAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawQuote(t)
		q.Open = true
		per := rapid.SampledFrom([]quote.Per{quote.Yard, quote.Metre}).Draw(t, "by")
		draft := []quote.Line{
			{ID: "main", Name: "main cloth", Count: quote.Quantity(rapid.IntRange(0, 9000).Draw(t, "cloth")), Per: per},
			{ID: "lining", Name: "lining", Count: 1125, Per: per},
			{ID: "zip", Name: "zip", Count: quote.One, Per: quote.Piece, Spare: rapid.Bool().Draw(t, "drawer")},
			{ID: quote.Labour, Name: "labour", Count: quote.Hours(rapid.IntRange(0, 3000).Draw(t, "minutes")), Per: quote.Hour},
		}
		prices := map[string]quote.Money{"lining yd": 300, "lining m": 330, "zip piece": 350, "labour h": 1200, "labour piece": 6000}
		q.Lines = append(q.Lines, q.Follow(draft, prices).Lines...)
		q.Flat = rapid.Bool().Draw(t, "now flat")
		q = q.Follow(draft, prices).Follow(draft, prices)
		seen := map[string]int{}
		for _, l := range q.Lines {
			seen[l.ID]++
			if want, known := prices[l.PriceKey()]; known && !l.Own && !l.Fixed && l.Price != want && l.ID != "main" {
				t.Fatalf("%+v, remembered at %v", l, want)
			}
		}
		for _, l := range draft {
			if seen[l.ID] < 1 {
				t.Fatalf("%s is lost: %+v", l.ID, q.Lines)
			}
		}
		labour := q.Line(quote.Labour)
		if q.Flat != (labour.Per == quote.Piece) {
			t.Fatalf("flat is %v, labour %+v", q.Flat, labour)
		}
		sum := quote.Money(0)
		for _, l := range q.Lines {
			sum += q.Amount(l)
		}
		if s := q.Sum(); s.Lines != sum || sum+s.Margin+s.Rounding != s.Total {
			t.Fatalf("%v in lines, %+v", sum, s)
		}
	})
}

func TestHours(t *testing.T) {
	for minutes, want := range map[int]string{0: "0", 1: "¼", 15: "¼", 22: "¼", 23: "½", 60: "1", 320: "5¼", 1 << 50: "100000"} {
		if got := quote.Hours(minutes).Eighths(nil); got != want {
			t.Errorf("%d minutes are %s h, want %s", minutes, got, want)
		}
	}
}

// Quotes and prices that were kept when notions went by their names, and prices
// by what they are alone, keep what they cost.
func TestOlder(t *testing.T) {
	b, err := quote.DecodeBill([]byte(`{"quote":{"lines":[
		{"id":"notion zip, closed at its lower end","name":"zip, closed at its lower end","count":2000,"per":"piece","price":350,"fixed":true},
		{"id":"notion narrow tape for the pocket mouths","name":"narrow tape for the pocket mouths","count":1000,"per":"piece","price":40},
		{"id":"notion hook and eye, small","name":"hook and eye, small","count":1000,"per":"piece","price":20},
		{"id":"labour","name":"labour","count":5000,"per":"h","price":1200,"fixed":true}]}}`))
	if err != nil {
		t.Fatal(err)
	}
	was := b.Sum().Total
	q := b.Follow([]quote.Line{
		{ID: "zip", Name: "zip, closed at its lower end", Count: 1000, Per: quote.Piece},
		{ID: "hook", Name: "hook and eye, small", Count: 1000, Per: quote.Piece},
		{ID: "tape", Name: "narrow tape for the pocket mouths", Count: 500, Per: quote.Yard},
		{ID: quote.Labour, Name: "labour", Count: 6250, Per: quote.Hour},
	}, nil)
	if len(q.Lines) != 4 || q.Sum().Total != was || was != 700+40+20+6000 {
		t.Errorf("%v became %v: %+v", was, q.Sum().Total, q.Lines)
	}
	got := map[string]quote.Money{"thread piece": 90}
	for id, m := range map[string]quote.Money{
		"labour": 1200, "thread": 80, "lining": 300, "notion zip, closed at its lower end": 350,
		"notion button, or hook and bar, for the band": 100, "zip piece": 400, "hook piece": 0, "hem yd": -1, "labour piece": 1 << 60,
	} {
		quote.Recall(got, id, m)
	}
	want := map[string]quote.Money{"labour h": 1200, "thread piece": 90, "lining yd": 300, "lining m": 300, "zip piece": 400, "fastening piece": 100}
	if !maps.Equal(got, want) {
		t.Errorf("recalled as %v, want %v", got, want)
	}
}

// The largest figures that are taken do not run over.
func TestLargest(t *testing.T) {
	q := quote.Quote{
		Terms: quote.Terms{Margin: quote.MostMargin, Deposit: quote.MostDeposit},
		Lines: []quote.Line{{Count: 100_000 * quote.One, Price: 1e11}},
	}
	if s := q.Sum(); s.Lines != 1e16 || s.Margin != 1e17 || s.Total != 11e16 || s.Deposit != s.Total {
		t.Errorf("%+v", s)
	}
}

func TestRecord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawQuote(t)
		q.Currency.Sign, q.Given, q.Open = "GHS", "2031-05-16", rapid.Bool().Draw(t, "open")
		b := quote.Bill{Quote: q, Title: "Trousers, Alto 3", For: "Alto 3", Due: "Sat 17 May 2031", Receipt: true}
		data, err := b.Encode()
		if err != nil {
			t.Fatal(err)
		}
		got, err := quote.DecodeBill(data)
		if err != nil {
			t.Fatalf("%s: %v", data, err)
		}
		again, err := got.Encode()
		if err != nil || string(again) != string(data) || got.Sum() != q.Sum() {
			t.Fatalf("%s, %v, came back as %s", data, err, again)
		}
	})
}

func TestRecordRefusals(t *testing.T) {
	for _, text := range []string{
		`{"quote":{"lines":[{"id":"a","price":-1}]}}`,
		`{"quote":{"lines":[{"id":"a","count":999999999999}]}}`,
		`{"quote":{"margin":99999999}}`,
		`{"quote":{"digits":9}}`,
		`{"quote":{"paid":[{"amount":9000000000000000000}]}}`,
		`{"quote":`,
	} {
		if b, err := quote.DecodeBill([]byte(text)); err == nil {
			t.Errorf("%s is read as %+v", text, b)
		}
	}
}

// The quote of a pair of trousers, added up by hand: 2¼ yd at 40, a zip at 3.50,
// a button at 1, 5 h at 12; 20 % on top, rounded up to 5, half before the cut.
func example() quote.Quote {
	return quote.Quote{
		Terms: quote.Terms{Currency: quote.CurrencyOf("GHS"), Margin: 2000, Step: 500, Deposit: 5000},
		Lines: []quote.Line{
			{ID: "main", Name: "main cloth", Count: 2250, Per: quote.Yard, Price: 4000},
			{ID: "zip", Name: "zip", Count: 1000, Per: quote.Piece, Price: 350},
			{ID: "button", Name: "button", Count: 1000, Per: quote.Piece, Price: 100},
			{ID: quote.Labour, Name: "labour", Count: 5000, Per: quote.Hour, Price: 1200},
		},
	}
}

func TestWorkedExample(t *testing.T) {
	q := example()
	// 90 + 3.50 + 1 + 60 = 154.50; and 20 %, 30.90: 185.40, so 190.
	want := quote.Sum{Lines: 15450, Margin: 3090, Rounding: 460, Total: 19000, Deposit: 9500, Owed: 19000}
	if got := q.Sum(); got != want {
		t.Fatalf("%+v, want %+v", got, want)
	}
	b := quote.Bill{Quote: q, Title: "Trousers, Alto 3", Due: "Sat 17 May 2031"}
	if got, want := b.Message(nil), `Quote
Trousers, Alto 3
Promised for Sat 17 May 2031
main cloth: 2¼ yd
zip
button
labour: 5 h

In all: 190.00 GHS
Before the cut: 95.00 GHS
When it is fetched: 95.00 GHS
`; got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	b.Lines[0].Price, b.Lines[1].Price = 0, 0
	if got := b.Message(nil); !strings.Contains(got, "\nmain cloth: 2¼ yd, not charged\nbutton\n") {
		t.Errorf("without a price:\n%s", got)
	}
	b.Lines[0].Price, b.Lines[1].Price = 4000, 350
	b.Open, b.Receipt = true, true
	b.Paid = []quote.Payment{{Day: "10 May 2031", Amount: 9500}}
	if got, want := b.Message(nil), `Receipt
Trousers, Alto 3
Promised for Sat 17 May 2031
main cloth: 2¼ yd × 40.00 = 90.00
zip: 1 × 3.50 = 3.50
button: 1 × 1.00 = 1.00
labour: 5 h × 12.00 = 60.00
The workshop's costs, rounded: 35.50

In all: 190.00 GHS
Received on 10 May 2031: 95.00 GHS
Still to be paid: 95.00 GHS
`; got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	b.Paid = append(b.Paid, quote.Payment{Day: "17 May 2031", Amount: 10000})
	if got := b.Message(nil); !strings.HasSuffix(got, "To be given back: 5.00 GHS\n") {
		t.Errorf("paid too much: %s", got)
	}
	b.Paid[1].Amount = 9500
	if got := b.Message(nil); !strings.HasSuffix(got, "Paid in full\n") || !b.Settled() {
		t.Errorf("paid: %s", got)
	}
}

func TestFollow(t *testing.T) {
	prices := map[string]quote.Money{"zip piece": 350, "button piece": 100}
	draft := []quote.Line{
		{ID: "main", Name: "main cloth", Count: 2250, Per: quote.Yard},
		{ID: "zip", Name: "zip", Count: 1000, Per: quote.Piece},
	}
	q := quote.Quote{}.Follow(draft, prices)
	if len(q.Lines) != 2 || q.Lines[0].Price != 0 || q.Lines[1].Price != 350 {
		t.Fatalf("first: %+v", q.Lines)
	}
	q.Lines[0].Price = 4000
	q.Lines = append(q.Lines, quote.Line{ID: "own-1", Name: "embroidery", Own: true, Count: 1000, Per: quote.Piece, Price: 2000})

	draft[0].Count = 2500
	draft[1] = quote.Line{ID: "button", Name: "button", Count: 2000, Per: quote.Piece}
	q = q.Follow(draft, prices)
	if len(q.Lines) != 3 || q.Lines[0].Count != 2500 || q.Lines[0].Price != 4000 || q.Lines[1].Price != 100 || q.Lines[2].ID != "own-1" {
		t.Fatalf("the draft changed: %+v", q.Lines)
	}

	q.Lines[0].Count, q.Lines[0].Fixed = 3000, true
	if q = q.Follow(draft, prices); q.Lines[0].Count != 3000 {
		t.Errorf("a quantity that was written follows the draft: %+v", q.Lines[0])
	}
	metric := []quote.Line{{ID: "main", Name: "main cloth", Count: 2300, Per: quote.Metre}}
	if m := q.Follow(metric, prices); m.Lines[0].Price != 0 || m.Lines[0].Count != 2300 || m.Lines[0].Fixed {
		t.Errorf("a price for a yard is taken for a metre: %+v", m.Lines[0])
	}

	q.Lines[0].Fixed = false
	q.Given = "2031-05-16"
	if got := q.Follow(nil, nil); len(got.Lines) != 3 {
		t.Errorf("a quote that was given follows the draft: %+v", got.Lines)
	}
	later := q.Later([]quote.Line{draft[0], {ID: "elastic", Name: "elastic", Count: 700, Per: quote.Metre}})
	want := []quote.Change{
		{Name: "main cloth", Per: quote.Yard, Given: 3000, Now: 2500},
		{Name: "elastic", Per: quote.Metre, Now: 700},
		{Name: "button", Per: quote.Piece, Given: 2000},
	}
	if len(later) != len(want) {
		t.Fatalf("later: %+v", later)
	}
	for i := range want {
		if later[i] != want[i] {
			t.Errorf("later: %+v, want %+v", later[i], want[i])
		}
	}
}

func TestPrices(t *testing.T) {
	q := example()
	q.Lines[1].Price = 0
	got := q.Prices(map[string]quote.Money{"zip piece": 300, "elastic yd": 80}, "main")
	if len(got) != 3 || got["button piece"] != 100 || got["labour h"] != 1200 || got["elastic yd"] != 80 {
		t.Errorf("%v", got)
	}
}

func TestEmpty(t *testing.T) {
	q := quote.Quote{Lines: []quote.Line{{ID: "zip", Count: 1000}}}
	if !q.Empty() || !(quote.Quote{}).Empty() {
		t.Error("what follows the draft alone is not empty")
	}
	q.Lines[0].Price = 1
	if q.Empty() {
		t.Error("a price is nothing")
	}
}

func FuzzBill(f *testing.F) {
	b := quote.Bill{Quote: example(), Title: "Trousers"}
	data, err := b.Encode()
	if err != nil {
		f.Fatal(err)
	}
	f.Add(data)
	f.Add([]byte(`{"quote":{"lines":[{"id":"a"}],"paid":[{}]}}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		b, err := quote.DecodeBill(data)
		if err != nil {
			return
		}
		again, err := b.Encode()
		if err != nil {
			t.Skip() // texts that cannot be written, such as bytes that are no UTF-8
		}
		if _, err := quote.DecodeBill(again); err != nil {
			t.Fatalf("%s is written as %s: %v", data, again, err)
		}
		_ = b.Message(nil)
	})
}

func TestSetCurrency(t *testing.T) {
	q := example()
	q.Lines[1].Price = 350 // 3.50
	q.Paid = []quote.Payment{{Day: "2031-05-17", Amount: 9500}}
	q.SetCurrency(quote.CurrencyOf("XOF"))
	if q.Lines[0].Price != 40 || q.Lines[1].Price != 4 || q.Step != 5 || q.Paid[0].Amount != 95 {
		t.Errorf("in francs: %+v", q)
	}
	q.SetCurrency(quote.CurrencyOf("TND"))
	if q.Lines[0].Price != 40_000 || q.Paid[0].Amount != 95_000 {
		t.Errorf("in dinars: %+v", q)
	}
}

func TestParseQuantity(t *testing.T) {
	for text, want := range map[string]quote.Quantity{
		"2": 2000, "2.25": 2250, "2,5": 2500, "2¼": 2250, "2 ¼": 2250, "2 1/4": 2250, "⅜": 375, "3/8": 375, " 1 7/8 ": 1875, ".5": 500,
		"21/4": -1, "1/3": -1, "": -1, "2¼¼": -1, "1.5½": -1, "1000000": -1, "1.2345": -1,
	} {
		got, err := quote.ParseQuantity(text)
		if want < 0 && err == nil || want >= 0 && (err != nil || got != want) {
			t.Errorf("%q: %v, %v; want %v", text, got, err, want)
		}
	}
}
