package construct_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft/construct"
)

const in = 25.4

// sheet is what the formulas of these tests may name: lengths and plain
// numbers.
func sheet() []construct.Quantity {
	return []construct.Quantity{
		{Name: "hip", Label: "hip", Value: 42 * in, Length: true, Source: "measured"},
		{Name: "waist", Label: "waist", Value: 34 * in, Length: true, Source: "measured"},
		{Name: "front.fork_tip2", Label: "fork tip", Value: 2 * in, Length: true, Source: "measured"},
		{Name: "part", Label: "fork part", Value: 16, Source: "rule (house)"},
		{Name: "inlay", Label: "inlay", Value: 0.5 * in, Length: true, Source: "rule (job)"},
		{Name: "mostly", Label: "mostly", Value: 3, Source: "rule (job)"},
		{Name: "nought", Label: "nought", Value: 0, Source: "rule (house)"},
	}
}

// work evaluates one formula as a step of its own.
func work(src string) (construct.Step, error) {
	b := construct.New(sheet(), nil, nil)
	b.Value("sum", "sum", src, "")
	rec, err := b.Record()
	s, _ := rec.Find("sum")
	return s, err
}

func TestFormulaValues(t *testing.T) {
	for _, tt := range []struct {
		src    string
		want   float64 // mm, or a plain number
		length bool
	}{
		{"2", 2, false},
		{"2.5", 2.5, false},
		{".5", 0.5, false},
		{"2 in", 50.8, true},
		{"2in", 50.8, true},
		{"4.5 cm", 45, true},
		{"4.5cm", 45, true},
		{"12 mm", 12, true},
		{"hip", 42 * in, true},
		{"front.fork_tip2", 2 * in, true},
		{"part", 16, false},
		{"hip/4", 10.5 * in, true},
		{"hip/part", 2.625 * in, true},
		{"hip/waist", 42.0 / 34, false},

		// products before sums, left to right
		{"2 + 3 * 4", 14, false},
		{"2 * 3 + 4", 10, false},
		{"(2 + 3) * 4", 20, false},
		{"20 - 8 - 4", 8, false},
		{"20 - (8 - 4)", 16, false},
		{"48 / 8 / 2", 3, false},
		{"48 / (8 / 2)", 12, false},
		{"48 / 8 * 2", 12, false},
		{"hip/4 + hip/16", 13.125 * in, true},
		{"(hip + waist)/2 - 2 in", 36 * in, true},

		// minus signs
		{"-3", -3, false},
		{"--3", 3, false},
		{"2 - -3", 5, false},
		{"-2 * 3", -6, false},
		{"2 * -3", -6, false},
		{"-(2 + 3)", -5, false},
		{"-hip", -42 * in, true},

		// lengths of two units
		{"1 in + 1 cm", 35.4, true},
		{"2 * 1 cm", 20, true},
		{"1 in / 1 cm", 2.54, false},

		// least, most, root
		{"least(3, 2)", 2, false},
		{"most(3, 2)", 3, false},
		{"least(hip, waist)", 34 * in, true},
		{"most(0 in, waist - hip)", 0, true},
		{"least(hip/4, least(waist/4, 9 in))", 8.5 * in, true},
		{"root(9)", 3, false},
		{"root(3 in * 3 in + 4 in * 4 in)", 5 * in, true},
		{"2 * root(part)", 8, false},
		{"  hip /  4 ", 10.5 * in, true},
		// names that only begin like a unit and like most
		{"2*inlay*mostly", 3 * in, true},
	} {
		s, err := work(tt.src)
		if err != nil {
			t.Errorf("%q: %v", tt.src, err)
			continue
		}
		if math.Abs(s.Value-tt.want) > 1e-9 || s.Length != tt.length {
			t.Errorf("%q = %v (length %t), want %v (length %t)", tt.src, s.Value, s.Length, tt.want, tt.length)
		}
	}
}

func TestFormulaMistakes(t *testing.T) {
	for _, tt := range []struct{ src, say string }{
		{"", "ends too early"},
		{"  ", "ends too early"},
		{"hip/", "at place 5: ends too early"},
		{"hip +", "ends too early"},
		{"(hip", `expected ")"`},
		{"hip)", `did not expect ")"`},
		{"hip waist", `did not expect "waist"`},
		{"2 inches", `did not expect "inches"`},
		{"2 inlay", `did not expect "inlay"`},
		{"2 in in", `did not expect "in"`},
		{"1e5", `did not expect "e5"`},
		{"2 4", `did not expect "4"`},
		{"1.2.3", `"1.2.3" is no number`},
		{".", `"." is no number`},
		{"hip ÷ 4", "did not expect"},
		{"*hip", `did not expect "*"`},
		{"+hip", `did not expect "+"`},
		{"least(hip)", `expected ","`},
		{"least hip, waist", `expected "("`},
		{"least(hip, waist, hip)", `expected ")"`},
		{"root(9, 4)", `expected ")"`},
		{"most()", `did not expect ")"`},

		{"bust/4", `nothing is called "bust"`},
		{"hip + 2", `a length cannot be put together with a plain number by "+"`},
		{"2 - hip", `a length cannot be put together with a plain number by "-"`},
		{"least(hip, 2)", "a length cannot be put together with a plain number"},
		{"most(part, waist)", "a length cannot be put together with a plain number"},
		{"hip * waist", "gives neither a length nor a number"},
		{"2 / hip", "gives neither a length nor a number"},
		{"hip*waist + hip", "cannot be put together"},
		{"hip/0", "division by nought"},
		{"hip/nought", "division by nought"},
		{"hip/(part - 16)", "division by nought"},
		{"root(-1)", "cannot be taken"},
		{"root(hip)", "cannot be taken"},
		{"root(hip*waist*hip)", "cannot be taken"},
		{strings.Repeat("9", 300) + "*" + strings.Repeat("9", 300), "gives no number"},
	} {
		_, err := work(tt.src)
		if err == nil {
			t.Errorf("%q was taken", tt.src)
			continue
		}
		if !strings.Contains(err.Error(), tt.say) {
			t.Errorf("%q: error %q does not say %q", tt.src, err, tt.say)
		}
		if !strings.HasPrefix(err.Error(), `step "sum": `) {
			t.Errorf("%q: error %q does not name its step", tt.src, err)
		}
	}
}

// Where a length is due, a plain number is refused, and the other way about.
func TestPlainNumberWhereLengthIsDue(t *testing.T) {
	b := construct.New(sheet(), nil, nil)
	b.Origin("a", "a", pt(0, 0), "")
	b.Measure("b", "b", "a", downward(), "part", "")
	_, err := b.Record()
	if err == nil || !strings.Contains(err.Error(), `formula "part" gives a plain number where a length is due`) {
		t.Errorf("a mark 16 from another: %v", err)
	}
}

func TestFormulaNames(t *testing.T) {
	for _, tt := range []struct {
		src  string
		want []string
	}{
		{"2 in", nil},
		{"hip/4", []string{"hip"}},
		{"waist/4 + hip/4 - waist", []string{"waist", "hip"}},
		{"least(hip, most(front.fork_tip2, part * 2 in))", []string{"hip", "front.fork_tip2", "part"}},
		{"-root(hip*waist)", []string{"hip", "waist"}},
	} {
		f, err := construct.Parse(tt.src)
		if err != nil {
			t.Errorf("%q: %v", tt.src, err)
			continue
		}
		if got := f.Names(); !slices.Equal(got, tt.want) {
			t.Errorf("%q names %q, want %q", tt.src, got, tt.want)
		}
		if f.String() != tt.src {
			t.Errorf("%q comes back as %q", tt.src, f)
		}
	}
}

func TestZeroFormula(t *testing.T) {
	var f construct.Formula
	if f.String() != "" || f.Names() != nil {
		t.Errorf("the zero formula says %q and names %q", f.String(), f.Names())
	}
}

// The same formula, parsed once and kept, gives the same as parsed anew.
func TestKeptFormulas(t *testing.T) {
	var kept construct.Formulas
	for _, hip := range []float64{36, 42, 50} {
		q := sheet()
		q[0].Value = hip * in
		b := construct.New(q, &kept, nil)
		if got := b.Value("quarter", "quarter", "hip/4", ""); math.Abs(got-hip/4*in) > 1e-9 {
			t.Errorf("hip %v: kept formula gives %v mm, want %v", hip, got, hip/4*in)
		}
		b.Value("bad", "bad", "hip/", "")
		if b.Err() == nil {
			t.Error("a bad formula was kept as good")
		}
	}
}
