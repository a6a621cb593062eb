package kit

import (
	"math"
	"strconv"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/geom"
	"chalkfold/draft/say"
)

// Drawing shows one SVG document on one node: made element by element, each
// would need its namespace. The text must come from a Pen or the core's own
// writer: it is set as it is.
//
// It is looked at from nearer by two fingers, two taps, a wheel, + and −, and
// moved by one finger or the arrow keys; keys on it do the same. None of that
// is told to anyone: the page is not drawn anew for it.
type Drawing struct {
	app.Compo
	*say.Words
	Name  string // tells it from another drawing at the same place
	SVG   string
	Label string // what it shows, for those who cannot see it
	Size  string // a class that gives it its height
	Still bool   // always shown whole
	Long  bool   // first shown from its beginning, where the whole would be too small
	// Spot names the place that is to be in sight; another name brings it into
	// sight again.
	Spot   string
	SpotAt geom.Pt
	// OnTap is told what was tapped, and how far from it a finger may have meant,
	// mm. It may be nil.
	OnTap func(at geom.Pt, reach float64)
	// Held is the id of the group that a finger moves when it comes down on it: see
	// Pen.Begin. OnGrip reports whether a finger there means it, OnMove is told how
	// far it was moved since, as often as the finger moves, and reports whether it
	// may lie there; OnDrop is told where it was let go.
	Held   string
	OnGrip func(at geom.Pt, reach float64) bool
	OnMove func(by geom.Vec) bool
	OnDrop func(by geom.Vec)
	// OnFill gives the drawing the screen, or takes it back; nil is no such key.
	OnFill func()
	Filled bool

	shown, shownSpot string
	look             Look
	hand             hand
	grip             grip
	ctx              app.Context
	heard            []func()
}

// fingertip is how far from what it means a finger may come down, px.
const fingertip = 24.0

// CompoID makes the drawing of another name another drawing.
func (d *Drawing) CompoID() string { return d.Name }

// OnMount implements app.Mounter.
func (d *Drawing) OnMount(ctx app.Context) {
	d.ctx = ctx
	d.shown, d.shownSpot = "", ""
	d.show()
	if !d.Still {
		d.listen()
	}
}

// OnDismount implements app.Dismounter.
func (d *Drawing) OnDismount() {
	for _, stop := range d.heard {
		stop()
	}
	d.heard = nil
}

// OnUpdate implements app.Updater.
func (d *Drawing) OnUpdate(ctx app.Context) {
	ctx.Defer(func(app.Context) { d.show() })
}

// paper is the node of the document, false when there is none.
func (d *Drawing) paper() (app.Value, bool) {
	el := d.JSValue()
	if el == nil || !el.Truthy() {
		return nil, false
	}
	return el.Get("firstElementChild"), true
}

// show puts the document on its node where it is another one, and the spot in
// sight.
func (d *Drawing) show() {
	paper, ok := d.paper()
	if !ok {
		return
	}
	fresh := d.SVG != d.shown
	if fresh {
		paper.Set("innerHTML", d.SVG)
		d.shown = d.SVG
	}
	d.settle(paper, fresh)
	if fresh || d.Spot != d.shownSpot {
		d.measure(paper)
		if d.Spot != "" && d.Spot != d.shownSpot {
			d.look.Show(d.SpotAt)
		}
		d.shownSpot = d.Spot
		d.turn(paper)
	}
}

// measure takes the size of the frame, and of all that is drawn.
func (d *Drawing) measure(paper app.Value) {
	first := d.look.Scale() == 0
	d.look.Renew(homeOf(d.SVG), paper.Get("clientWidth").Float(), paper.Get("clientHeight").Float())
	if first && d.Long {
		d.look.Begin()
	}
}

// homeOf is the box that a document names.
func homeOf(svg string) geom.Rect {
	_, rest, _ := strings.Cut(svg, `viewBox="`)
	text, _, _ := strings.Cut(rest, `"`)
	var v [4]float64
	for i, s := range strings.Fields(text) {
		if i < len(v) {
			v[i], _ = strconv.ParseFloat(s, 64)
		}
	}
	return geom.Rect{Min: geom.Pt{X: v[0], Y: v[1]}, Max: geom.Pt{X: v[0] + v[2], Y: v[1] + v[3]}}
}

// turn shows what is looked at. Text keeps its size on the screen, and more of
// it is shown from nearer: see Near.
func (d *Drawing) turn(paper app.Value) {
	svg := paper.Get("firstElementChild")
	if !svg.Truthy() || d.look.Scale() == 0 {
		return
	}
	svg.Call("setAttribute", "aria-hidden", "true") // the label says what it shows
	b := d.look.Box()
	box := ""
	for _, v := range []float64{b.Min.X, b.Min.Y, b.W(), b.H()} {
		box += strconv.FormatFloat(v, 'f', 2, 64) + " "
	}
	svg.Call("setAttribute", "viewBox", box)
	svg.Call("setAttribute", "font-size", strconv.FormatFloat(letterPx/d.look.Scale(), 'f', 2, 64))
	data := paper.Get("dataset")
	data.Set("near", strconv.Itoa(Near(d.look.Scale())))
	data.Set("moved", YesNo(d.look.Near > 1))
}

// letterPx is how high text is on the screen, px.
const letterPx = 14.0

// Nears are the scales, px for each mm, from which more text is shown.
func Nears() []float64 { return []float64{0.16, 0.3, 0.6, 1.2, 2.4, 4.8} }

// Near is how many of them a scale has reached.
func Near(scale float64) int {
	n := 0
	for _, s := range Nears() {
		if scale >= s {
			n++
		}
	}
	return n
}

// changed does something to the look, and shows it.
func (d *Drawing) changed(do func(l *Look)) {
	if paper, ok := d.paper(); ok {
		d.measure(paper)
		do(&d.look)
		d.turn(paper)
	}
}

// listen hears what hands do on the paper.
func (d *Drawing) listen() {
	paper, ok := d.paper()
	if !ok {
		return
	}
	on := func(target app.Value, event string, do func(e app.Value)) {
		f := app.FuncOf(func(_ app.Value, args []app.Value) any {
			do(args[0])
			return nil
		})
		target.Call("addEventListener", event, f)
		d.heard = append(d.heard, func() {
			target.Call("removeEventListener", event, f)
			f.Release()
		})
	}
	at := func(e app.Value) spot {
		box := paper.Call("getBoundingClientRect")
		return spot{e.Get("clientX").Float() - box.Get("left").Float(), e.Get("clientY").Float() - box.Get("top").Float()}
	}
	on(paper, "pointerdown", func(e app.Value) {
		d.measure(paper)
		d.take(paper, e.Get("pointerId").Int(), at(e))
		d.hand.down(e.Get("pointerId").Int(), at(e))
		paper.Call("setPointerCapture", e.Get("pointerId"))
	})
	on(paper, "pointermove", func(e app.Value) {
		if d.carry(paper, e.Get("pointerId").Int(), at(e)) {
			return
		}
		if d.hand.move(e.Get("pointerId").Int(), at(e), &d.look) {
			d.turn(paper)
		}
	})
	on(paper, "pointerup", func(e app.Value) {
		where := at(e)
		if d.drop(e.Get("pointerId").Int(), where) {
			d.hand.lost(e.Get("pointerId").Int())
			return
		}
		switch d.hand.up(e.Get("pointerId").Int(), where, e.Get("timeStamp").Float()) {
		case tapOnce:
			d.tapped(where)
		case tapTwice:
			d.look.Zoom(nearer*nearer, where.x, where.y)
			d.turn(paper)
		case nothing:
		}
	})
	on(paper, "pointercancel", func(e app.Value) {
		d.hand.lost(e.Get("pointerId").Int())
		if d.grip.held {
			d.grip = grip{}
			d.settle(paper, false)
		}
	})
	on(paper, "wheel", func(e app.Value) {
		e.Call("preventDefault")
		where := at(e)
		d.changed(func(l *Look) { l.Zoom(math.Exp(-e.Get("deltaY").Float()/400), where.x, where.y) })
	})
	on(paper, "keydown", func(e app.Value) {
		if do := keyed(e.Get("key").String()); do != nil && !e.Get("ctrlKey").Bool() {
			e.Call("preventDefault")
			d.changed(do)
		}
	})
	on(app.Window(), "resize", func(app.Value) { d.changed(func(*Look) {}) })
}

// keyed is what a key of the keyboard does to the look; nil for nothing.
func keyed(key string) func(l *Look) {
	switch key {
	case "ArrowLeft":
		return func(l *Look) { l.Step(-1, 0) }
	case "ArrowRight":
		return func(l *Look) { l.Step(1, 0) }
	case "ArrowUp":
		return func(l *Look) { l.Step(0, -1) }
	case "ArrowDown":
		return func(l *Look) { l.Step(0, 1) }
	case "+", "=":
		return func(l *Look) { l.Nearer(1) }
	case "-":
		return func(l *Look) { l.Nearer(-1) }
	case "0":
		return func(l *Look) { l.Whole() }
	}
	return nil
}

func (d *Drawing) tapped(where spot) {
	if d.OnTap == nil || d.look.Scale() == 0 {
		return
	}
	at, reach := d.look.At(where.x, where.y), fingertip/d.look.Scale()
	d.ctx.Dispatch(func(app.Context) { d.OnTap(at, reach) })
}

// Render implements app.Composer.
func (d *Drawing) Render() app.UI {
	return Div().Class("drawing", d.Size).Body(
		Div().Class("paper").Role("img").Aria("label", d.Label).TabIndex(0),
		app.If(!d.Still, func() app.UI { return d.keys() }),
	)
}

func (d *Drawing) keys() app.UI {
	key := func(class, sign, name, does string) app.UI {
		return Key().Class("look-key", class).Aria("label", name).Attr("title", name).Text(sign).
			OnClick(func(app.Context, app.Event) { d.changed(keyed(does)) }, app.EventScope(does))
	}
	fill := d.T("Fill the screen")
	if d.Filled {
		fill = d.T("Back to the list")
	}
	return Div().Class("look-keys").Body(
		key("edge left", "‹", d.T("left"), "ArrowLeft"),
		key("edge right", "›", d.T("right"), "ArrowRight"),
		key("edge up", "‹", d.T("up"), "ArrowUp"),
		key("edge down", "›", d.T("down"), "ArrowDown"),
		key("nearer", "+", d.T("nearer"), "+"),
		key("further", "−", d.T("further"), "-"),
		key("whole", "◻", d.T("the whole"), "0"),
		app.If(d.OnFill != nil, func() app.UI {
			return Key().ID("fill").Class("look-key").Aria("label", fill).Attr("title", fill).Aria("pressed", YesNo(d.Filled)).Text("⤢").
				OnClick(func(app.Context, app.Event) { d.OnFill() })
		}),
	)
}
