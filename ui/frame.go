package ui

import (
	"unicode/utf8"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/kit"
)

// Render implements app.Composer.
func (d *Desk) Render() app.UI {
	d.heedTyped() // what is drawn anew for another reason must not put back what stood there
	d.noteCover()
	d.noteLook()
	page := kit.Div().Body(
		d.warnings(),
		d.stageView(),
		app.If(d.lacksDraft(), func() app.UI {
			return kit.Div().Class("actions").Body(kit.Act("see-missing", "action", d.T("See what is missing"), func() { d.turn(stageDraft) }))
		}),
		app.If((d.stage == stageStyle || d.stage == stageDraft) && len(d.houseDiffers()) > 0, d.houseNote),
		d.footer(),
	)
	if d.view.stages { // the stages lie over it
		page = page.Attr("inert", "true")
	}
	help := d.view.how.open && d.job != nil && d.work != nil
	if help { // it stands in its place, and what is typed there stays
		page = page.Hidden(true)
	}
	return kit.Div().Class("desk", d.bare()).Body(
		d.header(),
		app.Elem("main").Class("page").Body(page, app.If(help, d.howView)),
		d.bar(),
	)
}

func (d *Desk) header() app.UI {
	ticket := d.T("New job")
	if d.ordering() {
		ticket = d.T("New order")
	}
	switch {
	case d.stage == stageLesson: // it may be about another job
		ticket = d.T("Lesson")
	case d.job != nil && d.job.File.Name != "":
		ticket = d.job.File.Name
	}
	const oneLine = 15 // letters, on a small phone
	long := ""
	if utf8.RuneCountInString(ticket) > oneLine {
		long = "long"
	}
	return d.under(app.Elem("header").Class("head")).Body(
		app.Elem("h1").Class(long).Text(ticket),
		&savedLine{Says: d.sayingSaved(), desk: d},
		kit.Div().Class("zoom-keys").Body(
			d.howKey(),
			d.stepKey("undo", d.T("Undo"), markUndo, false),
			d.stepKey("redo", d.T("Redo"), markRedo, true),
		),
	)
}

// photoOpen reports whether a photo is on the whole screen.
func (d *Desk) photoOpen() bool { return d.view.album.id != "" && d.photoPage() != nil }

// under keeps what a photo on the whole screen lies over from being reached.
func (d *Desk) under(e app.HTMLElem) app.HTMLElem {
	if d.photoOpen() {
		return e.Attr("inert", "true")
	}
	return e
}

// howKey leads to the help of the stage, and from there back.
func (d *Desk) howKey() app.UI {
	name := d.T("How it goes")
	return kit.Key().ID("how").Class("zoom-key").DataSet("of", d.stage).Aria("label", name).Aria("expanded", kit.YesNo(d.view.how.open)).
		Attr("title", name).Text("?").
		OnClick(func(app.Context, app.Event) { d.showHow(!d.view.how.open) })
}

func (d *Desk) stepKey(id, name, mark string, forward bool) app.UI {
	return kit.Key().ID(id).Class("zoom-key").Aria("label", name).Attr("title", name).
		Attr("disabled", !d.canStep(forward)).
		Body(app.Raw(mark)).
		OnClick(func(app.Context, app.Event) { d.step(forward) }, app.EventScope(forward))
}

// canStep reports whether there is anything to undo or, forward, to redo: in the
// house rules while they are looked at, else in the job.
func (d *Desk) canStep(forward bool) bool {
	switch d.stage {
	case stageHouse:
		return d.house.can(forward)
	case stageLesson: // an answer stands
		return false
	}
	return d.job != nil && d.job.past.can(forward)
}

func (d *Desk) warnings() app.UI {
	return kit.Div().Class("warnings").Body(
		app.If(d.fault != "", func() app.UI { return kit.Note(kit.Stop, d.fault) }),
		app.If(d.harm != nil, d.harmView),
		app.If(d.harm == nil && d.keeper != nil && d.keeper.Saving() == Failed, d.unsavedView),
		app.If(d.keeper != nil && d.keeper.Saving() == Elsewhere, func() app.UI {
			return kit.Div().Body(
				kit.Note(kit.Stop, d.T("This job was changed in another window"), d.T("Which one is to be kept?")),
				kit.Div().Class("actions").Body(
					kit.Button(d.T("The other window's"), func() { d.meetOther(false) }),
					kit.Button(d.T("This one"), func() { d.meetOther(true) }),
				),
			)
		}),
		d.besideWarnings(),
		app.If(d.files.Waiting, func() app.UI {
			return kit.Div().Body(
				kit.Note(kit.Fine, d.T("A newer Chalkfold is here"), d.T("It is fetched already. Everything is saved before it opens.")),
				kit.Button(d.T("Open it now"), d.takeUpdate),
			)
		}),
	)
}

func (d *Desk) stageView() app.UI {
	if d.job == nil || d.work == nil {
		return kit.P().Class("quiet").Text(d.T("Opening your work…"))
	}
	if d.view.album.id != "" {
		if p := d.photoPage(); p != nil {
			return p.Render()
		}
	}
	if !d.hasStage(d.stage) {
		return d.orderScreen().Render()
	}
	switch d.stage {
	case stageTape:
		return d.tapeView().Render()
	case stageStyle:
		return d.styleView().Render()
	case stageDraft:
		return d.draftView().Render()
	case stageCloth:
		return d.clothView().Render()
	case stageChalk:
		return d.chalkView().Render()
	case stageBench:
		return d.benchView().Render()
	case stageFitting:
		return d.fittingView().Render()
	case stageShare:
		return d.shareView().Render()
	case stageHouse:
		return d.houseView().Render()
	case stageCopy:
		return d.copyView().Render()
	case stageQuote:
		return d.quoteView().Render()
	case stageLesson:
		return d.lessonView().Render()
	case stageOrder:
		if d.ordering() {
			return d.orderScreen().Render()
		}
	}
	return d.bookView().Render()
}

// lacksDraft reports whether the stage has nothing to show until the job is drafted.
func (d *Desk) lacksDraft() bool {
	if d.job == nil || d.work == nil || d.work.Result != nil || d.ordering() || d.photoOpen() {
		return false
	}
	switch d.stage {
	case stageCloth, stageChalk, stageBench, stageFitting, stageShare:
		return true
	}
	return false
}

func (d *Desk) footer() app.UI {
	return app.Elem("footer").Class("foot quiet").Body(
		kit.P().ID("files").Text(d.files.say(d.Words)),
		kit.P().Hidden(d.files.Version == "").Text(d.F("Version %s", d.files.Version)),
	)
}
