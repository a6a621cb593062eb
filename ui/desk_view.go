package ui

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/body"
	"chalkfold/draft/unit"
	"chalkfold/ui/chalk"
	"chalkfold/ui/cloth"
	"chalkfold/ui/drafting"
	"chalkfold/ui/kit"
	"chalkfold/ui/style"
	"chalkfold/ui/tape"
)

// Render implements app.Composer.
func (d *Desk) Render() app.UI {
	return app.Div().Class("desk").Body(
		d.header(),
		app.Main().Class("page").Body(
			d.warnings(),
			d.stageView(),
			d.footer(),
		),
		d.tabs(),
	)
}

func (d *Desk) header() app.UI {
	ticket := "New job"
	if d.job != nil && d.job.Ticket != "" {
		ticket = d.job.Ticket
	}
	return app.Header().Class("head").Body(
		app.H1().Text(ticket),
		app.Span().ID("saving").Class("saving").Role("status").Text(d.sayingSaved()),
	)
}

// sayingSaved puts the state of saving in words.
func (d *Desk) sayingSaved() string {
	if d.job == nil {
		return "Opening…"
	}
	if d.keeper == nil {
		return "Not saved"
	}
	switch d.keeper.Saving() {
	case Saved:
		if d.keeper.rev == 0 {
			return ""
		}
		return "Saved"
	case Writing:
		return "Saving…"
	case Failed, Elsewhere:
	}
	return "Not saved"
}

func (d *Desk) warnings() app.UI {
	return app.Div().Class("warnings").Body(
		app.If(d.fault != "", func() app.UI { return kit.Note(kit.Stop, d.fault) }),
		app.If(d.keeper != nil && d.keeper.Saving() == Failed, func() app.UI {
			return app.Div().Body(
				kit.Note(kit.Stop, "The last change is not saved", d.keeper.Fault().Error()),
				button("Try again", func() { d.keeper.Retry(); d.save() }),
			)
		}),
		app.If(d.keeper != nil && d.keeper.Saving() == Elsewhere, func() app.UI {
			return app.Div().Body(
				kit.Note(kit.Stop, "This job was changed in another window", "Which one is to be kept?"),
				app.Div().Class("actions").Body(
					button("The other window's", d.takeTheirs),
					button("This one", d.keepMine),
				),
			)
		}),
		app.If(d.files.Waiting, func() app.UI {
			return app.Div().Body(
				kit.Note(kit.Fine, "A newer Chalkfold is here", "It is fetched already. Everything is saved before it opens."),
				button("Open it now", d.takeUpdate),
			)
		}),
	)
}

// takeUpdate opens the version that waits, unless something is not saved.
func (d *Desk) takeUpdate() {
	if l := loader(); l != nil && (d.keeper == nil || d.keeper.Saving() == Saved) {
		l.Call("takeUpdate")
	}
}

func button(name string, do func()) app.UI {
	return app.Button().Type("button").Class("action").Text(name).
		OnClick(func(app.Context, app.Event) { do() }, app.EventScope(name))
}

func (d *Desk) stageView() app.UI {
	if d.job == nil {
		return app.P().Class("quiet").Text("Opening your work…")
	}
	switch d.stage {
	case "style":
		return style.View{
			Options: d.deps.Core.Garment.Options, Chosen: d.job.Style,
			On: func(option, choice string) {
				d.job.Style[option] = choice
				d.changed()
			},
		}.Render()
	case "draft":
		return drafting.View{
			Drawing: d.work.Drawing, Missing: d.work.Missing, Findings: d.work.Findings,
			Large: d.large, Fine: d.fine,
			OnLarge: func() { d.large = !d.large },
			OnFine:  func() { d.fine = !d.fine },
		}.Render()
	case "cloth":
		return d.clothView().Render()
	case "chalk":
		return chalk.View{Steps: d.work.Steps, Missing: d.work.Missing}.Render()
	}
	return d.tapeView().Render()
}

func (d *Desk) tapeView() tape.View {
	return tape.View{
		Sheet: d.sheet, Ticket: d.job.Ticket, System: d.job.System(), Figure: d.job.Figure,
		Focus: d.focus, Help: d.help,
		OnTicket: func(text string) {
			d.job.Ticket = text
			d.changed()
		},
		OnText: func(id body.ID, text string) {
			d.job.Typed[id] = text
			d.changed()
		},
		OnFocus: func(id body.ID) { d.focus = id },
		OnHelp: func(id body.ID) {
			if d.help == id {
				id = ""
			}
			d.help = id
		},
		OnSystem: func(sign string) {
			d.job.Metric = sign == unit.Centimetres.String()
			d.changed()
		},
		OnFigure: func(figure string) {
			d.job.Figure = body.Figure(figure)
			d.changed()
		},
	}
}

func (d *Desk) clothView() cloth.View {
	lay := d.work.Lay
	return cloth.View{
		Width: d.job.Cloth.Width, Length: d.job.Cloth.Length, Folded: !d.job.Cloth.Open,
		BadWidth: lay.BadWidth, BadLength: lay.BadLength,
		Missing: lay.Missing, Drawing: lay.Drawing, Tone: lay.Tone, Verdict: lay.Verdict, Lines: lay.Lines,
		OnWidth: func(text string) {
			d.job.Cloth.Width = text
			d.changed()
		},
		OnLength: func(text string) {
			d.job.Cloth.Length = text
			d.changed()
		},
		OnFolded: func(folded bool) {
			d.job.Cloth.Open = !folded
			d.changed()
		},
	}
}

func (d *Desk) footer() app.UI {
	kept := ""
	if d.asked {
		kept = "The browser may clear the jobs when the phone is full: install the page on the home screen."
		if d.persisted {
			kept = "The browser keeps the jobs when the phone is full."
		}
	}
	return app.Footer().Class("foot quiet").Body(
		app.P().ID("files").Text(d.files.say()),
		app.P().Hidden(kept == "").Text(kept),
		app.P().Hidden(d.files.Version == "").Text("Version "+d.files.Version),
	)
}

func (d *Desk) tabs() app.UI {
	all := stages()
	return app.Nav().Class("tabs").Aria("label", "Stages of the work").Body(
		app.Range(all).Slice(func(i int) app.UI {
			s := all[i]
			link := app.A().Class("tab").Href("#"+s.id).Body(
				app.Raw(s.mark),
				app.Span().Text(s.name),
			)
			if s.id == d.stage {
				link = link.Aria("current", "page")
			}
			return link
		}),
	)
}
