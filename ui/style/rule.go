package style

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/ui/kit"
)

// changed says where a value comes from that is not the default.
func (v View) changed(r Rule) string {
	switch r.Level {
	case rules.House:
		return v.F("house rule; the default is %s", r.Def.Told(r.Def.Default))
	case rules.Client:
		return v.F("for this client; the default is %s", r.Def.Told(r.Def.Default))
	case rules.Job:
		return v.F("for this job; the default is %s", r.Def.Told(r.Def.Default))
	case rules.Built:
	}
	return ""
}

func (v View) rule(r Rule) app.UI {
	id := string(r.Def.ID)
	note := id + "-note"
	return kit.Div().Class("row").Body(
		kit.Div().Class("row-head").Body(
			kit.Label(id, v.T(r.Def.Name)),
			kit.Span().Class("echo").Text(r.Echo),
		),
		kit.Div().Class("row-in").Body(
			Entry(r, id, note, v.Words, func(text string) { v.OnRule(r.Def.ID, text) }),
			kit.Key().Class("help").
				Aria("expanded", kit.YesNo(v.Rule == r.Def.ID)).
				Aria("label", v.F("about the %s", say.Name(r.Def.Name))).
				Text("?").
				OnClick(func(app.Context, app.Event) { v.OnOpen(r.Def.ID) }, app.EventScope(id)),
		),
		Keys(r, id, v.Words, v.Fractions),
		kit.Div().ID(note).Body(
			kit.P().Class("bad").Hidden(r.Bad == "").Text(r.Bad),
			kit.P().Class("quiet").Hidden(r.Level == rules.Built).Text(v.changed(r)),
			kit.P().Hidden(r.Moved == "").Text(v.F("For this figure: %s", say.Name(r.Moved))),
		),
		app.If(v.Rule == r.Def.ID, func() app.UI { return v.about(r) }),
	)
}

func (v View) about(r Rule) app.UI {
	id := r.Def.ID
	levels := []kit.Choice{
		{ID: rules.House.String(), Name: v.T("for the house")},
		{ID: rules.Client.String(), Name: v.T("for this client")},
		{ID: rules.Job.String(), Name: v.T("for this job")},
		{ID: rules.Built.String(), Name: v.F("default, %s", r.Def.Told(r.Def.Default))},
	}
	return kit.Div().Class("about").Body(
		kit.P().Class("howto").Text(v.T(r.Def.Explain)),
		Span(r, v.Words),
		kit.Choose(string(id)+"-level", v.T("For whom this value counts"), "", levels, r.Level.String(), func(_, choice string) {
			for _, l := range []rules.Level{rules.Built, rules.House, rules.Client, rules.Job} {
				if l.String() == choice {
					v.OnMove(l, id)
				}
			}
		}),
	)
}
