// Package say is how a reader is spoken to: it turns the English of the program
// into the language of whoever reads.
//
// The English text itself is the key, so that the code reads as what it says
// and a text without a translation is still a text. Texts are literals where
// they are said; cmd/words gathers them into the catalogues.
package say

import "fmt"

// Words are the texts of one language. The nil Words are English.
type Words struct {
	texts map[string][]string // by the English text; more than one where it counts
	form  func(n int) int     // which of them goes with that many
}

// T says a text without figures.
func (w *Words) T(text string) string {
	if w != nil {
		if t := w.texts[text]; len(t) > 0 {
			return t[0]
		}
	}
	return text
}

// F says a text with figures, set as fmt.Sprintf sets them.
func (w *Words) F(format string, args ...any) string { return fmt.Sprintf(w.T(format), args...) }

// N says a text about n things, which is set for %d. one and many are its
// English forms.
func (w *Words) N(n int, one, many string) string {
	format := many
	if n == 1 {
		format = one
	}
	if w != nil {
		if t := w.texts[many]; len(t) > 0 {
			format = t[min(w.form(n), len(t)-1)]
		}
	}
	return fmt.Sprintf(format, n)
}
