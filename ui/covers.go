package ui

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// A cover lies over a stage, or stands in its place: a list, a photo, keys. The phone's
// Back key closes it before it leaves the stage.
type cover struct {
	open  bool
	close func()
}

// covers are all covers, the topmost first.
func (d *Desk) covers() []cover {
	v := &d.view
	at := func(stage string, open bool) bool { return d.stage == stage && open }
	return []cover{
		{v.stages, func() { v.stages = false }},
		{d.photoOpen(), d.closePhoto},
		{v.how.open, func() { d.showHow(false) }},
		{d.scanning != nil, d.stopScan},
		{at(stageDraft, v.draft.full), func() { v.draft.full = false }},
		{at(stageCloth, v.cloth.full), func() { v.cloth.full = false }},
		{at(stageTape, v.tape.focus != ""), d.leaveField},
		{at(stageBook, v.book.client != ""), func() { v.book.client = "" }},
		{at(stageBook, v.book.cloth != ""), func() { v.book.cloth = "" }},
	}
}

// leaveField puts the keys of the tape away, and the caret out of the field: the next
// tap on it brings them again.
func (d *Desk) leaveField() {
	d.view.tape.focus = ""
	if el := app.Window().Get("document").Get("activeElement"); el != nil && el.Truthy() {
		el.Call("blur")
	}
}

// noteCover has the browser hold a step back for what was opened. Whatever opened it,
// it is seen here, before the page is drawn.
func (d *Desk) noteCover() {
	open := false
	for _, c := range d.covers() {
		open = open || c.open
	}
	if open && !d.covered {
		if l := loader(); l != nil {
			l.Call("cover")
		}
	}
	d.covered = open
}

// noteLook tells the loader when the Book begins to show what it will show when the page
// is opened again, and when that ends. It is shown then before the program runs.
func (d *Desk) noteLook() {
	rests := d.stage == stageBook && d.view.book == (bookViewed{}) && !d.covered &&
		d.harm == nil && d.fault == "" && !d.later && d.job != nil
	if rests == d.rests {
		return
	}
	d.rests = rests
	if l := loader(); l != nil {
		l.Call("rests", rests)
	}
}

// hearBack follows the Back key where it has left what the browser held for a cover.
func (d *Desk) hearBack() {
	app.Window().Call("addEventListener", "chalkfold-back", app.FuncOf(func(app.Value, []app.Value) any {
		d.ctx.Dispatch(func(app.Context) { d.back() })
		return nil
	}))
}

// back closes the topmost cover. Where it was closed by a key of its own, the stage is
// left as if there had been none.
func (d *Desk) back() {
	d.covered = false // another one below it is held for anew
	for _, c := range d.covers() {
		if c.open {
			c.close()
			return
		}
	}
	app.Window().Get("history").Call("back")
}

// showHow turns to the help of the stage, or back to where the page was.
func (d *Desk) showHow(open bool) {
	at := &d.view.how
	if at.open == open {
		return
	}
	at.open = open
	d.lift(open, &at.from)
}

// lift shows the page from its top where something stands in its place, and from where
// it was when that is gone.
func (d *Desk) lift(open bool, from *int) {
	if open {
		*from = app.Window().Get("scrollY").Int()
		d.ctx.Defer(toTop)
		return
	}
	back := *from
	d.ctx.Defer(func(app.Context) { app.Window().Call("scrollTo", 0, back) })
}

// toTop scrolls to where the page begins.
func toTop(app.Context) { app.Window().Call("scrollTo", 0, 0) }
