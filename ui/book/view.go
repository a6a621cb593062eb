// Package book is the stage that lists the jobs.
package book

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/say"

	"chalkfold/ui/kit"
)

// Entry is one job.
type Entry struct {
	ID     string
	Ticket string
	State  string // "Drafted, may be cut"
	Says   string // "17 May 2031, 9.05"
	Open   bool   // it lies on the desk
	Bad    bool   // it cannot be read by this version
}

// View is what the stage shows and whom it tells.
type View struct {
	*say.Words

	Jobs    []Entry
	Deleted []Entry // those that can be recovered
	Sure    string  // id of the job that one more tap deletes
	Busy    bool    // the open job is not saved yet: none may take its place

	Keep app.UI // what keeps the work safe

	OnOpen    func(id string)
	OnNew     func()
	OnSample  func()
	OnDelete  func(id string)
	OnRecover func(id string)
}

// Render returns the nodes of the stage.
func (v *View) Render() app.UI {
	return kit.Stage("Book").Body(
		kit.Div().Class("actions").Body(
			kit.Button("New job", v.OnNew),
			kit.Button("Open the sample", v.OnSample),
		),
		kit.P().Class("quiet").Hidden(!v.Busy).Text("The open job is not saved yet: it stays until it is."),
		kit.P().Class("quiet").Hidden(len(v.Jobs) > 0).Text("No job is kept yet."),
		kit.Div().ID("jobs").Class("jobs").Body(
			app.Range(v.Jobs).Slice(func(i int) app.UI {
				e := v.Jobs[i]
				b := kit.Key().Class("job").Attr("disabled", e.Bad).
					Body(kit.Strong().Text(e.Ticket), kit.Span().Hidden(e.State == "").Text(e.State), kit.Span().Class("quiet").Text(e.Says))
				if e.Open {
					b = b.Aria("current", "true")
				}
				name := "Delete"
				if v.Sure == e.ID {
					name = "Yes, delete"
				}
				return kit.Div().Class("verdict").Body(
					b.OnClick(func(app.Context, app.Event) { v.OnOpen(e.ID) }, app.EventScope(e.ID)),
					key(name, e, v.OnDelete).Hidden(e.Bad),
				)
			}),
		),
		kit.Div().ID("deleted").Class("jobs").Hidden(len(v.Deleted) == 0).Body(
			kit.H2().Text("Deleted, kept 30 days"),
			app.Range(v.Deleted).Slice(func(i int) app.UI {
				e := v.Deleted[i]
				return kit.Div().Class("verdict").Body(
					kit.Div().Class("job").Body(kit.Strong().Text(e.Ticket), kit.Span().Class("quiet").Text(e.Says)),
					key("Recover", e, v.OnRecover),
				)
			}),
		),
		v.Keep,
	)
}

// key is a key beside one job.
func key(name string, e Entry, on func(id string)) app.HTMLElem {
	return kit.Key().Class("choice").Aria("label", name+" "+e.Ticket).Text(name).
		OnClick(func(app.Context, app.Event) { on(e.ID) }, app.EventScope(name, e.ID))
}
