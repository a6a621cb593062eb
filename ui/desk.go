package ui

import (
	"context"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/body"
	"chalkfold/sync/store"
	"chalkfold/ui/tape"
)

// Deps is what the page works with.
type Deps struct {
	Open func(context.Context) (store.Store, error) // opens the place where jobs are kept
	// Persist asks the browser not to clear it, and says what it answered.
	Persist func(context.Context) (bool, error)
	NewID   func() string
	Now     func() time.Time
	Core    Core
}

// Run shows the page. It returns when the page is closed.
func Run(deps Deps) {
	app.Route("/", func() app.Composer { return NewDesk(deps) })
	app.RunWhenOnBrowser()
}

// Desk is the whole page: the open job and the stages around it.
type Desk struct {
	app.Compo
	deps  Deps
	store store.Store
	// ctx is the desk's own: the context of an event ends with the node that it
	// came from, and with it the answer of the store.
	ctx app.Context

	job    *Job // nil until it is read
	keeper *Keeper
	fault  string // why no job can be opened, or why the store is not there
	sheet  tape.Sheet
	work   Work

	stage     string // id
	focus     body.ID
	help      body.ID
	large     bool
	fine      bool
	files     files
	persisted bool
	asked     bool // whether the browser has answered about keeping the jobs
}

// NewDesk returns a desk that opens the newest job when it is shown.
func NewDesk(deps Deps) *Desk {
	return &Desk{deps: deps, stage: stages()[0].id}
}

// OnMount implements app.Mounter.
func (d *Desk) OnMount(ctx app.Context) {
	d.ctx = ctx
	d.stage = stageFromFragment(ctx.Page().URL().Fragment)
	d.hearFiles()
	d.openNewest()
}

// OnNav implements app.Navigator.
func (d *Desk) OnNav(ctx app.Context) {
	next := stageFromFragment(ctx.Page().URL().Fragment)
	if next == d.stage {
		return
	}
	d.stage, d.focus, d.help = next, "", ""
	ctx.Defer(func(app.Context) { app.Window().Call("scrollTo", 0, 0) })
}

// hearFiles follows what the loader says of the files kept.
func (d *Desk) hearFiles() {
	l := loader()
	if l == nil {
		return
	}
	app.Window().Call("addEventListener", "chalkfold-files", app.FuncOf(func(app.Value, []app.Value) any {
		d.ctx.Dispatch(func(app.Context) { d.files = readFiles() })
		return nil
	}))
	l.Call("booted")
}

// openNewest opens the job that was changed last, or a new one.
func (d *Desk) openNewest() {
	d.ctx.Async(func() {
		s, err := d.deps.Open(d.ctx)
		var records []store.Record
		if err == nil {
			records, err = s.List(d.ctx, recordKind)
		}
		d.ctx.Dispatch(func(app.Context) { d.opened(s, records, err) })
	})
}

// opened takes the records of the store. Without a store the page works, and
// says that nothing is kept.
func (d *Desk) opened(s store.Store, records []store.Record, err error) {
	d.job = NewJob()
	if err != nil {
		d.fault = "Nothing is saved: " + err.Error()
		d.redraft()
		return
	}
	d.store = s
	d.keeper = NewKeeper(recordKind, d.deps.NewID(), 0, d.deps.Now)
	if r, ok := newest(records); ok {
		job, err := DecodeJob(r.Data)
		if err != nil {
			// The record is left as it is; a new job takes its place on the desk.
			d.fault = "The last job was left untouched: " + err.Error()
		} else {
			d.job = job
			d.keeper = NewKeeper(recordKind, r.ID, r.Rev, d.deps.Now)
		}
	}
	d.redraft()
	d.askToPersist()
}

// newest returns the record that was changed last.
func newest(records []store.Record) (best store.Record, ok bool) {
	for _, r := range records {
		if !ok || r.Updated.After(best.Updated) {
			best, ok = r, true
		}
	}
	return best, ok
}

// askToPersist asks the browser to keep the jobs, and notes its answer.
func (d *Desk) askToPersist() {
	if d.deps.Persist == nil {
		return
	}
	d.ctx.Async(func() {
		granted, err := d.deps.Persist(d.ctx)
		d.ctx.Dispatch(func(app.Context) { d.persisted, d.asked = granted, err == nil })
	})
}

// changed is called after each change of the job.
func (d *Desk) changed() {
	d.redraft()
	if d.keeper == nil {
		return
	}
	data, err := d.job.Encode()
	if err != nil {
		d.fault = err.Error()
		return
	}
	d.keeper.Change(data)
	d.save()
}

// save puts what the keeper offers, until it offers nothing more.
func (d *Desk) save() {
	r, ok := d.keeper.Next()
	if !ok {
		return
	}
	s := d.store
	d.ctx.Async(func() {
		err := s.Put(d.ctx, r)
		d.ctx.Dispatch(func(app.Context) {
			d.keeper.Done(err)
			d.save()
		})
	})
}

// redraft reads what was typed and drafts it.
func (d *Desk) redraft() {
	d.sheet = tape.Read(d.deps.Core.Garment.Needs, d.job.Typed, d.job.Figure, d.job.System())
	d.work = Work{Missing: "The draft is drawn here once the measurements are taken."}
	if d.deps.Core.Make != nil {
		d.work = d.deps.Core.Make(d.job)
	}
}

// takeTheirs and keepMine answer for a job that another window has changed.
func (d *Desk) takeTheirs() { d.meetOther(false) }
func (d *Desk) keepMine()   { d.meetOther(true) }

func (d *Desk) meetOther(mine bool) {
	s, k := d.store, d.keeper
	d.ctx.Async(func() {
		r, err := s.Get(d.ctx, k.kind, k.id)
		d.ctx.Dispatch(func(app.Context) {
			if err != nil {
				d.fault = err.Error()
				return
			}
			if mine {
				k.Overwrite(r.Rev)
				d.save()
				return
			}
			job, err := DecodeJob(r.Data)
			if err != nil {
				d.fault = err.Error()
				return
			}
			k.Load(r)
			d.job = job
			d.redraft()
		})
	})
}
