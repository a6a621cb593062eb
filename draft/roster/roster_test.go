package roster_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chalkfold/draft/body"
	"chalkfold/draft/roster"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

func q(t interface{ Fatal(...any) }, s string) unit.Quantity {
	v, err := unit.Parse(s, unit.Inches)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func sample(t *testing.T) []roster.Row {
	return []roster.Row{
		{
			Client: "Alto 3", Ticket: "Choir, 2031", Garment: "trousers", Figure: body.Women, Taken: "2031-05-17", Due: "2031-05-24", Note: "red \"thread\"\nno cuffs",
			Takings: body.Takings{body.HipGirth: {Value: q(t, "42 1/8 in")}, body.WaistGirth: {Value: q(t, "86.4 cm")}, body.BodyRise: {Value: q(t, "10½ in"), Of: body.OfGarment}},
		},
		{Client: "=1+1", Ticket: "'quoted", Garment: "skirt", Takings: body.Takings{body.HipGirth: {Value: q(t, "38 in")}}},
	}
}

func same(t interface {
	Helper()
	Fatalf(string, ...any)
}, got, want []roster.Row,
) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%d rows, want %d: %+v", len(got), len(want), got)
	}
	for i, w := range want {
		g := got[i]
		if len(g.Takings) != len(w.Takings) {
			t.Fatalf("row %d: %+v, want %+v", i, g.Takings, w.Takings)
		}
		for id, was := range w.Takings {
			if is := g.Takings[id]; is.Of != was.Of || math.Abs((is.Value.Length()-was.Value.Length()).MM()) > 1e-3 {
				t.Fatalf("row %d: %s is %v, was %v", i, id, is, was)
			}
		}
		g.Takings, w.Takings = nil, nil
		if g.Client != w.Client || g.Ticket != w.Ticket || g.Garment != w.Garment || g.Figure != w.Figure || g.Taken != w.Taken || g.Due != w.Due || g.Note != w.Note {
			t.Fatalf("row %d: %+v, want %+v", i, g, w)
		}
	}
}

func TestRoundTrip(t *testing.T) {
	fr, _ := say.Find("fr")
	for _, w := range []*say.Words{nil, say.New(fr, nil)} {
		for _, in := range []unit.System{unit.Inches, unit.Centimetres} {
			data, err := roster.Write(sample(t), in, w)
			if err != nil {
				t.Fatal(err)
			}
			rows, problems, err := roster.Read(data, unit.Inches)
			if err != nil || len(problems) > 0 {
				t.Fatalf("%v, %v\n%s", err, problems, data)
			}
			same(t, rows, sample(t))
		}
	}
}

// What spreadsheets make of the file when they save it is read as well: other
// separators, decimals with a comma, days in the manner of the place, columns in
// another order, empty rows below (common practice).
func TestAsSpreadsheetsSaveIt(t *testing.T) {
	want := []roster.Row{{
		Client: "Alto 3", Garment: "trousers", Taken: "2031-05-17",
		Takings: body.Takings{body.HipGirth: {Value: q(t, "42.5 in")}, body.WaistGirth: {Value: q(t, "86.4 cm")}},
	}}
	for _, file := range []string{
		"client,garment,taken,hip_girth (in),waist_girth (cm)\nAlto 3,trousers,2031-05-17,42.5,86.4\n",
		"client;garment;taken;hip_girth (in);waist_girth (cm)\r\nAlto 3;trousers;17.05.2031;42,5;86,4\r\n;;;;\r\n",
		"Client\tHip girth [IN]\tGarment\tWaist girth (CM)\tTaken\tShoe size\nAlto 3\t42 1/2\tTrousers\t86.4\t5/17/2031\t39\n",
		"\ufeff\"client\",\"garment\",\"taken\",\"hip girth\",\"waist girth\"\n\"Alto 3\",\"trousers\",\"17/05/2031 00:00\",\"42½\",\"86.4 cm\"\n",
	} {
		rows, problems, err := roster.Read([]byte(file), unit.Inches)
		if err != nil || len(problems) > 0 {
			t.Errorf("%q: %v, %v", file, err, problems)
			continue
		}
		same(t, rows, want)
	}
}

func TestProblems(t *testing.T) {
	rows, problems, err := roster.Read([]byte("client,figure,taken,hip_girth (in)\nAlto 3,child,05/06/2031,wide\nAlto 4,,,-3\nAlto 5,,,38\n"), unit.Inches)
	if err != nil || len(rows) != 3 {
		t.Fatalf("%v, %+v", err, rows)
	}
	var said []string
	for _, p := range problems {
		said = append(said, p.In(nil))
	}
	if got, want := strings.Join(said, "\n"), `Row 2, figure: “child” is none: write women or men, or leave it empty
Row 2, taken: “05/06/2031” is no day: write it as 2031-05-17
Row 2, hip_girth (in): “wide” is no length
Row 3, hip_girth (in): “-3” is no length`; got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	for _, file := range []string{"", "\n\n", "size,price\n1,2\n"} {
		if _, _, err := roster.Read([]byte(file), unit.Inches); err == nil {
			t.Errorf("%q is taken for a table", file)
		}
	}
}

func TestAnyTextRoundTrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := roster.Row{
			Client: strings.TrimSpace(rapid.StringMatching(`[=+@';,"ẹọa-z 0-9-]{1,20}`).Draw(t, "client")), Ticket: "t",
			Takings: body.Takings{body.HipGirth: {Value: q(t, rapid.SampledFrom([]string{"42 in", "41 7/8 in", "40 3/32 in", "101.6 cm"}).Draw(t, "hip"))}},
		}
		data, err := roster.Write([]roster.Row{r}, unit.Inches, nil)
		if err != nil {
			t.Fatal(err)
		}
		rows, problems, err := roster.Read(data, unit.Inches)
		if err != nil || len(problems) > 0 {
			t.Fatalf("%v, %v\n%s", err, problems, data)
		}
		same(t, rows, []roster.Row{r})
	})
}

func FuzzRead(f *testing.F) {
	f.Add([]byte("client,hip_girth (in)\nAlto 3,42\n"))
	f.Fuzz(func(_ *testing.T, data []byte) {
		rows, _, err := roster.Read(data, unit.Inches)
		if err == nil {
			_, _ = roster.Write(rows, unit.Centimetres, nil)
		}
	})
}
