package rules

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Lent is a rule set as one maker lends it to another: only what differs from
// the garment's own rules.
//
// Its bytes in the form of before are the version 1; the name; the number of
// rules; and for each, in the order of the ids, its id and its value as written.
// Numbers are unsigned varints, a text is its length in bytes and the text. There
// is one spelling. The method is not in them.
type Lent struct {
	Name   string
	Values Values
	Method string // by which the house drafts; "" is the garment's first
}

// SoundMethod reports whether a text can be the name of a method.
func SoundMethod(text string) bool {
	return len(text) <= mostID && !strings.ContainsFunc(text, func(c rune) bool { return c != '_' && (c < 'a' || c > 'z') })
}

const (
	lentVersion = 1
	mostLent    = 200 // rules
	mostName    = 80  // bytes
	mostID      = 64
	mostValue   = 40
)

// Reasons why a lent rule set cannot be read, to be told apart by errors.Is.
var (
	ErrLentDamaged = errors.New("the rule set is damaged: have it lent again")
	ErrLentNewer   = errors.New("the rule set is of a newer version: take the newer version of the program, then open it again")
)

// Encode writes the set. A name that is too long is cut at a letter.
func (l Lent) Encode() ([]byte, error) {
	name := strings.TrimSpace(l.Name)
	for len(name) > mostName {
		_, n := utf8.DecodeLastRuneInString(name)
		name = name[:len(name)-n]
	}
	if len(l.Values) > mostLent {
		return nil, fmt.Errorf("rules: %d are too many to lend; lend at most %d", len(l.Values), mostLent)
	}
	out := []byte{lentVersion}
	text := func(s string) {
		out = append(binary.AppendUvarint(out, uint64(len(s))), s...)
	}
	text(name)
	out = binary.AppendUvarint(out, uint64(len(l.Values)))
	for _, id := range slices.Sorted(maps.Keys(l.Values)) {
		text(string(id))
		text(l.Values[id])
	}
	if _, err := DecodeLent(out); err != nil {
		return nil, fmt.Errorf("rules: a name or a value of %q cannot be lent; write it shorter: %w", name, err)
	}
	return out, nil
}

// DecodeLent reads a set, and nothing but a set. Whether there are such rules
// and such values is for Judge to say.
func DecodeLent(data []byte) (Lent, error) {
	if len(data) == 0 {
		return Lent{}, ErrLentDamaged
	}
	if data[0] > lentVersion {
		return Lent{}, ErrLentNewer
	}
	r := lentReader{rest: data[1:], ok: data[0] == lentVersion}
	l := Lent{Name: r.text(mostName), Values: Values{}}
	last := ""
	for range r.number(mostLent) {
		id, value := r.text(mostID), r.text(mostValue)
		if !r.ok || id <= last || value == "" {
			return Lent{}, ErrLentDamaged
		}
		l.Values[ID(id)], last = value, id
	}
	if !r.ok || len(r.rest) > 0 || strings.TrimSpace(l.Name) != l.Name {
		return Lent{}, ErrLentDamaged
	}
	return l, nil
}

// lentReader reads on until something is not as it should be.
type lentReader struct {
	rest []byte
	ok   bool
}

// number reads a varint in its shortest spelling.
func (r *lentReader) number(most int) int {
	n, size := binary.Uvarint(r.rest)
	if size <= 0 || n > uint64(most) || !bytes.Equal(binary.AppendUvarint(nil, n), r.rest[:size]) {
		r.ok = false
		return 0
	}
	r.rest = r.rest[size:]
	return int(n)
}

func (r *lentReader) text(most int) string {
	n := r.number(most)
	if n > len(r.rest) {
		r.ok = false
		return ""
	}
	s := string(r.rest[:n])
	r.rest = r.rest[n:]
	if !utf8.ValidString(s) || strings.ContainsFunc(s, func(c rune) bool { return !strconv.IsPrint(c) }) {
		r.ok = false
	}
	return s
}

// Judge holds the set against the rules of a garment. What no rule is known for
// is told apart: it may be of a newer program or another garment, and is kept
// aside. A known rule with a value that cannot be used is a *BadRule.
func (l Lent) Judge(defs []Def) (known Values, unknown []ID, err error) {
	known = Values{}
	for _, id := range slices.Sorted(maps.Keys(l.Values)) {
		if slices.ContainsFunc(defs, func(d Def) bool { return d.ID == id }) {
			known[id] = l.Values[id]
		} else {
			unknown = append(unknown, id)
		}
	}
	if _, err := Resolve(defs, known, nil, nil); err != nil {
		return nil, nil, err
	}
	return known, unknown, nil
}
