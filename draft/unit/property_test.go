package unit_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"chalkfold/draft/unit"
)

func anyFormat(t *rapid.T) unit.Format {
	return unit.Format{
		System: unit.System(rapid.IntRange(0, int(unit.Millimetres)).Draw(t, "system")),
		Den:    rapid.SampledFrom([]int{0, 2, 4, 8, 16, 32}).Draw(t, "den"),
	}
}

// What is printed is read back as exactly the rounded length, from every tape.
func TestPrintedIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := anyFormat(t)
		l := unit.Length(rapid.Float64Range(-20000, 20000).Draw(t, "mm"))
		want := f.Round(l)
		for _, text := range []string{f.Text(l), f.Plain(l), f.Bare(l)} {
			q, err := unit.ParseSigned(text, f.System)
			if err != nil {
				t.Fatalf("printed %q: %v", text, err)
			}
			if q.Length() != want {
				t.Fatalf("printed %q, read %v mm, rounded %v mm", text, float64(q.Length()), float64(want))
			}
			if q.System() != f.System {
				t.Fatalf("printed %q, read in %v", text, q.System())
			}
		}
		if off := want - l; off > f.Finest()/2+1e-9 || off < -f.Finest()/2-1e-9 {
			t.Fatalf("%v mm was rounded by %v mm", float64(l), float64(off))
		}
		if again := f.Round(want); again != want {
			t.Fatalf("rounding twice moved %v to %v", float64(want), float64(again))
		}
	})
}

func anyEntry(t *rapid.T) string {
	whole := rapid.IntRange(0, 999999).Draw(t, "whole")
	den := rapid.IntRange(2, 999).Draw(t, "den")
	num := rapid.IntRange(0, den-1).Draw(t, "num")
	unitText := rapid.SampledFrom([]string{"", " in", `"`, "cm", " mm", " m", " yd", "ft"}).Draw(t, "unit")
	switch rapid.IntRange(0, 4).Draw(t, "form") {
	case 0:
		return fmt.Sprintf("%d%s", whole, unitText)
	case 1:
		return fmt.Sprintf("%d %d/%d%s", whole, num, den, unitText)
	case 2:
		return fmt.Sprintf("%d%s%s", whole, rapid.SampledFrom([]string{"½", "¼", "¾", "⅛", "⅜", "⅝", "⅞", "⅓", "⅔"}).Draw(t, "glyph"), unitText)
	case 3:
		return fmt.Sprintf("%d.%0*d%s", whole, rapid.IntRange(1, 4).Draw(t, "places"), num%10, unitText)
	}
	return fmt.Sprintf("%d ft %d %d/%d in", whole, num%12, num, den)
}

// What was entered comes back as it was, and reads as the same quantity.
func TestEnteredComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q, err := unit.ParseSigned(anyEntry(t), unit.Inches)
		if err != nil {
			t.Fatal(err)
		}
		comesBack(t, q)
	})
}

type failer interface {
	Helper()
	Fatalf(format string, args ...any)
}

func comesBack(t failer, q unit.Quantity) {
	t.Helper()
	var again unit.Quantity
	if err := again.UnmarshalText([]byte(q.String())); err != nil {
		t.Fatalf("gave back %q: %v", q, err)
	}
	if again != q {
		t.Fatalf("%#v came back as %#v by way of %q", q, again, q)
	}
	if again.Length() != q.Length() {
		t.Fatalf("%q changed from %v to %v mm", q, float64(q.Length()), float64(again.Length()))
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{
		"34", "34 1/2", "34½", "34-1/2", "1/2", "6⅝", "34.5 in", `34.5"`, "34″", "86,4 cm", "864 mm",
		"1 1/2 yd", "2 m", "3 ft", "5 ft 4½ in", "34 1/0", "−½", "1,000 mm", "３４　１／２　ｉｎ", "34\u00a01/2",
		"9999999999999999999/9", "0 ft 4 in", "0 ft 13 in", "7/1", "-0", ".5", "\xff34",
	} {
		f.Add(s, uint8(0))
	}
	f.Fuzz(func(t *testing.T, text string, assume uint8) {
		q, err := unit.ParseSigned(text, unit.System(assume%6))
		if err != nil {
			return
		}
		comesBack(t, q)
	})
}
