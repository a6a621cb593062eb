package ui

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/kit"
)

// bar leads to every stage with one thumb: the book, the stages beside this one
// and, by the key in the middle, all of them. On a wide page all stand in sight
// and the keys are not needed.
func (d *Desk) bar() app.UI {
	before, here, after := around(d.tabs(), d.stage)
	if before.id == "" {
		before = d.cameFrom()
	}
	if before.id == stageBook {
		before = stage{} // has a key of its own
	}
	return d.under(kit.Div().Class("bars")).Body(
		app.Elem("nav").Class("stages").ID("stages").Aria("label", d.T("Stages of the work")).
			DataSet("open", kit.YesNo(d.view.stages)).
			Body(
				app.Range(d.tabs()).Slice(func(i int) app.UI { return d.link(d.tabs()[i], "stage-link") }),
				d.link(houseRules(), "stage-link"),
			),
		app.Elem("nav").Class("bar").Aria("label", d.T("Stages beside this one")).Body(
			d.link(stages()[0], "bar-key"),
			app.If(here.id == stageBook, d.newKey).Else(func() app.UI { return d.side(before, "bar-back", markBack) }),
			kit.Key().ID("all-stages").Class("bar-key").Aria("expanded", kit.YesNo(d.view.stages)).Aria("controls", "stages").Body(
				app.Raw(markStages),
				kit.Span().Text(d.stagesKey(here)),
			).OnClick(func(app.Context, app.Event) { d.view.stages = !d.view.stages }),
			d.side(after, "bar-on", markOn),
		),
	)
}

// cameFrom is the stage that a screen beside the stages was turned to from, or else
// where the work on the job stands.
func (d *Desk) cameFrom() stage {
	from := d.view.from
	if from == "" && d.job != nil && d.work != nil && !d.ordering() {
		from = d.stands()
	}
	for _, s := range d.tabs() {
		if s.id == from && s.id != d.stage {
			return s
		}
	}
	return stage{}
}

// stagesKey is what the key to all stages says: where one is, unless the key
// beside it says so. It has room for one word.
func (d *Desk) stagesKey(here stage) string {
	switch here.id {
	case stageBook:
		return d.T("Stages")
	case stageHouse:
		return d.T("House")
	case stageCopy:
		return d.T("Copies")
	case stageQuote:
		return d.T("Quote")
	case stageLesson:
		return d.T("Lesson")
	}
	return d.T(here.name)
}

func (d *Desk) link(s stage, class string) app.UI {
	link := app.Elem("a").Class(class).Attr("href", "#"+s.id).DataSet("stage", s.id).Body(
		app.Raw(s.mark),
		kit.Span().Text(d.T(s.name)),
	).OnClick(func(app.Context, app.Event) { // also where it leads nowhere else
		d.view.stages = false
		d.showHow(false)
	})
	if s.id == d.stage {
		link = link.Aria("current", "page")
	}
	return link
}

// newKey asks for a new job, under the thumb.
func (d *Desk) newKey() app.UI {
	return kit.Key().ID("bar-new").Class("bar-key").Body(app.Raw(markNew), kit.Span().Text(d.T("New job"))).
		Attr("disabled", d.job == nil).
		OnClick(func(app.Context, app.Event) { d.newJob() })
}

// side is the key to the stage before or after; an empty place where there is
// none.
func (d *Desk) side(s stage, id, mark string) app.UI {
	if s.id == "" {
		return kit.Span().Class("bar-key")
	}
	return app.Elem("a").Class("bar-key").ID(id).Attr("href", "#"+s.id).Body(
		app.Raw(mark),
		kit.Span().Text(d.T(s.name)),
	)
}
