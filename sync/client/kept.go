package client

import (
	"encoding/binary"
	"errors"
	"maps"
	"slices"
	"strconv"
	"time"

	"chalkfold/sync/merge"
	"chalkfold/sync/seal"
	"chalkfold/sync/store"
	"chalkfold/sync/wire"
)

// errKept says that what this package keeps beside the records cannot be read.
var errKept = errors.New("what is kept of the second copy on this phone is damaged: pair the phone again, or enter the recovery words")

const keptForm = 1

// this is the workshop that this device belongs to.
type this struct {
	rev uint32 // of its record
	key seal.Key
	// era counts how often all had to be sent anew: a note says in which its doc was
	// sent last.
	era  uint32
	made bool          // the server has the workshop
	at   wire.Position // everything up to here is in the store
	// leaving is the key of the workshop that is to be closed, if left.
	left     bool
	leaving  seal.Key
	up, down uint64 // bytes, in all
	even     int64  // when this device and the server were even last, ms since 1970
}

const thisSize = 1 + 1 + 32 + 4 + 8 + 16 + 32 + 8 + 8 + 8

// record is the record of t. All numbers are big-endian.
func (t *this) record(now int64) store.Record {
	flags := byte(0)
	if t.made {
		flags |= 1
	}
	if t.left {
		flags |= 2
	}
	w := make([]byte, 0, thisSize)
	w = append(w, keptForm, flags)
	w = append(w, t.key[:]...)
	w = binary.BigEndian.AppendUint32(w, t.era)
	w = binary.BigEndian.AppendUint64(w, t.at.Seq)
	w = append(w, t.at.ID[:]...)
	w = append(w, t.leaving[:]...)
	for _, n := range []uint64{t.up, t.down, uint64(t.even)} {
		w = binary.BigEndian.AppendUint64(w, n)
	}
	return store.Record{Kind: KindThis, ID: thisID, Rev: t.rev, Data: w, Updated: time.UnixMilli(now)}
}

func decodeThis(r store.Record) (*this, error) {
	b := r.Data
	if r.Damaged || len(b) != thisSize || b[0] != keptForm || b[1] > 3 {
		return nil, errKept
	}
	t := &this{rev: r.Rev, made: b[1]&1 != 0, left: b[1]&2 != 0}
	b = b[2:]
	b = b[copy(t.key[:], b):]
	t.era, b = binary.BigEndian.Uint32(b), b[4:]
	t.at.Seq, b = binary.BigEndian.Uint64(b), b[8:]
	b = b[copy(t.at.ID[:], b):]
	b = b[copy(t.leaving[:], b):]
	t.up, b = binary.BigEndian.Uint64(b), b[8:]
	t.down, b = binary.BigEndian.Uint64(b), b[8:]
	t.even = int64(binary.BigEndian.Uint64(b))
	return t, nil
}

// note is what lies beside a record.
type note struct {
	rev uint32 // of the note's own record; nought for a new one
	of  uint32 // the revision of the record that the doc was made of
	era uint32 // in which the doc was sent, as it is; nought if it was not
	// base tells the fields of the record at that revision: by their names, a sum of
	// each text. What differs from it was changed here, whatever the doc has become
	// and whatever version of the program showed it.
	base map[string]uint64
	doc  *merge.Doc
}

// see takes the fields of the record, at that revision, for the base.
func (n *note) see(of uint32, fields map[string][]byte) {
	n.of, n.base = of, make(map[string]uint64, len(fields))
	for name, text := range fields {
		n.base[name] = sumOf(text)
	}
}

// partly reports whether the record does not show all of its doc: this version of the
// program does not know all of it.
func (n *note) partly() bool {
	for name := range n.doc.Fields {
		if _, ok := n.base[name]; !ok {
			return true
		}
	}
	return false
}

// sumOf is the FNV-1a sum of 64 bits (Fowler, Noll, Vo; the offset and the prime are
// theirs).
func sumOf(text []byte) uint64 {
	h := uint64(14695981039346656037)
	for _, b := range text {
		h = (h ^ uint64(b)) * 1099511628211
	}
	return h
}

func (n *note) key() key { return key{n.doc.Kind, n.doc.ID} }

func (n *note) known() known { return known{n.rev, n.of, n.era, n.doc.Dead, n.partly(), n.doc.Split()} }

// noteID is the id of the note beside a record.
func noteID(k key) string { return strconv.Itoa(len(k.kind)) + "/" + k.kind + "/" + k.id }

// record is the next revision of the note.
func (n *note) record(now int64) store.Record {
	w := append(make([]byte, 0, 256), keptForm)
	w = binary.BigEndian.AppendUint32(w, n.of)
	w = binary.BigEndian.AppendUint32(w, n.era)
	w = binary.BigEndian.AppendUint32(w, uint32(len(n.base)))
	for _, name := range slices.Sorted(maps.Keys(n.base)) {
		w = binary.BigEndian.AppendUint32(w, uint32(len(name)))
		w = append(w, name...)
		w = binary.BigEndian.AppendUint64(w, n.base[name])
	}
	w = append(w, n.doc.Encode()...)
	return store.Record{Kind: KindNote, ID: noteID(n.key()), Rev: n.rev + 1, Data: w, Updated: time.UnixMilli(now)}
}

func decodeNote(r store.Record) (*note, error) {
	b := r.Data
	if r.Damaged || len(b) < 13 || b[0] != keptForm {
		return nil, errKept
	}
	n := &note{rev: r.Rev, of: binary.BigEndian.Uint32(b[1:]), era: binary.BigEndian.Uint32(b[5:]), base: map[string]uint64{}}
	fields, b := binary.BigEndian.Uint32(b[9:]), b[13:]
	for range fields {
		if len(b) < 4 {
			return nil, errKept
		}
		size := uint64(binary.BigEndian.Uint32(b))
		if uint64(len(b)) < 4+size+8 {
			return nil, errKept
		}
		n.base[string(b[4:4+size])] = binary.BigEndian.Uint64(b[4+size:])
		b = b[4+size+8:]
	}
	var err error
	if n.doc, err = merge.Decode(b); err != nil {
		return nil, err
	}
	if noteID(n.key()) != r.ID {
		return nil, errKept
	}
	return n, nil
}

// NoteDoc reads the doc of a record of KindNote.
func NoteDoc(r store.Record) (*merge.Doc, error) {
	n, err := decodeNote(r)
	if err != nil {
		return nil, err
	}
	return n.doc, nil
}

// laterRecord keeps an entry that a newer version may read.
func laterRecord(e wire.Entry, rev uint32, now int64) store.Record {
	data := append(e.ID[:len(e.ID):len(e.ID)], e.Blob...)
	return store.Record{Kind: KindLater, ID: e.Slot.String(), Rev: rev, Data: data, Updated: time.UnixMilli(now)}
}
