// Package style is the stage where it is said what is being made, and by which
// rules.
package style

import (
	"slices"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/garment"
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/ui/kit"
)

// View is what the stage shows and whom it tells.
type View struct {
	*say.Words

	Sketch   string     // SVG of front and back; empty until it is made
	Middle   bool       // it is drawn on a middle figure
	Measured bool       // something is measured
	Folded   bool       // the sketch is folded away
	Option   string     // the question that is open
	GaveUp   []string   // other answers that were given up for its last one
	Pictures [][]string // of the choices of each question; none until they are made

	Garments []kit.Choice // that can be made; none when it is settled
	Garment  string       // ID of the one that is

	Options []garment.Option
	Chosen  garment.Style // a missing answer is the default
	Methods []garment.Choice
	Method  string
	Changed []string // what the method changes of the house's figures
	Truings []garment.Choice
	Spoken  bool     // drafted as it is taught, with no truing
	Untrued []string // truings switched off
	Rules   []Rule

	Group  string   // the group of rules that is open
	Rule   rules.ID // the rule that is open
	Truing bool     // the truings are open

	Fractions func(id, name string) app.UI // keys for the field of a length

	OnGarment func(id string)
	OnFold    func()
	OnOption  func(id string)
	On        func(option, choice string)
	OnMethod  func(id string)
	OnSpoken  func(spoken bool)
	OnTruing  func(id string)
	OnTruths  func() // opens and closes the truings
	OnGroup   func(name string)
	OnOpen    func(id rules.ID)
	OnRule    func(id rules.ID, text string)
	OnMove    func(to rules.Level, id rules.ID)
}

// Answer is the answer to an option, the default if none was given.
func (v View) Answer(o garment.Option) string {
	if c := v.Chosen[o.ID]; c != "" {
		return c
	}
	return o.Choices[0].ID
}

// Render returns the nodes of the stage.
func (v View) Render() app.UI {
	return kit.Stage(v.T("Style"), "style").Body(
		kit.Div().Hidden(len(v.Garments) == 0).Body(
			kit.Choose("garment", v.T("What is made"), "", v.Garments, v.Garment, func(_, id string) { v.OnGarment(id) }),
		),
		v.board(),
		kit.Div().Class("questions").Body(
			app.Range(v.Options).Slice(func(i int) app.UI { return v.question(i) }),
		),
		v.drafting(),
		kit.H2().Text(v.T("House rules")),
		kit.P().Class("quiet").Text(v.T("Every figure of the method is yours to change. A change made here is kept for the house, for this client, or for this job alone.")),
		kit.Div().Class("groups").Body(v.groups()),
	)
}

func (v View) drafting() app.UI {
	chosen := "trued"
	if v.Spoken {
		chosen = "spoken"
	}
	aside := ""
	if n := len(v.Untrued); n > 0 {
		aside = v.N(n, "%d is off", "%d are off")
	}
	return kit.Div().Class("drafted").Body(
		Method(v.Words, v.Methods, v.Method, v.OnMethod),
		kit.Div().ID("balanced").Class("stack").Hidden(len(v.Changed) == 0).Body(
			kit.P().Text(v.T("Changed from the house's figures:")),
			app.Range(v.Changed).Slice(func(i int) app.UI { return kit.P().Text(v.Changed[i]) }),
		),
		kit.Choose("drafting", v.T("Drafted"), v.T("As it is taught at the table, or trued so that seams meet and girths go round the body."), []kit.Choice{
			{ID: "trued", Name: v.T("trued")}, {ID: "spoken", Name: v.T("as it is spoken")},
		}, chosen, func(_, choice string) { v.OnSpoken(choice == "spoken") }),
		app.If(!v.Spoken, func() app.UI {
			return kit.Div().Body(
				kit.Disclose("truings", v.T("What is trued"), aside, v.Truing, v.OnTruths),
				app.If(v.Truing, func() app.UI {
					return kit.Div().Class("stack").Body(app.Range(v.Truings).Slice(func(i int) app.UI { return v.truing(v.Truings[i]) }))
				}),
			)
		}),
	)
}

// Method asks for the way of drafting; nothing where there is but one.
func Method(w *say.Words, methods []garment.Choice, chosen string, on func(id string)) app.UI {
	choices := make([]kit.Choice, len(methods))
	for i, m := range methods {
		choices[i] = kit.Choice{ID: m.ID, Name: w.T(m.Name)}
	}
	return kit.Div().Hidden(len(methods) < 2).Body(
		kit.Choose("method", w.T("Method"), w.T("The quarter method takes every figure as the house has it. The balanced method changes extensions, tilt and raises as little as it can until the fork seam goes round the body with its ease: take the total crotch length for it."),
			choices, chosen, func(_, id string) { on(id) }),
	)
}

func (v View) truing(t garment.Choice) app.UI {
	on := !slices.Contains(v.Untrued, t.ID)
	return kit.Key().Class("choice").Aria("pressed", kit.YesNo(on)).Text(v.T(t.Name)).
		OnClick(func(app.Context, app.Event) { v.OnTruing(t.ID) }, app.EventScope(t.ID))
}

func (v View) groups() app.UI {
	all := Groups(v.Rules)
	return app.Range(all).Slice(func(i int) app.UI {
		return all[i].Render(v.Words, "group-", v.Group, v.OnGroup, v.rule)
	})
}
