package unit

import (
	"fmt"
	"strconv"
	"strings"

	"chalkfold/draft/say"
)

// Quantity is a length exactly as it was entered: figure, fraction or decimals,
// and unit. The zero value means "not given"; ask Set. Two quantities are ==
// when they were entered alike, so 34 1/2 in and 34.5 in differ though their
// lengths do not.
type Quantity struct {
	neg      bool
	whole    int64 // of sys, before the fraction
	num, den int64 // the fraction as written; den 0 only when nothing was given
	decimals uint8 // more than 0: written with that many decimals, den is 10^decimals
	sys      System

	lead    int64 // feet or yards written before inches: the 5 of 5 ft 4 in
	leadSys System
}

// Set tells whether a length was given at all. A given nought is set.
func (q Quantity) Set() bool { return q.den != 0 }

// System is the unit it was entered in (for 5 ft 4 in: Inches).
func (q Quantity) System() System { return q.sys }

// Length is the entered length. It is 0 when nothing was given.
func (q Quantity) Length() Length {
	if !q.Set() {
		return 0
	}
	num := q.whole*q.den + q.num
	if q.lead != 0 {
		num += q.lead * inchesIn(q.leadSys) * q.den
	}
	if q.neg {
		num = -num
	}
	return q.sys.of(num, q.den)
}

// inchesIn is how many inches a leading foot or yard holds.
func inchesIn(s System) int64 {
	if s == Yards {
		return 36
	}
	return 12
}

// String gives the quantity back as it was entered, with its unit: "6⅝ in",
// "86.4 cm", "5 ft 4½ in". It is "" when nothing was given.
func (q Quantity) String() string { return q.In(nil) }

// In is String for a reader: "6⅝ po", "86,4 cm".
func (q Quantity) In(w *say.Words) string {
	if !q.Set() {
		return ""
	}
	var b strings.Builder
	if q.neg {
		b.WriteString(minus)
	}
	if q.lead != 0 {
		b.WriteString(strconv.FormatInt(q.lead, 10) + " " + q.leadSys.In(w) + " ")
	}
	switch {
	case q.decimals > 0:
		b.WriteString(w.Decimal(fmt.Sprintf("%d.%0*d", q.whole, int(q.decimals), q.num)))
	default:
		b.WriteString(mixed(q.whole, q.num, q.den, true))
	}
	return b.String() + " " + q.sys.In(w)
}

// MarshalText is String: lengths are kept in files as makers write them.
func (q Quantity) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// UnmarshalText reads a length that names its unit, signed or not; the empty
// text is a quantity that was not given.
func (q *Quantity) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*q = Quantity{}
		return nil
	}
	got, named, err := parse(string(text), Inches, true)
	if err != nil {
		return err
	}
	if !named {
		return &ParseError{Text: string(text), Why: say.Of("no unit; write in, cm, mm, m, yd or ft after the figure")}
	}
	*q = got
	return nil
}
