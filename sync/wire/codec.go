package wire

import (
	"encoding/binary"
	"errors"
	"fmt"
)

// ErrMessage is that of every decoder: the bytes are not the message that was
// expected, or not the whole of it.
var ErrMessage = errors.New("a malformed message")

const form = 1

// What a message is, its second byte.
const (
	isCreate   = 'c'
	isPosition = 'a'
	isPull     = 'l'
	isPage     = 'g'
	isPush     = 'p'
	isClose    = 'x'
	isDone     = 'd'
	isAsk      = 'u'
	isUsage    = 'U'
	isChunk    = 'k'
	isNames    = 'n'
	isParcel   = 'b'
)

// writer appends the parts of a message.
type writer struct{ to []byte }

func begin(what byte, size int) *writer {
	return &writer{append(make([]byte, 0, 2+size), form, what)}
}

func (w *writer) number(n uint64) { w.to = binary.BigEndian.AppendUint64(w.to, n) }
func (w *writer) count(n int)     { w.to = binary.BigEndian.AppendUint32(w.to, uint32(n)) }
func (w *writer) name(n Name)     { w.to = append(w.to, n[:]...) }

func (w *writer) bytes(b []byte) {
	w.count(len(b))
	w.to = append(w.to, b...)
}

func (w *writer) position(p Position) {
	w.number(p.Seq)
	w.name(p.ID)
}

// reader takes the parts of a message off its front. After the first that is not
// there it reads noughts, and end says so.
type reader struct {
	rest []byte
	bad  string
}

func read(message []byte, what byte) *reader {
	r := &reader{rest: message}
	head := r.take(2)
	switch {
	case len(message) > MostMessage:
		r.fail("longer than any")
	case head == nil:
	case head[0] != form:
		r.fail("of another form")
	case head[1] != what:
		r.fail("another one")
	}
	return r
}

func (r *reader) fail(why string) {
	if r.bad == "" {
		r.bad = why
	}
	r.rest = nil
}

// take takes n bytes off, nil if there are not so many.
func (r *reader) take(n int) []byte {
	if n > len(r.rest) || r.bad != "" {
		r.fail("cut short")
		return nil
	}
	got := r.rest[:n:n]
	r.rest = r.rest[n:]
	return got
}

func (r *reader) number() uint64 {
	if b := r.take(8); b != nil {
		return binary.BigEndian.Uint64(b)
	}
	return 0
}

// count reads a count of things of which each takes at least so many bytes.
func (r *reader) count(most, each int) int {
	b := r.take(4)
	if b == nil {
		return 0
	}
	n := binary.BigEndian.Uint32(b)
	switch {
	case uint64(n) > uint64(most):
		r.fail("too much of something")
		return 0
	case int64(n)*int64(each) > int64(len(r.rest)):
		r.fail("cut short")
		return 0
	}
	return int(n)
}

func (r *reader) bytes(most int) []byte { return r.take(r.count(most, 1)) }

// blob reads bytes of which there must be some.
func (r *reader) blob(most int) []byte {
	b := r.bytes(most)
	if len(b) == 0 {
		r.fail("nothing in it")
	}
	return b
}

func (r *reader) name() (n Name) {
	copy(n[:], r.take(len(n)))
	return n
}

func (r *reader) position() Position {
	p := Position{Seq: r.number(), ID: r.name()}
	if p.Seq > LargestSeq || (p.Seq == 0) != (p.ID == Name{}) {
		r.fail("no such position")
	}
	return p
}

// truth reads a byte that is 0 or 1.
func (r *reader) truth() bool {
	b := r.take(1)
	if b != nil && b[0] > 1 {
		r.fail("neither yes nor no")
	}
	return b != nil && b[0] == 1
}

func (r *reader) end() error {
	if len(r.rest) > 0 {
		r.fail("longer than itself")
	}
	if r.bad != "" {
		return fmt.Errorf("%w: %s", ErrMessage, r.bad)
	}
	return nil
}
