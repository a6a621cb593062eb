package ledgertest

import (
	"bytes"
	"context"
	"errors"
	"strconv"
	"strings"
	"sync"
	"testing"

	"chalkfold/sync/ledger"
	"chalkfold/sync/wire"
)

func appendAndPull(t *testing.T, open Opener) {
	l, w := created(t, open)
	if p := pull(t, l, w, wire.Position{}, 1000); p.To != (wire.Position{}) || p.More || len(p.Entries) > 0 {
		t.Errorf("an empty ledger tells %+v", p)
	}
	one := add(t, l, w, wire.Position{}, entry(t, "1", "a", "one"), entry(t, "2", "b", "two"))
	two := add(t, l, w, one, entry(t, "3", "c", strings.Repeat("3", wire.MostBlob)))
	page := pull(t, l, w, wire.Position{}, wire.MostPage)
	if page.To != two || len(page.Entries) != 3 || page.Entries[1].At() != one {
		t.Fatalf("pulled up to %d, %d entries", page.To.Seq, len(page.Entries))
	}
	first := page.Entries[0]
	if want := entry(t, "1", "a", "one"); first.ID != want.ID || first.Slot != want.Slot || !bytes.Equal(first.Blob, want.Blob) {
		t.Errorf("the first is %v in %v: %q", first.ID, first.Slot, first.Blob)
	}
	if p := pull(t, l, w, one, 0); p.To != two || p.More || len(p.Entries) != 1 {
		t.Errorf("after %d come %d entries up to %d", one.Seq, len(p.Entries), p.To.Seq)
	}
	if p := pull(t, l, w, two, 1000); p.To != two || p.More || len(p.Entries) != 0 {
		t.Errorf("after the head come %d entries up to %d", len(p.Entries), p.To.Seq)
	}
}

func behind(t *testing.T, open Opener) {
	l, w := created(t, open)
	one := add(t, l, w, wire.Position{}, entry(t, "1", "a", "one"))
	two := add(t, l, w, one, entry(t, "2", "b", "two"))
	other := wire.Position{Seq: two.Seq, ID: name(t, "other")}
	later := wire.Position{Seq: two.Seq + 1, ID: two.ID}
	for _, base := range []wire.Position{{}, one, other, later} {
		_, err := l.Append(context.Background(), w, base, []wire.Entry{entry(t, "3", "c", "three")})
		wantErr(t, "append after "+strconv.FormatUint(base.Seq, 10), err, ledger.ErrBehind)
	}
	// One that is there already does not let in another.
	_, err := l.Append(context.Background(), w, one, []wire.Entry{entry(t, "2", "b", "two"), entry(t, "3", "c", "three")})
	wantErr(t, "append of one old and one new", err, ledger.ErrBehind)
	wantBlobs(t, pull(t, l, w, wire.Position{}, 1000), "one", "two")
}

// replay: the answer to a push was lost, and it is sent again.
func replay(t *testing.T, open Opener) {
	l, w := created(t, open)
	push := []wire.Entry{entry(t, "1", "a", "one"), entry(t, "2", "b", "two")}
	one := add(t, l, w, wire.Position{}, push...)
	if at := add(t, l, w, wire.Position{}, push...); at != one {
		t.Errorf("the same push again ends at %d, not %d", at.Seq, one.Seq)
	}
	two := add(t, l, w, one, entry(t, "3", "c", "three"))
	at, err := l.Append(context.Background(), w, wire.Position{}, push)
	if err != nil || at != one {
		t.Errorf("the same push later: at %d, %v; want %d", at.Seq, err, one.Seq)
	}
	if p := pull(t, l, w, wire.Position{}, 1000); p.To != two || len(p.Entries) != 3 {
		t.Errorf("%d entries up to %d", len(p.Entries), p.To.Seq)
	}
}

func replayOfStubs(t *testing.T, open Opener) {
	l, w := created(t, open)
	push := []wire.Entry{entry(t, "1", "a", "one"), entry(t, "2", "b", "two")}
	one := add(t, l, w, wire.Position{}, push...)
	add(t, l, w, one, entry(t, "3", "a", "three"), entry(t, "4", "b", "four"))
	at, err := l.Append(context.Background(), w, wire.Position{}, push)
	if err != nil || at != one {
		t.Errorf("again: at %d, %v; want %d", at.Seq, err, one.Seq)
	}
	wantBlobs(t, pull(t, l, w, wire.Position{}, 1000), "three", "four")
}

func superseded(t *testing.T, open Opener) {
	l, w := created(t, open)
	one := add(t, l, w, wire.Position{}, entry(t, "1", "a", "one"), entry(t, "2", "b", "two"))
	two := add(t, l, w, one, entry(t, "3", "a", "three"))
	three := add(t, l, w, two, entry(t, "4", "a", "four"))
	wantBlobs(t, pull(t, l, w, wire.Position{}, 1000), "two", "four")
	// A device that stopped at a stub goes on from there.
	for _, at := range []wire.Position{one, two} {
		p := pull(t, l, w, at, 1000)
		if wantBlobs(t, p, "four"); p.To != three {
			t.Errorf("after %d the page goes to %d", at.Seq, p.To.Seq)
		}
	}
	u, err := l.Usage(context.Background(), w)
	if err != nil || u.Entries != 2 || u.LogBytes != uint64(len("two")+len("four")) || u.LogQuota != uint64(ledger.Common().Log) {
		t.Errorf("usage %+v, %v", u, err)
	}
}

func pages(t *testing.T, open Opener) {
	l, w := created(t, open)
	var at wire.Position
	for i := range 5 {
		at = add(t, l, w, at, entry(t, strconv.Itoa(i), strconv.Itoa(i), strings.Repeat(strconv.Itoa(i), 100)))
	}
	size := entry(t, "0", "0", strings.Repeat("0", 100)).Size()
	for most, want := range map[int][]int{0: {1, 1, 1, 1, 1}, 2 * size: {2, 2, 1}, 3*size - 1: {2, 2, 1}, 1 << 30: {5}, -1: {1, 1, 1, 1, 1}} {
		var after wire.Position
		for i, n := range want {
			p := pull(t, l, w, after, most)
			if last := i == len(want)-1; len(p.Entries) != n || p.More == last {
				t.Errorf("at most %d: page %d has %d entries, more %v; want %d", most, i, len(p.Entries), p.More, n)
			}
			after = p.To
		}
		if after != at {
			t.Errorf("at most %d: the pages go to %d, not %d", most, after.Seq, at.Seq)
		}
	}
}

// longPages: a page is never longer than a message may be, whatever is asked for.
func longPages(t *testing.T, open Opener) {
	l, w := created(t, open)
	var at wire.Position
	for i := range 6 {
		at = add(t, l, w, at, entry(t, "long"+strconv.Itoa(i), strconv.Itoa(i), strings.Repeat("x", wire.MostBlob)))
	}
	if p := pull(t, l, w, wire.Position{}, 1<<30); !p.More || len(p.Encode()) > wire.MostMessage {
		t.Errorf("a page of %d bytes", len(p.Encode()))
	}
}

func diverged(t *testing.T, open Opener) {
	l, w := created(t, open)
	at := add(t, l, w, wire.Position{}, entry(t, "1", "a", "one"))
	for what, p := range map[string]wire.Position{
		"another id":   {Seq: at.Seq, ID: name(t, "other")},
		"never given":  {Seq: at.Seq + 1, ID: at.ID},
		"far away":     {Seq: wire.LargestSeq, ID: at.ID},
		"a seq of its": {Seq: at.Seq},
	} {
		_, err := l.Pull(context.Background(), w, p, 1000)
		wantErr(t, "pull after "+what, err, ledger.ErrDiverged)
	}
}

func refused(t *testing.T, open Opener) {
	l, w := created(t, open)
	many := make([]wire.Entry, wire.MostEntries+1)
	for i := range many {
		many[i] = entry(t, strconv.Itoa(i), strconv.Itoa(i), "x")
	}
	for what, push := range map[string][]wire.Entry{
		"none":      {},
		"too many":  many,
		"no id":     {{Slot: name(t, "a"), Blob: []byte("x")}},
		"no blob":   {entry(t, "1", "a", "")},
		"id twice":  {entry(t, "1", "a", "x"), entry(t, "1", "b", "x")},
		"one slot":  {entry(t, "1", "a", "x"), entry(t, "2", "a", "x")},
		"too large": {entry(t, "1", "a", strings.Repeat("x", wire.MostBlob+1))},
	} {
		if _, err := l.Append(context.Background(), w, wire.Position{}, push); err == nil {
			t.Errorf("appended: %s", what)
		}
	}
	add(t, l, w, wire.Position{}, many[1:]...)
}

func logQuota(t *testing.T, open Opener) {
	ctx := context.Background()
	l, w := open(t, ledger.Quota{Log: 100, Chunks: 100}), wire.Workshop(name(t, "workshop"))
	if _, err := l.Create(ctx, w, proof("it")); err != nil {
		t.Fatal(err)
	}
	at := add(t, l, w, wire.Position{}, entry(t, "1", "a", strings.Repeat("1", 60)))
	_, err := l.Append(ctx, w, at, []wire.Entry{entry(t, "2", "b", strings.Repeat("2", 41))})
	wantErr(t, "41 bytes where 40 are left", err, ledger.ErrFull)
	at = add(t, l, w, at, entry(t, "2", "b", strings.Repeat("2", 40)))
	// What is superseded makes room.
	add(t, l, w, at, entry(t, "3", "a", strings.Repeat("3", 60)))
	wantBlobs(t, pull(t, l, w, wire.Position{}, 1000), strings.Repeat("2", 40), strings.Repeat("3", 60))
}

func copied(t *testing.T, open Opener) {
	l, w := created(t, open)
	e := entry(t, "1", "a", "one")
	add(t, l, w, wire.Position{}, e)
	e.Blob[0] = 'x'
	p := pull(t, l, w, wire.Position{}, 1000)
	p.Entries[0].Blob[1] = 'x'
	wantBlobs(t, pull(t, l, w, wire.Position{}, 1000), "one")
}

// oneWinner: of several pushes after one base, one goes in.
func oneWinner(t *testing.T, open Opener) {
	l, w := created(t, open)
	base := add(t, l, w, wire.Position{}, entry(t, "0", "0", "base"))
	const devices = 8
	errs := make([]error, devices)
	var all sync.WaitGroup
	for i := range devices {
		push := []wire.Entry{entry(t, "a"+strconv.Itoa(i), "a"+strconv.Itoa(i), "x"), entry(t, "b"+strconv.Itoa(i), "b"+strconv.Itoa(i), "y")}
		all.Go(func() { _, errs[i] = l.Append(context.Background(), w, base, push) })
	}
	all.Wait()
	won := 0
	for _, err := range errs {
		if err == nil {
			won++
		} else if !errors.Is(err, ledger.ErrBehind) {
			t.Error(err)
		}
	}
	if n := len(pull(t, l, w, base, 1000).Entries); won != 1 || n != 2 {
		t.Errorf("%d pushes after one base went in, %d entries", won, n)
	}
}

func cancelled(t *testing.T, open Opener) {
	l, w := created(t, open)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	for what, err := range everyCall(ctx, t, l, w) {
		wantErr(t, what, err, context.Canceled)
	}
	if p := pull(t, l, w, wire.Position{}, 1000); len(p.Entries) > 0 {
		t.Error("a cancelled push was appended")
	}
}
