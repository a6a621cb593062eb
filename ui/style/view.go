// Package style is the stage where it is said what is being made, and by which
// rules.
package style

import (
	"slices"
	"strings"

	"chalkfold/draft/say"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/garment"
	"chalkfold/draft/rules"
	"chalkfold/ui/kit"
)

// View is what the stage shows and whom it tells.
type View struct {
	*say.Words

	Options []garment.Option
	Chosen  garment.Style // a missing answer is the default
	Truings []garment.Choice
	Spoken  bool     // drafted as it is taught, with no truing
	Untrued []string // truings switched off
	Rules   []Rule

	Group  string   // the group of rules that is open
	Rule   rules.ID // the rule that is open
	Truing bool     // the truings are open

	On       func(option, choice string)
	OnSpoken func(spoken bool)
	OnTruing func(id string)
	OnTruths func() // opens and closes the truings
	OnGroup  func(name string)
	OnOpen   func(id rules.ID)
	OnRule   func(id rules.ID, text string)
	OnMove   func(to rules.Level, id rules.ID)
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
	return kit.Stage("Style").Body(
		app.Range(v.Options).Slice(func(i int) app.UI {
			o := v.Options[i]
			choices := make([]kit.Choice, len(o.Choices))
			for j, c := range o.Choices {
				choices[j] = kit.Choice{ID: c.ID, Name: c.Name}
			}
			return kit.Choose(o.ID, kit.Sentence(o.Name), o.Explain, choices, v.Answer(o), v.On)
		}),
		v.drafting(),
		kit.H2().Text("House rules"),
		kit.P().Class("quiet").Text("Every figure of the method is yours to change. A change made here is kept for the house, for this client, or for this job alone."),
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
		aside = kit.Count(n, "is off", "are off")
	}
	return kit.Div().Body(
		kit.Choose("drafting", "Drafted", "As it is taught at the table, or trued so that seams meet and girths go round the body.", []kit.Choice{
			{ID: "trued", Name: "trued"}, {ID: "spoken", Name: "as it is spoken"},
		}, chosen, func(_, choice string) { v.OnSpoken(choice == "spoken") }),
		app.If(!v.Spoken, func() app.UI {
			return kit.Div().Body(
				kit.Disclose("truings", "What is trued", aside, v.Truing, v.OnTruths),
				app.If(v.Truing, func() app.UI {
					return kit.Div().Class("stack").Body(app.Range(v.Truings).Slice(func(i int) app.UI { return v.truing(v.Truings[i]) }))
				}),
			)
		}),
	)
}

func (v View) truing(t garment.Choice) app.UI {
	on := !slices.Contains(v.Untrued, t.ID)
	return kit.Key().Class("choice").Aria("pressed", kit.YesNo(on)).Text(t.Name).
		OnClick(func(app.Context, app.Event) { v.OnTruing(t.ID) }, app.EventScope(t.ID))
}

func (v View) groups() app.UI {
	all := Groups(v.Rules)
	return app.Range(all).Slice(func(i int) app.UI {
		g := all[i]
		var aside []string
		if g.Changed > 0 {
			aside = append(aside, kit.Count(g.Changed, "changed", "changed"))
		}
		if g.Bad > 0 {
			aside = append(aside, kit.Count(g.Bad, "to mend", "to mend"))
		}
		return kit.Div().Body(
			kit.Disclose("group-"+g.Name, kit.Sentence(g.Name), strings.Join(aside, ", "), v.Group == g.Name, func() { v.OnGroup(g.Name) }),
			app.If(v.Group == g.Name, func() app.UI {
				return kit.Div().Class("rows").Body(app.Range(g.Rules).Slice(func(i int) app.UI { return v.rule(g.Rules[i]) }))
			}),
		)
	})
}

// levelWords says for whom a value is kept.
func levelWords(l rules.Level) string {
	switch l {
	case rules.House:
		return "house rule"
	case rules.Client:
		return "for this client"
	case rules.Job:
		return "for this job"
	case rules.Built:
	}
	return "default"
}

func (v View) rule(r Rule) app.UI {
	id := string(r.Def.ID)
	note := id + "-note"
	return kit.Div().Class("row").Body(
		kit.Div().Class("row-head").Body(
			kit.Label(id, r.Def.Name),
			kit.Span().Class("echo").Text(r.Echo),
		),
		kit.Div().Class("row-in").Body(
			&kit.Field{
				ID: id, Text: r.Text, Numeric: true, Bad: r.Bad != "", Note: note, Most: 40, Hint: r.Def.Default,
				OnText: func(_, text string) { v.OnRule(r.Def.ID, text) },
			},
			kit.Key().Class("help").
				Aria("expanded", kit.YesNo(v.Rule == r.Def.ID)).
				Aria("label", "about the "+r.Def.Name).
				Text("?").
				OnClick(func(app.Context, app.Event) { v.OnOpen(r.Def.ID) }, app.EventScope(id)),
		),
		kit.Div().ID(note).Body(
			kit.P().Class("bad").Hidden(r.Bad == "").Text(r.Bad),
			kit.P().Class("quiet").Hidden(r.Level == rules.Built).Text(levelWords(r.Level)+"; the default is "+r.Def.Default),
		),
		app.If(v.Rule == r.Def.ID, func() app.UI { return v.about(r) }),
	)
}

func (v View) about(r Rule) app.UI {
	id := r.Def.ID
	var levels []kit.Choice
	for _, l := range []rules.Level{rules.House, rules.Client, rules.Job} {
		levels = append(levels, kit.Choice{ID: l.String(), Name: levelWords(l)})
	}
	levels = append(levels, kit.Choice{ID: rules.Built.String(), Name: "default, " + r.Def.Default})
	return kit.Div().Class("about").Body(
		kit.P().Class("howto").Text(r.Def.Explain+" From "+r.Def.Min+" to "+r.Def.Max+"."),
		kit.Choose(string(id)+"-level", "Its value is a", "", levels, r.Level.String(), func(_, choice string) {
			for _, l := range []rules.Level{rules.Built, rules.House, rules.Client, rules.Job} {
				if l.String() == choice {
					v.OnMove(l, id)
				}
			}
		}),
	)
}
