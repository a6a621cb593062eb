// Package house is the screen of the rules that all jobs of the house begin
// with: changed, reset, kept in several sets, and lent by a link.
package house

import (
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/garment"
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/ui/fitting"
	"chalkfold/ui/kit"
	"chalkfold/ui/style"
)

// Set is one rule set as listed.
type Set struct {
	ID, Name string
	InForce  bool
	Aside    string
}

// View is what the screen shows and whom it tells.
type View struct {
	*say.Words

	Name    string // of the set in force
	Rules   []style.Rule
	Sets    []Set
	Deleted []Set

	Methods []garment.Choice // that new jobs can be drafted by
	Method  string

	Learned []fitting.Learned // what the maker alters again and again
	OnHouse func(kind string)

	Job    string // the open job
	Effect []Row  // what the rules in force would change of it

	Find  string // only rules with it in their name are shown
	Group string // the group that is open
	Rule  rules.ID
	Sure  string // the set that a tap more deletes

	Link     string // that lends the set in force; empty until it is asked for
	CanShare bool
	Told     string // what was done
	Paste    string // in the field for a link
	Looking  *Looking

	Fractions func(id, name string) app.UI // keys for the field of a length

	OnName, OnFind, OnGroup, OnPaste     func(text string)
	OnMethod                             func(id string)
	OnOpen, OnReset                      func(id rules.ID)
	OnRule                               func(id rules.ID, text string)
	OnResetAll                           func()
	OnForce, OnCopy, OnDelete, OnRecover func(id string)
	OnLend, OnCopyLink, OnShareLink      func()
	OnKeepLent, OnLentToJob, OnLeaveLent func()
}

// Render returns the nodes of the screen.
func (v View) Render() app.UI {
	return kit.Stage(v.T("House rules"), "house").Body(
		kit.Div().ID("lent").Body(app.If(v.Looking != nil, v.looking)),
		kit.P().ID("told").Role("status").Hidden(v.Told == "").Text(v.Told),
		kit.Div().Body(
			kit.H2().Text(v.T("House rules")),
			kit.P().Class("quiet").Text(v.T("Every new job begins with these rules. Jobs that are here already keep theirs.")),
		),
		kit.Div().ID("house-learned").Hidden(len(v.Learned) == 0).Body(app.Range(v.Learned).Slice(func(i int) app.UI {
			return v.Learned[i].Render(v.OnHouse)
		})),
		v.naming(),
		style.Method(v.Words, v.Methods, v.Method, v.OnMethod),
		kit.Div().ID("effect").Body(app.If(len(v.Effect) > 0, v.effect)),
		kit.Div().Body(
			kit.Label("find-rule", v.T("Find a rule")),
			&kit.Field{ID: "find-rule", Text: v.Find, Most: 40, OnText: func(_, text string) { v.OnFind(text) }},
		),
		kit.Div().Class("groups").Body(v.found()),
		kit.Div().Hidden(v.changed() == 0).Body(
			kit.Act("reset-all", "choice", v.T("Reset all to the defaults"), v.OnResetAll),
			kit.P().Class("quiet").Text(v.T("Undo above takes it back.")),
		),
		v.sets(),
		v.lending(),
	)
}

func (v View) naming() app.UI {
	return kit.Div().Body(
		kit.Label("set-name", v.T("Name of this rule set")),
		&kit.Field{ID: "set-name", Text: v.Name, Most: 60, OnText: func(_, text string) { v.OnName(text) }},
	)
}

// effect tells what the rules would change of the open job.
func (v View) effect() app.UI {
	title := v.T("By these rules the open job would change")
	if v.Job != "" {
		title = v.F("By these rules %s would change", v.Job)
	}
	rows := make([]app.UI, len(v.Effect))
	for i, r := range v.Effect {
		rows[i] = kit.Row("", kit.Sentence(r.Name), r.Theirs, r.Ours)
	}
	return kit.Div().Class("card").Body(
		kit.Strong().Text(title),
		kit.Table("effect-girths", []string{v.T("Finished girth"), v.T("Now"), v.T("Would be")}, rows...),
	)
}

// changed is how many rules are not the default.
func (v View) changed() int {
	n := 0
	for _, r := range v.Rules {
		if r.Level != rules.Built {
			n++
		}
	}
	return n
}

// found are the rules by group or, where one is searched for, those with the
// words in their name.
func (v View) found() app.UI {
	find := strings.ToLower(strings.TrimSpace(v.Find))
	if find == "" {
		all := style.Groups(v.Rules)
		return app.Range(all).Slice(func(i int) app.UI { return all[i].Render(v.Words, "house-", v.Group, v.OnGroup, v.rule) })
	}
	var hits []style.Rule
	for _, r := range v.Rules {
		if strings.Contains(strings.ToLower(v.T(r.Def.Name)), find) {
			hits = append(hits, r)
		}
	}
	if len(hits) == 0 {
		return kit.P().Text(v.T("No rule has this in its name."))
	}
	return kit.Div().Class("rows").Body(app.Range(hits).Slice(func(i int) app.UI { return v.rule(hits[i]) }))
}

func (v View) rule(r style.Rule) app.UI {
	id := "house-" + string(r.Def.ID)
	note := id + "-note"
	name := say.Name(r.Def.Name)
	return kit.Div().Class("row").DataSet("changed", kit.YesNo(r.Level != rules.Built)).Body(
		kit.Div().Class("row-head").Body(
			kit.Label(id, v.T(r.Def.Name)),
			kit.Span().Class("echo").Text(r.Echo),
		),
		kit.Div().Class("row-in").Body(
			style.Entry(r, id, note, v.Words, func(text string) { v.OnRule(r.Def.ID, text) }),
			kit.Key().Class("reset").Hidden(r.Level == rules.Built).Aria("label", v.F("reset the %s", name)).Text(v.T("Reset")).
				OnClick(func(app.Context, app.Event) { v.OnReset(r.Def.ID) }, app.EventScope(id)),
			kit.Key().Class("help").Aria("expanded", kit.YesNo(v.Rule == r.Def.ID)).Aria("label", v.F("about the %s", name)).Text("?").
				OnClick(func(app.Context, app.Event) { v.OnOpen(r.Def.ID) }, app.EventScope(id)),
		),
		style.Keys(r, id, v.Words, v.Fractions),
		kit.Div().ID(note).Body(
			kit.P().Class("bad").Hidden(r.Bad == "").Text(r.Bad),
			kit.P().Class("quiet").Hidden(r.Level == rules.Built).Text(v.F("Changed; the default is %s.", r.Def.Told(r.Def.Default))),
		),
		kit.Div().Class("about").Hidden(v.Rule != r.Def.ID).Body(
			kit.P().Class("howto").Text(v.T(r.Def.Explain)),
			style.Span(r, v.Words),
		),
	)
}
