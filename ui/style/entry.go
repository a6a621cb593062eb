package style

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/ui/kit"
)

// Entry is where the value of a rule is given: a field, or two keys where it is
// on or off. note is the id of what is said of the value.
func Entry(r Rule, id, note string, w *say.Words, on func(text string)) app.UI {
	if r.Def.Kind != rules.Switch {
		return &kit.Field{
			ID: id, Text: r.Text, Numeric: true, Bad: r.Bad != "", Note: note, Most: 40, Hint: w.F("default, %s", r.Def.Told(r.Def.Default)),
			OnText: func(_, text string) { on(text) },
		}
	}
	answers := []kit.Choice{{ID: "off", Name: w.T("off")}, {ID: "on", Name: w.T("on")}}
	return kit.Div().Class("field", "choices").Role("group").Aria("label", w.T(r.Def.Name)).Body(
		app.Range(answers).Slice(func(i int) app.UI {
			a := answers[i]
			return kit.Key().Class("choice").Aria("pressed", kit.YesNo(a.ID == r.Value)).Text(a.Name).
				OnClick(func(app.Context, app.Event) { on(a.ID) }, app.EventScope(id, a.ID))
		}),
	)
}

// Keys are the fractions for the entry of a length.
func Keys(r Rule, id string, w *say.Words, fractions func(id, name string) app.UI) app.UI {
	if r.Def.Kind != rules.Length {
		return kit.Div().Hidden(true)
	}
	return fractions(id, w.T(r.Def.Name))
}

// Span says within what a rule may lie; nothing where it is on or off.
func Span(r Rule, w *say.Words) app.UI {
	return kit.P().Class("howto").Hidden(r.Def.Kind == rules.Switch).Text(w.F("From %s to %s.", r.Def.Told(r.Def.Min), r.Def.Told(r.Def.Max)))
}
