package ui

import (
	"fmt"
	"slices"
	"strconv"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft"
	"chalkfold/sync/store"
	"chalkfold/ui/book"
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

// bookView lists the jobs, the newest first.
func (d *Desk) bookView() book.View {
	v := book.View{
		Busy: !d.settled(), OnNew: d.newJob, OnSample: d.openSample, OnOpen: d.openKept,
	}
	for _, r := range newestFirst(d.records) {
		e := book.Entry{ID: r.ID, Open: d.keeper != nil && r.ID == d.keeper.id, Says: when(r.Updated.Local())}
		job, err := DecodeJob(r.Data)
		switch {
		case err != nil:
			e.Ticket, e.Bad, e.Says = "Cannot be read", true, err.Error()
		case job.File.Name == "":
			e.Ticket = "No ticket"
		default:
			e.Ticket = job.File.Name
		}
		v.Jobs = append(v.Jobs, e)
	}
	return v
}

// newestFirst sorts a copy. The few jobs of a workshop need no better sort,
// and slices.SortFunc is made anew for every type.
func newestFirst(records []store.Record) []store.Record {
	var out []store.Record
	for _, r := range records {
		i := slices.IndexFunc(out, func(o store.Record) bool { return r.Updated.After(o.Updated) })
		if i < 0 {
			i = len(out)
		}
		out = slices.Insert(out, i, r)
	}
	return out
}

// when writes a time as it is told: "17 May 2031, 9.05". The time package's own
// way would add to the first load.
func when(t time.Time) string {
	minute := strconv.Itoa(t.Minute())
	if len(minute) < 2 {
		minute = "0" + minute
	}
	return strconv.Itoa(t.Day()) + " " + t.Month().String() + " " + strconv.Itoa(t.Year()) + ", " + strconv.Itoa(t.Hour()) + "." + minute
}

// listJobs reads the jobs anew.
func (d *Desk) listJobs() {
	s := d.store
	if s == nil {
		return
	}
	d.ctx.Async(func() {
		records, err := s.List(d.ctx, recordKind)
		d.ctx.Dispatch(func(app.Context) {
			if err != nil {
				d.fault = err.Error()
				return
			}
			d.records = records
		})
	})
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
	i := slices.IndexFunc(d.records, func(r store.Record) bool { return r.ID == id })
	if i < 0 || !d.settled() {
		return
	}
	s, r := d.store, d.records[i]
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
