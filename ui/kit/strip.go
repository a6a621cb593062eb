package kit

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// Strip is a row of views that may be longer than the screen: it is moved sideways,
// and has the open one in sight.
type Strip struct {
	app.Compo
	Label string
	Views []Choice
	Open  string
	On    func(id string)

	inSight string // of the views, the one that was brought there last
}

// OnMount implements app.Mounter.
func (s *Strip) OnMount(ctx app.Context) { s.OnUpdate(ctx) }

// OnUpdate implements app.Updater.
func (s *Strip) OnUpdate(ctx app.Context) {
	ctx.Defer(func(app.Context) { s.show() })
}

// show brings the open view to the middle, when it is another than before.
func (s *Strip) show() {
	row := s.JSValue()
	if s.Open == s.inSight || row == nil || !row.Truthy() {
		return
	}
	open := row.Call("querySelector", "[aria-pressed=true]")
	if !open.Truthy() {
		return
	}
	s.inSight = s.Open
	spare := row.Get("clientWidth").Int() - open.Get("offsetWidth").Int()
	row.Set("scrollLeft", open.Get("offsetLeft").Int()-spare/2)
}

// Render implements app.Composer.
func (s *Strip) Render() app.UI {
	return Div().Class("strip").Role("group").Aria("label", s.Label).Body(
		Div().Body(viewKeys(s.Label, s.Views, s.Open, s.On)),
	)
}
