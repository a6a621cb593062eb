package ui

import (
	"context"
	"errors"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/sync/store"
	"chalkfold/ui/book"
	"chalkfold/ui/day"
	"chalkfold/ui/kit"
)

// The record of when the last backup file was saved: its Updated.
const (
	backupKind = "backup"
	backupID   = "last"
)

// backupAge is how old the last backup may be before the book speaks of it.
const backupAge = 14 * 24 * time.Hour

// backupNudge says that a backup is due, when there is anything to lose.
func (d *Desk) backupNudge(jobs int) string {
	switch {
	case jobs == 0 || d.store == nil:
		return ""
	case d.backed.Rev == 0:
		return "No backup yet: if this phone is lost or cleared, the jobs are gone."
	case d.deps.Now().Sub(d.backed.Updated) > backupAge:
		return "The last backup is of " + day.Of(d.backed.Updated.Local()).Text(d.Words) + ": save a new one."
	}
	return ""
}

// backupView is the part of the book that saves and restores.
func (d *Desk) backupView(v *book.View) {
	v.Nudge, v.Told = d.backupNudge(len(v.Jobs)), d.view.book.told
	v.OnBackup = d.saveBackup
	v.OnChoose = func() {
		if el := app.Window().GetElementByID(book.FileID); el.Truthy() {
			el.Call("click")
		}
	}
	v.OnFile = d.takeFile
	v.OnMerge = func() { d.restore(false) }
	v.OnReplace = func() { d.restore(true) }
	v.OnLeave = func() { d.view.book.restoring = nil }
	if r := d.view.book.restoring; r != nil {
		same := len(r.jobs) - r.fresh - r.differing
		v.Found = "The file has " + kit.Count(len(r.jobs), "job", "jobs") + ": " + kit.Count(r.fresh, "is", "are") + " new, " +
			kit.Count(r.differing, "differs", "differ") + " from what is here, " + kit.Count(same, "is", "are") + " the same."
	}
}

// readBacked reads when the last backup was saved. Without an answer there was
// none.
func readBacked(ctx context.Context, s store.Store) store.Record {
	r, err := s.Get(ctx, backupKind, backupID)
	if err != nil {
		return store.Record{}
	}
	return r
}

// saveBackup hands every job to the browser as one file.
func (d *Desk) saveBackup() {
	s := d.store
	if s == nil {
		return
	}
	now := d.deps.Now()
	d.ctx.Async(func() {
		records, err := s.List(d.ctx, recordKind)
		var file []byte
		if err == nil {
			file, err = writeBackup(records)
		}
		d.ctx.Dispatch(func(app.Context) {
			if err != nil {
				d.fault = err.Error()
				return
			}
			name := backupName(now.Local())
			d.download(name, file)
			d.view.book.told = "Handed over as " + name + ". Keep it off this phone as well."
			d.noteBackup(now)
		})
	})
}

// noteBackup keeps when the last backup was saved.
func (d *Desk) noteBackup(now time.Time) {
	s := d.store
	d.ctx.Async(func() {
		r, err := s.Get(d.ctx, backupKind, backupID)
		if err == nil || errors.Is(err, store.ErrNotFound) {
			r = store.Record{Kind: backupKind, ID: backupID, Rev: r.Rev + 1, Updated: now}
			err = s.Put(d.ctx, r)
		}
		d.ctx.Dispatch(func(app.Context) {
			if err == nil || errors.Is(err, store.ErrStale) { // another window has just saved one
				d.backed = r
				return
			}
			d.fault = err.Error()
		})
	})
}

// download has the browser save a file.
func download(name string, file []byte) {
	w := app.Window()
	blob := w.Get("Blob").New([]any{string(file)}, map[string]any{"type": "application/json"})
	url := w.Get("URL").Call("createObjectURL", blob)
	link := w.Get("document").Call("createElement", "a")
	link.Set("href", url)
	link.Set("download", name)
	link.Call("click")
	// The browser has taken hold of it long before a minute is over.
	w.Call("setTimeout", w.Get("URL").Get("revokeObjectURL").Call("bind", w.Get("URL"), url), 60_000)
}

// takeFile looks at the text of a file that was chosen. Nothing is changed yet.
func (d *Desk) takeFile(text string) {
	d.view.book.restoring, d.view.book.told = nil, ""
	jobs, err := readBackup([]byte(text))
	if err != nil {
		d.view.book.told = "Nothing was restored and nothing is changed: " + err.Error() + "."
		return
	}
	d.view.book.restoring = look(jobs, d.records)
}

// restore merges what was looked at into the jobs, or replaces them by it, all
// or none of it.
func (d *Desk) restore(replace bool) {
	r, s := d.view.book.restoring, d.store
	if r == nil || s == nil || !d.settled() {
		return
	}
	d.view.book.restoring = nil
	now := d.deps.Now()
	d.ctx.Async(func() {
		err := restoreInto(d.ctx, s, r, replace, now)
		d.relist(err, func() {
			d.openNewest()
			d.view.book.told = "Restored " + kit.Count(len(r.jobs), "job", "jobs") + "."
		})
	})
}

func restoreInto(ctx context.Context, s store.Store, r *restoring, replace bool, now time.Time) error {
	here, err := shelve(ctx, s)
	if err != nil {
		return err
	}
	records, err := r.puts(here, replace, now)
	if err != nil {
		return err
	}
	// A job that is not here may have been deleted for good: then it comes back
	// over its tombstone.
	for i, p := range records {
		if find(here, p.ID) == nil {
			left, err := s.Get(ctx, p.Kind, p.ID)
			if !errors.Is(err, store.ErrNotFound) {
				return errors.Join(err, store.ErrStale)
			}
			records[i].Rev += left.Rev
		}
	}
	return s.Put(ctx, records...)
}
