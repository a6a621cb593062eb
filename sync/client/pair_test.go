package client_test

import (
	"bytes"
	"errors"
	"testing"

	"chalkfold/sync/client"
	"chalkfold/sync/ledger"
	ledgers "chalkfold/sync/ledger/mem"
	"chalkfold/sync/seal"
	"chalkfold/sync/store"
	"chalkfold/sync/wire"
)

func TestOffer(t *testing.T) {
	l := newLine(ledgers.New(ledger.Common()))
	a := begun(t, l, 1)
	a.pass(nil)
	code := seal.NewCode(random(3))
	if err := a.Offer(t.Context(), code); err != nil {
		t.Fatal(err)
	}
	if _, err := client.Accept(t.Context(), l, seal.NewCode(random(4))); !errors.Is(err, client.ErrNoParcel) {
		t.Errorf("with another code: %v", err)
	}
	if k, err := client.Accept(t.Context(), l, code); err != nil || k != a.Key() {
		t.Errorf("accepted: %v", err)
	}
	if _, err := client.Accept(t.Context(), l, code); !errors.Is(err, client.ErrNoParcel) {
		t.Errorf("a second time: %v", err)
	}
}

// TestBundle: what one phone has comes to another by a file; what that had stays; a
// file that is not whole, or another's, is refused before anything is taken.
func TestBundle(t *testing.T) {
	l := newLine(ledgers.New(ledger.Common()))
	l.cut = func(string) error { return errors.New("no network") }
	a, b := begun(t, l, 1), begun(t, l, 2)
	a.put("one", "of the first")
	a.put("both", "of the first")
	b.put("both", "of the second")
	b.put("two", "of the second")
	file, err := a.Bundle(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(file, []byte("first")) {
		t.Error("the file can be read")
	}
	for n := range file {
		if _, err := b.Take(t.Context(), file[:n]); !errors.Is(err, client.ErrNoBundle) {
			t.Fatalf("%d of %d bytes: %v", n, len(file), err)
		}
	}
	changed := bytes.Clone(file)
	changed[len(file)/2] ^= 1
	for what, bad := range map[string][]byte{"longer": append(bytes.Clone(file), 0), "changed": changed} {
		if _, err := b.Take(t.Context(), bad); !errors.Is(err, client.ErrNoBundle) {
			t.Errorf("%s: %v", what, err)
		}
	}
	b.has("one", "")
	if n, err := b.Take(t.Context(), file); err != nil || n != 2 {
		t.Fatalf("took %d, %v", n, err)
	}
	b.has("one", "of the first")
	b.has("two", "of the second")
	if doc, err := b.Doc(t.Context(), "job", "both"); err != nil || len(doc.Fields["text"]) != 2 {
		t.Errorf("both sides are not there: %v", err)
	}
	b.account(3, 0)
	if _, err := b.Take(t.Context(), file); err != nil {
		t.Errorf("taken twice: %v", err)
	}
	other := begun(t, l, 3)
	if err := other.Begin(t.Context(), seal.Key{8}); err != nil {
		t.Fatal(err)
	}
	if _, err := other.Take(t.Context(), file); !errors.Is(err, client.ErrOthers) {
		t.Errorf("of another workshop: %v", err)
	}
}

func FuzzTake(f *testing.F) {
	keys := seal.KeysOf(seal.Key{7})
	f.Add(append([]byte("chalkfold second copy 1\n"), keys.Workshop[:]...))
	f.Fuzz(func(t *testing.T, file []byte) {
		d := begun(t, newLine(ledgers.New(ledger.Common())), 1)
		if n, err := d.Take(t.Context(), file); err == nil && n > 0 {
			t.Errorf("%d records came of %q", n, file)
		}
	})
}

// TestPhoto: a photo comes over a line that is cut at every other chunk; each chunk
// goes over it once.
func TestPhoto(t *testing.T) {
	ctx := t.Context()
	l := newLine(ledgers.New(ledger.Common()))
	a, b := begun(t, l, 1), begun(t, l, 2)
	a.pass(nil)
	b.pass(nil)
	errCut := errors.New("cut")
	n := 0
	l.cut = func(string) error {
		if n++; n%3 == 0 {
			return errCut
		}
		return nil
	}
	photo, data := wire.Name{5}, make([]byte, 7*seal.ChunkText+1000)
	a.draw(data)
	tried := 0
	for a.SendPhoto(ctx, photo, data) != nil {
		if tried++; tried > 20 {
			t.Fatal("it never arrives")
		}
	}
	if got, whole := l.sent["chunk/put"], client.Chunks(len(data)); whole != 8 || got > whole+tried {
		t.Errorf("%d chunks were sent of %d, in %d tries", got, whole, tried+1)
	}
	var got []byte
	next := 0
	for tried = 0; next < client.Chunks(len(data)); tried++ {
		if tried > 20 {
			t.Fatal("it is never fetched")
		}
		_ = b.FetchPhoto(ctx, photo, len(data), next, func(number int, text []byte) error {
			got = append(got, text...)
			next = number + 1
			return nil
		}) // it is cut again and again
	}
	if !bytes.Equal(got, data) {
		t.Error("the photo is another")
	}
	l.cut = nil
	if err := b.FetchPhoto(ctx, wire.Name{6}, 100, 0, nil); !errors.Is(err, client.ErrNoChunk) {
		t.Errorf("a photo that is not there: %v", err)
	}
	if err := b.FetchPhoto(ctx, photo, len(data)-1, 7, nil); !errors.Is(err, seal.ErrOpen) {
		t.Errorf("of another size: %v", err)
	}
	if err := a.DropPhoto(ctx, photo, len(data)); err != nil {
		t.Fatal(err)
	}
	if err := b.FetchPhoto(ctx, photo, len(data), 0, nil); !errors.Is(err, client.ErrNoChunk) {
		t.Errorf("a photo that was dropped: %v", err)
	}
	if u, err := a.Usage(ctx); err != nil || u.Chunks != 0 || u.ChunkQuota == 0 {
		t.Errorf("usage %+v, %v", u, err)
	}
}

// TestPhotos: what records name is on the server, once, and no longer than they name
// it; what is not here is left alone; after a move all of it is sent anew.
func TestPhotos(t *testing.T) {
	ctx := t.Context()
	l := newLine(ledgers.New(ledger.Common()))
	d := begun(t, l, 1)
	d.pass(nil)
	one, two, away := client.Photo{Name: wire.Name{1}, Size: 5}, client.Photo{Name: wire.Name{2}, Size: 100_000}, client.Photo{Name: wire.Name{3}, Size: 7}
	here := map[wire.Name][]byte{one.Name: []byte("small"), two.Name: bytes.Repeat([]byte{7}, two.Size)}
	reads := 0
	even := func(all bool, named ...client.Photo) {
		t.Helper()
		if err := d.Photos(ctx, named, func() ([]client.Photo, bool) { return named, all }, func(n wire.Name) ([]byte, error) {
			reads++
			if data, ok := here[n]; ok {
				return data, nil
			}
			return nil, store.ErrNotFound
		}); err != nil {
			t.Fatal(err)
		}
	}
	chunks := func(want int) {
		t.Helper()
		if u, err := d.Usage(ctx); err != nil || int(u.Chunks) != want {
			t.Errorf("the server has %d chunks, %v; want %d", u.Chunks, err, want)
		}
	}
	even(true, one, two, away)
	chunks(1 + client.Chunks(two.Size))
	if !d.PhotoSent(one.Name) || !d.PhotoSent(two.Name) || d.PhotoSent(away.Name) {
		t.Error("it is not known what was sent")
	}

	// Another window knows as much, and so does the program when it is started again.
	again := opened(t, d.store, l, 2, shape{})
	if !again.PhotoSent(one.Name) {
		t.Error("what was sent is forgotten")
	}
	d.Client, reads = again.Client, 0
	sent := l.sent["chunk/put"]
	even(true, one, two, away)
	if l.sent["chunk/put"] != sent || reads != 1 {
		t.Errorf("%d chunks were sent again, %d photos read", l.sent["chunk/put"]-sent, reads)
	}

	even(false, two) // not all that name one are known
	chunks(1 + client.Chunks(two.Size))
	even(true, two)
	chunks(client.Chunks(two.Size))
	even(true, one, two)
	chunks(1 + client.Chunks(two.Size))

	if err := d.Move(ctx, seal.Key{9}); err != nil {
		t.Fatal(err)
	}
	if d.PhotoSent(one.Name) {
		t.Error("the new workshop is said to have it")
	}
	d.pass(nil)
	even(true, one, two)
	chunks(1 + client.Chunks(two.Size))
}

func TestTimetable(t *testing.T) {
	var table client.Timetable
	due := func(at int64, want bool) {
		t.Helper()
		if got := table.Due(at); got != want {
			t.Errorf("at %d due: %v; the next is at %d", at, got, table.Next())
		}
	}
	const s = int64(1000)
	due(1000*s, true)
	table.Begun()
	table.Done(1000*s, true, 0)
	due(1299*s, false) // five minutes
	due(1300*s, true)
	table.Edited(1010 * s)
	due(1013*s, false) // four seconds of quiet
	due(1014*s, true)
	for at := 1010 * s; at < 1040*s; at += s {
		table.Edited(at)
	}
	due(1039*s, false)
	due(1040*s, true) // half a minute, though edits go on
	table.Begun()
	last := int64(0)
	now := 1040 * s
	for i := range 12 {
		table.Done(now, false, 1)
		wait := table.Next() - now
		if wait < last || wait > 30*60*s || i == 0 && wait != 5*s {
			t.Errorf("after %d failures it waits %d ms", i+1, wait)
		}
		last = wait
		table.Edited(now)
		due(now+wait-1, false) // an edit alone does not hurry it
		table.Woken()
		due(now, true)
		table.Begun()
	}
	table.Done(now, false, 0)
	if wait := table.Next() - now; wait != 15*60*s {
		t.Errorf("at the least chance it waits %d ms", wait)
	}
	table.Done(now, true, 0)
	due(now+10*s, true) // what was to be sent still is
	table.Begun()
	table.Hears(true)
	table.Done(now, true, 0)
	due(now+29*60*s, false) // whoever is told need not ask
	due(now+30*60*s, true)
}
