package ui

import (
	"context"
	"errors"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/sync/store"
	"chalkfold/ui/day"
	"chalkfold/ui/keep"
	"chalkfold/ui/kit"
)

// The record of when the last backup file was saved: its Updated.
const (
	backupKind = "backup"
	backupID   = "last"
)

// notNowID is the record, of deviceKind, of when the place on the home screen
// was declined: its Updated.
const notNowID = "home-screen-not-now"

const (
	backupAge  = 14 * 24 * time.Hour // how old the last backup may be before the book speaks of it
	notNowLast = 30 * 24 * time.Hour // how long the book does not speak of the home screen again
)

// keepViewed is how that part of the book is looked at.
type keepViewed struct {
	restoring *restoring // a backup file that was looked at
	found     []string   // what it holds, in words
	told      string     // what became of one
	table     tabled
}

// noted is what is kept about the keeping itself.
type noted struct {
	backup store.Record // see backupKind
	notNow store.Record // see notNowID
}

// readNoted reads both. Without an answer there is none.
func readNoted(ctx context.Context, s store.Store) (n noted) {
	read := func(kind, id string) store.Record {
		r, err := s.Get(ctx, kind, id)
		if err != nil {
			return store.Record{}
		}
		return r
	}
	return noted{backup: read(backupKind, backupID), notNow: read(deviceKind, notNowID)}
}

// note keeps that something was done now, and shows it in r.
func (d *Desk) note(kind, id string, r *store.Record) {
	s, now := d.store, d.deps.Now()
	*r = store.Record{Kind: kind, ID: id, Rev: r.Rev + 1, Updated: now}
	if s == nil {
		return
	}
	d.ctx.Async(func() {
		was, err := s.Get(d.ctx, kind, id)
		if err == nil || errors.Is(err, store.ErrNotFound) {
			// Not kept, the book asks once more the next time.
			_ = s.Put(d.ctx, store.Record{Kind: kind, ID: id, Rev: was.Rev + 1, Updated: now})
		}
	})
}

// backupNudge says that a backup is due, when there is anything to lose.
func (d *Desk) backupNudge(jobs int) string {
	switch {
	case jobs == 0 || d.store == nil:
		return ""
	case d.noted.backup.Rev == 0:
		return d.T("No backup yet: if this phone is lost or cleared, the jobs are gone.")
	case d.deps.Now().Sub(d.noted.backup.Updated) > backupAge:
		return d.F("The last backup is of %s: save a new one.", day.Of(d.noted.backup.Updated.Local()).Text(d.Words))
	}
	return ""
}

// keepView is the part of the book that keeps the work safe.
func (d *Desk) keepView(jobs int) app.UI {
	v := &keep.View{
		Words: d.Words,
		Nudge: d.backupNudge(jobs), Told: d.keeping.told, Found: d.keeping.found,
		Sends: d.browser.Sends, Raw: d.whyRaw(),
		Promise: d.browser.promise(d.Words), Used: d.browser.used(d.Words),
		OnBackup:  d.saveBackup,
		OnChoose:  func() { kit.ChooseFile(keep.FileID) },
		OnFile:    func(file app.Value) { d.takeFile(fileOf(file)) },
		OnMerge:   func() { d.restore(false) },
		OnReplace: func() { d.restore(true) },
		OnLeave:   func() { d.keeping = keepViewed{} },
		OnRaw:     d.saveRaw,
		OnInstall: func() {
			if l := loader(); l != nil {
				l.Call("install")
			}
		},
		Copy:     d.sayCopied(),
		Table:    d.tableView(),
		OnCopy:   func() { d.turn(stageCopy) },
		OnNotNow: func() { d.note(deviceKind, notNowID, &d.noted.notNow) },
	}
	if d.photoCount.n > 0 {
		v.Photos, v.Bare, v.OnBare = d.sayPhotos(), d.leanBackup, func(bare bool) { d.leanBackup = bare }
	}
	if d.installDue() {
		v.Install, v.Way = d.browser.Installable, way(d.Words)
	}
	return v.Render()
}

// whyRaw says why a copy of everything as it stands is offered.
func (d *Desk) whyRaw() string {
	for _, r := range d.records {
		if r.err != nil {
			return d.T("Some jobs cannot be read. They stay as they are, and go into every backup file.")
		}
	}
	if d.browser.Beside {
		return d.T("Records that could not be opened stand beside these.")
	}
	return ""
}

// installDue reports whether it is time to speak of the home screen: a job has
// been drafted, and it was not declined of late.
func (d *Desk) installDue() bool {
	if d.browser.Installed || d.store == nil {
		return false
	}
	if d.noted.notNow.Rev > 0 && d.deps.Now().Sub(d.noted.notNow.Updated) < notNowLast {
		return false
	}
	for _, r := range d.records {
		if r.State == MayBeCut || r.State == Stopped {
			return true
		}
	}
	return false
}

// unsaved are the records of what is on the page and not in the store, which
// has those that are here.
func (d *Desk) unsaved(here []store.Record) []store.Record {
	out := d.unsavedJob(here)
	for _, b := range d.allBeside() {
		if r, ok := b.keeper.Unsaved(); ok {
			out = append(out, r)
		}
	}
	if k := d.house.keeper; k != nil {
		if r, ok := k.Unsaved(); ok {
			out = append(out, r)
		}
	}
	return out
}

func (d *Desk) unsavedJob(here []store.Record) []store.Record {
	if d.keeper == nil {
		if d.job == nil || d.job.Blank() {
			return nil
		}
		data, err := d.job.Encode()
		if err != nil {
			return nil
		}
		return []store.Record{{Kind: recordKind, ID: d.deps.NewID(), Rev: 1, Data: data, Updated: d.deps.Now()}}
	}
	r, ok := d.keeper.Unsaved()
	if !ok {
		return nil
	}
	if _, there := namesOf(here).has(r); there && d.keeper.Saving() == Elsewhere { // both are to be kept
		r.ID += "-" + sumOf(r.Data)
	}
	return []store.Record{r}
}

// saveBackup hands every record to the browser as one file, or to another
// program: what is not saved yet as well.
func (d *Desk) saveBackup(send bool) {
	s := d.store
	now := d.deps.Now()
	d.ctx.Async(func() {
		records, err := d.everything(s)
		d.ctx.Dispatch(func(app.Context) {
			records := overlaid(records, d.unsaved(records))
			name := backupName(now.Local())
			gone := func(out bool) {
				switch {
				case !out:
					d.keeping.told = d.T("Nothing was sent.")
				case err != nil:
					d.keeping.told = d.F("Handed over as %s. The records cannot be read now: it holds what this page had read before.", name)
				default:
					d.keeping.told = d.F("Handed over as %s. Keep it off this phone as well.", name)
					d.note(backupKind, backupID, &d.noted.backup)
				}
			}
			if d.photoCount.n > 0 && !d.leanBackup && err == nil {
				d.saveWithPictures(name, records, send, gone)
				return
			}
			file, writeErr := writeBackup(records)
			if writeErr != nil {
				d.fault = d.sayFault(writeErr)
				return
			}
			d.hand(name, jsonKind, file, send, gone)
		})
	})
}

// saveWithPictures hands over a backup file with the pictures of photos.
func (d *Desk) saveWithPictures(name string, records []store.Record, send bool, gone func(out bool)) {
	next, err := backupLines(d.ctx, records, d.blobs, true)
	if err != nil {
		d.fault = d.sayFault(err)
		return
	}
	d.keeping.told = d.T("One moment…")
	d.handLines(name, next, send, func(out bool, err error) {
		if err != nil {
			d.keeping.told = d.F("The photos cannot be read now, and no file was made: save one without them. %s", d.sayFault(err))
			return
		}
		gone(out)
	})
}

// everything is what the store has or, where it does not answer, the jobs as
// they were read last.
func (d *Desk) everything(s store.Store) ([]store.Record, error) {
	if s == nil {
		return nil, nil
	}
	records, err := s.All(d.ctx)
	if err != nil {
		records = nil
		for _, r := range d.records {
			records = append(records, r.Record)
		}
	}
	return records, err
}

// overlaid are the records with the newer ones in their places.
func overlaid(records, newer []store.Record) []store.Record {
	for _, n := range newer {
		in := false
		for i, r := range records {
			if r.Kind == n.Kind && r.ID == n.ID {
				records[i], in = n, true
			}
		}
		if !in {
			records = append(records, n)
		}
	}
	return records
}

// takeFile looks at a file that was chosen. Nothing is changed yet.
func (d *Desk) takeFile(file chosenFile) {
	d.keeping = keepViewed{told: d.T("One moment…")}
	s := d.store
	d.ctx.Async(func() {
		r, refused := readBackupFile(file)
		var here []store.Record
		var err error
		if refused == nil && s != nil {
			here, err = s.All(d.ctx)
		}
		d.ctx.Dispatch(func(app.Context) {
			d.keeping.told = ""
			switch {
			case refused != nil || s == nil:
				d.keeping.told = d.F("Nothing was restored and nothing is changed. %s", d.sayRefused(refused))
			case err != nil:
				d.fault = d.sayFault(err)
			default:
				d.keeping.restoring, d.keeping.found = r, d.sayFound(r.look(here))
				if r.pictures > 0 {
					d.keeping.found = append(d.keeping.found, d.N(r.pictures, "With the picture of %d photo.", "With the pictures of %d photos."))
				}
			}
		})
	})
}

// sayRefused puts in words why a file is not restored.
func (d *Desk) sayRefused(err error) string {
	switch {
	case errors.Is(err, errNoBackup):
		return d.T("This is no backup file, or not the whole of one: choose another, or fetch it again from where it was kept.")
	case errors.Is(err, errDamaged):
		return d.T("This backup file is damaged: fetch it again from where it was kept, or choose an earlier one.")
	case errors.Is(err, errTooNew):
		return d.T("This backup file is of a newer Chalkfold: open the page once with the network, take the newer version, and choose the file again.")
	}
	return d.T("Nothing can be saved on this device now.")
}

// sayFound puts in words what a file holds, a line for each kind.
func (d *Desk) sayFound(all []found) []string {
	lines := []string{}
	for _, f := range all {
		kind := d.T("Other records")
		switch f.kind {
		case recordKind:
			kind = d.T("Jobs")
		case orderKind:
			kind = d.T("Orders")
		case clientKind:
			kind = d.T("Clients")
		case clothKind:
			kind = d.T("Cloths")
		case photoKind:
			kind = d.T("Photos")
		case "house":
			kind = d.T("House rules")
		case sittingKind:
			kind = d.T("Lessons")
		}
		lines = append(lines, d.F("%s in the file: %d. New here: %d. Different from here: %d.", kind, f.all, f.fresh, f.differs))
		if f.unreadable > 0 {
			lines = append(lines, d.F("Cannot be read by this version: %d. They are restored as they are.", f.unreadable))
		}
	}
	if len(lines) == 0 {
		lines = append(lines, d.T("The file is whole, and holds no record."))
	}
	return lines
}

// restore merges what was looked at into the records, or replaces them by it,
// all or none of it.
func (d *Desk) restore(replace bool) {
	r, s := d.keeping.restoring, d.store
	if r == nil || s == nil {
		return
	}
	if !d.settled() || d.saving() != Saved {
		d.keeping.told = d.T("The job on the desk is not saved yet. Try again when it is.")
		return
	}
	d.keeping = keepViewed{told: d.T("One moment…")}
	now, blobs := d.deps.Now(), d.blobs
	d.ctx.Async(func() {
		err := r.into(d.ctx, s, replace, now, d.Words)
		pictures, picturesErr := 0, error(nil)
		if err == nil {
			pictures, picturesErr = r.restorePictures(d.ctx, s, blobs)
		}
		house, rev, houseErr := readHouse(d.ctx, s)
		d.ctx.Dispatch(func(app.Context) { d.keeping.told = "" })
		d.relist(err, func() {
			if house.InForce != "" || houseErr != nil {
				d.openHouse(house, rev, houseErr)
			}
			d.openNewest()
			d.keeping.told = d.N(len(r.records), "Restored %d record.", "Restored %d records.")
			d.listPhotos()
			if picturesErr != nil {
				d.keeping.told = d.F("The records are restored, and the pictures of %d photos of %d. %s Restore the file again then: the others are added.", pictures, r.pictures, d.sayFault(picturesErr))
			}
		})
	})
}
