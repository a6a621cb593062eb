package book

import (
	"slices"

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
	ID      string // tells it from another list at the same place
	Words   *say.Words
	Heading string
	All     []Entry
	on      func(id string) // of the id: the list keeps the first that it is given
}

// CompoID makes the list of another id another list.
func (l *list) CompoID() string { return l.ID }

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

// lines are what an entry says of itself. What it has not is left out, not hidden: of a
// long list every node is waited for.
func (e Entry) lines(w *say.Words) []app.UI {
	paid, owed := "", ""
	if e.Paid {
		paid = w.T("paid")
	}
	if e.Owed != "" {
		owed = w.F("%s owed", e.Owed)
	}
	return slices.Concat(
		line("job-head", append([]app.UI{kit.Strong().Text(e.Name)}, told(e.dueClass(), e.Due)...)),
		line("job-for", slices.Concat(told("whose", e.For), told("made", e.Garment), told("job-day", e.Day))),
		line("job-state", slices.Concat(told("state", e.State), told("paid", paid), told("owed", owed))),
		told("due", e.Fitting), told(e.cutClass(), e.ToCut), told("quiet", e.Changed),
	)
}

// told is a text; nothing where there is none.
func told(class, text string) []app.UI {
	if text == "" {
		return nil
	}
	return []app.UI{kit.Span().Class(class).Text(text)}
}

// line is texts beside one another; nothing where there are none.
func line(class string, texts []app.UI) []app.UI {
	if len(texts) == 0 {
		return nil
	}
	return []app.UI{kit.Span().Class(class).Body(texts...)}
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
