package ledgertest

import (
	"context"
	"reflect"
	"strings"
	"testing"
	"time"

	"chalkfold/sync/ledger"
	"chalkfold/sync/wire"
)

func chunks(t *testing.T, open Opener) {
	ctx := context.Background()
	l, w := created(t, open)
	a, b, c := name(t, "a"), name(t, "b"), name(t, "c")
	long := strings.Repeat("b", wire.MostChunk)
	for _, chunk := range []wire.Chunk{{Name: a, Blob: []byte("first")}, {Name: b, Blob: []byte(long)}, {Name: a, Blob: []byte("again")}} {
		if err := l.PutChunk(ctx, w, chunk); err != nil {
			t.Fatal(err)
		}
	}
	for of, want := range map[wire.Name]string{a: "first", b: long} {
		if got, err := l.Chunk(ctx, w, of); err != nil || got.Name != of || string(got.Blob) != want {
			t.Errorf("got %.10q, %v; want %.10q", got.Blob, err, want)
		}
	}
	_, err := l.Chunk(ctx, w, c)
	wantErr(t, "a chunk never put", err, ledger.ErrNoChunk)
	missing(t, l, w, []wire.Name{c, a, name(t, "d"), b}, []wire.Name{c, name(t, "d")})
	missing(t, l, w, nil, nil)
	if u, err := l.Usage(ctx, w); err != nil || u.Chunks != 2 || u.ChunkBytes != uint64(len("first")+len(long)) || u.ChunkQuota != uint64(ledger.Common().Chunks) {
		t.Errorf("usage %+v, %v", u, err)
	}
	if err := l.DropChunks(ctx, w, []wire.Name{c, a}); err != nil {
		t.Fatal(err)
	}
	missing(t, l, w, []wire.Name{a, b}, []wire.Name{a})
}

func missing(t *testing.T, l Kept, w wire.Workshop, of, want []wire.Name) {
	t.Helper()
	got, err := l.Missing(context.Background(), w, of)
	if err != nil || len(got) != len(want) || len(want) > 0 && !reflect.DeepEqual(got, want) {
		t.Errorf("missing are %v, %v; want %v", got, err, want)
	}
}

func chunkQuota(t *testing.T, open Opener) {
	ctx := context.Background()
	l, w := open(t, ledger.Quota{Log: 100, Chunks: 100}), wire.Workshop(name(t, "workshop"))
	if _, err := l.Create(ctx, w, proof("it")); err != nil {
		t.Fatal(err)
	}
	if err := l.PutChunk(ctx, w, wire.Chunk{Name: name(t, "a"), Blob: make([]byte, 60)}); err != nil {
		t.Fatal(err)
	}
	large := wire.Chunk{Name: name(t, "b"), Blob: make([]byte, 41)}
	wantErr(t, "41 bytes where 40 are left", l.PutChunk(ctx, w, large), ledger.ErrFull)
	if err := l.PutChunk(ctx, w, wire.Chunk{Name: name(t, "a"), Blob: make([]byte, 60)}); err != nil {
		t.Errorf("the one that is there: %v", err)
	}
	if err := l.DropChunks(ctx, w, []wire.Name{name(t, "a")}); err != nil {
		t.Fatal(err)
	}
	if err := l.PutChunk(ctx, w, large); err != nil {
		t.Errorf("after room was made: %v", err)
	}
}

func boxes(t *testing.T, open Opener) {
	ctx := context.Background()
	l := open(t, ledger.Common())
	noon := time.Date(2031, 5, 17, 12, 0, 0, 0, time.UTC)
	until := noon.Add(ledger.BoxTime)
	leave := func(n, blob string) {
		if err := l.Leave(ctx, wire.Parcel{Name: name(t, n), Blob: []byte(blob)}, until); err != nil {
			t.Fatal(err)
		}
	}
	leave("a", "first")
	leave("a", "second")
	leave("b", "other")
	leave("c", "late")
	_, err := l.Take(ctx, name(t, "nobody"), noon)
	wantErr(t, "a box that is not there", err, ledger.ErrNoParcel)
	if p, err := l.Take(ctx, name(t, "a"), until.Add(-time.Millisecond)); err != nil || string(p.Blob) != "second" || p.Name != name(t, "a") {
		t.Errorf("took %q, %v", p.Blob, err)
	}
	_, err = l.Take(ctx, name(t, "a"), noon)
	wantErr(t, "taken twice", err, ledger.ErrNoParcel)
	if p, err := l.Take(ctx, name(t, "b"), noon); err != nil || string(p.Blob) != "other" {
		t.Errorf("took %q, %v", p.Blob, err)
	}
	_, err = l.Take(ctx, name(t, "c"), until)
	wantErr(t, "taken too late", err, ledger.ErrNoParcel)
}
