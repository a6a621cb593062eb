package unit_test

import (
	"math"
	"testing"

	"chalkfold/draft/unit"
)

func TestFormat(t *testing.T) {
	in, cm := unit.Inches, unit.Centimetres
	for _, c := range []struct {
		system            unit.System
		den               int
		length            unit.Length
		text, bare, plain string
	}{
		{in, 0, 876.3, "34½ in", "34½", "34 1/2 in"},
		{in, 0, 34.4999999 * 25.4, "34½ in", "34½", "34 1/2 in"},
		{in, 0, 7.99 * 25.4, "8 in", "8", "8 in"},
		{in, 4, 7.88 * 25.4, "8 in", "8", "8 in"},
		{in, 2, 7.7 * 25.4, "7½ in", "7½", "7 1/2 in"},
		{in, 0, 0, "0 in", "0", "0 in"},
		{in, 0, 0.01 * 25.4, "0 in", "0", "0 in"},
		{in, 0, -0.01 * 25.4, "0 in", "0", "0 in"},
		{in, 0, -12.7, "−½ in", "−½", "-1/2 in"},
		{in, 0, -1.5 * 25.4, "−1½ in", "−1½", "-1 1/2 in"},
		{in, 0, 0.125 * 25.4, "⅛ in", "⅛", "1/8 in"},
		{in, 0, 1.25 * 25.4, "1¼ in", "1¼", "1 1/4 in"},
		{in, 0, 1.375 * 25.4, "1⅜ in", "1⅜", "1 3/8 in"},
		{in, 0, 1.625 * 25.4, "1⅝ in", "1⅝", "1 5/8 in"},
		{in, 0, 1.75 * 25.4, "1¾ in", "1¾", "1 3/4 in"},
		{in, 0, 1.875 * 25.4, "1⅞ in", "1⅞", "1 7/8 in"},
		{in, 16, 34.1875 * 25.4, "34 3/16 in", "34 3/16", "34 3/16 in"},
		{in, 16, 34.5 * 25.4, "34½ in", "34½", "34 1/2 in"},
		{in, 32, 25.4 / 32, "1/32 in", "1/32", "1/32 in"},
		{cm, 0, 864, "86.4 cm", "86.4", "86.4 cm"},
		{cm, 0, 863.99999, "86.4 cm", "86.4", "86.4 cm"},
		{cm, 0, 860, "86 cm", "86", "86 cm"},
		{cm, 0, 859.96, "86 cm", "86", "86 cm"},
		{cm, 0, -5, "−0.5 cm", "−0.5", "-0.5 cm"},
		{unit.Millimetres, 0, 863.6, "864 mm", "864", "864 mm"},
		{unit.Metres, 0, 1352, "1.35 m", "1.35", "1.35 m"},
		{unit.Yards, 0, 1371.6, "1½ yd", "1½", "1 1/2 yd"},
		{unit.Feet, 4, 3.25 * 304.8, "3¼ ft", "3¼", "3 1/4 ft"},
		{in, 0, unit.Length(math.NaN()), "no length", "no length", "no length"},
		{in, 0, unit.Length(math.Inf(1)), "no length", "no length", "no length"},
		{in, 0, 1e300, "no length", "no length", "no length"},
	} {
		f := unit.Format{System: c.system, Den: c.den}
		if got := f.Text(c.length); got != c.text {
			t.Errorf("%v Text(%v) = %q, want %q", f, float64(c.length), got, c.text)
		}
		if got := f.Bare(c.length); got != c.bare {
			t.Errorf("%v Bare(%v) = %q, want %q", f, float64(c.length), got, c.bare)
		}
		if got := f.Plain(c.length); got != c.plain {
			t.Errorf("%v Plain(%v) = %q, want %q", f, float64(c.length), got, c.plain)
		}
	}
}

func TestRound(t *testing.T) {
	for _, c := range []struct {
		format unit.Format
		length unit.Length
		want   unit.Length
	}{
		{unit.Format{}, 876.0, 876.3},
		{unit.Format{}, -12.6, -12.7},
		{unit.Format{Den: 16}, 34.18 * 25.4, 868.3625},
		{unit.Format{System: unit.Centimetres}, 863.6, 864},
	} {
		if got := c.format.Round(c.length); got != c.want {
			t.Errorf("%v Round(%v) = %v, want %v", c.format, float64(c.length), float64(got), float64(c.want))
		}
	}
}

func TestFinest(t *testing.T) {
	if got := (unit.Format{}).Finest(); got != 3.175 {
		t.Errorf("finest of inches is %v mm", float64(got))
	}
	if got := (unit.Format{System: unit.Centimetres}).Finest(); got != 1 {
		t.Errorf("finest of centimetres is %v mm", float64(got))
	}
}

func TestOddFractionPanics(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("thirds of an inch were shown")
		}
	}()
	unit.Format{Den: 3}.Text(1)
}
