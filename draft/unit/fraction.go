package unit

import "strconv"

// minus is the real minus sign, as wide as a figure.
const minus = "−"

// glyphOf is the single character for num/den as written, or 0.
func glyphOf(num, den int64) rune {
	switch [2]int64{num, den} {
	case [2]int64{1, 2}:
		return '½'
	case [2]int64{1, 4}:
		return '¼'
	case [2]int64{3, 4}:
		return '¾'
	case [2]int64{1, 8}:
		return '⅛'
	case [2]int64{3, 8}:
		return '⅜'
	case [2]int64{5, 8}:
		return '⅝'
	case [2]int64{7, 8}:
		return '⅞'
	case [2]int64{1, 3}:
		return '⅓'
	case [2]int64{2, 3}:
		return '⅔'
	}
	return 0
}

// fractionOf reads a single character that is a fraction.
func fractionOf(r rune) (num, den int64, ok bool) {
	switch r {
	case '½':
		return 1, 2, true
	case '¼':
		return 1, 4, true
	case '¾':
		return 3, 4, true
	case '⅛':
		return 1, 8, true
	case '⅜':
		return 3, 8, true
	case '⅝':
		return 5, 8, true
	case '⅞':
		return 7, 8, true
	case '⅓':
		return 1, 3, true
	case '⅔':
		return 2, 3, true
	}
	return 0, 0, false
}

// mixed writes whole and num/den: "34½", "½", "34 3/16", "34". Without glyphs
// every fraction is written out: "34 1/2".
func mixed(whole, num, den int64, glyphs bool) string {
	w := strconv.FormatInt(whole, 10)
	if den == 1 {
		return w
	}
	if glyphs {
		if g := glyphOf(num, den); g != 0 {
			if whole == 0 {
				return string(g)
			}
			return w + string(g)
		}
	}
	f := strconv.FormatInt(num, 10) + "/" + strconv.FormatInt(den, 10)
	if whole == 0 {
		return f
	}
	return w + " " + f
}
