package plain

import (
	"encoding/base64"
	"iter"
	"strconv"

	"chalkfold/draft/say"
)

// Reader reads one JSON value from front to back. What it stumbles over first
// it keeps for End; from there on it reads nothing. A null reads as the zero
// value of whatever is wanted.
type Reader struct {
	data  []byte
	at    int
	depth int
	err   *Error
}

// Read returns a Reader of data, which it does not copy.
func Read(data []byte) *Reader { return &Reader{data: data} }

// Check says why data is not one JSON value, with nothing but spaces around it.
// The error is an *Error.
func Check(data []byte) error {
	r := Read(data)
	r.Skip()
	return r.End()
}

// End says what went wrong, and that nothing may follow the value that was
// read. The error is an *Error.
func (r *Reader) End() error {
	if c := r.peek(); c != 0 || r.at < len(r.data) {
		r.Fail(say.Of("unexpected %q after top-level value", r.next()))
	}
	return r.Err()
}

// Err is what went wrong so far. The error is an *Error.
func (r *Reader) Err() error {
	if r.err != nil {
		return r.err
	}
	return nil
}

// Kind tells what comes next.
func (r *Reader) Kind() Kind {
	switch c := r.peek(); {
	case c == '"':
		return Text
	case c == '{':
		return Object
	case c == '[':
		return List
	case c == 't' || c == 'f':
		return Truth
	case c == '-' || isDigit(c):
		return Number
	case c != 'n':
		r.unexpected()
	}
	return Null
}

// comes reports whether a value of kind k comes next. A null is passed over.
func (r *Reader) comes(k Kind) bool {
	got := r.Kind()
	switch {
	case r.err != nil:
	case got == k:
		return true
	case got == Null:
		r.Skip()
	default:
		r.Fail(say.Of("must be %s, not %s", say.Name(k.String()), say.Name(got.String())))
	}
	return false
}

// Text reads a text.
func (r *Reader) Text() string {
	if !r.comes(Text) {
		return ""
	}
	return unquote(r.quoted())
}

// Number reads a number as it stands.
func (r *Reader) Number() string {
	if !r.comes(Number) {
		return ""
	}
	return string(r.Raw())
}

// Int reads a whole number.
func (r *Reader) Int() int64 {
	s := r.Number()
	n, err := strconv.ParseInt(s, 10, 64)
	r.held(s, err)
	return n
}

// Float reads a number.
func (r *Reader) Float() float64 {
	s := r.Number()
	n, err := strconv.ParseFloat(s, 64)
	r.held(s, err)
	return n
}

// held says that a number cannot be held, if there was one.
func (r *Reader) held(s string, err error) {
	if err != nil && s != "" {
		r.at -= len(s)
		r.Fail(say.Of("%s is no number that can stand here", s))
	}
}

// Truth reads true or false.
func (r *Reader) Truth() bool { return r.comes(Truth) && string(r.Raw()) == "true" }

// Bytes reads a text in base 64.
func (r *Reader) Bytes() []byte {
	if !r.comes(Text) {
		return nil
	}
	start := r.at
	data, err := base64.StdEncoding.DecodeString(unquote(r.quoted()))
	if err != nil {
		r.at = start
		r.Fail(say.Of("must be bytes in base 64"))
		return nil
	}
	return data
}

// Raw reads a value of any kind as it stands. It shares its bytes with what is
// read.
func (r *Reader) Raw() []byte {
	r.peek()
	start := r.at
	r.Skip()
	if r.err != nil {
		return nil
	}
	return r.data[start:r.at:r.at]
}

// Object reads an object key by key. The value of each is to be read before the
// next; one that is not is passed over. After a break nothing more can be read.
func (r *Reader) Object() iter.Seq[string] {
	return func(yield func(string) bool) {
		if !r.comes(Object) {
			return
		}
		r.enter()
		for first := true; r.more('}', first); first = false {
			raw := r.key()
			if r.err != nil {
				return
			}
			key := unquote(raw)
			r.peek()
			start := r.at
			goOn := yield(key)
			if goOn && r.at == start {
				r.Skip()
			}
			if r.err != nil {
				r.err.under(key)
				return
			}
			if !goOn {
				return
			}
		}
	}
}

// List reads a list entry by entry, as Object does.
func (r *Reader) List() iter.Seq[int] {
	return func(yield func(int) bool) {
		if !r.comes(List) {
			return
		}
		r.enter()
		for i := 0; r.more(']', i == 0); i++ {
			r.peek()
			start := r.at
			goOn := yield(i)
			if goOn && r.at == start {
				r.Skip()
			}
			if r.err != nil {
				r.err.under("[" + strconv.Itoa(i) + "]")
				return
			}
			if !goOn {
				return
			}
		}
	}
}

// ReadPairs reads an object of texts into pairs.
func ReadPairs[M ~map[K]V, K, V ~string](r *Reader, pairs *M) {
	for key := range r.Object() {
		if *pairs == nil {
			*pairs = M{}
		}
		(*pairs)[K(key)] = V(r.Text())
	}
}
