//go:build !js

package ui

import (
	"context"
	"errors"
	"strings"
	"testing"

	"chalkfold/sync/store"
	"chalkfold/sync/store/mem"
	"chalkfold/ui/book"
)

// bookOf is the book as it is listed now, the open job first.
func (b tried) bookOf() (live, deleted []string) {
	b.t.Helper()
	b.stage = stageBook
	b.listJobs()
	b.settle()
	v := b.bookView()
	if v.Open != nil {
		live = append(live, v.Open.Name+", "+v.Open.State)
	}
	for _, e := range append(v.Due, v.Jobs...) {
		live = append(live, e.Name+", "+e.State)
	}
	b.view.book.view = book.ViewDeleted
	for _, e := range b.bookView().Deleted {
		deleted = append(deleted, e.Name+" "+e.Changed)
	}
	b.view.book.view = book.ViewJobs
	return live, deleted
}

func TestDeleteAndRecover(t *testing.T) {
	s := &mem.Store{}
	b := open(t, s, nil)
	b.tapeView().OnTicket("Bass 1")
	b.settle()
	b.openSample()
	b.settle()
	wants := func(what, live, deleted string) {
		t.Helper()
		gotLive, gotDeleted := b.bookOf()
		if l, d := strings.Join(gotLive, "; "), strings.Join(gotDeleted, "; "); l != live || d != deleted {
			t.Errorf("%s: %q, deleted %q; want %q, deleted %q", what, l, d, live, deleted)
		}
	}
	const sample, bass = "Alto 3, Drafted, may be cut", "Bass 1, To be measured"
	wants("two jobs", sample+"; "+bass, "")
	id := b.keeper.id
	b.bookView().Open.OnDetails()
	b.bookView().Open.OnDelete()
	b.settle()
	b.shows("Yes, delete")
	wants("asked", sample+"; "+bass, "")
	b.bookView().Open.OnDelete()
	b.settle()
	wants("deleted", bass, "Alto 3 until 16 Jun 2031")
	if b.job.File.Name != "Bass 1" {
		t.Errorf("%q lies on the desk after the open job was deleted", b.job.File.Name)
	}
	if next := open(t, s, nil); next.job.File.Name != "Bass 1" {
		t.Errorf("the next window opens %q", next.job.File.Name)
	}
	b.bookView().OnRecover(id)
	b.settle()
	wants("recovered", bass+"; "+sample, "")

	// Another window has it open and goes on with it.
	other := open(t, s, nil)
	other.keeper.now = b.deps.Now // one clock for both windows
	other.tapeView().OnTicket("Alto 3 of the choir")
	other.settle()
	b.discard(id, b.deps.Now().UnixMilli())
	b.settle()
	b.shows("changed in another window")
	wants("a stale delete", bass+"; Alto 3 of the choir, Drafted, may be cut", "")
	b.discard(id, b.deps.Now().UnixMilli())
	b.settle()
	wants("a delete that knows", bass, "Alto 3 of the choir until 16 Jun 2031")
	other.tapeView().OnTicket("late")
	other.settle()
	other.shows("changed in another window")
	wants("a stale change", bass, "Alto 3 of the choir until 16 Jun 2031")
	other.meetOther(false)
	other.settle()
	if !other.job.Blank() || other.job.Deleted != 0 {
		t.Error("the deleted job stays on the other window's desk")
	}
}

func TestDeletedJobsAreClearedAway(t *testing.T) {
	ctx := context.Background()
	s := &mem.Store{}
	for id, days := range map[string]int64{"long ago": 31, "of late": 29, "there": 0} {
		j := NewJob("trousers")
		j.File.Name = id
		if days > 0 {
			j.Deleted = clock().UnixMilli() - days*24*60*60*1000
		}
		data, err := j.Encode()
		if err != nil {
			t.Fatal(err)
		}
		if err := s.Put(ctx, store.Record{Kind: recordKind, ID: id, Rev: 3, Data: data, Updated: clock()}); err != nil {
			t.Fatal(err)
		}
	}
	b := open(t, s, nil)
	live, deleted := b.bookOf()
	if len(live) != 1 || len(deleted) != 1 || !strings.HasPrefix(deleted[0], "of late") {
		t.Errorf("kept %q, deleted %q", live, deleted)
	}
	left, err := s.Get(ctx, recordKind, "long ago")
	if !errors.Is(err, store.ErrNotFound) || left.Rev != 4 {
		t.Errorf("what was deleted long ago: rev %d, %v; want its tombstone", left.Rev, err)
	}
}
