package ui

import (
	"context"
	"errors"
	"sync"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/sync/store"
)

// readingRest is how long the first screen waits for what is kept, so that it
// is made once. A store that takes longer is waited for on the screen.
const readingRest = 400 * time.Millisecond

// reading is the store being opened and all that the first screen shows of it
// being read, which begins before there is a page to show it on.
type reading struct {
	done chan struct{} // closed when the rest may be read
	contents

	mu   sync.Mutex
	told error // what is waited for, or why the store was lost
	hear func(error)
}

// contents are what a store keeps. With err, they are of no use.
type contents struct {
	err   error
	store store.Store
	// later says that there are too many jobs to be read before the first screen:
	// the shelves have the newest job alone, and its client.
	later bool
	shelves
	noted    noted
	settings Settings
	rev      uint32 // of the settings
	house    House
	houseRev uint32
	houseErr error
}

// openStore begins to open the store and to read it.
func openStore(ctx context.Context, deps Deps) *reading {
	o := &reading{done: make(chan struct{})}
	go func() {
		defer close(o.done)
		o.contents = readAll(ctx, deps, o.tell)
	}()
	return o
}

// readAll opens the store and reads what it keeps.
func readAll(ctx context.Context, deps Deps, told func(error)) (c contents) {
	if c.store, c.err = deps.Open(ctx, told); c.err != nil {
		return c
	}
	// Side by side: what takes the time is waiting for the browser's answers.
	side(
		func() {
			if c.shelves, c.later = readNewest(ctx, c.store); !c.later {
				c.shelves, c.err = readAndClear(ctx, c.store, deps.Now())
			}
		},
		func() { c.house, c.houseRev, c.houseErr = readHouse(ctx, c.store) },
		func() { c.noted = readNoted(ctx, c.store) },
		func() { c.settings, c.rev = readSettings(ctx, c.store) },
	)
	return c
}

// side runs what may run side by side, and returns when all has ended.
func side(do ...func()) {
	var all sync.WaitGroup
	for _, f := range do {
		all.Go(f)
	}
	all.Wait()
}

// readAndClear reads the shelves, and clears away what was deleted long ago.
func readAndClear(ctx context.Context, s store.Store, now time.Time) (shelves, error) {
	found, err := readShelves(ctx, s, nil)
	if err != nil {
		return found, err
	}
	return found.clearAway(ctx, s, now)
}

// fewJobs is how many jobs are read before the first screen stands. More take a phone
// longer than it takes to start the program.
const fewJobs = 300

// readNewest reads the newest job that is not deleted, and its client, where there are
// more jobs than are read at once.
func readNewest(ctx context.Context, s store.Store) (found shelves, many bool) {
	recent, ok := s.(store.Recent)
	if !ok {
		return found, false
	}
	r, n, err := recent.Newest(ctx, recordKind, func(r store.Record) bool { return !shelf(r).deleted() })
	if err != nil || n <= fewJobs {
		return found, false
	}
	newest := shelf(r)
	found.jobs = []*shelved{newest}
	if newest.Client != "" {
		if c, err := s.Get(ctx, clientKind, newest.Client); err == nil {
			found.clients = []store.Record{c}
		}
	}
	return found, true
}

// readRest reads what was left for later.
func (d *Desk) readRest() {
	s, now := d.store, d.deps.Now()
	d.ctx.Async(func() {
		found, err := readAndClear(d.ctx, s, now)
		d.ctx.Dispatch(func(app.Context) {
			d.later = false
			if err != nil {
				d.fault = d.sayFault(err)
			} else {
				d.take(found)
			}
			d.readPhotosOnce()
		})
	})
}

// tell notes what the store tells, and passes it on once somebody listens.
func (o *reading) tell(why error) {
	o.mu.Lock()
	o.told = why
	hear := o.hear
	o.mu.Unlock()
	if hear != nil {
		hear(why)
	}
}

// listen has hear called with what the store tells, and has told already.
func (o *reading) listen(hear func(error)) {
	o.mu.Lock()
	o.hear = hear
	told := o.told
	o.mu.Unlock()
	if told != nil {
		hear(told)
	}
}

// takeStore takes what the store keeps as soon as it is read, and opens the job
// that was changed last, or what the address asks for.
func (d *Desk) takeStore(o *reading, fragment string) {
	o.listen(func(why error) {
		d.ctx.Dispatch(func(app.Context) {
			// Another window's hold ends when the store opens, which may be heard first.
			if !errors.Is(why, store.ErrBusy) || d.store == nil {
				d.harm = why
			}
		})
	})
	select {
	case <-o.done:
		d.opened(o.contents, fragment)
	default:
		d.ctx.Async(func() {
			<-o.done
			d.ctx.Dispatch(func(app.Context) { d.opened(o.contents, fragment) })
		})
	}
}

// opened takes what the store keeps. Without a store the page works, and says
// that nothing is kept.
func (d *Desk) opened(c contents, fragment string) {
	if d.harm = c.err; c.err == nil {
		d.noted, d.settings = c.noted, c.settings
		d.device = NewKeeper(deviceKind, deviceID, c.rev, d.deps.Now)
		d.store = d.noting(c.store)
		d.blobs, _ = c.store.(store.Blobs)
		if c.house.InForce != "" {
			d.house.House = c.house // what a new job begins with
		}
	}
	d.speak()
	if c.err == nil {
		d.later = c.later
		d.take(c.shelves)
		d.openNewest()
		d.openHouse(c.house, c.houseRev, c.houseErr)
	} else {
		d.lay(nil, d.newJobOf(d.garment.ID))
	}
	if fragment == newJobFragment {
		d.newJob()
	}
	d.hearLink(fragment)
	if d.stage == stageLesson {
		d.wantLessons(true)
	}
	d.ctx.After(frame, func(app.Context) {
		if d.later {
			d.readRest()
		}
		d.settleIn(len(c.jobs) > 0)
		if c.err == nil {
			d.openCopy(c.store)
		}
	})
}

// settleIn does what can wait until the first screen stands.
func (d *Desk) settleIn(work bool) {
	if l := loader(); l != nil {
		l.Call("booted")
	}
	d.readPhotosOnce()
	if work {
		d.askToKeep()
	} else {
		d.lookAtBrowser(false)
	}
}

// readPhotosOnce reads the photos as soon as there is a store and the whole of the
// program, which no first screen waits for, and after the jobs, for which a maker waits.
func (d *Desk) readPhotosOnce() {
	if d.blobs != nil && !d.photosRead && !d.later && (loader() == nil || d.files.Whole) {
		d.photosRead = true
		d.listPhotos()
	}
}
