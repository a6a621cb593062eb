package construct_test

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chalkfold/draft/construct"
	"chalkfold/draft/unit"
)

// What parses comes back as it was written, and can be worked out or refused
// without a panic, whatever its names stand for.
func FuzzParse(f *testing.F) {
	for _, s := range []string{
		"hip/4", "hip/4 + hip/16", "(waist_girth + 1.5 in)/4", "least(a, most(b, 2cm))", "root(a*a + b*b)",
		"-a - -b", "2 in*3", "a.b_c1/0", "((1", "2 in in", "1.2.3", "least(a", "root()", "\x00", "½", "a÷b", "9999999999 mm",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, src string) {
		got, err := construct.Parse(src)
		if err != nil {
			if got.String() != "" || got.Names() != nil {
				t.Fatalf("%q is refused (%v) and yet gives %q", src, err, got)
			}
			return
		}
		if got.String() != src {
			t.Fatalf("%q comes back as %q", src, got)
		}
		again, err := construct.Parse(got.String())
		if err != nil || !slices.Equal(again.Names(), got.Names()) {
			t.Fatalf("%q parsed twice: names %q and %q, %v", src, got.Names(), again.Names(), err)
		}
		for _, length := range []bool{true, false} {
			var q []construct.Quantity
			for i, n := range got.Names() {
				q = append(q, construct.Quantity{Name: n, Label: n, Value: float64(i) - 1, Length: length})
			}
			b := construct.New(q, nil, nil)
			v := b.Value("a step of this name cannot be written", "sum", src, "")
			rec, err := b.Record()
			if err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
				t.Fatalf("%q gives %v", src, v)
			}
			if err == nil {
				rec.Sum("a step of this name cannot be written", unit.Format{})
				rec.Why("a step of this name cannot be written", unit.Format{})
			}
		}
	})
}

// anyFormula draws a formula over a, b, c (plain) with any brackets.
func anyFormula(depth int) *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		if depth == 0 {
			return rapid.SampledFrom([]string{"a", "b", "c", "2", "0.5", "7"}).Draw(t, "leaf")
		}
		sub := anyFormula(depth - 1)
		switch rapid.IntRange(0, 5).Draw(t, "shape") {
		case 0:
			return sub.Draw(t, "alone")
		case 1:
			return "-" + "(" + sub.Draw(t, "minus") + ")"
		default:
			op := rapid.SampledFrom([]string{" + ", " - ", "*", "/"}).Draw(t, "op")
			return "(" + sub.Draw(t, "l") + ")" + op + "(" + sub.Draw(t, "r") + ")"
		}
	})
}

// The sum that is shown, read as schoolbook arithmetic with ÷ × −, is the sum
// that was worked out: no bracket that matters was dropped.
func TestShownSumReadsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		src := anyFormula(rapid.IntRange(1, 4).Draw(t, "depth")).Draw(t, "formula")
		q := []construct.Quantity{{Name: "a", Label: "a", Value: 3}, {Name: "b", Label: "b", Value: 1.25}, {Name: "c", Label: "c", Value: 11}}
		b := construct.New(q, nil, nil)
		want := b.Value("sum", "sum", src, "")
		rec, err := b.Record()
		if err != nil {
			t.Skip("nought beneath a line")
		}
		words, _, _ := strings.Cut(rec.Sum("sum", unit.Format{}), " = ")
		plain := strings.NewReplacer("÷", "/", "×", "*", "−", "-").Replace(words)
		if _, err := strconv.ParseFloat(plain, 64); err == nil {
			return // a number alone is shown to three places
		}
		again := construct.New(q, nil, nil)
		got := again.Value("sum", "sum", plain, "")
		if again.Err() != nil || math.Abs(got-want) > 1e-9*(1+math.Abs(want)) {
			t.Fatalf("%q = %v is shown as %q, which is %v (%v)", src, want, words, got, again.Err())
		}
	})
}
