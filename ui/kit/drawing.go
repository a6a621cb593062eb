package kit

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// Drawing shows one SVG document on one node: made element by element, each
// would need its namespace. The text must come from the core's own writer: it
// is set as it is.
type Drawing struct {
	app.Compo
	SVG   string
	Label string // what it shows, for those who cannot see it
	Large bool   // wider than the screen, to be moved about
	shown string
}

// OnMount implements app.Mounter.
func (d *Drawing) OnMount(app.Context) { d.show() }

// OnUpdate implements app.Updater.
func (d *Drawing) OnUpdate(ctx app.Context) {
	ctx.Defer(func(app.Context) { d.show() })
}

func (d *Drawing) show() {
	el := d.JSValue()
	if el == nil || !el.Truthy() || d.SVG == d.shown {
		return
	}
	el.Get("firstElementChild").Set("innerHTML", d.SVG)
	d.shown = d.SVG
}

// Render implements app.Composer.
func (d *Drawing) Render() app.UI {
	size := "drawing"
	if d.Large {
		size = "drawing large"
	}
	return app.Div().Class(size).Role("img").Aria("label", d.Label).Body(app.Div().Class("paper"))
}
