package lesson_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// reckon works out a sum as it is written for a student, from the text alone:
// 42 ÷ 4, (7½ + ⅜) × 2, the smaller of 3 and 4 − ½. It shares nothing with the
// formulas of the program.
func reckon(text string) (float64, error) {
	r := &reckoner{rest: text}
	v := r.sum()
	if r.space(); r.rest != "" {
		r.fail("%q is left over", r.rest)
	}
	return v, r.err
}

type reckoner struct {
	rest string
	err  error
}

func (r *reckoner) fail(format string, args ...any) {
	if r.err == nil {
		r.err = fmt.Errorf(format, args...)
	}
}

func (r *reckoner) space() { r.rest = strings.TrimLeft(r.rest, " ") }

func (r *reckoner) takes(what string) bool {
	r.space()
	rest, ok := strings.CutPrefix(r.rest, what)
	if ok {
		r.rest = rest
	}
	return ok
}

func (r *reckoner) sum() float64 {
	v := r.product()
	for {
		switch {
		case r.takes("+"):
			v += r.product()
		case r.takes("−"):
			v -= r.product()
		default:
			return v
		}
	}
}

func (r *reckoner) product() float64 {
	v := r.single()
	for {
		switch {
		case r.takes("×"):
			v *= r.single()
		case r.takes("÷"):
			v /= r.single()
		default:
			return v
		}
	}
}

func (r *reckoner) single() float64 {
	pair := func(choose func(a, b float64) float64) float64 {
		a := r.sum()
		if !r.takes("and") {
			r.fail("an and is missing before %q", r.rest)
		}
		return choose(a, r.sum())
	}
	switch {
	case r.takes("("):
		v := r.sum()
		if !r.takes(")") {
			r.fail("a bracket is open before %q", r.rest)
		}
		return v
	case r.takes("the smaller of"):
		return pair(math.Min)
	case r.takes("the larger of"):
		return pair(math.Max)
	case r.takes("−"):
		return -r.single()
	}
	return r.figure()
}

// figure reads 34, 34.5, 34½, ½ or 34 3/16.
func (r *reckoner) figure() float64 {
	r.space()
	digits := func() string {
		n := strings.IndexFunc(r.rest, func(c rune) bool { return !unicode.IsDigit(c) && c != '.' })
		if n < 0 {
			n = len(r.rest)
		}
		d := r.rest[:n]
		r.rest = r.rest[n:]
		return d
	}
	v, some := 0.0, false
	if d := digits(); d != "" {
		v, _ = strconv.ParseFloat(d, 64)
		some = true
	}
	if c, size := utf8.DecodeRuneInString(r.rest); strings.ContainsRune("½¼¾⅛⅜⅝⅞", c) && size > 0 {
		r.rest = r.rest[size:]
		return v + map[rune]float64{'½': 0.5, '¼': 0.25, '¾': 0.75, '⅛': 0.125, '⅜': 0.375, '⅝': 0.625, '⅞': 0.875}[c]
	}
	if strings.HasPrefix(r.rest, "/") { // a fraction alone
		r.rest = r.rest[1:]
		below, _ := strconv.ParseFloat(digits(), 64)
		return v / below
	}
	if at, rest := r.rest, strings.TrimPrefix(r.rest, " "); len(rest) < len(at) && rest != "" && unicode.IsDigit(rune(rest[0])) {
		r.rest = rest
		above, _ := strconv.ParseFloat(digits(), 64)
		if r.takes("/") {
			below, _ := strconv.ParseFloat(digits(), 64)
			return v + above/below
		}
		r.rest = at
	}
	if !some {
		r.fail("no figure before %q", r.rest)
	}
	return v
}
