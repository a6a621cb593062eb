package ui

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// A key answers before it is thought about: on a slow phone to write the job down, to read
// a figure and to make the stage anew take as long as a key may. So a key that is typed
// changes the job and shows in its field, and no more. After the next frame the job is
// written down, and then the rest is done, each in a turn of its own, between which the
// browser hands over the next key. What leaves the job, or draws the page, or asks whether
// it is saved, does all that first; see heedTyped.

// typing is what was typed and is not heeded yet.
type typing struct {
	field string // its path; empty for nothing
	kept  bool   // it is written down
	due   bool   // the turn in which it will be is on its way
}

// typedIn has what was typed at a path heeded once the browser has shown it.
func (d *Desk) typedIn(field string) {
	d.ctx.PreventUpdate()
	if d.typing.field != field {
		d.heedTyped()
	}
	d.typing.field, d.typing.kept = field, false
	if !d.typing.due {
		d.typing.due = true
		d.painted(d.keepTyped)
	}
	d.saySaved()
}

// keepTyped writes down what was typed.
func (d *Desk) keepTyped() {
	d.ctx.PreventUpdate()
	d.typing.due = false
	if d.typing.field == "" {
		return
	}
	d.writeTyped()
	d.next(func() {
		if d.typing.kept { // else there was another key meanwhile, which has its own turn
			d.heedTyped()
		} else {
			d.ctx.PreventUpdate()
		}
	})
}

func (d *Desk) writeTyped() {
	if !d.typing.kept {
		d.typing.kept = true
		d.write(d.typing.field)
	}
}

// heedTyped does what was left to do after a key.
func (d *Desk) heedTyped() {
	field := d.typing.field
	if field == "" {
		return
	}
	d.writeTyped()
	d.typing.field, d.typing.kept = "", false
	d.heed(field)
}

// showTyped shows in a field what the page's own keys have typed there, as the phone's
// would.
func showTyped(id, text string) {
	if !app.IsClient {
		return
	}
	if el := app.Window().GetElementByID(id); el != nil && el.Truthy() {
		el.Set("value", text)
	}
}

// painted does something after the browser has painted. Where it has nothing to paint
// for, a tenth of a second is waited.
func (d *Desk) painted(part func()) {
	var drawn app.Func
	done := false
	once := func() {
		if done {
			d.ctx.PreventUpdate()
			return
		}
		done = true
		part()
	}
	drawn = app.FuncOf(func(app.Value, []app.Value) any {
		drawn.Release()
		d.next(once)
		return nil
	})
	app.Window().Call("requestAnimationFrame", drawn)
	d.ctx.After(6*frame, func(app.Context) { once() })
}
