package house

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/kit"
)

// Looking is a rule set that came by a link and is only looked at.
type Looking struct {
	Name    string
	Fault   string // why it is refused
	Rows    []Row  // where it differs from the rules in force
	Unknown int    // rules in it that this program does not know
	Job     bool   // the open job can be drafted by it
}

// Row is one rule that differs.
type Row struct{ Name, Theirs, Ours string }

// looking shows what a link lends before anything is done with it.
func (v View) looking() app.UI {
	l := v.Looking
	if l.Fault != "" {
		return kit.Div().Body(
			kit.Note(kit.Stop, v.T("The link was not opened"), l.Fault),
			kit.Button(v.T("Leave it"), v.OnLeaveLent),
		)
	}
	title := v.T("Rules lent to you")
	if l.Name != "" {
		title = v.F("Rules lent to you: “%s”", l.Name)
	}
	unknown := ""
	if l.Unknown > 0 {
		unknown = v.N(l.Unknown, "%d rule in it is not known here. It is kept in the set and not used.", "%d rules in it are not known here. They are kept in the set and not used.")
	}
	rows := make([]app.UI, len(l.Rows))
	for i, r := range l.Rows {
		rows[i] = kit.Row("", kit.Sentence(r.Name), r.Theirs, r.Ours)
	}
	return kit.Div().Class("card").Body(
		kit.Strong().Text(title),
		kit.P().Hidden(len(l.Rows) > 0).Text(v.T("They are the same as the rules in force here.")),
		app.If(len(l.Rows) > 0, func() app.UI {
			return kit.Table("lent-rules", []string{v.T("Rule"), v.T("Lent"), v.T("In force")}, rows...)
		}),
		kit.P().Class("quiet").Hidden(unknown == "").Text(unknown),
		kit.P().Class("quiet").Text(v.T("Nothing is changed until you say so.")),
		kit.Div().Class("actions").Body(
			kit.Button(v.T("Keep as a rule set"), v.OnKeepLent),
			app.If(l.Job, func() app.UI { return kit.Act("lent-job", "choice", v.T("Use for this job only"), v.OnLentToJob) }),
			kit.Act("lent-leave", "choice", v.T("Leave it"), v.OnLeaveLent),
		),
	)
}

// sets lists the rule sets, and those that can still be recovered.
func (v View) sets() app.UI {
	return kit.Div().ID("sets").Body(
		kit.H2().Text(v.T("Rule sets")),
		kit.Div().Class("stack").Body(app.Range(v.Sets).Slice(func(i int) app.UI { return v.set(v.Sets[i]) })),
		kit.Div().Hidden(len(v.Deleted) == 0).Body(
			kit.H2().Text(v.T("Deleted")),
			kit.Div().Class("stack").Body(app.Range(v.Deleted).Slice(func(i int) app.UI {
				s := v.Deleted[i]
				return kit.Div().Class("card", "set").Body(
					kit.Strong().Text(s.Name),
					kit.P().Class("quiet").Text(s.Aside),
					kit.Div().Class("actions").Body(v.setKey(s, v.T("Recover"), v.F("recover %s", s.Name), v.OnRecover)),
				)
			})),
		),
	)
}

func (v View) set(s Set) app.UI {
	sure := v.Sure == s.ID
	remove := v.T("Delete")
	if sure {
		remove = v.T("Yes, delete")
	}
	return kit.Div().Class("card", "set").DataSet("force", kit.YesNo(s.InForce)).Body(
		kit.Strong().Text(s.Name),
		kit.P().Class("quiet").Text(s.Aside),
		kit.P().Hidden(!s.InForce).Text(v.T("In force: new jobs begin with it.")),
		kit.Div().Class("actions").Body(
			app.If(!s.InForce, func() app.UI { return v.setKey(s, v.T("Put in force"), v.F("put %s in force", s.Name), v.OnForce) }),
			v.setKey(s, v.T("Copy"), v.F("copy %s", s.Name), v.OnCopy),
			app.If(!s.InForce, func() app.UI { return v.setKey(s, remove, v.F("delete %s", s.Name), v.OnDelete) }),
		),
	)
}

func (v View) setKey(s Set, name, label string, on func(id string)) app.UI {
	return kit.Key().Class("choice").Aria("label", label).Text(name).
		OnClick(func(app.Context, app.Event) { on(s.ID) }, app.EventScope(s.ID, name))
}

// lending makes a link, and takes one.
func (v View) lending() app.UI {
	return kit.Div().ID("lending").Body(
		kit.H2().Text(v.T("Lend by a link")),
		kit.P().Class("quiet").Text(v.T("An apprentice who opens the link drafts as you do. The name of the set and its changed rules are in the link itself, and nothing else; no server keeps them.")),
		kit.Div().Class("actions").Body(kit.Button(v.F("Lend “%s”", v.Name), v.OnLend)),
		kit.Div().Hidden(v.Link == "").Class("stack").Body(
			app.Elem("input").ID("link").Class("field").Attr("type", "text").Attr("readonly", true).
				Aria("label", v.T("The link")).Attr("value", v.Link),
			kit.Div().Class("actions").Body(
				kit.Button(v.T("Copy the link"), v.OnCopyLink),
				app.If(v.CanShare, func() app.UI { return kit.Button(v.T("Send it on"), v.OnShareLink) }),
			),
		),
		kit.Label("paste-link", v.T("Open a link that was lent to you")),
		&kit.Field{ID: "paste-link", Text: v.Paste, Hint: v.T("paste it here"), OnText: func(_, text string) { v.OnPaste(text) }},
	)
}
