package plain

import (
	"bytes"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"chalkfold/draft/say"
)

// maxDepth is how deep values may be nested, as encoding/json has it.
const maxDepth = 10000

// Fail says that what was read, or comes next, cannot stand there. The first to
// say so is kept for End.
func (r *Reader) Fail(why say.Msg) {
	if r.err == nil {
		r.err = &Error{At: r.at, Why: why}
	}
}

// unexpected says that what comes next cannot stand there.
func (r *Reader) unexpected() {
	if r.at >= len(r.data) {
		r.Fail(say.Of("ends too early"))
		return
	}
	r.Fail(say.Of("unexpected %q", r.next()))
}

// next is the letter that comes next, for a message.
func (r *Reader) next() string {
	_, size := utf8.DecodeRune(r.data[r.at:])
	return string(r.data[r.at : r.at+size])
}

// peek passes over spaces and is the byte that comes next; nought at the end
// and after an error.
func (r *Reader) peek() byte {
	for r.at < len(r.data) && isSpace(r.data[r.at]) {
		r.at++
	}
	return r.here()
}

// here is the byte that comes next, be it a space.
func (r *Reader) here() byte {
	if r.err != nil || r.at >= len(r.data) {
		return 0
	}
	return r.data[r.at]
}

// enter passes over an opening bracket.
func (r *Reader) enter() {
	r.at++
	if r.depth++; r.depth > maxDepth {
		r.Fail(say.Of("nested too deep"))
	}
}

// more reports whether one more entry comes before the closing bracket, and
// passes over the comma before it or the bracket.
func (r *Reader) more(shut byte, first bool) bool {
	switch c := r.peek(); {
	case r.err != nil:
		return false
	case c == shut:
		r.at++
		r.depth--
		return false
	case first:
		return true
	case c == ',':
		r.at++
		return true
	}
	r.unexpected()
	return false
}

// key passes over a key and its colon, and is the key as it stands.
func (r *Reader) key() []byte {
	if r.peek() != '"' {
		r.unexpected()
		return nil
	}
	key := r.quoted()
	if r.peek() != ':' {
		r.unexpected()
		return nil
	}
	r.at++
	return key
}

// Skip passes over a value of any kind.
func (r *Reader) Skip() {
	var due []byte // the brackets that close what is open
	for {
		opened := false
		switch k := r.Kind(); k {
		case Object, List:
			due = append(due, r.here()+2) // in ASCII a bracket closes two after it opens
			r.enter()
			opened = true
		case Text:
			r.quoted()
		case Number:
			r.number()
		case Truth, Null:
			r.word()
		}
		for len(due) > 0 && !r.more(due[len(due)-1], opened) && r.err == nil {
			due, opened = due[:len(due)-1], false
		}
		if len(due) == 0 || r.err != nil {
			return
		}
		if due[len(due)-1] == '}' {
			r.key()
		}
	}
}

// word passes over true, false or null.
func (r *Reader) word() {
	word := "null"
	switch r.here() {
	case 't':
		word = "true"
	case 'f':
		word = "false"
	}
	for i := range len(word) {
		if r.here() != word[i] {
			r.unexpected()
			return
		}
		r.at++
	}
}

// number passes over a number.
func (r *Reader) number() {
	if r.here() == '-' {
		r.at++
	}
	if r.here() == '0' {
		r.at++
	} else {
		r.digits()
	}
	if r.here() == '.' {
		r.at++
		r.digits()
	}
	if c := r.here(); c == 'e' || c == 'E' {
		r.at++
		if c := r.here(); c == '+' || c == '-' {
			r.at++
		}
		r.digits()
	}
}

// digits passes over one digit or more.
func (r *Reader) digits() {
	if !isDigit(r.here()) {
		r.unexpected()
	}
	for isDigit(r.here()) {
		r.at++
	}
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// quoted passes over a text, and is what stands between its quotes.
func (r *Reader) quoted() []byte {
	r.at++
	for start := r.at; r.here() >= ' '; r.at++ {
		switch r.here() {
		case '"':
			r.at++
			return r.data[start : r.at-1]
		case '\\':
			r.at++
			r.escape()
		}
	}
	r.unexpected()
	return nil
}

// escape passes over what follows a backslash, but for the last byte.
func (r *Reader) escape() {
	c := r.here()
	if c != 'u' {
		if c == 0 || strings.IndexByte(escapes, c) < 0 {
			r.unexpected()
		}
		return
	}
	for range 4 {
		r.at++
		if !isHex(r.here()) {
			r.unexpected()
			return
		}
	}
}

// The letters that may follow a backslash, and what they stand for.
const (
	escapes = `"\/` + shortAs
	escaped = `"\/` + shortOf
)

func isHex(c byte) bool { return isDigit(c) || 'a' <= c|32 && c|32 <= 'f' }

// unquote is the text that stands in sound quotes. What is no letter becomes
// U+FFFD: a byte that is no UTF-8, half of a surrogate pair.
func unquote(raw []byte) string {
	if bytes.IndexByte(raw, '\\') < 0 && utf8.Valid(raw) {
		return string(raw)
	}
	var to []byte
	for len(raw) > 0 {
		r, size := utf8.DecodeRune(raw)
		if r == '\\' {
			if size = 2; raw[1] == 'u' {
				r, size = unescape(raw)
			} else {
				r = rune(escaped[strings.IndexByte(escapes, raw[1])])
			}
		}
		to = utf8.AppendRune(to, r)
		raw = raw[size:]
	}
	return string(to)
}

// unescape is the letter that raw begins with as one \u or a pair of them, and
// how many bytes it takes.
func unescape(raw []byte) (rune, int) {
	r := hex(raw[2:6])
	if utf16.IsSurrogate(r) && len(raw) >= 12 && raw[6] == '\\' && raw[7] == 'u' {
		if pair := utf16.DecodeRune(r, hex(raw[8:12])); pair != utf8.RuneError {
			return pair, 12
		}
	}
	return r, 6
}

// hex is the number that sound digits of base 16 are.
func hex(digits []byte) (r rune) {
	for _, c := range digits {
		r <<= 4
		if isDigit(c) {
			r += rune(c - '0')
		} else {
			r += rune(c|32-'a') + 10
		}
	}
	return r
}
