package ui

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"slices"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft"
	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/say"
	"chalkfold/sync/store"
	"chalkfold/ui/day"
)

// garmentOf is the garment of a job, where this version drafts it.
func garmentOf(f job.Job) (garment.Garment, error) {
	g, ok := draft.Find(f.Garment)
	if !ok {
		return g, say.Errorf("it is for %q, which this version does not draft", f.Garment)
	}
	return g, nil
}

// settled reports whether another job may take the place of the one on the
// desk: everything of it is saved.
func (d *Desk) settled() bool {
	d.heedTyped()
	return d.job != nil && d.keeper != nil && d.keeper.Saving() == Saved
}

// shelved is a job that is kept.
type shelved struct {
	store.Record
	head
	err error // why it cannot be read

	read bool // whether the whole job was
	job  *Job

	folded, foldedFor string  // see foldedWith
	nextDay           string  // of a due one; see next
	promised          day.Day // of itself; Due may be that of its order
}

// shelf is a record with as much of it read as the book needs.
func shelf(r store.Record) *shelved {
	s := &shelved{Record: r}
	var ok bool
	if s.head, ok = readHead(r.Data); !ok || r.Damaged {
		if j := s.whole(); j != nil {
			s.head = j.head()
		}
	}
	s.promised = s.Due
	return s
}

// whole is the job, read when it is first asked for; nil when it cannot be.
func (s *shelved) whole() *Job {
	if !s.read {
		s.read = true
		s.job, s.err = DecodeJob(s.Data)
	}
	return s.job
}

// deleted reports whether it only waits to be recovered.
func (s *shelved) deleted() bool { return s.Deleted > 0 }

// find returns the job of that id, nil if there is none.
func find(all []*shelved, id string) *shelved {
	for _, s := range all {
		if s.ID == id {
			return s
		}
	}
	return nil
}

// deletedFor is how long what was deleted can be recovered.
const deletedFor = 30 * 24 * time.Hour

// over reports whether what was deleted then is to be cleared away.
func over(deleted int64, now time.Time) bool {
	return deleted > 0 && now.Sub(time.UnixMilli(deleted)) > deletedFor
}

// onShelf is the job or the order of that id; nil if there is none.
func (d *Desk) onShelf(id string) *shelved {
	if s := find(d.records, id); s != nil {
		return s
	}
	return find(d.orders, id)
}

// shelve reads all jobs, or orders, the one that was changed last first. What was read
// before and is as it was is not read again.
func shelve(ctx context.Context, s store.Store, kind string, was []*shelved) ([]*shelved, error) {
	records, err := s.List(ctx, kind)
	known := make(map[string]*shelved, len(was))
	for _, o := range was {
		known[o.ID] = o
	}
	out := make([]*shelved, len(records))
	for i, r := range records {
		if o := known[r.ID]; o != nil && o.Rev == r.Rev && bytes.Equal(o.Data, r.Data) {
			out[i] = o
			continue
		}
		out[i] = shelf(r)
		breathe(i)
	}
	slices.SortStableFunc(out, func(a, b *shelved) int { return b.Updated.Compare(a.Updated) })
	return out, err
}

// breathe leaves the browser its turn now and then within a long work beside the page.
func breathe(i int) {
	const often = 128
	if i%often == often-1 {
		time.Sleep(time.Millisecond)
	}
}

// shelves are what the store has for the book.
type shelves struct {
	jobs, orders    []*shelved
	clients, cloths []store.Record
}

func readShelves(ctx context.Context, s store.Store, was []*shelved) (shelves, error) {
	var found shelves
	var errs [4]error
	side(
		func() { found.jobs, errs[0] = shelve(ctx, s, recordKind, was) },
		func() { found.orders, errs[1] = shelve(ctx, s, orderKind, nil) },
		func() { found.clients, errs[2] = s.List(ctx, clientKind) },
		func() { found.cloths, errs[3] = s.List(ctx, clothKind) },
	)
	if err := cmp.Or(errs[:]...); err != nil {
		return shelves{}, err
	}
	return found, nil
}

// take puts on the shelves what was read.
func (d *Desk) take(found shelves) {
	d.records, d.orders = found.jobs, found.orders
	d.shelvesRead++
	d.file(found.clients)
	d.fileRemnants(found.cloths)
	d.takeOrders()
}

// clearAway removes what was deleted long ago. What another window has just
// recovered stays.
func (f shelves) clearAway(ctx context.Context, s store.Store, now time.Time) (shelves, error) {
	var left shelves
	gone := func(r store.Record, deleted int64) (bool, error) {
		if !over(deleted, now) {
			return false, nil
		}
		err := s.Delete(ctx, r.Kind, r.ID, r.Rev)
		if errors.Is(err, store.ErrStale) {
			err = nil
		}
		return true, err
	}
	for _, kind := range []struct {
		from []*shelved
		into *[]*shelved
	}{{f.jobs, &left.jobs}, {f.orders, &left.orders}} {
		for _, r := range kind.from {
			is, err := gone(r.Record, r.Deleted)
			if err != nil {
				return f, err
			}
			if !is {
				*kind.into = append(*kind.into, r)
			}
		}
	}
	for _, kind := range []struct {
		from []store.Record
		into *[]store.Record
	}{{f.clients, &left.clients}, {f.cloths, &left.cloths}} {
		for _, r := range kind.from {
			is, err := gone(r, deletedAt(r.Data))
			if err != nil {
				return f, err
			}
			if !is {
				*kind.into = append(*kind.into, r)
			}
		}
	}
	return left, nil
}

// recover takes back that a job, an order, a client, a remnant or a photo was deleted.
func (d *Desk) recover(id string) {
	if p := d.photo(id); p != nil {
		p.Deleted = 0
		d.keepPhoto(p)
		return
	}
	if r := d.remnant(id); r != nil {
		r.Deleted = 0
		d.keepRemnant(r)
		return
	}
	if c := d.client(id); c != nil {
		c.Deleted = 0
		d.keepClient(c)
		return
	}
	d.discard(id, 0)
}

// discard marks a job or an order as deleted at that time, or recovers it at nought.
func (d *Desk) discard(id string, at int64) {
	kept := d.onShelf(id)
	if kept == nil || kept.whole() == nil || !d.settled() {
		return
	}
	s, r, job := d.store, kept.Record, *kept.job
	job.Deleted = at
	data, err := job.Encode()
	if err != nil {
		d.fault = d.sayFault(err)
		return
	}
	r.Data, r.Rev, r.Updated = data, r.Rev+1, d.deps.Now()
	d.ctx.Async(func() {
		err := s.Put(d.ctx, r)
		d.relist(err, func() {
			if d.keeper != nil && d.keeper.id == id && at > 0 {
				d.openNewest()
				if d.stage == stageOrder {
					d.turn(stageBook)
				}
			}
		})
	})
}

// relist reads the jobs anew after a change of them, and then does the rest if
// the change went well. It is called beside the page.
func (d *Desk) relist(err error, then func()) {
	found, listErr := readShelves(d.ctx, d.store, d.records)
	d.ctx.Dispatch(func(app.Context) {
		if listErr == nil {
			d.take(found)
		}
		d.fault = ""
		switch {
		case err != nil:
			d.fault = d.sayFault(err)
		case listErr != nil:
			d.fault = d.sayFault(listErr)
		case then != nil:
			then()
		}
	})
}

// listJobs reads the jobs and the clients anew.
func (d *Desk) listJobs() {
	if s, was := d.store, d.records; s != nil {
		d.ctx.Async(func() {
			found, err := readShelves(d.ctx, s, was)
			d.ctx.Dispatch(func(app.Context) {
				if err != nil {
					d.fault = d.sayFault(err)
					return
				}
				d.take(found)
			})
		})
	}
}

// newJob clears the desk for another job. It begins with the rules of the
// house.
func (d *Desk) newJob() {
	if !d.settled() {
		return
	}
	job := d.newJobOf(d.garment.ID)
	job.File.Units = d.job.File.Units
	d.start(job)
}

// newJobFor clears the desk for a job of a client.
func (d *Desk) newJobFor(c *filed) {
	if !d.settled() {
		return
	}
	d.start(d.startFor(c))
	d.keep()
}

// start lays a job that was never kept on the desk. It begins with the
// rules of the house.
func (d *Desk) start(job *Job) {
	job.File.Rules.House = d.houseValues()
	d.lay(d.newKeeper(), job)
	d.turn(stageTape)
}

// openSample puts the sample on the desk as a job of its own.
func (d *Desk) openSample() {
	if d.keeper != nil && !d.settled() {
		return
	}
	job, err := Sample()
	if err != nil {
		d.fault = d.sayFault(err)
		return
	}
	d.begin(job, stageDraft)
}

// begin lays a job that is new on the desk, keeps it where jobs are kept, and turns to a
// stage of it.
func (d *Desk) begin(job *Job, stage string) {
	keeper := d.keeper
	if keeper != nil {
		keeper = d.newKeeper()
	}
	d.lay(keeper, job)
	d.keep()
	d.turn(stage)
}

// openKept puts a job or an order that is kept on the desk.
func (d *Desk) openKept(id string) {
	kept := d.onShelf(id)
	if kept == nil || !d.settled() {
		return
	}
	s, r := d.store, kept.Record
	d.ctx.Async(func() {
		r, err := s.Get(d.ctx, r.Kind, r.ID) // it may have been changed in another window
		d.ctx.Dispatch(func(app.Context) {
			if err != nil {
				d.fault = d.sayFault(err)
				return
			}
			if d.settled() && d.open(r) {
				d.goOn()
			}
		})
	})
}
