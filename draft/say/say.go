// Package say is how a reader is spoken to: it turns the English of the program
// into the language of whoever reads.
//
// The English text itself is the key, so that the code reads as what it says
// and a text without a translation is still a text. Texts are literals where
// they are said: T for a text, F for one with figures, N for a count. Where
// nobody knows yet who will read (an error, a doubt), a Msg keeps the text and
// its figures, to be said later by Say or Err. Names kept in tables, of edges,
// rules, measurements, stay English and are said by T where they are shown;
// Word marks those that stand in no table. cmd/words gathers all of them into
// the catalogues in static/words, one PO file for each language.
//
// The plural rules and the sign before decimals are small tables here, checked
// in the tests against golang.org/x/text over ten thousand numbers: that
// library itself would add 108 kB to what the page loads, 59 kB of it for plurals
// alone, where these lines take next to nothing for seven languages.
package say

import (
	"errors"
	"fmt"
	"strings"
)

// Words are the texts of one language. The nil Words are English.
type Words struct {
	lang  Language
	texts map[string][]string // by the English text; more than one where it counts
}

// Language is the language said.
func (w *Words) Language() Language {
	if w == nil {
		return English()
	}
	return w.lang
}

// T says a text without figures. Put in place at each of a thousand calls it
// would weigh 180 kB of program in the page.
//
//go:noinline
func (w *Words) T(text string) string {
	if w != nil {
		if t := w.texts[text]; len(t) > 0 {
			return t[0]
		}
	}
	return text
}

// F says a text with figures, set as fmt.Sprintf sets them: one that is Told is
// said in the language first, and decimals take its sign.
func (w *Words) F(format string, args ...any) string {
	return fmt.Sprintf(w.T(format), w.told(args)...)
}

// N says a text about n things, which is set for its first %d; args follow. one
// and many are its English forms; a form may do without figures.
func (w *Words) N(n int, one, many string, args ...any) string {
	format := many
	if n == 1 {
		format = one
	}
	if w != nil {
		if t := w.texts[many]; len(t) > 0 {
			format = t[min(w.lang.Form(n), len(t)-1)]
		}
	}
	if !strings.Contains(format, "%") {
		return format
	}
	return fmt.Sprintf(format, append([]any{n}, w.told(args)...)...)
}

// Join says texts one after the other, in one line.
func (w *Words) Join(texts []string) string {
	line := ""
	for i, t := range texts {
		if i > 0 {
			t = w.F("%s; %s", line, t)
		}
		line = t
	}
	return line
}

// Decimal writes a figure with a decimal point as the language does.
func (w *Words) Decimal(figure string) string {
	if w == nil || w.lang.Point == "." {
		return figure
	}
	return strings.Replace(figure, ".", w.lang.Point, 1)
}

// Say says what was kept to be said.
func (w *Words) Say(t Told) string { return t.In(w) }

// Err says what went wrong: err, or what it wraps, in the language where it is
// Told, and as it stands where it is not.
func (w *Words) Err(err error) string {
	var t interface {
		error
		Told
	}
	if w != nil && errors.As(err, &t) {
		return t.In(w)
	}
	return err.Error()
}

// Told is what can be said in any language.
type Told interface{ In(*Words) string }

func (w *Words) told(args []any) []any {
	out := make([]any, len(args))
	for i, a := range args {
		switch a := a.(type) {
		case Told:
			out[i] = a.In(w)
		case float64:
			out[i] = decimal{a, w}
		default:
			out[i] = a
		}
	}
	return out
}

// decimal is a figure set as the verb says, in the language.
type decimal struct {
	v float64
	w *Words
}

func (d decimal) Format(s fmt.State, verb rune) {
	fmt.Fprint(s, d.w.Decimal(fmt.Sprintf(fmt.FormatString(s, verb), d.v)))
}
