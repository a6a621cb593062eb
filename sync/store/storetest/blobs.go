package storetest

import (
	"bytes"
	"context"
	"errors"
	"slices"
	"testing"
	"time"

	"chalkfold/sync/store"
)

// RunBlobs runs what holds of every store with a place for blobs.
func RunBlobs(t *testing.T, open Opener) {
	t.Helper()
	tests := []struct {
		name string
		run  func(t *testing.T, s store.Store, b store.Blobs)
	}{
		{"blobs round trip", blobsRoundTrip},
		{"blob and record, both or none", blobWithRecord},
		{"blobs are dropped", blobsDropped},
		{"blobs refused", blobsRefused},
		{"blobs cancelled", blobsCancelled},
		{"newest", newest},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := open(t, tt.name)
			b, ok := s.(store.Blobs)
			if !ok {
				t.Fatal("it has no place for blobs")
			}
			tt.run(t, s, b)
		})
	}
}

func putBlob(t *testing.T, b store.Blobs, name string, data []byte, records ...store.Record) {
	t.Helper()
	if err := b.PutBlob(context.Background(), name, data, records...); err != nil {
		t.Fatalf("put blob %q: %v", name, err)
	}
}

func wantBlob(t *testing.T, b store.Blobs, name string, want []byte) {
	t.Helper()
	if got, err := b.Blob(context.Background(), name); err != nil || !bytes.Equal(got, want) {
		t.Errorf("blob %q: %d bytes, %v; want %d", name, len(got), err, len(want))
	}
}

func wantNames(t *testing.T, b store.Blobs, want ...string) {
	t.Helper()
	if got, err := b.BlobNames(context.Background()); err != nil || !slices.Equal(got, want) {
		t.Errorf("names %q, %v; want %q", got, err, want)
	}
}

func blobsRoundTrip(t *testing.T, s store.Store, b store.Blobs) {
	t.Helper()
	wantNames(t, b)
	if _, err := b.Blob(context.Background(), "a"); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("one that is not there: %v, want ErrNotFound", err)
	}
	large := bytes.Repeat([]byte{0, 0xff, 'x'}, 200_000)
	mine := bytes.Clone(large)
	putBlob(t, b, "ẹ", mine)
	putBlob(t, b, "a", []byte{0})
	mine[0] = 'y' // what was handed in is the caller's again
	wantBlob(t, b, "ẹ", large)
	wantBlob(t, b, "a", []byte{0})
	wantNames(t, b, "a", "ẹ")
	putBlob(t, b, "a", []byte("another"))
	wantBlob(t, b, "a", []byte("another"))
	if all, err := s.All(context.Background()); err != nil || len(all) > 0 {
		t.Errorf("%d blobs are among the records, %v", len(all), err)
	}
}

func blobWithRecord(t *testing.T, s store.Store, b store.Blobs) {
	t.Helper()
	putBlob(t, b, "a", []byte("one"), record("photo", "1", 1, "names a"))
	wantRecord(t, s, record("photo", "1", 1, "names a"))
	wantBlob(t, b, "a", []byte("one"))
	err := b.PutBlob(context.Background(), "b", []byte("two"), record("photo", "2", 1, "names b"), record("photo", "1", 1, "stale"))
	if !errors.Is(err, store.ErrStale) {
		t.Errorf("with a stale record: %v, want ErrStale", err)
	}
	wantNames(t, b, "a")
	if _, err := s.Get(context.Background(), "photo", "2"); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("the record beside the stale one: %v", err)
	}
}

func blobsDropped(t *testing.T, _ store.Store, b store.Blobs) {
	t.Helper()
	for _, name := range []string{"a", "b", "c"} {
		putBlob(t, b, name, []byte(name))
	}
	if err := b.DropBlobs(context.Background(), "a", "c", "never there"); err != nil {
		t.Fatal(err)
	}
	wantNames(t, b, "b")
	if err := b.DropBlobs(context.Background()); err != nil {
		t.Errorf("none at all: %v", err)
	}
	putBlob(t, b, "a", []byte("again"))
	wantBlob(t, b, "a", []byte("again"))
}

func blobsRefused(t *testing.T, _ store.Store, b store.Blobs) {
	t.Helper()
	for _, name := range []string{"", "\xff"} {
		if err := b.PutBlob(context.Background(), name, []byte("x")); err == nil {
			t.Errorf("%q was taken for a name", name)
		}
	}
	if err := b.PutBlob(context.Background(), "a", nil); err == nil {
		t.Error("an empty one was taken")
	}
	if err := b.PutBlob(context.Background(), "a", []byte("x"), store.Record{Kind: "photo", ID: "1"}); err == nil {
		t.Error("one with a record of no revision was taken")
	}
	wantNames(t, b)
}

func newest(t *testing.T, s store.Store, _ store.Blobs) {
	t.Helper()
	ctx, recent := context.Background(), s.(store.Recent)
	every := func(store.Record) bool { return true }
	if _, n, err := recent.Newest(ctx, "job", every); n != 0 || !errors.Is(err, store.ErrNotFound) {
		t.Errorf("of none: %d, %v", n, err)
	}
	for i, id := range []string{"a", "c", "b", "gone"} {
		r := record("job", id, 1, "a job")
		r.Updated = noon().Add(time.Duration(i) * time.Second)
		put(t, s, r)
	}
	put(t, s, record("zither", "z", 1, "of another kind"))
	if err := s.Delete(ctx, "job", "gone", 1); err != nil {
		t.Fatal(err)
	}
	if r, n, err := recent.Newest(ctx, "job", every); r.ID != "b" || n != 3 || err != nil || string(r.Data) != "a job" {
		t.Errorf("the newest is %q of %d, %v", r.ID, n, err)
	}
	if r, _, err := recent.Newest(ctx, "job", func(r store.Record) bool { return r.ID != "b" }); r.ID != "c" || err != nil {
		t.Errorf("the newest but one is %q, %v", r.ID, err)
	}
	if _, n, err := recent.Newest(ctx, "job", func(store.Record) bool { return false }); n != 3 || !errors.Is(err, store.ErrNotFound) {
		t.Errorf("where none is wanted: %d, %v", n, err)
	}
}

func blobsCancelled(t *testing.T, _ store.Store, b store.Blobs) {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if err := b.PutBlob(ctx, "a", []byte("x")); !errors.Is(err, context.Canceled) {
		t.Errorf("put: %v", err)
	}
	if _, err := b.Blob(ctx, "a"); !errors.Is(err, context.Canceled) {
		t.Errorf("get: %v", err)
	}
	if _, err := b.BlobNames(ctx); !errors.Is(err, context.Canceled) {
		t.Errorf("names: %v", err)
	}
	if err := b.DropBlobs(ctx, "a"); !errors.Is(err, context.Canceled) {
		t.Errorf("drop: %v", err)
	}
}
