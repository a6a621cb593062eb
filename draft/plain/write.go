package plain

import (
	"encoding/base64"
	"maps"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Writer writes one JSON value. The zero Writer writes it without spaces, and
// so that it can stand in a page: no <, > or & in it.
type Writer struct {
	// Lines puts every entry on a line of its own, two blanks in for each level,
	// and leaves <, > and & as they are.
	Lines bool

	buf   []byte
	depth int
	some  bool // something stands before in this object or list
	err   error
}

// Done is what was written, or why it is no JSON.
func (w *Writer) Done() ([]byte, error) { return w.buf, w.err }

// Open begins an object or a list, by its bracket.
func (w *Writer) Open(bracket byte) {
	w.buf = append(w.buf, bracket)
	w.depth++
	w.some = false
}

// Shut ends it, by its bracket.
func (w *Writer) Shut(bracket byte) {
	w.depth--
	if w.some {
		w.line()
	}
	w.buf = append(w.buf, bracket)
	w.some = true
}

func (w *Writer) line() {
	if !w.Lines {
		return
	}
	w.buf = append(w.buf, '\n')
	for range w.depth {
		w.buf = append(w.buf, "  "...)
	}
}

// Next begins an entry of a list; its value follows.
func (w *Writer) Next() *Writer {
	if w.some {
		w.buf = append(w.buf, ',')
	}
	w.line()
	w.some = true
	return w
}

// Key begins an entry of an object; its value follows.
func (w *Writer) Key(key string) *Writer {
	w.Next().Text(key)
	w.buf = append(w.buf, ':')
	if w.Lines {
		w.buf = append(w.buf, ' ')
	}
	return w
}

// Text writes a text.
func (w *Writer) Text(s string) { w.buf = appendText(w.buf, s, !w.Lines) }

// Int writes a whole number.
func (w *Writer) Int(n int64) { w.buf = strconv.AppendInt(w.buf, n, 10) }

// Truth writes true or false.
func (w *Writer) Truth(v bool) { w.buf = strconv.AppendBool(w.buf, v) }

// Bytes writes bytes as a text in base 64.
func (w *Writer) Bytes(data []byte) {
	w.buf = append(w.buf, '"')
	w.buf = base64.StdEncoding.AppendEncode(w.buf, data)
	w.buf = append(w.buf, '"')
}

// Raw writes a value that is JSON already, without its spaces.
func (w *Writer) Raw(data []byte) {
	if err := Check(data); err != nil {
		if w.err == nil {
			w.err = err
		}
		return
	}
	w.buf = appendCompact(w.buf, data, true)
}

// TextIf writes a key with a text, unless that is empty.
func (w *Writer) TextIf(key, s string) {
	if s != "" {
		w.Key(key).Text(s)
	}
}

// IntIf writes a key with a whole number, unless that is nought.
func (w *Writer) IntIf(key string, n int64) {
	if n != 0 {
		w.Key(key).Int(n)
	}
}

// TruthIf writes a key with true, and nothing for false.
func (w *Writer) TruthIf(key string, v bool) {
	if v {
		w.Key(key).Truth(v)
	}
}

// WritePairs writes a key with an object of texts, in the order of their names,
// unless it is empty.
func WritePairs[K, V ~string](w *Writer, key string, pairs map[K]V) {
	if len(pairs) == 0 {
		return
	}
	w.Key(key).Open('{')
	for _, name := range slices.Sorted(maps.Keys(pairs)) {
		w.Key(string(name)).Text(string(pairs[name]))
	}
	w.Shut('}')
}

// Compact is a JSON value without its spaces, and otherwise as it stands.
func Compact(data []byte) ([]byte, error) {
	if err := Check(data); err != nil {
		return nil, err
	}
	return appendCompact(nil, data, false), nil
}

// appendCompact appends a sound value without its spaces; paged, so that it can
// stand in a page and in a program of one.
func appendCompact(to, data []byte, paged bool) []byte {
	quoted := false
	for i := 0; i < len(data); i++ {
		c := data[i]
		switch {
		case c == '\\':
			i++
			to = append(to, c, data[i])
			continue
		case c == '"':
			quoted = !quoted
		case !quoted && isSpace(c):
			continue
		case paged && isMarkup(rune(c)):
			to = appendEscape(to, rune(c))
			continue
		case paged && c >= utf8.RuneSelf:
			if r, size := utf8.DecodeRune(data[i:]); isLineEnd(r) {
				to = appendEscape(to, r)
				i += size - 1
				continue
			}
		}
		to = append(to, c)
	}
	return to
}

// appendText appends a text in quotes. What is no UTF-8 becomes U+FFFD.
func appendText(to []byte, s string, paged bool) []byte {
	to = append(to, '"')
	for i, r := range s {
		switch {
		case r == '"' || r == '\\':
			to = append(to, '\\', byte(r))
		case r < ' ':
			if short := strings.IndexRune(shortOf, r); short >= 0 {
				to = append(to, '\\', shortAs[short])
				break
			}
			to = appendEscape(to, r)
		case isLineEnd(r) || paged && isMarkup(r):
			to = appendEscape(to, r)
		case r == utf8.RuneError && !strings.HasPrefix(s[i:], string(utf8.RuneError)):
			to = appendEscape(to, r)
		default:
			to = utf8.AppendRune(to, r)
		}
	}
	return append(to, '"')
}

// What is written as a backslash and one letter, and the letters.
const (
	shortOf = "\b\f\n\r\t"
	shortAs = "bfnrt"
)

func appendEscape(to []byte, r rune) []byte {
	const digits = "0123456789abcdef"
	return append(to, '\\', 'u', digits[r>>12&15], digits[r>>8&15], digits[r>>4&15], digits[r&15])
}

func isMarkup(r rune) bool { return r == '<' || r == '>' || r == '&' }

// isLineEnd reports whether a program in a page would take r for the end of a
// line.
func isLineEnd(r rune) bool { return r == '\u2028' || r == '\u2029' }

func isSpace(c byte) bool { return c == ' ' || c == '\n' || c == '\t' || c == '\r' }
