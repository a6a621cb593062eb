package unit

import (
	"math"
	"strconv"

	"chalkfold/draft/say"
)

// maxText is the longest length printed, in mm: 1,000 km, beyond all cloth.
const maxText = Length(1e9)

// Format is how lengths are shown to a reader, and in which language whatever is
// said of them. The zero value shows inches to the eighth, in English.
type Format struct {
	System System
	Den    int        // finest fraction: 2, 4, 8, 16 or 32; 0 means 8. Metric ignores it.
	Words  *say.Words // of the reader
}

// Told is l as a figure of a text that is said later: in f's unit, and in the
// language it is then said in.
func (f Format) Told(l Length) say.Told { return told{f, l} }

type told struct {
	f Format
	l Length
}

func (t told) In(w *say.Words) string {
	t.f.Words = w
	return t.f.Text(t.l)
}

// Text writes l rounded, with its unit: "34½ in", "−½ in", "86.4 cm".
func (f Format) Text(l Length) string {
	t, ok := f.figure(l, minus, true)
	if !ok {
		return t
	}
	return t + " " + f.System.In(f.Words)
}

// Bare is Text without the unit.
func (f Format) Bare(l Length) string {
	t, _ := f.figure(l, minus, true)
	return t
}

// Plain is Text in ASCII alone, for type without fraction characters:
// "34 1/2 in", "-1/2 in".
func (f Format) Plain(l Length) string {
	t, ok := f.figure(l, "-", false)
	if !ok {
		return t
	}
	return t + " " + f.System.In(f.Words)
}

// Round is the length that Text shows.
func (f Format) Round(l Length) Length {
	n, den, ok := f.count(l)
	if !ok {
		return l
	}
	return f.System.of(n, den)
}

// Finest is the smallest step the format shows.
func (f Format) Finest() Length { return f.System.of(1, f.den()) }

// den is how many steps one unit is shown in.
func (f Format) den() int64 {
	switch f.System {
	case Centimetres:
		return 10
	case Metres:
		return 100
	case Millimetres:
		return 1
	default: // in fractions
	}
	switch f.Den {
	case 2, 4, 8, 16, 32:
		return int64(f.Den)
	case 0:
		return 8
	}
	panic("unit: a format shows halves, quarters, 8ths, 16ths or 32nds, not 1/" + strconv.Itoa(f.Den))
}

// count is l in steps of 1/den, halves away from nought.
func (f Format) count(l Length) (n, den int64, ok bool) {
	den = f.den()
	if math.IsNaN(float64(l)) || l < -maxText || l > maxText {
		return 0, den, false
	}
	u := f.System.scale()
	return int64(math.Round(float64(l) * float64(den*u.per) / float64(u.mm))), den, true
}

// figure is the number alone; not ok when l is no length that can be shown.
func (f Format) figure(l Length, sign string, glyphs bool) (text string, ok bool) {
	n, den, ok := f.count(l)
	if !ok {
		return f.Words.T("no length"), false
	}
	if n < 0 {
		n = -n
	} else {
		sign = ""
	}
	if f.System.Metric() {
		return sign + f.Words.Decimal(strconv.FormatFloat(float64(n)/float64(den), 'f', -1, 64)), true
	}
	whole, num := n/den, n%den
	for num%2 == 0 && den > 1 {
		num, den = num/2, den/2
	}
	return sign + mixed(whole, num, den, glyphs), true
}
