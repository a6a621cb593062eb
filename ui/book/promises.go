package book

import (
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/day"
	"chalkfold/ui/kit"
)

// Load is what is promised for one day, by the tickets of the jobs.
type Load struct {
	On                 day.Day
	Day                string // as it is told
	Cut, Due, Fittings []string
	Work               string // that is to be done until then
	Over               bool   // it is more than the hours that there are
}

// Workload is what is promised in the days to come.
type Workload struct {
	Open   bool
	Days   []Load
	Told   string
	OnOpen func()
	OnSave func(send bool)
	// The hours that are sewn in a week.
	Week, WeekBad string
	OnWeek        func(text string)
}

// workload shows it, folded until it is asked for.
func (v *View) workload() app.UI {
	w := v.Load
	n := 0
	for _, l := range w.Days {
		n += len(l.Due) + len(l.Fittings)
	}
	return kit.Div().ID("workload").Class("jobs").Hidden(len(w.Days) == 0).Body(
		kit.Disclose("workload-open", v.T("The next two weeks"), v.N(n, "%d promise", "%d promises"), w.Open, w.OnOpen),
		kit.Div().Class("jobs").Hidden(!w.Open).Body(
			app.Range(w.Days).Slice(func(i int) app.UI {
				l := w.Days[i]
				return kit.Div().Class("takings").Body(
					kit.Strong().Text(l.Day),
					tickets(v.T("Due: %s"), l.Due),
					tickets(v.T("To be fitted: %s"), l.Fittings),
					tickets(v.T("To be cut: %s"), l.Cut),
					kit.P().Class(overClass(l.Over)).Hidden(l.Work == "").Text(l.Work),
				)
			}),
			kit.Label("week", v.T("Hours you sew in a week")),
			&kit.Field{ID: "week", Text: w.Week, Numeric: true, Bad: w.WeekBad != "", Note: "week-bad", Most: 8, OnText: func(_, text string) { w.OnWeek(text) }},
			kit.P().ID("week-bad").Class("bad").Hidden(w.WeekBad == "").Text(w.WeekBad),
			kit.Div().Class("choices").Body(
				kit.Act("calendar-save", "choice", v.T("Save for your calendar"), func() { w.OnSave(false) }),
				kit.Act("calendar-send", "choice", v.T("Send"), func() { w.OnSave(true) }).Hidden(!v.Sends),
			),
			kit.P().ID("calendar-told").Role("status").Hidden(w.Told == "").Text(w.Told),
		),
	)
}

func overClass(over bool) string {
	if over {
		return "late"
	}
	return "quiet"
}

// tickets are jobs of one kind; format has a place for them.
func tickets(format string, all []string) app.UI {
	return kit.P().Hidden(len(all) == 0).Text(strings.Replace(format, "%s", strings.Join(all, ", "), 1))
}
