//go:build !js

package ui

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"chalkfold/sync/store"
	"chalkfold/sync/store/mem"
)

// shut is a store that keeps nothing any more, for that reason.
type shut struct {
	mem.Store
	why error
}

func (s *shut) Put(ctx context.Context, records ...store.Record) error {
	if s.why != nil {
		return s.why
	}
	return s.Store.Put(ctx, records...)
}

func (s *shut) All(ctx context.Context) ([]store.Record, error) {
	if s.why != nil && !errors.Is(s.why, store.ErrFull) { // a full one can be read
		return nil, s.why
	}
	return s.Store.All(ctx)
}

// jobsIn are the tickets of the jobs in a backup file.
func jobsIn(t *testing.T, file []byte) string {
	t.Helper()
	r, err := readBackup(file)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, f := range r.records {
		j, err := DecodeJob(f.Data)
		if err != nil {
			t.Fatal(err)
		}
		names = append(names, j.File.Name)
	}
	return strings.Join(names, "; ")
}

// TestHarm loses the store while a job is open: the page says so, and what was
// typed after that is in a backup file all the same.
func TestHarm(t *testing.T) {
	for _, tt := range []struct {
		why  error
		told bool // by the store itself, not only by its next answer
		says []string
		keys []string
	}{
		{store.ErrFull, false, []string{"The last change is not saved", "There is no room left on this device"}, []string{"Try again", "Save a backup file"}},
		{store.ErrClosed, true, []string{"A newer Chalkfold is open in another window", "What you changed last is not saved"}, []string{"Reload", "Save a backup file"}},
		{store.ErrCleared, true, []string{"The browser has cleared everything"}, []string{"Save a backup file", "Reload"}},
	} {
		s := &shut{}
		var told func(error)
		b := opening(t, func(_ context.Context, hear func(error)) (store.Store, error) {
			told = hear
			return s, nil
		})
		b.tapeView().OnTicket("Bass 1")
		b.settle()
		b.openSample()
		b.settle()
		s.why = fmt.Errorf("in the words of the store: %w", tt.why)
		if tt.told {
			told(tt.why)
		}
		b.tapeView().OnTicket("Alto 4")
		b.settle()
		b.shows("Not saved")
		b.shows(tt.says...)
		b.shows(tt.keys...)
		h := b.catch(true)
		b.saveBackup(false)
		b.settle()
		if got := jobsIn(t, h.file); !strings.Contains(got, "Alto 4") || !strings.Contains(got, "Bass 1") || strings.Contains(got, "Alto 3") {
			t.Errorf("%v: the file has %q, want Bass 1 and the change to Alto 4", tt.why, got)
		}
		s.why = nil
		if tt.told {
			continue
		}
		b.keeper.Retry() // there is room again
		b.save(b.keeper)
		b.settle()
		b.shows("Saved")
		if got := jobsIn(t, backupOf(t, s)); !strings.Contains(got, "Alto 4") {
			t.Errorf("%v: kept after all is %q", tt.why, got)
		}
	}
}

// TestStoreThatDoesNotOpen says why, and what can be done; the page works.
func TestStoreThatDoesNotOpen(t *testing.T) {
	for _, tt := range []struct {
		why  error
		says []string
	}{
		{store.ErrDamaged, []string{"The records on this device cannot be opened", "Nothing is deleted", "torn pages", "Save a copy as they are", "Start new records"}},
		{store.ErrClosed, []string{"The records on this device are of a newer Chalkfold", "Reload", "Start new records"}},
		{errors.New("this browser keeps nothing"), []string{"Nothing is saved on this device", "this browser keeps nothing", "Save a backup file"}},
	} {
		b := open(t, nil, fmt.Errorf("%w (torn pages)", tt.why))
		b.shows(tt.says...)
		b.openSample()
		b.settle()
		b.shows("It can be cut", "Not saved")
		h := b.catch(true)
		b.saveBackup(false)
		b.settle()
		if got := jobsIn(t, h.file); got != "Alto 3" {
			t.Errorf("%v: the file has %q", tt.why, got)
		}
		b.stage = stageBook
		b.takeFile(textFile(string(h.file)))
		b.settle()
		b.shows("Nothing was restored", "Nothing can be saved on this device now")
	}
}

// TestWaitsForAnOlderWindow says what is waited for, and goes on by itself.
func TestWaitsForAnOlderWindow(t *testing.T) {
	var tell func(error)
	b := opening(t, func(_ context.Context, told func(error)) (store.Store, error) {
		tell = told
		told(store.ErrBusy)
		return &mem.Store{}, nil
	})
	tell(store.ErrBusy) // heard after the store has opened
	b.settle()
	if b.harm != nil || b.store == nil {
		t.Errorf("the window was let in, and says %v", b.harm)
	}
	b.harm = fmt.Errorf("the browser: %w", store.ErrBusy) // as before
	b.shows("An older Chalkfold is open in another window", "goes on by itself")
}

// TestUnreadableJobsAreOffered as a copy, and restored by a backup.
func TestUnreadableJobsAreOffered(t *testing.T) {
	s := &mem.Store{}
	if err := s.Put(context.Background(), store.Record{Kind: recordKind, ID: "torn", Rev: 1, Data: []byte("torn"), Updated: clock()}); err != nil {
		t.Fatal(err)
	}
	b := open(t, s, nil)
	b.stage = stageBook
	b.listJobs()
	b.settle()
	b.shows("Cannot be read", "Some jobs cannot be read. They stay as they are", "Save a copy as they are")
	other := open(t, &mem.Store{}, nil)
	other.stage = stageBook
	other.takeFile(textFile(string(backupOf(t, s))))
	other.settle()
	other.shows("Jobs in the file: 1. New here: 1.", "Cannot be read by this version: 1.")
	other.restore(false)
	other.settle()
	if r, err := other.store.Get(context.Background(), recordKind, "torn"); err != nil || string(r.Data) != "torn" {
		t.Errorf("restored as %q, %v", r.Data, err)
	}
}
