package book

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/say"
	"chalkfold/ui/album"
	"chalkfold/ui/calendar"
	"chalkfold/ui/day"
	"chalkfold/ui/kit"
)

// Card is the open job with its details.
type Card struct {
	Entry
	Ticket string // as it is typed
	Next   string // the stage where the work stands: "Cloth"; none when all is done
	Out    bool   // the details are
	Sure   bool   // one more tap deletes the job
	Steps  []calendar.Tick
	Note   string

	Client string // its name; "" when the job is for nobody in particular
	Typed  string // for a client
	Offers []kit.Choice
	Fresh  string // the name of the client who would be made

	Photos album.View

	Promised, Today day.Day
	Order           string // its name; "" when the job is of none

	OnGo        func()
	OnQuote     func()
	OnDetails   func()
	OnTicket    func(text string)
	OnTyped     func(text string)
	OnChoose    func(id string) // a client; "" is none
	OnFresh     func()
	OnLook      func()         // at the client
	OnDue       func(days int) // so many days on from the day it is due, or from today
	OnNoDue     func()
	Told        string // what became of the calendar
	OnCalendar  func()
	OnMilestone func(id string)
	OnNote      func(text string)
	OnDelete    func()
	OnOrder     func() // to the order, or begins one
	OnNoOrder   func()
	OnRepeat    func()
}

func (c *Card) render(w *say.Words) app.UI {
	return kit.Div().Class("open-job").Body(
		kit.Div().Class("job").Aria("current", "true").Body(c.lines(w)...),
		kit.Div().Class("open-keys").Body(
			kit.Act("go-on", "action", w.F("Go on: %s", c.Next), c.OnGo).Hidden(c.Next == ""),
			kit.Act("to-quote", "choice", w.T("Quote"), c.OnQuote),
			kit.Act("details", "choice", w.T("Details"), c.OnDetails).Aria("expanded", kit.YesNo(c.Out)),
		),
		kit.Div().ID("job-details").Class("details").Hidden(!c.Out).Body(
			app.If(c.Out, func() app.UI { return kit.Div().Class("details").Body(c.details(w)...) }),
		),
	)
}

func (c *Card) details(w *say.Words) []app.UI {
	remove := w.T("Delete this job")
	if c.Sure {
		remove = w.T("Yes, delete it")
	}
	return []app.UI{
		kit.Div().Class("row").Body(
			kit.Label("job-ticket", w.T("Ticket")),
			&kit.Field{ID: "job-ticket", Text: c.Ticket, Most: 200, OnText: func(_, text string) { c.OnTicket(text) }},
		),
		c.client(w),
		calendar.Days(w, "due", w.T("Due"), c.Promised, c.Today, c.OnDue, c.OnNoDue),
		kit.Div().Class("row").Hidden(c.Promised == "").Body(
			kit.Act("job-calendar", "choice", w.T("Put it into your calendar"), c.OnCalendar),
			kit.P().ID("job-calendar-told").Role("status").Hidden(c.Told == "").Text(c.Told),
		),
		kit.Div().ID("steps").Class("row").Body(
			kit.Strong().Text(w.T("Done")),
			calendar.Ticks(c.Steps, c.OnMilestone),
		),
		c.order(w),
		c.note(w),
		c.Photos.Render(),
		kit.Act("repeat-job", "choice", w.T("Make it again, on the newest measurements"), c.OnRepeat),
		kit.Act("delete-job", "choice", remove, c.OnDelete),
	}
}

func (c *Card) note(w *say.Words) app.UI {
	return kit.Div().Class("row").Body(
		kit.Label("job-note", w.T("Note")),
		&kit.Field{ID: "job-note", Text: c.Note, Lines: 3, OnText: func(_, text string) { c.OnNote(text) }},
	)
}

// order is the order that the job is of.
func (c *Card) order(w *say.Words) app.UI {
	name := c.Order
	if name == "" {
		name = w.T("Begin an order with it")
	}
	return kit.Div().Class("row").Body(
		kit.Strong().Text(w.T("Order")),
		kit.Div().Class("choices").Body(
			kit.Act("job-order", "choice", name, c.OnOrder),
			kit.Act("no-order", "choice", w.T("Take it out"), c.OnNoOrder).Hidden(c.Order == ""),
		),
	)
}

// client is whom the job is for: one who is known, or a name that is typed.
func (c *Card) client(w *say.Words) app.UI {
	known := c.Client != ""
	return kit.Div().ID("job-for").Class("row").Body(
		kit.Label("job-client", w.T("Client")).Hidden(known),
		kit.Div().Class("typed").Hidden(known).Body(
			&kit.Field{ID: "job-client", Text: c.Typed, Most: 200, OnText: func(_, text string) { c.OnTyped(text) }},
		),
		kit.Div().Class("choices", "offers").Hidden(known || len(c.Offers) == 0 && c.Fresh == "").Body(
			app.Range(c.Offers).Slice(func(i int) app.UI {
				o := c.Offers[i]
				return kit.Act("offer-"+o.ID, "choice", o.Name, func() { c.OnChoose(o.ID) })
			}),
			kit.Act("fresh", "choice", w.F("New client: %s", c.Fresh), c.OnFresh).Hidden(c.Fresh == ""),
		),
		kit.Div().Hidden(!known).Body(
			kit.Strong().Text(w.T("Client")),
			kit.Div().Class("choices").Body(
				kit.Act("look", "choice", c.Client, c.OnLook),
				kit.Act("another", "choice", w.T("Another client"), func() { c.OnChoose("") }),
			),
		),
	)
}
