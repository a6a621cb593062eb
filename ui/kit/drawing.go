package kit

import (
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// Drawing shows one SVG document on one node: made element by element, each
// would need its namespace. The text must come from a Pen or the core's own
// writer: it is set as it is.
type Drawing struct {
	app.Compo
	SVG   string
	Label string // what it shows, for those who cannot see it
	Size  string // a class that gives it its height
	Zoom  int    // 0 shows the whole; see ZoomBy
	// Spot names the element with the class "spot" that is to be in sight;
	// another name brings it into sight again.
	Spot string

	shown, shownSpot string
	shownZoom        int
}

// maxZoom is the nearest that a drawing is looked at.
const maxZoom = 4

// OnMount implements app.Mounter.
func (d *Drawing) OnMount(app.Context) { d.show() }

// OnUpdate implements app.Updater.
func (d *Drawing) OnUpdate(ctx app.Context) {
	ctx.Defer(func(app.Context) { d.show() })
}

func (d *Drawing) show() {
	el := d.JSValue()
	if el == nil || !el.Truthy() {
		return
	}
	if d.SVG != d.shown {
		el.Get("firstElementChild").Set("innerHTML", d.SVG)
		d.shown = d.SVG
	}
	if d.Spot != d.shownSpot || d.Zoom != d.shownZoom {
		d.center(el)
		d.shownSpot, d.shownZoom = d.Spot, d.Zoom
	}
}

// center brings the spot to the middle, or the middle of what is drawn.
func (d *Drawing) center(el app.Value) {
	at := el.Call("querySelector", ".spot")
	if !at.Truthy() {
		at = el.Get("firstElementChild")
	}
	frame, box := el.Call("getBoundingClientRect"), at.Call("getBoundingClientRect")
	middle := func(start, size, scroll, client string) float64 {
		return el.Get(scroll).Float() + box.Get(start).Float() - frame.Get(start).Float() +
			box.Get(size).Float()/2 - el.Get(client).Float()/2
	}
	left := middle("left", "width", "scrollLeft", "clientWidth")
	top := middle("top", "height", "scrollTop", "clientHeight")
	el.Set("scrollLeft", left)
	el.Set("scrollTop", top)
}

// Render implements app.Composer.
func (d *Drawing) Render() app.UI {
	return Div().Class("drawing", d.Size, "zoom"+strconv.Itoa(d.Zoom)).Role("img").Aria("label", d.Label).
		TabIndex(0).
		Body(Div().Class("paper").Aria("hidden", "true"))
}

// ZoomKeys look nearer and further at a drawing; on is told by how many steps.
func ZoomKeys(zoom int, on func(steps int)) app.UI {
	key := func(sign, name string, steps int) app.UI {
		to := zoom + steps
		return Key().Class("zoom-key").Aria("label", name).Text(sign).
			Attr("disabled", to < 0 || to > maxZoom).
			OnClick(func(app.Context, app.Event) { on(steps) }, app.EventScope(name))
	}
	return Div().Class("zoom-keys").Body(key("−", "further", -1), key("+", "nearer", 1))
}

// ZoomBy is zoom after so many steps.
func ZoomBy(zoom, steps int) int { return max(0, min(maxZoom, zoom+steps)) }
