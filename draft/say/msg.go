package say

import (
	"fmt"
	"unicode"
	"unicode/utf8"
)

// Msg is a text kept until it is known who reads it. The zero Msg says nothing.
type Msg struct {
	Format string // the English, a literal where it is made
	Args   []any  // its figures; those that are Told are said in the language
}

// Of keeps a text and its figures.
func Of(format string, args ...any) Msg { return Msg{format, args} }

// In says it in the language of w.
func (m Msg) In(w *Words) string {
	if len(m.Args) == 0 {
		return w.T(m.Format)
	}
	return w.F(m.Format, m.Args...)
}

// String is the text in English.
func (m Msg) String() string { return m.In(nil) }

// None reports whether there is nothing to say.
func (m Msg) None() bool { return m.Format == "" }

// Name is a name out of a table, as a figure of a text.
type Name string

// In says the name in the language of w.
func (n Name) In(w *Words) string { return w.T(string(n)) }

// Within is a name that begins with a capital where it stands alone, as a figure
// inside a text.
type Within string

// In says the name in the language of w, its capital small.
func (n Within) In(w *Words) string {
	s := w.T(string(n))
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToLower(first)) + s[size:]
}

// List is several things of one kind, as a figure of a text.
type List []Told

// In says them one after the other.
func (l List) In(w *Words) string {
	s := ""
	for i, t := range l {
		if i > 0 {
			s += ", "
		}
		s += t.In(w)
	}
	return s
}

// Either is one thing or another, as a figure of a text.
func Either(things ...string) Msg {
	var m Msg
	for i, t := range things {
		if i == 0 {
			m = Of("%s", t)
			continue
		}
		m = Of("%s or %s", m, t)
	}
	return m
}

// Word marks a name that is kept in English, since it is looked up by, and said
// by T where it is shown. It is the name as it stands.
func Word(name string) string { return name }

// Error is a Msg that is an error.
type Error struct {
	Msg
	err error
}

// Errorf makes an Error. Of its figures, the last that is an error is wrapped.
func Errorf(format string, args ...any) error {
	e := &Error{Msg: Msg{format, args}}
	for _, a := range args {
		if err, ok := a.(error); ok {
			e.err = err
		}
	}
	return e
}

// Error is the text in English.
func (e *Error) Error() string { return e.String() }

// Unwrap is what it wraps, or nil.
func (e *Error) Unwrap() error { return e.err }

var (
	_ Told         = Msg{}
	_ fmt.Stringer = Msg{}
)
