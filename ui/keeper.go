package ui

import (
	"errors"
	"time"

	"chalkfold/sync/store"
)

// Saving is how far the open job has got to the disk.
type Saving uint8

// The states of saving. Only Saved may be shown as such: the store has said
// that the disk has everything.
const (
	Saved Saving = iota
	Writing
	Failed    // Keeper.Fault says why; Retry or the next change tries again
	Elsewhere // another window has changed the job: Keeper waits for Overwrite or Load
)

// Keeper saves the open job on every change, one put at a time, always the
// newest. It does no work itself: its owner asks Next what to put, puts it, and
// tells Done how it went. The zero value keeps nothing; see NewKeeper.
type Keeper struct {
	kind, id string
	now      func() time.Time
	rev      uint32 // kept in the store
	data     []byte // newest
	dirty    bool   // data is newer than what is kept or being put
	busy     bool   // a put is under way
	saving   Saving
	fault    error
}

// NewKeeper keeps the record of that kind and id. rev is the revision that was
// read, nought for a new record.
func NewKeeper(kind, id string, rev uint32, now func() time.Time) *Keeper {
	return &Keeper{kind: kind, id: id, rev: rev, now: now}
}

// Saving says how far the newest change has got.
func (k *Keeper) Saving() Saving { return k.saving }

// Fault says why saving failed, nil if it did not.
func (k *Keeper) Fault() error { return k.fault }

// Change takes the newest state of the job.
func (k *Keeper) Change(data []byte) {
	k.data, k.dirty = data, true
	if k.saving != Elsewhere {
		k.saving = Writing
	}
}

// Next returns the record to put now. It is not ok while another put is under
// way, when there is nothing new, after a failure that nobody has answered, or
// when another window has changed the job.
func (k *Keeper) Next() (r store.Record, ok bool) {
	if !k.dirty || k.busy || k.saving == Elsewhere || k.saving == Failed {
		return store.Record{}, false
	}
	k.dirty, k.busy, k.saving, k.fault = false, true, Writing, nil
	return store.Record{Kind: k.kind, ID: k.id, Rev: k.rev + 1, Data: k.data, Updated: k.now()}, true
}

// Done tells how the put of the last Next went.
func (k *Keeper) Done(err error) {
	k.busy = false
	switch {
	case err == nil:
		k.rev++
		if !k.dirty {
			k.saving = Saved
		}
	case errors.Is(err, store.ErrStale):
		k.saving, k.fault, k.dirty = Elsewhere, err, true
	default:
		k.fault = err
		if !k.dirty { // the newer change, if there is one, is tried at once
			k.saving, k.dirty = Failed, true
		}
	}
}

// Unsaved returns the record of the newest state while the store has not said
// that it is on the disk.
func (k *Keeper) Unsaved() (r store.Record, ok bool) {
	if k.saving == Saved || k.data == nil {
		return store.Record{}, false
	}
	return store.Record{Kind: k.kind, ID: k.id, Rev: k.rev + 1, Data: k.data, Updated: k.now()}, true
}

// Retry makes Next offer the newest state again after it failed.
func (k *Keeper) Retry() {
	if k.saving == Failed {
		k.saving = Writing
	}
}

// Overwrite keeps this window's state over the other window's, whose revision
// is rev.
func (k *Keeper) Overwrite(rev uint32) {
	k.rev, k.dirty, k.saving, k.fault = rev, true, Writing, nil
}

// Load takes the other window's record: nothing is left to save.
func (k *Keeper) Load(r store.Record) {
	k.rev, k.data, k.dirty, k.saving, k.fault = r.Rev, r.Data, false, Saved, nil
}
