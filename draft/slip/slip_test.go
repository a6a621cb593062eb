package slip_test

import (
	"bytes"
	"encoding/base64"
	"encoding/hex"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/job"
	"chalkfold/draft/prove"
	"chalkfold/draft/prove/provetest"
	"chalkfold/draft/rules"
	"chalkfold/draft/slip"
	"chalkfold/draft/unit"
	"chalkfold/testdata/jobs"
)

func read(t testing.TB, name string) job.Job {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	j, err := job.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// file is a job as its file, which says all of it.
func file(t testing.TB, j job.Job) string {
	t.Helper()
	var b bytes.Buffer
	if err := j.Encode(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// travels writes a job, reads it again and holds the two against each other.
func travels(t testing.TB, j job.Job) []byte {
	t.Helper()
	data, err := slip.Encode(j)
	if err != nil {
		t.Fatal(err)
	}
	got, err := slip.Decode(data)
	if err != nil {
		t.Fatalf("%x: %v", data, err)
	}
	if want := file(t, j); file(t, got) != want {
		t.Fatalf("read as\n%s\nwant\n%s", file(t, got), want)
	}
	return data
}

func TestJobsTravel(t *testing.T) {
	for _, name := range []string{"alto-3", "alto-3-spoken", "lab-coat-7"} {
		j := jobs.Read(t, name+".json")
		t.Logf("%s: %d bytes", name, len(travels(t, j)))
	}
	j := jobs.Read(t, "alto-3.json")
	j.Cloth[0].Kept = []job.Kept{{Piece: "front", Copy: 2, Across: quantity(t, "3 in"), Along: quantity(t, "86.4 cm"), Turn: "180", Over: true, Opened: true}}
	j.Cloth[0].Flaws = []job.Flaw{{FromSelvedge: quantity(t, "3 in"), FromEdge: quantity(t, "0 in"), Across: quantity(t, "½ in"), Along: quantity(t, "1 in")}}
	j.Cloth[0].OneWay, j.Untrued = true, []string{"hip", "waist"}
	j.Rules.Client = rules.Values{"seat_tilt": "-1/2 in", "not_known_yet": "Ẹgbẹ́"}
	j.Alterations = []job.Alteration{{Kind: "back_longer", By: quantity(t, "½ in"), For: job.ForClient}, {Kind: "not_known_yet", By: quantity(t, "1.2 cm"), For: job.ForJob}}
	without := len(travels(t, jobs.Read(t, "alto-3.json")))
	one := jobs.Read(t, "alto-3.json")
	one.Alterations = j.Alterations[:1]
	if more := len(travels(t, one)) - without; more > 16 {
		t.Errorf("an alteration takes %d bytes", more)
	}
	travels(t, j)
}

func quantity(t testing.TB, text string) unit.Quantity {
	t.Helper()
	q, err := unit.Parse(text, unit.Inches)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// A length comes back as it was entered: 34 1/2 in is not 34.5 in, nor 34 4/8 in.
func TestLengthsTravelAsEntered(t *testing.T) {
	none := job.New("trousers")
	none.Measurements = body.Takings{body.HipGirth: {Value: quantity(t, "0 in")}}
	shortest := len(travels(t, none)) - 1
	for n := range 16 * 60 {
		for _, text := range []string{fmt.Sprintf("%d/16 in", n), fmt.Sprintf("%d.%d cm", n/10, n%10)} {
			j := job.New("trousers")
			j.Measurements = body.Takings{body.HipGirth: {Value: quantity(t, text)}}
			travels(t, j)
			f := unit.Format{System: quantity(t, text).System(), Den: 16} // as it is mostly written
			j.Measurements[body.HipGirth] = body.Taking{Value: quantity(t, f.Text(quantity(t, text).Length()))}
			if data := travels(t, j); len(data) > shortest+4 {
				t.Fatalf("%s takes %d bytes", f.Text(quantity(t, text).Length()), len(data)-shortest)
			}
		}
	}
	for _, text := range []string{"34.5 in", "34 4/8 in", "34 8/16 in", "86.0 cm", "86.40 cm", "0.0007 cm", "12.3450 cm", "12.345 cm", "5 ft 4 in", "1 yd 9½ in", "1.7 m", "861 mm", "7/3 in", "0 in", "0.0 cm"} {
		j := job.New("trousers")
		j.Measurements = body.Takings{body.HipGirth: {Value: quantity(t, text)}}
		travels(t, j)
		if got := file(t, j); !strings.Contains(got, quantity(t, text).String()) {
			t.Errorf("%s is not in %s", text, got)
		}
	}
}

// Every seventh surveyed body, in each style by turns, as an inch tape and as a
// centimetre tape say it.
func TestSurveyTravels(t *testing.T) {
	styles, every := prove.Styles(), 7
	if testing.Short() {
		every = 70
	}
	for i, b := range provetest.Bodies(t, every) {
		j := styles[i%len(styles)].Job(b)
		for _, f := range []unit.Format{{System: unit.Inches, Den: 8}, {System: unit.Centimetres}} {
			for id, got := range b.Taken {
				got.Value = quantity(t, f.Text(f.Round(got.Value.Length())))
				j.Measurements[id] = got
			}
			if data := travels(t, j); len(data) > 200 {
				t.Fatalf("%s has %d bytes", j.Name, len(data))
			}
		}
	}
}

// What is not asked for is not given, and what is given is drafted the same.
func TestGive(t *testing.T) {
	j := jobs.Read(t, "lab-coat-7.json")
	j.Cloth[0].Remnant = "r1"
	j.Alterations = []job.Alteration{{Kind: "hip_out", By: quantity(t, "½ in"), For: job.ForClient}}
	for _, tt := range []struct {
		what slip.What
		want func(*job.Job)
	}{
		{slip.What{}, func(w *job.Job) {
			w.Name, w.Figure, w.Measurements, w.Rules.Client, w.Cloth, w.Alterations = "", "", nil, nil, nil, nil
		}},
		{slip.What{Measurements: true}, func(w *job.Job) { w.Name, w.Cloth = "", nil }},
		{slip.What{Name: true}, func(w *job.Job) {
			w.Figure, w.Measurements, w.Rules.Client, w.Cloth, w.Alterations = "", nil, nil, nil, nil
		}},
		{slip.What{Measurements: true, Cloth: true}, func(w *job.Job) {
			w.Name = ""
			for i := range w.Cloth {
				w.Cloth[i].Name, w.Cloth[i].Remnant = "", ""
			}
		}},
		{slip.What{Measurements: true, Name: true, Cloth: true}, func(w *job.Job) { w.Cloth[0].Remnant = "" }},
	} {
		want := j.Clone()
		tt.want(&want)
		if got := slip.Give(j, tt.what); !reflect.DeepEqual(got, want) {
			t.Errorf("%+v gives\n%+v\nwant\n%+v", tt.what, got, want)
		}
	}
	if j.Name == "" || j.Cloth[0].Remnant == "" {
		t.Error("the job itself was changed")
	}
}

// The slips of links that were sent open for ever, as what they were.
func TestOldSlipsOpen(t *testing.T) {
	old, err := filepath.Glob("testdata/old/*.slip")
	if err != nil || len(old) < 3 {
		t.Fatalf("%d old slips, %v", len(old), err)
	}
	for _, name := range old {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		data, err := base64.RawURLEncoding.DecodeString(strings.TrimSpace(string(text)))
		if err != nil {
			t.Fatal(err)
		}
		got, err := slip.Decode(data)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		want := read(t, strings.TrimSuffix(name, ".slip")+".json")
		if file(t, got) != file(t, want) {
			t.Errorf("%s opens as\n%s", name, file(t, got))
		}
	}
}

func TestRulesTravel(t *testing.T) {
	for _, l := range []rules.Lent{
		{Values: rules.Values{}},
		{Name: "Mother's", Values: rules.Values{"seat_tilt": "1½ in", "belt_loops": "7", "not_known_yet": "on"}},
		{Name: "Mother's", Values: rules.Values{"seat_tilt": "1½ in"}, Method: "balanced"},
	} {
		data, err := slip.EncodeRules(l)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := slip.DecodeRules(data); err != nil || !reflect.DeepEqual(got, l) {
			t.Errorf("%+v is read as %+v, %v", l, got, err)
		}
		l.Method = "" // it was not in the form of before
		before, err := l.Encode()
		if err != nil {
			t.Fatal(err)
		}
		if got, err := slip.DecodeRules(before); err != nil || !reflect.DeepEqual(got, l) {
			t.Errorf("in the form of before, %+v is read as %+v, %v", l, got, err)
		}
		if _, err := rules.DecodeLent(data); !errors.Is(err, rules.ErrLentNewer) {
			t.Errorf("a program of before says %v", err)
		}
	}
	if _, err := slip.EncodeRules(rules.Lent{Values: rules.Values{"seat\n": "1"}}); err == nil {
		t.Error("a rule that cannot be lent was written")
	}
	if _, err := slip.EncodeRules(rules.Lent{Method: "Balanced\n"}); err == nil {
		t.Error("a method that has no such name was written")
	}
}

func TestHostileSlipIsRefused(t *testing.T) {
	whole := travels(t, jobs.Read(t, "alto-3.json"))
	for i := range whole {
		if _, err := slip.Decode(whole[:i]); err == nil {
			t.Errorf("read when cut at %d", i)
		}
	}
	for what, tt := range map[string]struct {
		hex  string
		want error
	}{
		"nothing":                       {"", slip.ErrDamaged},
		"version alone":                 {"02", slip.ErrDamaged},
		"version 1":                     {"011d00", slip.ErrDamaged},
		"version 3":                     {"031d00", slip.ErrNewer},
		"more behind":                   {"021d0000", slip.ErrDamaged},
		"no end":                        {"021d", slip.ErrDamaged},
		"a text longer than the slip":   {"021d12f8ffffffffffffffff01", slip.ErrDamaged},
		"a number that never ends":      {"021dffffffffffffffffffffff", slip.ErrDamaged},
		"a name of a newer program":     {"021d0ee9ff0700", slip.ErrNewer},
		"a key of a newer program":      {"021dffff070000", slip.ErrNewer},
		"no UTF-8":                      {"021d0f08ff00", slip.ErrDamaged},
		"an unknown kind":               {"021d0f0700", slip.ErrDamaged},
		"an unknown sign":               {"021d0f3500", slip.ErrDamaged},
		"a number beyond all":           {"021d10a4ffffffff0f00", slip.ErrDamaged},
		"deeper than any job":           {"02" + strings.Repeat("1d10", 20), slip.ErrDamaged},
		"lists without end":             {"021d10" + strings.Repeat("25", 2000), slip.ErrDamaged},
		"names that grow beyond a file": {"021d1025" + strings.Repeat("9103", 8000), slip.ErrDamaged},
	} {
		data, err := hex.DecodeString(tt.hex)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := slip.Decode(data); !errors.Is(err, tt.want) {
			t.Errorf("%s: %v, want %v", what, err, tt.want)
		}
	}
	// Sound, but no job: said as of a job file.
	var bad *job.Bad
	for what, text := range map[string]string{"no object": "0205", "empty": "021d00", "twice": "021d100c100c00"} {
		data, err := hex.DecodeString(text)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := slip.Decode(data); !errors.As(err, &bad) {
			t.Errorf("%s: %v", what, err)
		}
	}
}

// Whatever a file says that is a job comes back the same.
func FuzzJobTravels(f *testing.F) {
	for _, name := range []string{"alto-3", "lab-coat-7"} {
		text, err := os.ReadFile("../../testdata/jobs/" + name + ".json")
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		j, err := job.Decode(bytes.NewReader(text))
		if err != nil {
			return
		}
		var out bytes.Buffer
		if j.Encode(&out) != nil {
			return // larger, as it is written, than a file may be
		}
		travels(t, j)
	})
}

// Whatever bytes come, they are refused or a job, and that job travels.
func FuzzDecode(f *testing.F) {
	f.Add(travels(f, read(f, "../../testdata/jobs/alto-3.json")))
	f.Add([]byte{2, 0x1d, 0})
	f.Fuzz(func(t *testing.T, data []byte) {
		if j, err := slip.Decode(data); err == nil {
			travels(t, j)
		}
		l, err := slip.DecodeRules(data)
		if err != nil {
			return
		}
		again, err := slip.EncodeRules(l)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := slip.DecodeRules(again); err != nil || !reflect.DeepEqual(got, l) {
			t.Errorf("%+v is read again as %+v, %v", l, got, err)
		}
	})
}
