package job

import (
	"strconv"
	"strings"

	"chalkfold/draft/plain"
	"chalkfold/draft/say"
)

// Decimal is a figure without a unit as it was entered, "2.5"; "" is one that
// was not given.
type Decimal string

// Float is the figure; nought when it was not given.
func (d Decimal) Float() float64 {
	v, err := strconv.ParseFloat(string(d), 64)
	if err != nil {
		return 0
	}
	return v
}

// mostDigits is how long a Decimal may be.
const mostDigits = 8

// ReadDecimal reads a figure as it is typed, with a point or a comma; why is
// none when it could.
func ReadDecimal(text string) (d Decimal, why say.Msg) {
	s := strings.Replace(strings.TrimSpace(text), ",", ".", 1)
	digits := strings.Replace(s, ".", "", 1)
	switch {
	case s == "":
		return "", say.Of("empty; write a figure such as 2.5, or take the key out")
	case len(s) > mostDigits:
		return "", say.Of("too long; write at most %d letters", mostDigits)
	case digits == "" || strings.Trim(digits, "0123456789") != "":
		return "", say.Of("no figure; write it in digits alone, such as 2.5")
	}
	return Decimal(s), say.Msg{}
}

// decimal reads a figure written as a text.
func (d *decoder) decimal(n *node, key, path string) Decimal {
	v, given := n.at[key]
	path += "." + key
	if v != nil && v.kind == plain.Number {
		d.fail(path, v.shown(), say.Of(`must be a text; write it as "%s"`, clip(v.text)))
		return ""
	}
	if !given || !d.is(v, path, plain.Text) {
		return ""
	}
	got, why := ReadDecimal(v.text)
	if !why.None() {
		d.fail(path, clip(v.text), why)
	}
	return got
}
