package ui

import (
	"errors"
	"strings"
	"unicode"
	"unicode/utf8"

	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// whyUnread is the reason alone, without the text, which stands in its field.
func whyUnread(err error, w *say.Words) string {
	var bad *unit.ParseError
	if errors.As(err, &bad) {
		return w.Say(bad.Why)
	}
	return w.Err(err)
}

// sentenceOf ends a reason as a sentence.
func sentenceOf(s string) string {
	if s == "" {
		return s
	}
	r, n := utf8.DecodeRuneInString(s)
	s = string(unicode.ToUpper(r)) + s[n:]
	if !strings.HasSuffix(s, ".") {
		s += "."
	}
	return s
}
