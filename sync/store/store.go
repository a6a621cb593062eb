// Package store says how a device keeps its records.
//
// A caller reads a Record, changes its Data, raises its Rev by one, stamps
// Updated with its own clock, and calls Put. When Put returns nil the record
// has reached the disk, not merely the system: only then may a screen say
// "saved". When it returns ErrStale someone else, another tab for instance, has
// put the record meanwhile: read it again.
package store

import (
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
}

// The errors that a caller may want to tell apart, by errors.Is.
var (
	ErrNotFound = errors.New("no such record")
	ErrStale    = errors.New("the record was changed elsewhere: read it again")
	ErrFull     = errors.New("there is no room left to save: make room on the device, or save a backup file")
	ErrBusy     = errors.New("another window holds the records: close the other windows of this program")
	ErrClosed   = errors.New("the records were closed by a newer version of this program: reload the page")
)

// Store keeps records. Every method may be called from several goroutines at
// once. An error of the context leaves open whether a change was kept; after
// any other error nothing was.
type Store interface {
	// Put keeps the records, all of them or none, and returns when they have
	// reached the disk. Each Rev must be higher than the one that is kept, or
	// the error is ErrStale.
	Put(ctx context.Context, records ...Record) error
	// Get returns one record, or ErrNotFound.
	Get(ctx context.Context, kind, id string) (Record, error)
	// List returns the records of one kind in the order of their ids, byte by
	// byte.
	List(ctx context.Context, kind string) ([]Record, error)
	// Delete removes a record for good, with the same care as Put. One that is
	// not there is no error.
	Delete(ctx context.Context, kind, id string) error
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

// Normal returns the record as a store gives it back: the time in UTC and to
// the millisecond, the bytes a copy.
func (r Record) Normal() Record {
	r.Updated = time.UnixMilli(r.Updated.UnixMilli()).UTC()
	r.Data = append([]byte{}, r.Data...)
	return r
}
