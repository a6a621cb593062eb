package bench

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/kit"
)

// Order is the order of work as it is shown.
type Order struct {
	Said     string // how much is done, and how long the rest takes
	Sewn     string // with what it is sewn
	Open     bool   // the questions about it are out
	Machines []kit.Choice
	Machine  string
	Weights  []kit.Choice
	Weight   string
	Hands    []kit.Choice
	Hand     string
	Steps    []Step
	OnOpen   func()
	On       func(question, choice string)
	OnStep   func(id string) // opens it, or shuts it
	OnDone   func(id string)
}

// Step is one task.
type Step struct {
	ID      string
	Worker  string // above the first of a worker's
	Name    string
	Time    string
	Done    bool
	Open    bool
	Do      string
	Drawing string // SVG
	Names   string // of the pieces in it
	Facts   []string
	Mind    []string // cautions
	MadeUp  bool     // the waist is measured here
}

// order shows the order of work.
func (v View) order() app.UI {
	o := v.Order
	return kit.Div().ID("order").Class("stack").Hidden(!v.Ready).Body(
		kit.H2().Text(v.T("Order of work")),
		kit.P().ID("order-said").Role("status").Text(o.Said),
		kit.Disclose("sewn-with", v.T("Sewn with"), o.Sewn, o.Open, o.OnOpen),
		kit.Div().Class("stack").Hidden(!o.Open).Body(
			kit.Choose("machine", v.T("Machine at hand"), "", o.Machines, o.Machine, o.On),
			kit.Choose("weight", v.T("Cloth"), "", o.Weights, o.Weight, o.On),
			kit.Choose("hands", v.T("Who sews"), "", o.Hands, o.Hand, o.On),
		),
		app.Range(o.Steps).Slice(func(i int) app.UI { return v.step(o.Steps[i]) }),
	)
}

func (v View) step(s Step) app.UI {
	sign := ""
	if s.Done {
		sign = "✓ "
	}
	return kit.Div().Class("stack").Body(
		kit.P().Class("cloth-of").Hidden(s.Worker == "").Text(s.Worker),
		kit.Key().Class("disclose", "step").DataSet("step", s.ID).Aria("expanded", kit.YesNo(s.Open)).Body(
			kit.Span().Text(sign+s.Name), kit.Span().Class("aside").Text(s.Time),
		).OnClick(func(app.Context, app.Event) { v.Order.OnStep(s.ID) }, app.EventScope(s.ID)),
		app.If(s.Open, func() app.UI { return v.open(s) }),
	)
}

func (v View) open(s Step) app.UI {
	return kit.Div().ID("step").Class("stack").Body(
		kit.P().Text(s.Do),
		&kit.Drawing{Words: v.Words, Name: "step-" + s.ID, SVG: s.Drawing, Label: v.F("%s: %s", s.Name, s.Names), Size: "on-step"},
		kit.P().Class("quiet").Text(s.Names),
		kit.List(false).Body(app.Range(s.Facts).Slice(func(i int) app.UI { return kit.Entry().Text(s.Facts[i]) })),
		app.Range(s.Mind).Slice(func(i int) app.UI { return kit.Note(kit.Mind, v.T("Take care"), s.Mind[i]) }),
		app.If(s.MadeUp && v.Band != nil, func() app.UI { return v.band() }),
		kit.Key().ID("step-done").Class("choice").Aria("pressed", kit.YesNo(s.Done)).Text(v.T("Done")).
			OnClick(func(app.Context, app.Event) { v.Order.OnDone(s.ID) }, app.EventScope(s.ID)),
	)
}

// measuring reports whether the step that is open shows the band.
func (v View) measuring() bool {
	for _, s := range v.Order.Steps {
		if s.Open && s.MadeUp {
			return true
		}
	}
	return false
}
