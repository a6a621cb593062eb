package book

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/say"
	"chalkfold/ui/kit"
)

// Entry is one line of a list: a job, a client, or what was deleted.
type Entry struct {
	ID      string
	Name    string // the ticket, or the client's
	For     string // the client of a job
	Garment string
	State   string // "Drafted, may be cut"
	Paid    bool
	Owed    string // what is still to be paid
	Due     string // "2 days late", or the day
	Day     string // the day, where Due does not say it
	Late    bool
	Fitting string // "Fitting: tomorrow"
	ToCut   string // by when it is to be cut
	CutLate bool
	Changed string // when it was changed last
	Bad     bool   // it cannot be read by this version
}

// A list is entries under their heading, if they have one. There may be many: they are
// drawn anew only where they have changed, and not for every key that is typed beside
// them.
type list struct {
	app.Compo
	Name    string // tells it from another list at the same place
	Words   *say.Words
	Heading string
	All     []Entry
	on      func(id string) // of the name: the list keeps the first that it is given
}

// CompoID makes the list of another name another list.
func (l *list) CompoID() string { return l.Name }

// Render implements app.Composer.
func (l *list) Render() app.UI {
	return kit.Div().Class("jobs").Hidden(len(l.All) == 0).Body(
		kit.H2().Hidden(l.Heading == "").Text(l.Heading),
		app.Range(l.All).Slice(func(i int) app.UI {
			e := l.All[i]
			return kit.Key().Class("job").Attr("disabled", e.Bad).Body(e.lines(l.Words)...).
				OnClick(func(app.Context, app.Event) { l.on(e.ID) }, app.EventScope(e.ID))
		}),
	)
}

// lines are what an entry says of itself.
func (e Entry) lines(w *say.Words) []app.UI {
	return []app.UI{
		kit.Span().Class("job-head").Body(
			kit.Strong().Text(e.Name),
			kit.Span().Class(e.dueClass()).Hidden(e.Due == "").Text(e.Due),
		),
		kit.Span().Class("job-for").Hidden(e.For == "" && e.Garment == "" && e.Day == "").Body(
			kit.Span().Hidden(e.For == "").Text(e.For),
			kit.Span().Hidden(e.Garment == "").Text(e.Garment),
			kit.Span().Class("job-day").Hidden(e.Day == "").Text(e.Day),
		),
		kit.Span().Class("job-state").Hidden(e.State == "" && !e.Paid && e.Owed == "").Body(
			kit.Span().Class("state").Text(e.State),
			kit.Span().Class("paid").Hidden(!e.Paid).Text(w.T("paid")),
			kit.Span().Class("owed").Hidden(e.Owed == "").Text(w.F("%s owed", e.Owed)),
		),
		kit.Span().Class("due").Hidden(e.Fitting == "").Text(e.Fitting),
		kit.Span().Class(e.cutClass()).Hidden(e.ToCut == "").Text(e.ToCut),
		kit.Span().Class("quiet").Hidden(e.Changed == "").Text(e.Changed),
	}
}

func (e Entry) dueClass() string {
	if e.Late {
		return "due late"
	}
	return "due"
}

func (e Entry) cutClass() string {
	if e.CutLate {
		return "late"
	}
	return "quiet"
}
