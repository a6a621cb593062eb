package ui

import (
	"context"
	"errors"
	"testing"
	"time"

	"chalkfold/sync/store"
	"chalkfold/sync/store/mem"
)

func clock() time.Time { return time.Date(2031, 5, 17, 12, 0, 0, 0, time.UTC) }

// putNext puts what the keeper offers and reports whether it offered anything.
func putNext(t *testing.T, k *Keeper, s store.Store) bool {
	t.Helper()
	r, ok := k.Next()
	if ok {
		k.Done(s.Put(context.Background(), r))
	}
	return ok
}

func inStore(t *testing.T, s store.Store) string {
	t.Helper()
	r, err := s.Get(context.Background(), "job", "a")
	if err != nil {
		t.Fatal(err)
	}
	return string(r.Data)
}

func TestKeeperSavesTheNewest(t *testing.T) {
	s := &mem.Store{}
	k := NewKeeper("job", "a", 0, clock)
	if putNext(t, k, s) {
		t.Fatal("a put was offered before any change")
	}
	k.Change([]byte("1"))
	if k.Saving() != Writing {
		t.Error("a change must not read as saved before the store has it")
	}
	r, ok := k.Next()
	if !ok || r.Rev != 1 || !r.Updated.Equal(clock()) {
		t.Fatalf("first put: %+v, %v", r, ok)
	}
	// Two changes while the put is under way: one put at a time, then the newest.
	k.Change([]byte("2"))
	k.Change([]byte("3"))
	if _, ok := k.Next(); ok {
		t.Fatal("two puts at once")
	}
	k.Done(s.Put(context.Background(), r))
	if k.Saving() != Writing {
		t.Error("saved was said with a newer change not yet put")
	}
	if !putNext(t, k, s) || k.Saving() != Saved || inStore(t, s) != "3" {
		t.Errorf("kept %q, saving %d; want the newest, saved", inStore(t, s), k.Saving())
	}
	if putNext(t, k, s) {
		t.Error("a put was offered with nothing new")
	}
}

func TestKeeperTriesAgain(t *testing.T) {
	s := &mem.Store{}
	k := NewKeeper("job", "a", 0, clock)
	k.Change([]byte("1"))
	if _, ok := k.Next(); !ok {
		t.Fatal("no put offered")
	}
	k.Done(store.ErrFull)
	if k.Saving() != Failed || !errors.Is(k.Fault(), store.ErrFull) {
		t.Fatalf("saving %d, fault %v; want it failed, full", k.Saving(), k.Fault())
	}
	if putNext(t, k, s) {
		t.Fatal("a failed put was offered again at once: that would go round for ever")
	}
	k.Retry()
	if !putNext(t, k, s) || k.Saving() != Saved || inStore(t, s) != "1" {
		t.Errorf("after making room: saving %d", k.Saving())
	}
	// A failure with a newer change waiting: the newer one is tried at once.
	k.Change([]byte("2"))
	if _, ok := k.Next(); !ok {
		t.Fatal("no put offered")
	}
	k.Change([]byte("3"))
	k.Done(store.ErrFull)
	if !putNext(t, k, s) || k.Saving() != Saved || inStore(t, s) != "3" {
		t.Errorf("after a newer change: saving %d", k.Saving())
	}
}

func TestKeeperMeetsAnotherWindow(t *testing.T) {
	ctx := context.Background()
	for _, mine := range []bool{true, false} {
		s := &mem.Store{}
		one, two := NewKeeper("job", "a", 0, clock), NewKeeper("job", "a", 0, clock)
		one.Change([]byte("one"))
		putNext(t, one, s)
		two.Change([]byte("two"))
		putNext(t, two, s)
		if two.Saving() != Elsewhere {
			t.Fatalf("saving %d, want it to say that another window was first", two.Saving())
		}
		two.Change([]byte("two again"))
		if putNext(t, two, s) || inStore(t, s) != "one" {
			t.Fatal("the other window's change was lost without a word")
		}
		theirs, err := s.Get(ctx, "job", "a")
		if err != nil {
			t.Fatal(err)
		}
		want := "one"
		if mine {
			two.Overwrite(theirs.Rev)
			if !putNext(t, two, s) {
				t.Fatal("nothing offered after choosing one's own")
			}
			want = "two again"
		} else {
			two.Load(theirs)
			if putNext(t, two, s) {
				t.Fatal("a put was offered after taking theirs")
			}
		}
		if two.Saving() != Saved || inStore(t, s) != want {
			t.Errorf("kept %q, saving %d; want %q, saved", inStore(t, s), two.Saving(), want)
		}
		two.Change([]byte("next"))
		if !putNext(t, two, s) || two.Saving() != Saved || inStore(t, s) != "next" {
			t.Errorf("the next change: kept %q, saving %d", inStore(t, s), two.Saving())
		}
	}
}

// TestKeeperMeetsADelete: a job deleted in another window comes back only when
// this window's is chosen.
func TestKeeperMeetsADelete(t *testing.T) {
	ctx := context.Background()
	s := &mem.Store{}
	k := NewKeeper("job", "a", 0, clock)
	k.Change([]byte("1"))
	putNext(t, k, s)
	if err := s.Delete(ctx, "job", "a", 1); err != nil {
		t.Fatal(err)
	}
	k.Change([]byte("2"))
	putNext(t, k, s)
	left, err := s.Get(ctx, "job", "a")
	if k.Saving() != Elsewhere || !errors.Is(err, store.ErrNotFound) {
		t.Fatalf("saving %d, kept %v; want it to say so, and nothing kept", k.Saving(), err)
	}
	k.Overwrite(left.Rev)
	if !putNext(t, k, s) || k.Saving() != Saved || inStore(t, s) != "2" {
		t.Errorf("after choosing one's own: kept %q, saving %d", inStore(t, s), k.Saving())
	}
}
