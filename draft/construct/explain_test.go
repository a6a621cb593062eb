package construct_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft/construct"
	"chalkfold/draft/unit"
)

func TestSum(t *testing.T) {
	cm := unit.Format{System: unit.Centimetres}
	for _, tt := range []struct {
		src    string
		format unit.Format
		want   string
	}{
		{"hip/4", unit.Format{}, "hip ÷ 4 = 42 ÷ 4 = 10½"},
		{"hip/part", unit.Format{}, "hip ÷ fork part = 42 ÷ 16 = 2⅝"},
		{"hip/4", cm, "hip ÷ 4 = 106.7 ÷ 4 ≈ 26.7"},
		{"hip/4 + hip/part", unit.Format{}, "hip ÷ 4 + hip ÷ fork part = 42 ÷ 4 + 42 ÷ 16 = 13⅛"},
		{"hip/part", unit.Format{Den: 4}, "hip ÷ fork part = 42 ÷ 16 ≈ 2¾"},
		{"2*inlay", unit.Format{}, "2 × inlay = 2 × ½ = 1"},
		{"hip", unit.Format{}, "hip = 42"},
		{"mostly", unit.Format{}, "mostly = 3"},
		{"mostly*part", unit.Format{}, "mostly × fork part = 3 × 16 = 48"},
		{"mostly/part", unit.Format{}, "mostly ÷ fork part = 3 ÷ 16 = 0.188"},
		{"(hip - waist)/2", unit.Format{}, "(hip − waist) ÷ 2 = (42 − 34) ÷ 2 = 4"},
		{"hip - (waist - inlay)", unit.Format{}, "hip − (waist − inlay) = 42 − (34 − ½) = 8½"},
		{"-inlay", unit.Format{}, "−inlay = −½"},
		{"waist - hip", unit.Format{}, "waist − hip = 34 − 42 = −8"},

		// a length written in the formula is shown in the tape's units too
		{"hip + 1.5 in", unit.Format{}, "hip + 1½ = 42 + 1½ = 43½"},
		{"hip + 1.5 in", cm, "hip + 3.8 = 106.7 + 3.8 ≈ 110.5"},
		{"hip + 2 cm", unit.Format{}, "hip + ¾ = 42 + ¾ ≈ 42¾"},
		{"2 in", unit.Format{}, "2"},

		// which of two, and what it belongs to, is never left open
		{"least(hip, waist)", unit.Format{}, "the smaller of hip and waist = the smaller of 42 and 34 = 34"},
		{"least(hip, waist) + inlay", unit.Format{}, "(the smaller of hip and waist) + inlay = (the smaller of 42 and 34) + ½ = 34½"},
		{"least(hip, waist + inlay)", unit.Format{}, "the smaller of hip and waist + inlay = the smaller of 42 and 34 + ½ = 34½"},
		{"most(0 in, least(hip, waist))/2", unit.Format{}, "(the larger of 0 and (the smaller of hip and waist)) ÷ 2 = (the larger of 0 and (the smaller of 42 and 34)) ÷ 2 = 17"},
		{"root(part) * inlay", unit.Format{}, "(the square root of fork part) × inlay = (the square root of 16) × ½ = 2"},
		{"root(part + mostly*mostly)", unit.Format{}, "the square root of (fork part + mostly × mostly) = the square root of (16 + 3 × 3) = 5"},
	} {
		b := construct.New(sheet(), nil, nil)
		b.Value("sum", "sum", tt.src, "")
		rec, err := b.Record()
		if err != nil {
			t.Errorf("%q: %v", tt.src, err)
			continue
		}
		if got := rec.Sum("sum", tt.format); got != tt.want {
			t.Errorf("%q is told as\n%q, want\n%q", tt.src, got, tt.want)
		}
	}
}

// A step can be summed up by the sums it rests on, in its own words.
func TestSumOverSteps(t *testing.T) {
	rec := smallDraft(t)
	for _, tt := range []struct{ step, want string }{
		{"quarter", "hip ÷ 4 = 42 ÷ 4 = 10½"},
		{"side", "hip quarter = 10½"},
		{"tip", "hip ÷ fork part = 42 ÷ 16 = 2⅝"},
		{"found", "½"},
		{"side_out", "½"},
		{"tip_down", "¼"},
		{"line", "13⅝"},
		{"centre", ""},
		{"hip", ""},
		{"no such step", ""},
	} {
		if got := rec.Sum(tt.step, unit.Format{}); got != tt.want {
			t.Errorf("%s is told as %q, want %q", tt.step, got, tt.want)
		}
	}
	for name, want := range map[string]string{"tip": "fork tip", "hip": "hip", "bust": "bust"} {
		if got := rec.Label(name); got != want {
			t.Errorf("%s is called %q, want %q", name, got, want)
		}
	}
}

func TestWhy(t *testing.T) {
	rec := smallDraft(t)
	var got []string
	for _, r := range rec.Why("side", unit.Format{}) {
		got = append(got, fmt.Sprintf("%d %s %s|%s", r.Depth, r.Name, r.Sum, r.Source))
	}
	want := []string{
		"0 side hip quarter = 10½|",
		"1 quarter hip ÷ 4 = 42 ÷ 4 = 10½|",
		"2 hip |measured",
		"1 centre |",
	}
	if !slices.Equal(got, want) {
		t.Errorf("why is the side so:\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	for _, r := range rec.Why("tip", unit.Format{}) {
		if r.Name == "part" && (r.Length || r.Value != 16 || r.Source != "rule (house)" || r.Label != "fork part") {
			t.Errorf("the rule is told as %+v", r)
		}
	}
	if got := rec.Why("bust", unit.Format{}); got != nil {
		t.Errorf("why of what is not there: %v", got)
	}
}

// Each thing is told once, however often it is used.
func TestWhyTellsOnce(t *testing.T) {
	b := construct.New(sheet(), nil, nil)
	b.Value("a", "a", "hip/4", "")
	b.Value("b", "b", "a + hip", "")
	b.Value("c", "c", "a + b + hip", "")
	rec, err := b.Record()
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, r := range rec.Why("c", unit.Format{}) {
		got = append(got, r.Name)
	}
	if want := []string{"c", "a", "hip", "b"}; !slices.Equal(got, want) {
		t.Errorf("told %q, want %q", got, want)
	}
}

func TestChanges(t *testing.T) {
	rec := smallDraft(t)
	got := rec.Changes()
	if len(got) != 3 || !slices.Equal(rec.Trues(), []string{"found", "side_out", "tip_down"}) {
		t.Fatalf("changes %+v of steps %q", got, rec.Trues())
	}
	for _, c := range got {
		if c.Truing != "hip" || c.Label == "" || c.Why == "" {
			t.Errorf("a change does not say whose it is and why: %+v", c)
		}
	}
	if c := got[0]; c.Mark != "" || c.By != 12.5 {
		t.Errorf("the found length: %+v", c)
	}
	if c := got[1]; c.Mark != "side" || c.Was != pt(10.5*in, 0) || c.Is.Dist(pt(11*in, 0)) > 1e-9 || c.By != 0.5*unit.Inch {
		t.Errorf("the shifted mark: %+v", c)
	}
	if c := got[2]; c.Mark != "tip" || c.Was != pt(-2.625*in, 0) || c.Is != pt(-2.625*in, 6) || c.By != 6 {
		t.Errorf("the moved mark: %+v", c)
	}
}

// Spoken and trued are one list: without the steps of the truings, the marks
// stand where Was says.
func TestChangesLeadFromSpokenToTrued(t *testing.T) {
	rec := smallDraft(t)
	at := map[string]any{}
	for _, s := range rec.Steps() {
		if s.Kind == construct.KindPoint && s.Truing == "" {
			at[s.Name] = s.At
		}
	}
	for _, c := range rec.Changes() {
		if c.Mark == "" {
			continue
		}
		if at[c.Mark] != c.Was {
			t.Errorf("%s moves %s from %v, where it stood at %v", c.Step, c.Mark, c.Was, at[c.Mark])
		}
		at[c.Mark] = c.Is
		if got := rec.Point(c.Mark); got != c.Is {
			t.Errorf("%s came to stand at %v, its last change says %v", c.Mark, got, c.Is)
		}
	}
}
