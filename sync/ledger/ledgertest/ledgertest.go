// Package ledgertest is the one conformance suite of every ledger.
package ledgertest

import (
	"context"
	"crypto/sha256"
	"errors"
	"reflect"
	"testing"

	"chalkfold/sync/ledger"
	"chalkfold/sync/wire"
)

// A Kept is a ledger with its boxes.
type Kept interface {
	ledger.Ledger
	ledger.Boxes
}

// An Opener opens a ledger that allows each workshop so much. It need not be empty:
// each test has workshops of its own.
type Opener func(t *testing.T, q ledger.Quota) Kept

// Run runs the whole suite.
func Run(t *testing.T, open Opener) {
	t.Helper()
	tests := []struct {
		name string
		run  func(t *testing.T, open Opener)
	}{
		{"create", create},
		{"append and pull", appendAndPull},
		{"behind", behind},
		{"replay", replay},
		{"replay of what was superseded", replayOfStubs},
		{"superseded", superseded},
		{"pages by bytes", pages},
		{"long pages", longPages},
		{"diverged", diverged},
		{"refused pushes", refused},
		{"log quota", logQuota},
		{"workshops apart", apart},
		{"close", closing},
		{"copied", copied},
		{"one winner", oneWinner},
		{"random histories", histories},
		{"cancelled", cancelled},
		{"chunks", chunks},
		{"chunk quota", chunkQuota},
		{"boxes", boxes},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { tt.run(t, open) })
	}
}

// name makes a name of a text. The test's own name makes it the test's alone.
func name(t *testing.T, s string) wire.Name {
	t.Helper()
	sum := sha256.Sum256([]byte(t.Name() + "/" + s))
	return wire.Name(sum[:16])
}

func proof(s string) ledger.Proof { return sha256.Sum256([]byte(s)) }

// entry is an entry with an id, a slot and a blob of those texts.
func entry(t *testing.T, id, slot, blob string) wire.Entry {
	t.Helper()
	return wire.Entry{ID: name(t, "id "+id), Slot: name(t, "slot "+slot), Blob: []byte(blob)}
}

// created opens a ledger with one workshop.
func created(t *testing.T, open Opener) (Kept, wire.Workshop) {
	t.Helper()
	l, w := open(t, ledger.Common()), wire.Workshop(name(t, "workshop"))
	if head, err := l.Create(context.Background(), w, proof("it")); err != nil || head != (wire.Position{}) {
		t.Fatalf("created at %v, %v", head, err)
	}
	return l, w
}

func add(t *testing.T, l Kept, w wire.Workshop, base wire.Position, entries ...wire.Entry) wire.Position {
	t.Helper()
	at, err := l.Append(context.Background(), w, base, entries)
	if err != nil {
		t.Fatalf("append after %d: %v", base.Seq, err)
	}
	if at.Seq <= base.Seq || at.Seq > wire.LargestSeq || at.ID != entries[len(entries)-1].ID {
		t.Fatalf("%d entries after %d end at %d", len(entries), base.Seq, at.Seq)
	}
	return at
}

func pull(t *testing.T, l Kept, w wire.Workshop, after wire.Position, most int) wire.Page {
	t.Helper()
	page, err := l.Pull(context.Background(), w, after, most)
	if err != nil {
		t.Fatalf("pull after %d: %v", after.Seq, err)
	}
	if again, err := wire.DecodePage(page.Encode()); err != nil || again.To != page.To {
		t.Fatalf("the page after %d is none: %v", after.Seq, err)
	}
	return page
}

// blobs are what a page holds.
func blobs(p wire.Page) (texts []string) {
	for _, e := range p.Entries {
		texts = append(texts, string(e.Blob))
	}
	return texts
}

// wantBlobs wants a last page that holds just these.
func wantBlobs(t *testing.T, p wire.Page, want ...string) {
	t.Helper()
	if got := blobs(p); !reflect.DeepEqual(got, want) || p.More {
		t.Errorf("pulled %q, more %v; want %q, and no more", got, p.More, want)
	}
}

func wantErr(t *testing.T, what string, err, want error) {
	t.Helper()
	if !errors.Is(err, want) {
		t.Errorf("%s: %v, want %v", what, err, want)
	}
}

func create(t *testing.T, open Opener) {
	ctx := context.Background()
	l, w := created(t, open)
	at := add(t, l, w, wire.Position{}, entry(t, "1", "a", "one"))
	head, err := l.Create(ctx, w, proof("it"))
	if err != nil || head != at {
		t.Errorf("created again at %v, %v; want %v", head, err, at)
	}
	_, err = l.Create(ctx, w, proof("another"))
	wantErr(t, "created with another proof", err, ledger.ErrTaken)
	if p, err := l.Proof(ctx, w); err != nil || p != proof("it") {
		t.Errorf("the proof is %x, %v", p, err)
	}
	nobody := wire.Workshop(name(t, "nobody"))
	_, err = l.Proof(ctx, nobody)
	wantErr(t, "proof of nobody", err, ledger.ErrUnknown)
	for what, err := range everyCall(ctx, t, l, nobody) {
		wantErr(t, what+" of nobody", err, ledger.ErrUnknown)
	}
	wantErr(t, "close of nobody", l.Close(ctx, nobody), ledger.ErrUnknown)
}

// everyCall makes each call that needs an open workshop.
func everyCall(ctx context.Context, t *testing.T, l Kept, w wire.Workshop) map[string]error {
	t.Helper()
	errs := map[string]error{}
	_, errs["append"] = l.Append(ctx, w, wire.Position{}, []wire.Entry{entry(t, "x", "x", "x")})
	_, errs["pull"] = l.Pull(ctx, w, wire.Position{}, 1000)
	_, errs["usage"] = l.Usage(ctx, w)
	errs["put chunk"] = l.PutChunk(ctx, w, wire.Chunk{Name: name(t, "x"), Blob: []byte("x")})
	_, errs["chunk"] = l.Chunk(ctx, w, name(t, "x"))
	_, errs["missing"] = l.Missing(ctx, w, []wire.Name{name(t, "x")})
	errs["drop chunks"] = l.DropChunks(ctx, w, []wire.Name{name(t, "x")})
	return errs
}

func closing(t *testing.T, open Opener) {
	ctx := context.Background()
	l, w := created(t, open)
	add(t, l, w, wire.Position{}, entry(t, "1", "a", "one"))
	if err := errors.Join(l.Close(ctx, w), l.Close(ctx, w)); err != nil {
		t.Fatal(err)
	}
	for what, err := range everyCall(ctx, t, l, w) {
		wantErr(t, what, err, ledger.ErrClosed)
	}
	_, err := l.Create(ctx, w, proof("it"))
	wantErr(t, "created again", err, ledger.ErrClosed)
	_, err = l.Create(ctx, w, proof("another"))
	wantErr(t, "taken over", err, ledger.ErrTaken)
	if p, err := l.Proof(ctx, w); err != nil || p != proof("it") {
		t.Errorf("the proof is %x, %v", p, err)
	}
}

func apart(t *testing.T, open Opener) {
	ctx := context.Background()
	l, w := created(t, open)
	other := wire.Workshop(name(t, "other"))
	if _, err := l.Create(ctx, other, proof("other")); err != nil {
		t.Fatal(err)
	}
	// Ids, slots and chunk names of two workshops may be the same.
	at := add(t, l, w, wire.Position{}, entry(t, "1", "a", "one"))
	add(t, l, w, at, entry(t, "2", "b", "two"))
	add(t, l, other, wire.Position{}, entry(t, "1", "a", "theirs"))
	for _, c := range []struct {
		w    wire.Workshop
		blob string
	}{{w, "ours"}, {other, "theirs"}} {
		if err := l.PutChunk(ctx, c.w, wire.Chunk{Name: name(t, "c"), Blob: []byte(c.blob)}); err != nil {
			t.Fatal(err)
		}
	}
	wantBlobs(t, pull(t, l, other, wire.Position{}, 1000), "theirs")
	if err := l.Close(ctx, other); err != nil {
		t.Fatal(err)
	}
	wantBlobs(t, pull(t, l, w, wire.Position{}, 1000), "one", "two")
	if c, err := l.Chunk(ctx, w, name(t, "c")); err != nil || string(c.Blob) != "ours" {
		t.Errorf("the chunk is %q, %v", c.Blob, err)
	}
}
