// Package calendar has the keys that several stages share: they choose a day,
// and tick what is done with the day on which it was.
package calendar

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/say"
	"chalkfold/ui/day"
	"chalkfold/ui/kit"
)

// Days shows a day and the keys that move it. on is told how many days it moves
// on, from today when none is chosen; none that no day is to be chosen.
func Days(w *say.Words, id, name string, chosen, today day.Day, on func(days int), none func()) app.UI {
	is, says := chosen != "", chosen.Full(w)
	if !is {
		says = w.T("No day is set.")
	}
	move := func(key string, days int, name string) app.HTMLElem {
		return kit.Act(id+"-"+key, "choice", name, func() { on(days) })
	}
	return kit.Div().ID(id).Class("row").Body(
		kit.Strong().Text(name),
		kit.P().Role("status").Body(
			kit.Span().Class("day").Text(says),
			kit.Span().Class("quiet").Text(chosen.From(today, w)),
		),
		kit.Div().Class("days").Body(
			move("earlier", -1, w.T("A day earlier")).Hidden(!is),
			move("later", 1, w.T("A day later")).Hidden(!is),
			move("week-later", 7, w.T("A week later")).Hidden(!is),
			kit.Act(id+"-none", "choice", w.T("No day"), none).Hidden(!is),
			move("today", 0, w.T("Today")).Hidden(is),
			move("in-a-week", 7, w.T("In a week")).Hidden(is),
			move("in-two-weeks", 14, w.T("In two weeks")).Hidden(is),
		),
	)
}

// Tick is something that is done, or not yet.
type Tick struct {
	ID   string
	Name string
	Day  string // on which it was done; "" when it is not
}

// Ticks are keys that tick, and take the tick back.
func Ticks(all []Tick, on func(id string)) app.UI {
	return kit.Div().Class("milestones").Body(
		app.Range(all).Slice(func(i int) app.UI {
			t := all[i]
			return kit.Key().Class("choice").DataSet("tick", t.ID).Aria("pressed", kit.YesNo(t.Day != "")).Body(
				kit.Span().Text(t.Name),
				kit.Span().Class("ticked").Hidden(t.Day == "").Text(t.Day),
			).OnClick(func(app.Context, app.Event) { on(t.ID) }, app.EventScope(t.ID))
		}),
	)
}
