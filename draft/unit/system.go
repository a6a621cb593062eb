package unit

import "chalkfold/draft/say"

// System is a unit of length that makers write. The zero value is Inches.
type System uint8

// The units read and written. Inches and Centimetres are what tapes carry;
// cloth is sold by the yard or the metre.
const (
	Inches System = iota
	Centimetres
	Yards
	Feet
	Metres
	Millimetres
	systems // how many there are
)

// scale is one unit of a system in millimetres, as the exact fraction
// mm/per: an inch is 127/5 mm.
type scale struct {
	mm, per int64
	sign    string
}

func (s System) scale() scale {
	switch s {
	case Inches:
		return scale{127, 5, say.Word("in")}
	case Centimetres:
		return scale{10, 1, say.Word("cm")}
	case Yards:
		return scale{36 * 127, 5, say.Word("yd")}
	case Feet:
		return scale{12 * 127, 5, say.Word("ft")}
	case Metres:
		return scale{1000, 1, say.Word("m")}
	case Millimetres:
		return scale{1, 1, say.Word("mm")}
	default:
		panic("unit: no such system of lengths")
	}
}

// String is the short sign of the unit: "in", "cm", "yd", "ft", "m", "mm".
func (s System) String() string {
	if s >= systems {
		return "?"
	}
	return s.scale().sign
}

// In is the sign as a reader writes it: "po" in French.
func (s System) In(w *say.Words) string { return w.T(s.String()) }

// One is the length of one unit.
func (s System) One() Length { return s.of(1, 1) }

// Metric tells whether the unit is written in decimals and not in fractions.
func (s System) Metric() bool {
	return s == Centimetres || s == Metres || s == Millimetres
}

// of is num/den of the unit, rounded once to the nearest float64, so that the
// same fraction written in two ways (8/16, 1/2) is the same Length.
func (s System) of(num, den int64) Length {
	u := s.scale()
	return Length(float64(num*u.mm) / float64(den*u.per))
}

// systemNamed finds a unit by what makers write after the figure, in lower case,
// in the languages spoken here.
func systemNamed(word string) (System, bool) {
	switch word {
	case `"`, "''", "in", "in.", "ins", "inch", "inches", "po", "po.", "pouce", "pouces":
		return Inches, true
	case "cm", "cm.", "cms", "centimetre", "centimetres", "centimeter", "centimeters", "centimètre", "centimètres":
		return Centimetres, true
	case "yd", "yd.", "yds", "yard", "yards", "vg", "verge", "verges":
		return Yards, true
	case "'", "ft", "ft.", "foot", "feet", "pi", "pied", "pieds":
		return Feet, true
	case "m", "m.", "metre", "metres", "meter", "meters", "mètre", "mètres":
		return Metres, true
	case "mm", "mm.", "millimetre", "millimetres", "millimeter", "millimeters", "millimètre", "millimètres":
		return Millimetres, true
	}
	return Inches, false
}
