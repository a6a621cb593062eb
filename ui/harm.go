package ui

import (
	"errors"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/sync/store"
	"chalkfold/ui/kit"
)

// sayFault puts in words why something was not kept.
func (d *Desk) sayFault(err error) string {
	switch {
	case errors.Is(err, store.ErrFull):
		return d.T("There is no room left on this device. What you typed is still on this page: make room and try again, or save a backup file.")
	case errors.Is(err, store.ErrClosed):
		return d.T("A newer Chalkfold has taken over the records.")
	case errors.Is(err, store.ErrCleared):
		return d.T("The browser has cleared the records.")
	case errors.Is(err, store.ErrStale):
		return d.T("It was changed in another window meanwhile. Nothing was done: look again.")
	case errors.Is(err, store.ErrBusy):
		return d.T("Another window holds the records. Close the other windows of Chalkfold.")
	case errors.Is(err, store.ErrDamaged):
		return d.T("The records on this device cannot be opened.")
	case errors.Is(err, store.ErrNotFound):
		return d.T("It is no longer kept here. Look again.")
	}
	return d.Err(err)
}

// unsavedView says that the last change is not saved, unless the whole store is
// harmed, which is said already.
func (d *Desk) unsavedView() app.UI {
	return kit.Div().ID("unsaved").Class("harm").Body(
		kit.Note(kit.Stop, d.T("The last change is not saved"), d.sayFault(d.keeper.Fault())),
		kit.Div().Class("actions").Body(
			kit.Button(d.T("Try again"), func() { d.keeper.Retry(); d.save(d.keeper) }),
			kit.Button(d.T("Save a backup file"), func() { d.saveBackup(false) }),
		),
	)
}

// harmView says what is wrong with the store as a whole, and what can be done.
func (d *Desk) harmView() app.UI {
	note := func(tone kit.Tone, title string, lines ...string) app.UI { return kit.Note(tone, title, lines...) }
	backup := kit.Button(d.T("Save a backup file"), func() { d.saveBackup(false) })
	reload := kit.Button(d.T("Reload"), func() { app.Window().Get("location").Call("reload") })
	asTheyAre := kit.Button(d.T("Save a copy as they are"), d.saveRaw)
	beside := kit.Button(d.T("Start new records"), d.beginBeside)
	was := d.store != nil // it could be opened once
	var said app.UI
	var keys []app.UI
	switch err := d.harm; {
	case errors.Is(err, store.ErrBusy):
		said = note(kit.Mind, d.T("An older Chalkfold is open in another window"),
			d.T("It holds the records. Close that window or reload it: this one goes on by itself."))
	case errors.Is(err, store.ErrClosed) && was:
		said = note(kit.Stop, d.T("A newer Chalkfold is open in another window"),
			d.T("Nothing more is saved in this one: reload it."), d.unsavedWarning())
		keys = []app.UI{backup, reload}
	case errors.Is(err, store.ErrClosed):
		said = note(kit.Stop, d.T("The records on this device are of a newer Chalkfold"),
			d.T("Reload this page where there is a network, to get that one. Nothing is deleted."))
		keys = []app.UI{reload, asTheyAre, beside}
	case errors.Is(err, store.ErrCleared):
		said = note(kit.Stop, d.T("The browser has cleared everything that was kept here"),
			d.T("What is open is still on this page: save a backup file, then reload."))
		keys = []app.UI{backup, reload}
	case errors.Is(err, store.ErrDamaged):
		said = note(kit.Stop, d.T("The records on this device cannot be opened"),
			d.T("Nothing is deleted. Reload; if that does not help, save a copy of them as they are, start new records beside them, and restore your last backup file in the Book."),
			strings.TrimPrefix(err.Error(), store.ErrDamaged.Error()))
		keys = []app.UI{reload, asTheyAre, beside}
	default:
		said = note(kit.Stop, d.T("Nothing is saved on this device"), d.sayFault(err))
		keys = []app.UI{backup}
	}
	return kit.Div().ID("harm").Class("harm").Body(said, kit.Div().Class("actions").Body(keys...))
}

// unsavedWarning says that a reload would lose something; "" when it would not.
func (d *Desk) unsavedWarning() string {
	if len(d.unsaved(nil)) == 0 {
		return ""
	}
	return d.T("What you changed last is not saved: save a backup file first.")
}

// saveRaw has everything saved as it stands, readable or not.
func (d *Desk) saveRaw() {
	if l := loader(); l != nil {
		l.Call("copyAll")
	}
}

// beginBeside leaves the records that cannot be opened as they are, and opens
// the page anew with others.
func (d *Desk) beginBeside() {
	if l := loader(); l != nil && !l.Call("beside").Bool() {
		d.fault = d.T("This browser does not let the page remember that: leave private browsing, or use another browser.")
	}
}
