// Package store says how a device keeps its records.
//
// A caller reads a Record, changes its Data, raises its Rev by one, stamps
// Updated with its own clock, and calls Put. When Put returns nil the record
// has reached the disk, not merely the system: only then may a screen say
// "saved". When it returns ErrStale someone else, another tab for instance, has
// put the record meanwhile: read it again.
//
// Delete leaves a tombstone behind, for ever: the record's kind and id with the
// next revision, and none of its data. A window that knows only the record from
// before the delete can therefore not bring it back: its Put is stale. Get says
// ErrNotFound for a tombstone, and returns its Rev with the error; whoever means
// to bring the record back puts it with a higher one. List leaves tombstones
// out. They are some hundred bytes each, a workshop has few of them, and a device
// that was away for a year must still learn what was deleted: so none is ever
// cleared away.
package store

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"time"
	"unicode/utf8"
)

// Record is one thing kept: a job, a client, a rule set.
type Record struct {
	Kind string // "job", "client": not empty, UTF-8
	ID   string // unique within its kind: not empty, UTF-8
	// Rev counts the changes to this record, from 1. Nought is no record.
	Rev  uint32
	Data []byte // opaque
	// Updated is when the caller made this revision, by the caller's clock. It
	// is kept to the millisecond, in UTC.
	Updated time.Time
	// Damaged says that what is kept under this kind and id is no record: Data
	// is what could be read of it, Rev and Updated may be guesses. It is only
	// ever read; Put puts a whole record over it.
	Damaged bool
}

// The errors that a caller may want to tell apart, by errors.Is.
var (
	ErrNotFound = errors.New("no such record")
	ErrStale    = errors.New("the record was changed elsewhere: read it again")
	ErrFull     = errors.New("there is no room left to save: make room on the device, or save a backup file")
	ErrBusy     = errors.New("another window holds the records: close the other windows of this program")
	ErrClosed   = errors.New("the records belong to a newer version of this program: reload the page")
	ErrCleared  = errors.New("the records were cleared: save a backup file of what is open, then reload the page")
	ErrDamaged  = errors.New("the records cannot be opened: keep a copy of them, and begin others beside them")
)

// Store keeps records. Every method may be called from several goroutines at
// once. An error of the context leaves open whether a change was kept; after
// any other error nothing was.
type Store interface {
	// Put keeps the records, all of them or none, and returns when they have
	// reached the disk. Each Rev must be higher than the one that is kept, or
	// the error is ErrStale.
	Put(ctx context.Context, records ...Record) error
	// Get returns one record, or ErrNotFound. With that error the record is
	// empty but for its Rev: that of the tombstone, nought if there never was a
	// record.
	Get(ctx context.Context, kind, id string) (Record, error)
	// List returns the records of one kind in the order of their ids, byte by
	// byte, without those that were deleted. A damaged record does not keep the
	// others from being read.
	List(ctx context.Context, kind string) ([]Record, error)
	// All returns the records of every kind, by kind and id, as List does.
	All(ctx context.Context) ([]Record, error)
	// Delete removes a record, with the same care as Put. rev is the revision
	// that the caller knows; when a higher one is kept, the error is ErrStale. One
	// that is not there, or was deleted before, is no error.
	Delete(ctx context.Context, kind, id string, rev uint32) error
}

// LastRev is the highest revision. A record deleted at it can never come back.
const LastRev = 1<<32 - 1

// Tombstone returns what is left of a kept record that is deleted at rev, the
// revision that the caller of Delete knows. ok is false where nothing changes.
func Tombstone(kept Record, deleted bool, rev uint32) (left Record, ok bool, err error) {
	switch {
	case kept.Rev == 0 || deleted:
		return Record{}, false, nil
	case kept.Rev > rev:
		return Record{}, false, Stale(kept, rev)
	case rev < LastRev:
		rev++
	}
	return Record{Kind: kept.Kind, ID: kept.ID, Rev: rev}, true, nil
}

// Stale is the error for a change at rev where kept is what the store has.
func Stale(kept Record, rev uint32) error {
	return fmt.Errorf("%s %q: rev %d, kept is %d: %w", kept.Kind, kept.ID, rev, kept.Rev, ErrStale)
}

// Check says what keeps the record from being kept.
func (r Record) Check() error {
	if err := CheckKey(r.Kind, r.ID); err != nil {
		return err
	}
	if r.Rev == 0 {
		return fmt.Errorf("record %s %q: rev is 0, the first is 1", r.Kind, r.ID)
	}
	return nil
}

// CheckKey says what keeps kind and id from naming a record.
func CheckKey(kind, id string) error {
	switch {
	case kind == "":
		return errors.New("record: kind is empty, name one")
	case id == "":
		return fmt.Errorf("record of kind %q: id is empty, give it one", kind)
	case !utf8.ValidString(kind) || !utf8.ValidString(id):
		return fmt.Errorf("record %q %q: kind and id must be UTF-8", kind, id)
	}
	return nil
}

// Compare orders records by kind and id, byte by byte.
func Compare(a, b Record) int {
	return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.ID, b.ID))
}

// Normal returns the record as a store gives it back: the time in UTC and to
// the millisecond, the bytes a copy.
func (r Record) Normal() Record {
	r.Updated = time.UnixMilli(r.Updated.UnixMilli()).UTC()
	r.Data = append([]byte{}, r.Data...)
	return r
}
