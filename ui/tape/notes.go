package tape

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/body"
	"chalkfold/ui/kit"
)

// notes are what is said of one measurement: its estimate, why it cannot be
// used, what to look at again, and what it was before.
func (v View) notes(r Row) app.UI {
	var differ app.UI = kit.Div().Hidden(true)
	if len(r.Differ)+len(r.Aside) > 0 {
		differ = v.differ(r)
	}
	return kit.Div().ID(string(r.ID)+"-note").Class("notes").Body(
		kit.P().Class("estimate").Hidden(r.Estimate == "").Text(r.Estimate),
		kit.P().Class("bad").Hidden(v.bad(r) == "").Text(v.bad(r)),
		differ,
		v.doubts(r),
		v.before(r),
	)
}

func (v View) doubts(r Row) app.UI {
	if len(r.Doubts) == 0 {
		return kit.Div().Hidden(true)
	}
	if r.Kept {
		return kit.P().Class("quiet").Text(v.T("Unusual, and kept as measured."))
	}
	tone, title := kit.Mind, v.T("Measure again?")
	if r.Insist {
		tone, title = kit.Stop, v.T("Far from usual: measure again")
	}
	return kit.Div().Class("doubted").Body(
		kit.Note(tone, title, r.Doubts...),
		app.If(!v.Singly, func() app.UI { return v.keep(r) }),
	)
}

// keep answers a doubt: the figure is right as it is.
func (v View) keep(r Row) app.HTMLElem {
	return kit.Key().Class("choice").Text(v.T("Keep it")).
		OnClick(func(app.Context, app.Event) { v.OnKeep(r.ID, r.Text) }, app.EventScope(string(r.ID), r.Text))
}

// before sets the new figure and the one before side by side where they are
// apart; otherwise it says what it was. One tap takes the earlier one.
func (v View) before(r Row) app.UI {
	if len(r.Before) == 0 {
		return kit.Div().Hidden(true)
	}
	e := r.Before[0]
	then := e.Taking.Value.In(v.Words)
	still := kit.Key().Class("choice").Aria("label", v.F("Still so: %s", then)).Text(v.T("Still so")).
		OnClick(func(app.Context, app.Event) { v.OnText(r.ID, e.Taking.Value.String()) }, app.EventScope(string(r.ID), e.Taking.Value.String()))
	switch {
	case r.Apart:
		return kit.Div().Class("doubted").Body(
			kit.P().Class("doubt").Text(v.F("More than %s apart: look at both.", v.Tape.Text(body.ApartBy))),
			kit.Div().Class("apart").Body(
				figured(r.Now, v.day(r)),
				figured(then, v.earlier(e)),
				still,
			),
		)
	case r.Now == "":
		return kit.Div().Class("apart").Body(figured(then, v.earlier(e)), still)
	case e.Taking.Of != r.Of && e.Taking.Of == body.OfGarment:
		return kit.P().Class("quiet").Text(v.F("Before: %s, of a garment, %s.", then, v.earlier(e)))
	}
	return kit.P().Class("quiet").Text(v.F("Before: %s, %s.", then, v.earlier(e)))
}

// figured is a figure with its day below it.
func figured(figure, day string) app.UI {
	return kit.P().Class("dated").Body(kit.Strong().Text(figure), kit.Span().Text(" "+day))
}

func (v View) day(r Row) string {
	switch {
	case r.Today:
		return v.T("today")
	case r.Day == "":
		return v.T("now")
	}
	return v.F("on %s", r.Day)
}

func (v View) earlier(e Earlier) string {
	ticket := e.Ticket
	if ticket == "" {
		ticket = v.T("no ticket")
	}
	if e.Day == "" {
		return v.F("earlier (%s)", ticket)
	}
	return v.F("on %s (%s)", e.Day, ticket)
}
