package slip

import (
	"encoding/binary"
	"errors"
	"unicode/utf8"

	"chalkfold/draft/plain"
)

// Reasons why a slip cannot be read, to be told apart by errors.Is.
var (
	ErrDamaged = errors.New("the link is damaged: have it sent again")
	ErrNewer   = errors.New("the link is of a newer version: take the newer version of the program, then open it again")
)

// Limits on what is read, those of a job file: names are longer than their
// numbers.
const (
	mostBytes = 64 << 10
	mostDepth = 8
)

// unpack reads a slip as the JSON value that it was.
func unpack(data []byte) ([]byte, error) {
	switch {
	case len(data) == 0 || data[0] < version:
		return nil, ErrDamaged
	case data[0] > version:
		return nil, ErrNewer
	}
	r := reader{rest: data[1:], names: names(), room: mostBytes}
	switch sound := r.value(r.next(), mostDepth); {
	case r.newer:
		return nil, ErrNewer
	case !sound || len(r.rest) > 0:
		return nil, ErrDamaged
	}
	return r.out.Done()
}

type reader struct {
	rest  []byte
	names []string
	out   plain.Writer
	room  int // bytes that may still be written
	bad   bool
	newer bool // it has names that are not known here yet
}

// next reads a number; what follows one that cannot be read is not looked at.
func (r *reader) next() uint64 {
	n, size := binary.Uvarint(r.rest)
	if size <= 0 {
		r.bad = true
		return 0
	}
	r.rest = r.rest[size:]
	return n
}

// letters reads a text of n bytes.
func (r *reader) letters(n uint64) string {
	if n > uint64(len(r.rest)) {
		r.bad = true
		return ""
	}
	s := string(r.rest[:n])
	r.rest = r.rest[n:]
	r.bad = r.bad || !utf8.ValidString(s)
	return s
}

// name is that of a number.
func (r *reader) name(n uint64) string {
	if n >= uint64(len(r.names)) {
		r.bad, r.newer = true, true
		return ""
	}
	return r.names[n]
}

// takes makes room for a text, and reports whether all is well.
func (r *reader) takes(s string) bool {
	const around = 8 // quotes, a comma, spaces
	r.room -= len(s) + around
	return !r.bad && r.room >= 0
}

// value reads the value of a head, with so many levels below it at most.
func (r *reader) value(head uint64, depth int) bool {
	n := head >> kindBits
	var s string
	switch head & (1<<kindBits - 1) {
	case isText:
		s = r.letters(n)
	case isName:
		s = r.name(n)
	case isInches:
		s = inches(n)
	case isCentimetres:
		s = centimetres(n)
	case isFine:
		s = finely(n)
	case isWhole:
		if n > 1<<31 {
			return false
		}
		r.out.Int(int64(n))
		return r.takes("")
	case isSign:
		return r.takes("") && r.sign(n, depth)
	default:
		return false
	}
	if !r.takes(s) {
		return false
	}
	r.out.Text(s)
	return true
}

func (r *reader) sign(n uint64, depth int) bool {
	switch n {
	case signNull:
		r.out.Raw([]byte("null"))
	case signFalse, signTrue:
		r.out.Truth(n == signTrue)
	case signObject:
		return depth > 0 && r.object(depth-1)
	case signList:
		return depth > 0 && r.list(depth-1)
	default:
		return false
	}
	return true
}

func (r *reader) object(depth int) bool {
	r.out.Open('{')
	for {
		var key string
		switch n := r.next(); {
		case r.bad:
			return false
		case n == keyEnd:
			r.out.Shut('}')
			return true
		case n == keyText:
			key = r.letters(r.next())
		default:
			key = r.name(n - keyNames)
		}
		if !r.takes(key) {
			return false
		}
		r.out.Key(key)
		if head := r.next(); r.bad || !r.value(head, depth) {
			return false
		}
	}
}

func (r *reader) list(depth int) bool {
	r.out.Open('[')
	for {
		head := r.next()
		if r.bad {
			return false
		}
		if head == signEnd<<kindBits|isSign {
			r.out.Shut(']')
			return true
		}
		r.out.Next()
		if !r.value(head, depth) {
			return false
		}
	}
}
