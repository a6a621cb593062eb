package ui

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// A key answers before it is thought about: on a slow phone to read a figure, to make the
// stage anew and to write the job down take as long as a key may. So a key that is typed
// changes the job and shows in its field, and the rest is done after the next frame. What
// leaves the job or asks whether it is saved does the rest first; see heedTyped.

// typedIn has what was typed at a path heeded once the browser has shown it.
func (d *Desk) typedIn(field string) {
	d.ctx.PreventUpdate()
	if d.typed != field {
		d.heedTyped()
	}
	if d.typed == "" {
		d.painted(d.heedTyped)
	}
	d.typed = field
	if el := app.Window().GetElementByID(savingID); el != nil && el.Truthy() {
		// Not its textContent, which would put another node in the place of the one that
		// is known to go-app.
		if text := el.Get("firstChild"); text.Truthy() {
			text.Set("data", d.sayingSaved())
		}
	}
}

// heedTyped does what was left to do after a key.
func (d *Desk) heedTyped() {
	if field := d.typed; field != "" {
		d.typed = ""
		d.heed(field)
	}
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

// painted does something, once or twice, after the browser has painted. Where it has
// nothing to paint for, a tenth of a second is waited.
func (d *Desk) painted(part func()) {
	var drawn app.Func
	drawn = app.FuncOf(func(app.Value, []app.Value) any {
		drawn.Release()
		d.next(part)
		return nil
	})
	app.Window().Call("requestAnimationFrame", drawn)
	d.ctx.After(6*frame, func(app.Context) { part() })
}
