package tape

import (
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/kit"
)

// single is one measurement: where the tape goes, the figure, the keys.
func (v View) single() app.UI {
	r := v.Sheet.Rows[v.Sheet.index(v.Focus)]
	return kit.Div().Class("single").Body(
		kit.Div().Class("single-head").Body(
			kit.Key().ID("overview").Class("choice").Text(v.progress(r)).OnClick(func(app.Context, app.Event) { v.OnFocus("") }),
			kit.Label(string(r.ID), r.Name),
			v.listKey(),
		),
		kit.Div().Class("single-in").Body(
			v.field(r),
			kit.Span().Class("echo").Text(r.Echo),
			v.keep(r).Hidden(len(r.Doubts) == 0 || r.Kept), // in sight above the pad, however much is said
		),
		v.notes(r),
		kit.Div().Class("look").Body(
			v.drawing(r),
			kit.P().Class("told").Text(r.HowTo),
		),
		v.of(r),
		v.pad(r),
	)
}

func (v View) listKey() app.UI {
	return kit.Key().ID("singly").Class("choice").Text(v.T("List")).OnClick(func(app.Context, app.Event) { v.OnSingly() })
}

// progress is which of the measurements it is.
func (v View) progress(r Row) string {
	i, needed := v.Sheet.index(r.ID), v.Sheet.Needed()
	if r.More {
		return v.F("More: %d of %d", i+1-needed, len(v.Sheet.Rows)-needed)
	}
	return v.F("%d of %d", i+1, needed)
}

// overview is where the measuring begins, and from where any measurement is
// reached: what there is, with what was taken.
func (v View) overview() app.UI {
	return kit.Div().Class("rows").Body(
		v.welcome(),
		v.about(),
		kit.Div().Class("single-head").Body(
			kit.Key().ID("measure").Class("action").Text(v.T("Measure")).
				OnClick(func(app.Context, app.Event) { v.OnFocus(v.Sheet.Next()) }, app.EventScope(string(v.Sheet.Next()))),
			v.listKey(),
		),
		kit.Div().ID("measures").Body(
			app.Range(v.Sheet.Rows).Slice(func(i int) app.UI {
				r := v.Sheet.Rows[i]
				sign, says := v.state(r)
				return kit.Key().Class("step").DataSet("measure", string(r.ID)).
					OnClick(func(app.Context, app.Event) { v.OnFocus(r.ID) }, app.EventScope(string(r.ID))).
					Body(
						kit.Span().Class("sign").Aria("hidden", "true").Text(sign),
						kit.Span().Class("words").Body(kit.Strong().Text(r.Name), kit.Span().Class("quiet").Text(says)),
					)
			}),
		),
	)
}

// state is a sign and a few words for how far a measurement is.
func (v View) state(r Row) (sign, says string) {
	switch {
	case v.bad(r) != "":
		return kit.Stop.Sign(), v.bad(r)
	case r.Begun:
		return "·", ""
	case len(r.Doubts) > 0 && !r.Kept:
		return kit.Mind.Sign(), r.Now
	case strings.TrimSpace(r.Text) != "":
		return kit.Fine.Sign(), r.Now
	case r.Estimate != "":
		return "≈", r.Estimate
	case r.More:
		return "·", v.T("when you take it")
	}
	return "·", v.T("to be taken")
}
