package ui

import (
	"context"
	"errors"
	"slices"
	"sync"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/sync/client"
	"chalkfold/sync/seal"
	"chalkfold/sync/store"
)

// copying is the second copy as the desk keeps it going. One thing is done at a time,
// beside the page; what is asked meanwhile comes after, and a pass gives way to it.
type copying struct {
	client  *client.Client // nil until it is open
	line    *yielding
	table   client.Timetable
	ear     ear
	running bool
	passing bool // that is a pass
	asked   int  // what the maker asked for and is not done
	after   []func()
	timer   int  // counts what was waited for, so that the last counts
	still   bool // nothing is done later by itself, for tests

	photosNow bool // the maker has asked for the photos to be sent

	account   client.Account
	err       error // why the last pass did not come to its end
	conflicts []conflict
	settled   []conflict // those of them that are being settled
	none      bool       // nobody keeps copies at this address

	mu      sync.Mutex
	changed []store.Record // kinds and ids of what a pass has put
}

// noting is the store with the second copy told of every change.
type noting struct {
	store.Store
	told func(kind, id string)
}

// Put implements store.Store.
func (n noting) Put(ctx context.Context, records ...store.Record) error {
	err := n.Store.Put(ctx, records...)
	for _, r := range records {
		n.told(r.Kind, r.ID)
	}
	return err
}

// Delete implements store.Store.
func (n noting) Delete(ctx context.Context, kind, id string, rev uint32) error {
	err := n.Store.Delete(ctx, kind, id, rev)
	n.told(kind, id)
	return err
}

// noting has the second copy hear of what is put into a store.
func (d *Desk) noting(s store.Store) store.Store {
	if d.deps.Line == nil {
		return s
	}
	return noting{s, d.copyTouched}
}

// copyTouched tells the second copy of a record that was put.
func (d *Desk) copyTouched(kind, id string) {
	d.ctx.Dispatch(func(app.Context) {
		if c := d.copying.client; c != nil && c.Begun() {
			c.Touch(kind, id)
			d.copying.account = c.Account()
			d.copying.table.Edited(d.now())
			d.copyLater()
		}
	})
}

// now is the time in ms since 1970.
func (d *Desk) now() int64 { return d.deps.Now().UnixMilli() }

// openCopy goes on with the second copy, if one was begun.
func (d *Desk) openCopy(s store.Store) {
	if d.deps.Line == nil {
		return
	}
	var opened *client.Client
	d.copying.line = &yielding{Line: d.deps.Line}
	d.copyDo(func() (err error) {
		opened, err = client.Open(d.ctx, client.Config{
			Store: s, Line: d.copying.line, Shape: carriage{}, Now: d.now, Random: d.deps.Random,
			Changed: func(kind, id string) {
				d.copying.mu.Lock()
				defer d.copying.mu.Unlock()
				d.copying.changed = append(d.copying.changed, store.Record{Kind: kind, ID: id})
			},
		})
		return err
	}, func(err error) {
		d.copying.client, d.copying.err = opened, err
		if opened != nil && opened.Begun() {
			d.copyDo(func() error { return nil }, func(error) {}) // what is in conflict is known without a network
			d.hearWaking()
			d.copyWoken()
		} else if d.stage == stageCopy {
			d.lookForServer()
		}
	})
}

// lookForServer looks whether there is a server that keeps copies, before anybody begins
// one with it.
func (d *Desk) lookForServer() {
	c := &d.copying
	if c.client == nil || c.client.Begun() {
		return
	}
	var none bool
	d.copyRun(true, func() (err error) {
		none, err = client.NoCopies(d.ctx, c.line)
		return err
	}, func(err error) {
		if err == nil {
			c.none = none
		}
	})
}

// copyDo does something with the second copy beside the page, and then the rest on it.
func (d *Desk) copyDo(do func() error, then func(error)) { d.copyRun(false, do, then) }

func (d *Desk) copyRun(pass bool, do func() error, then func(error)) {
	c := &d.copying
	if c.running {
		c.after = append(c.after, func() { d.copyRun(pass, do, then) })
		return
	}
	c.running, c.passing = true, pass
	c.line.takeUp()
	d.ctx.Async(func() {
		err := do()
		var conflicts []conflict
		unread := client.ErrNotBegun
		if c.client != nil {
			conflicts, unread = conflictsOf(d.ctx, c.client)
		}
		d.ctx.Dispatch(func(app.Context) {
			c.running, c.passing = false, false
			if unread == nil {
				c.conflicts = conflicts
			}
			then(err)
			d.copySettled()
			if len(c.after) > 0 {
				next := c.after[0]
				c.after = c.after[1:]
				next()
			}
		})
	})
}

// copyAsk does what the maker asks for. A pass gives way to it, and goes on after; of
// what she has turned away from meanwhile nothing is heard any more.
func (d *Desk) copyAsk(do func() error, then func(error)) {
	c := &d.copying
	c.asked++
	if c.passing {
		c.line.yield()
	}
	d.copyDo(do, func(err error) {
		c.asked--
		if !errors.Is(err, errYielded) {
			then(err)
		}
	})
}

// copySettled shows what has become of the records.
func (d *Desk) copySettled() {
	c := &d.copying
	if c.client != nil {
		c.account = c.client.Account()
	}
	if len(d.photos) > 0 {
		d.countPhotos()
	}
	c.mu.Lock()
	changed := c.changed
	c.changed = nil
	c.mu.Unlock()
	if len(changed) > 0 {
		d.rereadAfterCopy(changed)
	}
	d.lookWhetherBehind()
	d.copyLater()
}

// copyLater has the next pass made when it is due.
func (d *Desk) copyLater() {
	c := &d.copying
	if c.client == nil || !c.client.Begun() || c.running {
		return
	}
	const longest = 10 * time.Minute
	wait := time.Duration(max(0, c.table.Next()-d.now())) * time.Millisecond
	c.timer++
	timer := c.timer
	d.copyAfter(min(wait, longest), func() {
		switch {
		case timer != c.timer || c.running:
		case c.table.Due(d.now()):
			d.copyNow()
		default:
			d.copyLater()
		}
	})
}

// copyAfter does something later.
func (d *Desk) copyAfter(wait time.Duration, do func()) {
	if !d.copying.still {
		d.ctx.After(wait, func(app.Context) { do() })
	}
}

// copyNow makes a pass.
func (d *Desk) copyNow() {
	c := &d.copying
	c.table.Begun()
	named, hold := d.namedPhotos(), d.settings.PhotosAsked && !c.photosNow
	d.copyRun(true, func() error {
		if err := c.client.Pass(d.ctx); err != nil {
			return err
		}
		return d.photosCopied(d.ctx, c.client, named, hold)
	}, func(err error) {
		if errors.Is(err, errYielded) {
			c.table.Woken()
			return
		}
		var chance [1]byte
		d.deps.Random(chance[:])
		c.table.Done(d.now(), err == nil, float64(chance[0])/255)
		c.photosNow = c.photosNow && (hold || err != nil)
		c.err = err
	})
}

// rereadAfterCopy shows what another phone has changed. The job on the desk is laid
// anew, unless it has changes of its own that are not saved yet: then the store
// refuses those, and the desk asks.
func (d *Desk) rereadAfterCopy(changed []store.Record) {
	s := d.store
	openJob := d.keeper != nil && slices.ContainsFunc(changed, func(r store.Record) bool { return r.Kind == d.keeper.kind && r.ID == d.keeper.id })
	houseToo := slices.ContainsFunc(changed, func(r store.Record) bool { return r.Kind == houseKind })
	if slices.ContainsFunc(changed, func(r store.Record) bool { return r.Kind == photoKind }) {
		d.listPhotos()
	}
	was := d.records
	d.ctx.Async(func() {
		found, err := readShelves(d.ctx, s, was)
		house, rev, houseErr := readHouse(d.ctx, s)
		d.ctx.Dispatch(func(app.Context) {
			if err != nil {
				d.fault = d.sayFault(err)
				return
			}
			d.take(found)
			if k := d.house.keeper; houseToo && (k == nil || k.Saving() == Saved) {
				d.openHouse(house, rev, houseErr)
			}
			if !openJob || !d.settled() {
				return
			}
			if kept := d.onShelf(d.keeper.id); kept == nil {
				d.blank()
			} else if kept.Rev > d.keeper.rev {
				d.reopen(kept.Record)
			}
		})
	})
}

// reopen lays the open job as another phone has changed it. What is under the maker's
// hand stays there: the field that has the keys, the keys to the stages.
func (d *Desk) reopen(r store.Record) {
	stages, tape := d.view.stages, d.view.tape
	if !d.open(r) {
		return
	}
	if d.job.Deleted > 0 {
		d.blank()
		return
	}
	d.view.stages, d.view.tape = stages, tape
}

// sayCopyFault says why the copy is behind, and what to do.
func (d *Desk) sayCopyFault(err error) string {
	var words *seal.WordsError
	switch {
	case err == nil:
		return ""
	case errors.Is(err, client.ErrMoved):
		return d.T("The copy has a new key: one of your phones has taken another off. Pair this phone again.")
	case errors.Is(err, client.ErrFull):
		return d.T("The room on the server is used up. What is there stays; what is new is on this phone only.")
	case errors.Is(err, client.ErrInvite):
		return d.T("This server keeps copies only for whoever is invited.")
	case errors.Is(err, client.ErrLeaving):
		return d.T("The copy under the old key is still to be removed from the server. Try again when this phone was on the network.")
	case errors.Is(err, client.ErrRefused):
		return d.T("The server did not take what this phone sent. Reload the page for a newer version.")
	case errors.Is(err, client.ErrNoCopies):
		return d.T("The server of this page keeps no copies. A file carries them from phone to phone.")
	case errors.Is(err, client.ErrBusy):
		return d.T("The server cannot answer now. It is tried again by itself.")
	case errors.Is(err, client.ErrNoParcel):
		return d.T("No phone offers its key under these words: show new ones there. They hold for ten minutes and work once.")
	case errors.Is(err, client.ErrNoBundle):
		return d.T("This is no file of a second copy, or not the whole of it: fetch it again.")
	case errors.Is(err, client.ErrOthers):
		return d.T("This file is of another key than this phone has. Pair the two phones first.")
	case errors.Is(err, seal.ErrHandover):
		return d.T("This is no pairing code, or not the whole of it.")
	case errors.Is(err, seal.ErrLate):
		return d.T("This code has lapsed, or the clock of one phone is wrong. Show a new one.")
	case errors.Is(err, store.ErrFull):
		return d.T("There is no room left on this phone to take in the copy.")
	case errors.As(err, &words):
		return d.sayWords(words)
	}
	return d.T("The server is out of reach: no network, perhaps. It is tried again by itself.")
}

// sayWords says what is wrong with words that were typed.
func (d *Desk) sayWords(e *seal.WordsError) string {
	switch {
	case e.Have != e.Want:
		return d.F("These are %d words. A code of another phone has %d, a key has %d.", e.Have, seal.CodeWords, seal.KeyWords)
	case e.Swapped:
		return d.F("Words %d and %d seem to stand in each other's place.", e.Word, e.Word+1)
	case e.Perhaps != "":
		return d.F("Word %d, “%s”, is wrong: perhaps it is “%s”.", e.Word, e.Written, e.Perhaps)
	case e.Word > 0:
		return d.F("Word %d, “%s”, is none of the words: four letters, as in “bado”.", e.Word, e.Written)
	}
	return d.T("These words do not belong together: look at each of them again.")
}
