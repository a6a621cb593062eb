package merge

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"maps"
	"slices"
)

// The errors of Decode.
var (
	ErrDoc   = errors.New("a record's history cannot be read")
	ErrNewer = errors.New("a record is of a newer version of this program")
)

const docForm = 1

// A doc is written as
//
//	form      1 byte, 1
//	kind, id  texts
//	dead      1 byte, 0 or 1
//	seen      a count; of each device, rising, its 8 bytes and 8 of the stamp
//	fields    a count; of each, by its name, rising:
//	          how many bytes the name shares with the one before, the rest of it
//	          a count of values, at least one, in their order; of each the device's
//	          place in seen, 8 bytes of the stamp, the text
//
// Counts and places are unsigned varints in their shortest form, a text is its
// length and its bytes.

// Encode writes the doc: the same doc, the same bytes.
func (d *Doc) Encode() []byte {
	w := append([]byte(nil), docForm)
	w = appendText(w, []byte(d.Kind))
	w = appendText(w, []byte(d.ID))
	w = append(w, 0)
	if d.Dead {
		w[len(w)-1] = 1
	}
	devices := make([]string, 0, len(d.Seen))
	for device := range d.Seen {
		devices = append(devices, string(device[:]))
	}
	slices.Sort(devices)
	place := make(map[Device]uint64, len(devices))
	w = binary.AppendUvarint(w, uint64(len(devices)))
	for i, text := range devices {
		device := Device([]byte(text))
		place[device] = uint64(i)
		w = append(w, device[:]...)
		w = binary.BigEndian.AppendUint64(w, uint64(d.Seen[device]))
	}
	w = binary.AppendUvarint(w, uint64(len(d.Fields)))
	before := ""
	for _, name := range slices.Sorted(maps.Keys(d.Fields)) {
		n := shared(before, name)
		w = binary.AppendUvarint(w, uint64(n))
		w = appendText(w, []byte(name[n:]))
		before = name
		values := d.Fields[name]
		w = binary.AppendUvarint(w, uint64(len(values)))
		for _, v := range values {
			w = binary.AppendUvarint(w, place[v.Device])
			w = binary.BigEndian.AppendUint64(w, uint64(v.Stamp))
			w = appendText(w, v.Text)
		}
	}
	return w
}

func appendText(w, text []byte) []byte {
	return append(binary.AppendUvarint(w, uint64(len(text))), text...)
}

// shared is how many bytes two names begin with alike.
func shared(a, b string) int {
	n := 0
	for n < min(len(a), len(b)) && a[n] == b[n] {
		n++
	}
	return n
}

// Decode reads what Encode wrote, and nothing else. The doc shares memory with it.
func Decode(text []byte) (*Doc, error) {
	if len(text) > 0 && text[0] > docForm {
		return nil, ErrNewer
	}
	r := &reader{rest: text}
	if form := r.take(1); form != nil && form[0] != docForm {
		r.fail("no form")
	}
	d := New(string(r.text()), string(r.text()))
	switch dead := r.take(1); {
	case dead == nil:
	case dead[0] > 1:
		r.fail("neither dead nor alive")
	default:
		d.Dead = dead[0] == 1
	}
	devices := r.seen(d)
	r.fields(d, devices)
	if len(r.rest) > 0 {
		r.fail("longer than itself")
	}
	if r.bad != "" {
		return nil, fmt.Errorf("%w: %s", ErrDoc, r.bad)
	}
	return d, nil
}

func (r *reader) seen(d *Doc) []Device {
	var devices []Device
	for range r.count(16) {
		device := Device(r.fixed(8))
		stamp := r.stamp()
		if n := len(devices); n > 0 && bytes.Compare(devices[n-1][:], device[:]) >= 0 {
			r.fail("devices out of their order")
		}
		devices = append(devices, device)
		d.Seen[device] = stamp
	}
	return devices
}

func (r *reader) fields(d *Doc, devices []Device) {
	before, first := "", true
	for range r.count(4) {
		n := r.number()
		if n > uint64(len(before)) {
			r.fail("a name that begins with more than there is")
			return
		}
		name := before[:n] + string(r.text())
		if !first && name <= before || uint64(shared(before, name)) != n {
			r.fail("names out of their order")
		}
		before, first = name, false
		d.put(name, r.values(d, devices))
		if r.bad != "" {
			return
		}
	}
	if d.Dead && len(d.Fields) > 0 {
		r.fail("dead, and has fields")
	}
}

func (r *reader) values(d *Doc, devices []Device) []Value {
	n := r.count(10)
	if n == 0 {
		r.fail("a field without a value")
	}
	var values []Value
	for range n {
		at := r.number()
		if at >= uint64(len(devices)) {
			r.fail("no such device")
			return nil
		}
		v := Value{Dot{devices[at], r.stamp()}, r.text()}
		if !d.Knows(v.Dot) {
			r.fail("a change that was not seen")
		}
		if k := len(values); k > 0 && (values[k-1].compare(v) >= 0 || of(values, v.Dot) != nil) {
			r.fail("values out of their order")
		}
		values = append(values, v)
	}
	return values
}

// reader takes parts off the front of a doc. After the first that is not there it
// reads noughts.
type reader struct {
	rest []byte
	bad  string
}

func (r *reader) fail(why string) {
	if r.bad == "" {
		r.bad = why
	}
	r.rest = nil
}

func (r *reader) take(n int) []byte {
	if n < 0 || n > len(r.rest) || r.bad != "" {
		r.fail("cut short")
		return nil
	}
	got := r.rest[:n:n]
	r.rest = r.rest[n:]
	return got
}

// fixed takes n bytes, noughts if they are not there.
func (r *reader) fixed(n int) []byte {
	if b := r.take(n); b != nil {
		return b
	}
	return make([]byte, n)
}

func (r *reader) stamp() Stamp {
	s := Stamp(binary.BigEndian.Uint64(r.fixed(8)))
	if s == 0 || s >= 1<<63 {
		r.fail("no such time")
	}
	return s
}

func (r *reader) number() uint64 {
	n, size := binary.Uvarint(r.rest)
	if size <= 0 || size > 1 && r.rest[size-1] == 0 {
		r.fail("no number")
		return 0
	}
	r.rest = r.rest[size:]
	return n
}

// count reads how many there are of things that take so many bytes at least.
func (r *reader) count(each int) int {
	n := r.number()
	if n > uint64(len(r.rest)/each) {
		r.fail("cut short")
		return 0
	}
	return int(n)
}

func (r *reader) text() []byte { return r.take(r.count(1)) }
