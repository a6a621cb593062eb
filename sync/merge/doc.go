// Package merge reconciles what was changed on several devices.
//
//	d := merge.New("job", id)
//	d = d.Edit(d.Next(device, ms), map[string][]byte{"due": []byte("12 May"), "note": nil})
//	d = merge.Join(d, theirs)
//	text, ok := d.Shown("due")
//
// A Doc is a record as a set of fields, with as much of its history as it takes to
// merge it with any other state of itself. It is never changed: Edit, Kill and Join
// return others. Nothing here reads a clock or draws anything.
//
// What is promised, and held by the tests over random histories:
//
//   - Join(a, b) is Join(b, a); Join(a, Join(b, c)) is Join(Join(a, b), c); Join(a, a)
//     is a; byte for byte when encoded. So devices that have seen the same changes
//     have the same bytes, in whatever order and however often they came.
//   - A change made by whoever had seen another's takes its place. Of changes that
//     did not know of one another all are kept, until somebody changes the field who
//     has seen them.
//   - A change of one field leaves the others alone.
//   - What is dead stays dead.
//
// A change is told by its dot: the device that made it, and its stamp, which is
// higher than every stamp that the device had seen in the doc. A device's stamps in
// one doc therefore rise, and "the highest stamp seen of each device" tells which
// changes a doc contains. The stamp is the device's clock where that is ahead of
// all stamps seen, and one more than the highest of them where it is not: a hybrid
// logical clock (Kulkarni, Demirbas, Madappa, Avva, Leone, "Logical Physical
// Clocks", OPODIS 2014), kept by the doc itself. Fields are multi-value registers
// over one causal context (Almeida, Shoker, Baquero, "Delta State Replicated Data
// Types", 2018).
package merge

import (
	"bytes"
	"cmp"
	"maps"
	"slices"
)

// Device is what makes changes, 8 random bytes: a device from when the program was
// started until it was stopped. One that went on as the same after its storage was set
// back could make two changes of one dot, or hide what it had done before, and nobody
// could tell. It costs 16 bytes in each doc for each time that it was worked on.
type Device [8]byte

// Stamp is when a change was made: ms since 1970 in the upper 48 bits.
type Stamp uint64

// latest is the latest time that a device's clock may tell, in ms: the year 4199.
// Stamps can rise beyond it by as many changes as will ever be made.
const latest = 1 << 46

// StampOf is the first stamp of a time in ms since 1970.
func StampOf(ms int64) Stamp { return Stamp(min(max(ms, 0), latest)) << 16 }

// Ms is the time in ms since 1970.
func (s Stamp) Ms() int64 { return int64(s >> 16) }

// Dot tells a change.
type Dot struct {
	Device Device
	Stamp  Stamp
}

// compare orders dots by their time; devices break a tie.
func (d Dot) compare(o Dot) int {
	return cmp.Or(cmp.Compare(d.Stamp, o.Stamp), bytes.Compare(d.Device[:], o.Device[:]))
}

// Value is what a change made of a field.
type Value struct {
	Dot
	Text []byte
}

// compare orders values, the one to be shown first.
func (v Value) compare(o Value) int {
	return cmp.Or(o.Dot.compare(v.Dot), bytes.Compare(o.Text, v.Text))
}

// Doc is a record and its history. Its maps must not be changed.
type Doc struct {
	Kind, ID string
	// Dead says that it was cleared away for good; it has no fields then.
	Dead bool
	// Seen is the highest stamp seen of each device.
	Seen map[Device]Stamp
	// Fields are the values of each field, the one to be shown first, at least one.
	Fields map[string][]Value
}

// New is a doc that nobody has changed.
func New(kind, id string) *Doc {
	return &Doc{Kind: kind, ID: id, Seen: map[Device]Stamp{}, Fields: map[string][]Value{}}
}

// Last is the highest stamp seen.
func (d *Doc) Last() Stamp {
	var last Stamp
	for _, s := range d.Seen {
		last = max(last, s)
	}
	return last
}

// Shown is the value of a field that counts; it is not ok where there is none.
func (d *Doc) Shown(field string) (text []byte, ok bool) {
	if all := d.Fields[field]; len(all) > 0 {
		return all[0].Text, true
	}
	return nil, false
}

// Split reports whether a field has several values.
func (d *Doc) Split() bool {
	for _, values := range d.Fields {
		if len(values) > 1 {
			return true
		}
	}
	return false
}

// All are the shown values of all fields.
func (d *Doc) All() map[string][]byte {
	all := make(map[string][]byte, len(d.Fields))
	for name, values := range d.Fields {
		all[name] = values[0].Text
	}
	return all
}

// Next is the dot of a change that a device makes of the doc at that time, in ms since
// 1970.
func (d *Doc) Next(device Device, ms int64) Dot {
	return Dot{device, max(StampOf(ms), d.Last()+1)}
}

// Edit is the doc after these fields were changed; nil empties one. What was there of
// the fields, shown or not, is replaced. A dead doc stays as it is.
func (d *Doc) Edit(dot Dot, changes map[string][]byte) *Doc {
	if d.Dead || len(changes) == 0 {
		return d
	}
	next := &Doc{Kind: d.Kind, ID: d.ID, Seen: maps.Clone(d.Seen), Fields: maps.Clone(d.Fields)}
	next.Seen[dot.Device] = dot.Stamp
	for name, text := range changes {
		delete(next.Fields, name)
		if text != nil {
			next.Fields[name] = []Value{{dot, text}}
		}
	}
	return next
}

// Kill is the doc after it was cleared away for good.
func (d *Doc) Kill(dot Dot) *Doc {
	if d.Dead {
		return d
	}
	next := &Doc{Kind: d.Kind, ID: d.ID, Dead: true, Seen: maps.Clone(d.Seen), Fields: map[string][]Value{}}
	next.Seen[dot.Device] = dot.Stamp
	return next
}

// Knows reports whether the doc contains a change, or what took its place.
func (d *Doc) Knows(dot Dot) bool { return dot.Stamp <= d.Seen[dot.Device] }

// Join is the doc that contains what both contain. They must be of one record.
func Join(a, b *Doc) *Doc {
	joined := &Doc{Kind: a.Kind, ID: a.ID, Dead: a.Dead || b.Dead, Seen: maps.Clone(a.Seen), Fields: map[string][]Value{}}
	for device, stamp := range b.Seen {
		joined.Seen[device] = max(joined.Seen[device], stamp)
	}
	if joined.Dead {
		return joined
	}
	for name, values := range a.Fields {
		joined.put(name, join(a, b, values, b.Fields[name]))
	}
	for name, values := range b.Fields {
		if _, both := a.Fields[name]; !both {
			joined.put(name, join(a, b, nil, values))
		}
	}
	return joined
}

func (d *Doc) put(name string, values []Value) {
	if len(values) > 0 {
		d.Fields[name] = values
	}
}

// join keeps the values of a field that both have, and those of either that the
// other does not know.
func join(a, b *Doc, ofA, ofB []Value) []Value {
	var kept []Value
	for _, v := range ofA {
		if same := of(ofB, v.Dot); same != nil {
			// They do not differ; if they did, the same would be kept everywhere.
			if same.compare(v) < 0 {
				v = *same
			}
			kept = insert(kept, v)
		} else if !b.Knows(v.Dot) {
			kept = insert(kept, v)
		}
	}
	for _, v := range ofB {
		if of(ofA, v.Dot) == nil && !a.Knows(v.Dot) {
			kept = insert(kept, v)
		}
	}
	return kept
}

// insert puts a value in its place among the others, which are few.
func insert(values []Value, v Value) []Value {
	i := 0
	for i < len(values) && values[i].compare(v) < 0 {
		i++
	}
	return slices.Insert(values, i, v)
}

// of is the value of that dot.
func of(values []Value, dot Dot) *Value {
	for i := range values {
		if values[i].Dot == dot {
			return &values[i]
		}
	}
	return nil
}

// Same reports whether two docs are the same in every byte.
func Same(a, b *Doc) bool { return bytes.Equal(a.Encode(), b.Encode()) }

// Contains reports whether joining b to a would change nothing.
func Contains(a, b *Doc) bool { return Same(a, Join(a, b)) }
