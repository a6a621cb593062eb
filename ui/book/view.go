// Package book is the stage that lists the jobs.
package book

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/kit"
)

// Entry is one job.
type Entry struct {
	ID     string
	Ticket string
	Says   string // "trousers, changed 17 May"
	Open   bool   // it lies on the desk
	Bad    bool   // it cannot be read by this version
}

// View is what the stage shows and whom it tells.
type View struct {
	Jobs []Entry
	Busy bool // the open job is not saved yet: none may take its place

	OnOpen   func(id string)
	OnNew    func()
	OnSample func()
}

// Render returns the nodes of the stage.
func (v View) Render() app.UI {
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
					Body(kit.Strong().Text(e.Ticket), kit.Span().Text(e.Says))
				if e.Open {
					b = b.Aria("current", "true")
				}
				return b.OnClick(func(app.Context, app.Event) { v.OnOpen(e.ID) }, app.EventScope(e.ID))
			}),
		),
	)
}
