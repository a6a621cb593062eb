// Package storetest is the one conformance suite of every store.
package storetest

import (
	"bytes"
	"context"
	"errors"
	"strings"
	"sync"
	"testing"
	"time"

	"chalkfold/sync/store"
)

// An Opener opens the store of that name. A name opened twice is the same
// store, as two windows of one browser share theirs; a new name is an empty one.
type Opener func(t *testing.T, name string) store.Store

// Run runs the whole suite.
func Run(t *testing.T, open Opener) {
	t.Helper()
	tests := []struct {
		name string
		run  func(t *testing.T, open Opener)
	}{
		{"missing", missing},
		{"round trip", roundTrip},
		{"bytes are copied", copied},
		{"stale", stale},
		{"all or none", allOrNone},
		{"twice in one put", twiceInOne},
		{"list", list},
		{"all", all},
		{"delete", remove},
		{"stale delete", staleDelete},
		{"put after someone else's delete", putAfterDelete},
		{"delete at the last rev", deleteLast},
		{"refused", refused},
		{"two windows", twoWindows},
		{"one winner", oneWinner},
		{"cancelled", cancelled},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { tt.run(t, open) })
	}
}

// noon is the time in every record here, with more than a millisecond's worth
// of digits and not in UTC.
func noon() time.Time {
	return time.Date(2031, 5, 17, 12, 0, 0, 123_456_789, time.FixedZone("", 2*60*60))
}

func record(kind, id string, rev uint32, data string) store.Record {
	return store.Record{Kind: kind, ID: id, Rev: rev, Data: []byte(data), Updated: noon()}
}

func put(t *testing.T, s store.Store, records ...store.Record) {
	t.Helper()
	if err := s.Put(context.Background(), records...); err != nil {
		t.Fatalf("put: %v", err)
	}
}

func wantRecord(t *testing.T, s store.Store, want store.Record) {
	t.Helper()
	got, err := s.Get(context.Background(), want.Kind, want.ID)
	if err != nil {
		t.Fatalf("get %s %q: %v", want.Kind, want.ID, err)
	}
	same(t, got, want)
}

func same(t *testing.T, got, want store.Record) {
	t.Helper()
	if got.Kind != want.Kind || got.ID != want.ID || got.Rev != want.Rev || !bytes.Equal(got.Data, want.Data) {
		t.Errorf("got %s %q rev %d, %d bytes; want %s %q rev %d, %d bytes",
			got.Kind, got.ID, got.Rev, len(got.Data), want.Kind, want.ID, want.Rev, len(want.Data))
	}
	if at := want.Updated.Truncate(time.Millisecond); !got.Updated.Equal(at) || got.Updated.Location() != time.UTC {
		t.Errorf("updated %v, want %v in UTC", got.Updated, at.UTC())
	}
}

func missing(t *testing.T, open Opener) {
	s := open(t, "missing")
	if _, err := s.Get(context.Background(), "job", "none"); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("get: %v, want ErrNotFound", err)
	}
	if got, err := s.List(context.Background(), "job"); err != nil || len(got) != 0 {
		t.Errorf("list: %d records, %v; want none", len(got), err)
	}
}

func roundTrip(t *testing.T, open Opener) {
	s := open(t, "round trip")
	for _, r := range []store.Record{
		record("job", "Alto 3", 1, `{"hip_girth":"42 in"}`),
		record("job", "ẹ ọ ṣ ɓ ɗ ƙ \U0001F9F5", 1, "letters of several languages"),
		record("job", "empty", 1, ""),
		record("job", "every byte", 7, string(allBytes())),
		record("job", "a long one", 1, strings.Repeat("chalk", 200_000)),
		record("job", "last rev", 1<<32-1, "x"),
	} {
		put(t, s, r)
		wantRecord(t, s, r)
	}
	put(t, s, record("job", "Alto 3", 2, "changed"))
	wantRecord(t, s, record("job", "Alto 3", 2, "changed"))
}

func allBytes() []byte {
	b := make([]byte, 256)
	for i := range b {
		b[i] = byte(i)
	}
	return b
}

func copied(t *testing.T, open Opener) {
	s := open(t, "copied")
	r := record("job", "a", 1, "before")
	put(t, s, r)
	copy(r.Data, "AFTER!")
	wantRecord(t, s, record("job", "a", 1, "before"))
	got, err := s.Get(context.Background(), "job", "a")
	if err != nil {
		t.Fatal(err)
	}
	copy(got.Data, "AFTER!")
	wantRecord(t, s, record("job", "a", 1, "before"))
}

func stale(t *testing.T, open Opener) {
	s := open(t, "stale")
	put(t, s, record("job", "a", 5, "kept"))
	for _, rev := range []uint32{1, 4, 5} {
		if err := s.Put(context.Background(), record("job", "a", rev, "late")); !errors.Is(err, store.ErrStale) {
			t.Errorf("rev %d over 5: %v, want ErrStale", rev, err)
		}
		wantRecord(t, s, record("job", "a", 5, "kept"))
	}
	put(t, s, record("job", "a", 6, "next"))
	put(t, s, record("job", "a", 9, "a copy from elsewhere may jump"))
	put(t, s, record("client", "a", 1, "another kind, another record"))
}

func allOrNone(t *testing.T, open Opener) {
	s := open(t, "all or none")
	put(t, s, record("job", "b", 3, "kept"))
	bad := map[string]store.Record{
		"stale":   record("job", "b", 3, "late"),
		"refused": record("job", "", 1, "no id"),
	}
	for name, r := range bad {
		err := s.Put(context.Background(), record("job", "a", 1, "new"), r, record("job", "c", 1, "new"))
		if err == nil {
			t.Fatalf("%s: put said nothing", name)
		}
		got, err := s.List(context.Background(), "job")
		if err != nil || len(got) != 1 {
			t.Fatalf("%s: %d records, %v; want the one from before", name, len(got), err)
		}
		same(t, got[0], record("job", "b", 3, "kept"))
	}
	put(t, s) // none at all is fine
}

func twiceInOne(t *testing.T, open Opener) {
	s := open(t, "twice")
	if err := s.Put(context.Background(), record("job", "a", 1, "x"), record("job", "a", 1, "y")); !errors.Is(err, store.ErrStale) {
		t.Errorf("the same rev twice in one put: %v, want ErrStale", err)
	}
	put(t, s, record("job", "a", 1, "x"), record("job", "a", 2, "y"))
	wantRecord(t, s, record("job", "a", 2, "y"))
}

func list(t *testing.T, open Opener) {
	s := open(t, "list")
	// U+FF5E sorts after U+1F9F5 by UTF-16, before it byte by byte.
	ids := []string{"Alto 10", "Alto 3", "alto 1", "\uFF5E", "\U0001F9F5"}
	for _, i := range []int{3, 0, 4, 2, 1} {
		put(t, s, record("job", ids[i], 1, ids[i]))
	}
	put(t, s, record("jo", "b", 1, "shorter kind"), record("jobs", "a", 1, "longer kind"), record("job\x00", "a", 1, "odd kind"))
	got, err := s.List(context.Background(), "job")
	if err != nil {
		t.Fatal(err)
	}
	if len(got) != len(ids) {
		t.Fatalf("%d records, want %d", len(got), len(ids))
	}
	for i, r := range got {
		same(t, r, record("job", ids[i], 1, ids[i]))
	}
}

func all(t *testing.T, open Opener) {
	s := open(t, "all")
	if got, err := s.All(context.Background()); err != nil || len(got) != 0 {
		t.Errorf("of an empty store: %d records, %v", len(got), err)
	}
	want := []store.Record{
		record("client", "b", 1, "a client"), record("job", "\uFF5E", 2, "by bytes"), record("job", "\U0001F9F5", 1, "not by UTF-16"),
		record("\uFF5E", "a", 1, "a kind"), record("\U0001F9F5", "a", 1, "another"),
	}
	for _, i := range []int{3, 0, 4, 2, 1} {
		put(t, s, want[i])
	}
	put(t, s, record("job", "gone", 1, "x"))
	if err := s.Delete(context.Background(), "job", "gone", 1); err != nil {
		t.Fatal(err)
	}
	got, err := s.All(context.Background())
	if err != nil || len(got) != len(want) {
		t.Fatalf("%d records, %v; want %d", len(got), err, len(want))
	}
	for i, r := range got {
		same(t, r, want[i])
	}
}

// gone wants no job of that id, and a tombstone of that revision.
func gone(t *testing.T, s store.Store, id string, rev uint32) {
	t.Helper()
	got, err := s.Get(context.Background(), "job", id)
	if !errors.Is(err, store.ErrNotFound) || got.Rev != rev || got.Data != nil {
		t.Errorf("get %q: rev %d with %d bytes, %v; want ErrNotFound with rev %d", id, got.Rev, len(got.Data), err, rev)
	}
	all, err := s.List(context.Background(), "job")
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range all {
		if r.ID == id {
			t.Errorf("%q was deleted and is listed", id)
		}
	}
}

func remove(t *testing.T, open Opener) {
	ctx := context.Background()
	s := open(t, "delete")
	put(t, s, record("job", "a", 4, "x"), record("job", "b", 1, "y"), record("client", "a", 1, "z"))
	for range 2 { // the second time it is not there, which is no error
		if err := s.Delete(ctx, "job", "a", 4); err != nil {
			t.Fatal(err)
		}
		gone(t, s, "a", 5)
	}
	wantRecord(t, s, record("job", "b", 1, "y"))
	wantRecord(t, s, record("client", "a", 1, "z"))
	if err := s.Delete(ctx, "job", "never", 3); err != nil {
		t.Errorf("delete of what never was: %v", err)
	}
	gone(t, s, "never", 0)
	put(t, s, record("job", "never", 1, "the first"))
}

func staleDelete(t *testing.T, open Opener) {
	ctx := context.Background()
	one, two := open(t, "stale delete"), open(t, "stale delete")
	put(t, one, record("job", "a", 1, "from one"))
	put(t, two, record("job", "a", 2, "from two"))
	for range 2 {
		if err := one.Delete(ctx, "job", "a", 1); !errors.Is(err, store.ErrStale) {
			t.Errorf("delete of rev 1 over 2: %v, want ErrStale", err)
		}
		wantRecord(t, one, record("job", "a", 2, "from two"))
	}
	if err := one.Delete(ctx, "job", "a", 2); err != nil {
		t.Fatal(err)
	}
	gone(t, two, "a", 3)
}

func putAfterDelete(t *testing.T, open Opener) {
	ctx := context.Background()
	one, two := open(t, "put after delete"), open(t, "put after delete")
	put(t, one, record("job", "a", 4, "x"))
	if err := two.Delete(ctx, "job", "a", 4); err != nil {
		t.Fatal(err)
	}
	for _, rev := range []uint32{1, 4, 5} { // one goes on from what it knows
		if err := one.Put(ctx, record("job", "a", rev, "late")); !errors.Is(err, store.ErrStale) {
			t.Errorf("rev %d after the delete: %v, want ErrStale", rev, err)
		}
		gone(t, one, "a", 5)
	}
	if err := one.Put(ctx, record("job", "b", 1, "beside it"), record("job", "a", 5, "late")); !errors.Is(err, store.ErrStale) {
		t.Errorf("together with another record: %v, want ErrStale", err)
	}
	gone(t, one, "b", 0)

	// Meant, by one who has read the tombstone.
	put(t, one, record("job", "a", 6, "brought back"))
	wantRecord(t, two, record("job", "a", 6, "brought back"))
	if err := two.Delete(ctx, "job", "a", 4); !errors.Is(err, store.ErrStale) {
		t.Errorf("the delete from before, again: %v, want ErrStale", err)
	}
	wantRecord(t, one, record("job", "a", 6, "brought back"))
}

func deleteLast(t *testing.T, open Opener) {
	s := open(t, "delete last")
	put(t, s, record("job", "a", store.LastRev, "x"))
	if err := s.Delete(context.Background(), "job", "a", store.LastRev); err != nil {
		t.Fatal(err)
	}
	gone(t, s, "a", store.LastRev)
	if err := s.Put(context.Background(), record("job", "a", store.LastRev, "late")); !errors.Is(err, store.ErrStale) {
		t.Errorf("put over it: %v, want ErrStale", err)
	}
}

func refused(t *testing.T, open Opener) {
	ctx := context.Background()
	s := open(t, "refused")
	for name, r := range map[string]store.Record{
		"no kind":      record("", "a", 1, ""),
		"no id":        record("job", "", 1, ""),
		"no rev":       record("job", "a", 0, ""),
		"id not UTF-8": record("job", "a\xff", 1, ""),
	} {
		if err := s.Put(ctx, r); err == nil {
			t.Errorf("%s: put took it", name)
		}
	}
	if _, err := s.Get(ctx, "", "a"); err == nil || errors.Is(err, store.ErrNotFound) {
		t.Errorf("get without a kind: %v, want it refused", err)
	}
	if err := s.Delete(ctx, "job", "", 1); err == nil {
		t.Error("delete without an id: want it refused")
	}
}

func twoWindows(t *testing.T, open Opener) {
	one, two := open(t, "windows"), open(t, "windows")
	put(t, one, record("job", "a", 1, "from one"))
	wantRecord(t, two, record("job", "a", 1, "from one"))
	put(t, two, record("job", "a", 2, "from two"))
	if err := one.Put(context.Background(), record("job", "a", 2, "from one again")); !errors.Is(err, store.ErrStale) {
		t.Errorf("the first window does not know of the second's change: %v, want ErrStale", err)
	}
	wantRecord(t, one, record("job", "a", 2, "from two"))
}

func oneWinner(t *testing.T, open Opener) {
	s := open(t, "winner")
	const tries = 8
	errs := make([]error, tries)
	var all sync.WaitGroup
	for i := range tries {
		all.Go(func() { errs[i] = s.Put(context.Background(), record("job", "a", 1, string(rune('a'+i)))) })
	}
	all.Wait()
	won := -1
	for i, err := range errs {
		switch {
		case err == nil && won >= 0:
			t.Errorf("puts %d and %d of one rev both won", won, i)
		case err == nil:
			won = i
		case !errors.Is(err, store.ErrStale):
			t.Errorf("put %d: %v, want ErrStale", i, err)
		}
	}
	if won < 0 {
		t.Fatal("no put won")
	}
	wantRecord(t, s, record("job", "a", 1, string(rune('a'+won))))
}

func cancelled(t *testing.T, open Opener) {
	s := open(t, "cancelled")
	put(t, s, record("job", "a", 1, "kept"))
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if err := s.Put(ctx, record("job", "a", 2, "late")); !errors.Is(err, context.Canceled) {
		t.Errorf("put: %v, want the context's error", err)
	}
	if _, err := s.Get(ctx, "job", "a"); !errors.Is(err, context.Canceled) {
		t.Errorf("get: %v, want the context's error", err)
	}
	if _, err := s.List(ctx, "job"); !errors.Is(err, context.Canceled) {
		t.Errorf("list: %v, want the context's error", err)
	}
	if _, err := s.All(ctx); !errors.Is(err, context.Canceled) {
		t.Errorf("all: %v, want the context's error", err)
	}
	if err := s.Delete(ctx, "job", "a", 1); !errors.Is(err, context.Canceled) {
		t.Errorf("delete: %v, want the context's error", err)
	}
	wantRecord(t, s, record("job", "a", 1, "kept"))
}
