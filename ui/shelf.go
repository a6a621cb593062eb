package ui

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft"
	"chalkfold/sync/store"
	"chalkfold/ui/book"
	"chalkfold/ui/day"
)

// knows reports what of a job this page cannot work with.
func (d *Desk) knows(j *Job) error {
	g, ok := draft.Find(j.File.Garment)
	if !ok {
		return fmt.Errorf("it is for %q, which this version does not draft", j.File.Garment)
	}
	d.garment = g
	return nil
}

// settled reports whether another job may take the place of the one on the
// desk: everything of it is saved.
func (d *Desk) settled() bool {
	return d.job != nil && d.keeper != nil && d.keeper.Saving() == Saved
}

// shelved is a job that is kept.
type shelved struct {
	store.Record
	job *Job // nil when it cannot be read
	err error
}

// deleted reports whether it only waits to be recovered.
func (s *shelved) deleted() bool { return s.job != nil && s.job.Deleted > 0 }

// find returns the job of that id, nil if there is none.
func find(all []*shelved, id string) *shelved {
	for _, s := range all {
		if s.ID == id {
			return s
		}
	}
	return nil
}

// deletedFor is how long a deleted job can be recovered.
const deletedFor = 30 * 24 * time.Hour

// over reports whether a deleted job is to be cleared away.
func (s *shelved) over(now time.Time) bool {
	return s.deleted() && now.Sub(time.UnixMilli(s.job.Deleted)) > deletedFor
}

// shelve reads all jobs, the one that was changed last first.
func shelve(ctx context.Context, s store.Store) ([]*shelved, error) {
	records, err := s.List(ctx, recordKind)
	var out []*shelved
	for _, r := range records {
		at := &shelved{Record: r}
		at.job, at.err = DecodeJob(r.Data)
		// The few jobs of a workshop need no better sort, and slices.SortFunc is
		// made anew for every type.
		i := slices.IndexFunc(out, func(o *shelved) bool { return r.Updated.After(o.Updated) })
		if i < 0 {
			i = len(out)
		}
		out = slices.Insert(out, i, at)
	}
	return out, err
}

// clearAway removes the jobs that were deleted long ago. One that another
// window has just recovered stays.
func clearAway(ctx context.Context, s store.Store, all []*shelved, now time.Time) ([]*shelved, error) {
	var left []*shelved
	for _, r := range all {
		if !r.over(now) {
			left = append(left, r)
			continue
		}
		if err := s.Delete(ctx, r.Kind, r.ID, r.Rev); err != nil && !errors.Is(err, store.ErrStale) {
			return all, err
		}
	}
	return left, nil
}

// bookViewed is how the book is looked at.
type bookViewed struct {
	sure string // the job that a tap more deletes
}

// bookView lists the jobs, the newest first.
func (d *Desk) bookView() *book.View {
	v := &book.View{
		Words: d.Words,
		Busy:  !d.settled(), Sure: d.view.book.sure,
		OnNew: d.newJob, OnSample: d.openSample, OnOpen: d.openKept,
		OnDelete: func(id string) {
			if d.view.book.sure != id {
				d.view.book.sure = id
				return
			}
			d.view.book.sure = ""
			d.discard(id, d.deps.Now().UnixMilli())
		},
		OnRecover: func(id string) { d.discard(id, 0) },
	}
	for _, r := range d.records {
		e := book.Entry{ID: r.ID, Open: d.keeper != nil && r.ID == d.keeper.id, Ticket: "No ticket"}
		if r.err != nil {
			e.Ticket, e.Bad, e.Says = "Cannot be read", true, r.err.Error()
			v.Jobs = append(v.Jobs, e)
			continue
		}
		if r.job.File.Name != "" {
			e.Ticket = r.job.File.Name
		}
		if r.deleted() {
			e.Says = "until " + day.Of(time.UnixMilli(r.job.Deleted).Add(deletedFor).Local()).Text(d.Words)
			v.Deleted = append(v.Deleted, e)
			continue
		}
		e.State, e.Says = sayState(r.job.State), when(r.Updated.Local())
		v.Jobs = append(v.Jobs, e)
	}
	v.Keep = d.keepView(len(v.Jobs))
	return v
}

// sayState puts a state in words; nothing for a job of before states were kept.
func sayState(s State) string {
	switch s {
	case ToMeasure:
		return "To be measured"
	case Measured:
		return "Measured, no draft yet"
	case Stopped:
		return "Drafted, stopped: do not cut"
	case MayBeCut:
		return "Drafted, may be cut"
	}
	return ""
}

// discard marks a job as deleted at that time, or recovers it at nought.
func (d *Desk) discard(id string, at int64) {
	kept := find(d.records, id)
	if kept == nil || kept.job == nil || !d.settled() {
		return
	}
	s, r := d.store, *kept
	r.job.Deleted = at
	data, err := r.job.Encode()
	if err != nil {
		d.fault = err.Error()
		return
	}
	r.Data, r.Rev, r.Updated = data, r.Rev+1, d.deps.Now()
	d.ctx.Async(func() {
		err := s.Put(d.ctx, r.Record)
		d.relist(err, func() {
			if d.keeper != nil && d.keeper.id == id && at > 0 {
				d.openNewest()
			}
		})
	})
}

// relist reads the jobs anew after a change of them, and then does the rest if
// the change went well. It is called beside the page.
func (d *Desk) relist(err error, then func()) {
	records, listErr := shelve(d.ctx, d.store)
	d.ctx.Dispatch(func(app.Context) {
		if listErr == nil {
			d.records = records
		}
		d.fault = ""
		switch {
		case errors.Is(err, store.ErrStale):
			d.fault = "A job was changed in another window meanwhile. Nothing was done: look again."
		case err != nil:
			d.fault = err.Error()
		case listErr != nil:
			d.fault = listErr.Error()
		case then != nil:
			then()
		}
	})
}

// when writes a time as it is told: "17 May 2031, 9.05". The time package's own
// way would add to the first load.
func when(t time.Time) string {
	minute := strconv.Itoa(t.Minute())
	if len(minute) < 2 {
		minute = "0" + minute
	}
	return day.Of(t).Text(nil) + ", " + strconv.Itoa(t.Hour()) + "." + minute
}

// listJobs reads the jobs anew.
func (d *Desk) listJobs() {
	if s := d.store; s != nil {
		d.ctx.Async(func() {
			records, err := shelve(d.ctx, s)
			d.ctx.Dispatch(func(app.Context) {
				if err != nil {
					d.fault = err.Error()
					return
				}
				d.records = records
			})
		})
	}
}

// newJob clears the desk for another job. The rules of the house stay.
func (d *Desk) newJob() {
	if !d.settled() {
		return
	}
	job := NewJob(d.garment.ID)
	job.File.Units, job.File.Rules.House = d.job.File.Units, d.job.File.Rules.House
	d.keeper = d.newKeeper()
	d.lay(job)
	d.turn(stageTape)
}

// openSample puts the sample on the desk as a job of its own.
func (d *Desk) openSample() {
	if d.keeper != nil && !d.settled() {
		return
	}
	job, err := Sample()
	if err != nil {
		d.fault = err.Error()
		return
	}
	if d.keeper != nil {
		d.keeper = d.newKeeper()
	}
	d.lay(job)
	d.keep()
	d.turn(stageDraft)
}

// openKept puts a job that is kept on the desk.
func (d *Desk) openKept(id string) {
	kept := find(d.records, id)
	if kept == nil || !d.settled() {
		return
	}
	s, r := d.store, kept.Record
	d.ctx.Async(func() {
		r, err := s.Get(d.ctx, r.Kind, r.ID) // it may have been changed in another window
		d.ctx.Dispatch(func(app.Context) {
			if err != nil {
				d.fault = err.Error()
				return
			}
			if d.settled() && d.open(r) {
				d.turn(stageTape)
			}
		})
	})
}

// navigate turns to a stage as its tab does.
func (d *Desk) navigate(stage string) {
	u := *d.ctx.Page().URL()
	u.Fragment = stage
	d.ctx.NavigateTo(&u)
}
