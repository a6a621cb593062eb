package construct_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft/construct"
	"chalkfold/draft/unit"
)

// renewed is a fork extension that a truing lets out after a mark was laid by
// it: the marks before and after use the value of their time.
func renewed(t *testing.T) *construct.Record {
	t.Helper()
	b := construct.New(sheet(), nil, nil)
	b.Edge("clear", "centre line", "the edge of the cloth", "hip/part + inlay", "room for the fork and its allowance")
	b.Origin("centre", "centre", pt(0, 0), "")
	b.Value("reach", "fork extension", "hip/part", "a sixteenth of the hip")
	b.Measure("early", "fork tip, as spoken", "centre", outward(), "reach", "")
	b.Truing("fork", func() {
		b.Solved("let_out", "fork let out", 0.25*in, "found on the drawing")
		b.Renew("reach_let_out", "fork extension, let out", "reach", "reach + let_out", "the fork seam keeps its length")
	})
	b.Measure("late", "fork tip", "centre", outward(), "reach", "")
	b.Value("twice", "twice the extension", "2*reach", "")
	rec, err := b.Record()
	if err != nil {
		t.Fatal(err)
	}
	return rec
}

func TestRenewedSum(t *testing.T) {
	rec := renewed(t)
	f := unit.Format{}
	near(t, "the mark before", rec.Point("early"), pt(2.625*in, 0))
	near(t, "the mark after", rec.Point("late"), pt(2.875*in, 0))
	if got := rec.Value("reach"); math.Abs(got-2.875*in) > 1e-9 {
		t.Errorf("the sum is %v in, want 2⅞", got/in)
	}
	for name, want := range map[string]string{
		"early":         "fork extension = 2⅝",
		"late":          "fork extension, let out = 2⅞",
		"reach_let_out": "fork extension + fork let out = 2⅝ + ¼ = 2⅞",
		"twice":         "2 × fork extension, let out = 2 × 2⅞ = 5¾",
		"clear":         "hip ÷ fork part + inlay = 42 ÷ 16 + ½ = 3⅛",
	} {
		if got := rec.Sum(name, f); got != want {
			t.Errorf("%s is told as %q, want %q", name, got, want)
		}
	}
	// Both steps stay, with their own values.
	var reach []string
	for _, s := range rec.Steps() {
		if s.Name == "reach" || s.Moves == "reach" {
			reach = append(reach, rec.SumOf(s, f))
		}
	}
	if want := []string{"hip ÷ fork part = 42 ÷ 16 = 2⅝", "fork extension + fork let out = 2⅝ + ¼ = 2⅞"}; !slices.Equal(reach, want) {
		t.Errorf("the steps are told as %q, want %q", reach, want)
	}
}

// Because looks through marks and sums that only carry a sum on.
func TestBecause(t *testing.T) {
	rec := renewed(t)
	for name, want := range map[string]string{
		"early":   "hip ÷ fork part = 42 ÷ 16 = 2⅝",
		"late":    "fork extension + fork let out = 2⅝ + ¼ = 2⅞",
		"let_out": "found on the drawing",
		"bust":    "",
	} {
		if got := rec.Because(name, unit.Format{}); got != want {
			t.Errorf("%s because %q, want %q", name, got, want)
		}
	}
}

// The answer to why goes back past a renewal to what was spoken.
func TestWhyOfRenewedSum(t *testing.T) {
	rec := renewed(t)
	var got []string
	for _, r := range rec.Why("late", unit.Format{}) {
		got = append(got, strings.TrimSpace(fmt.Sprintf("%d %s: %s", r.Depth, r.Label, r.Sum)))
	}
	want := []string{
		"0 fork tip: fork extension, let out = 2⅞",
		"1 fork extension, let out: fork extension + fork let out = 2⅝ + ¼ = 2⅞",
		"2 fork extension: hip ÷ fork part = 42 ÷ 16 = 2⅝",
		"3 hip:",
		"3 fork part:",
		"2 fork let out: ¼",
		"1 centre:",
	}
	if !slices.Equal(got, want) {
		t.Errorf("told\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func TestChangeOfRenewedSum(t *testing.T) {
	c := renewed(t).Changes()
	if len(c) != 2 || c[0].Step != "let_out" || c[1].Step != "reach_let_out" {
		t.Fatalf("changes %+v", c)
	}
	if r := c[1]; r.Mark != "" || math.Abs(r.Before-2.625*in) > 1e-9 || math.Abs((r.By-0.25*unit.Inch).MM()) > 1e-9 || r.Truing != "fork" {
		t.Errorf("the renewal: %+v", r)
	}
}

func TestEdge(t *testing.T) {
	s, ok := renewed(t).Find("clear")
	if !ok || s.From != "the edge of the cloth" || s.Kind != construct.KindValue || math.Abs(s.Mm().In()-3.125) > 1e-9 {
		t.Errorf("the distance from the edge: %+v", s)
	}
}

func TestRenewRefuses(t *testing.T) {
	for _, tt := range []struct {
		name, old, formula, say string
	}{
		{"nothing of that name", "bust", "2 in", `no sum "bust" to renew`},
		{"a measurement", "hip", "2 in", `no sum "hip" to renew`},
		{"a mark", "centre", "2 in", `no sum "centre" to renew`},
		{"a length by a number", "reach", "16", "are not of one kind"},
		{"an unknown name", "reach", "bust/4", `nothing is called "bust"`},
	} {
		b := construct.New(sheet(), nil, nil)
		b.Origin("centre", "centre", pt(0, 0), "")
		b.Value("reach", "fork extension", "hip/part", "")
		b.Renew("again", "", tt.old, tt.formula, "")
		if _, err := b.Record(); err == nil || !strings.Contains(err.Error(), tt.say) || !strings.Contains(err.Error(), `step "again"`) {
			t.Errorf("%s: error %v does not say %q of step again", tt.name, err, tt.say)
		}
	}
	b := construct.New(sheet(), nil, nil)
	b.Edge("clear", "", "the edge", "part", "")
	if b.Err() == nil {
		t.Error("a plain number was taken for a distance from the edge")
	}
}
