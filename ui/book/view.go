// Package book is the stage that everything begins with: what is due, for whom
// it is, and where the work stands.
package book

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/say"

	"chalkfold/ui/kit"
)

// The ways to look at the book.
const (
	ViewJobs    = "jobs"
	ViewClients = "clients"
	ViewCloth   = "cloth"
	ViewDeleted = "deleted"
)

// View is what the stage shows and whom it tells.
type View struct {
	*say.Words

	First  bool // nothing was ever kept here
	Busy   bool // the open job is not saved yet: none may take its place
	Open   *Card
	View   string // one of the above
	Search string
	Many   bool // enough to be searched
	Left   int  // how many more can be shown

	Reading   bool // the list is not whole yet
	Orders    []Entry
	Due, Jobs []Entry // the jobs that are due, the next first; the others, the one changed last first
	Clients   []Entry
	Client    *Client // the one that is looked at
	Cloths    []Entry
	Cloth     *Cloth  // the one that is looked at
	Deleted   []Entry // what can be recovered

	Load   Workload
	Remind []string // what is late, and promised for today and tomorrow
	Sends  bool     // the browser hands a file to another program

	Keep app.UI // what keeps the work safe

	Paste string // in the field for a link
	NoUse string // why what is pasted is of no use
	Scans bool   // the browser reads codes with its camera

	Languages []kit.Choice
	Language  string

	OnOpen      func(id string)
	OnNew       func()
	OnSample    func()
	OnView      func(view string)
	OnSearch    func(text string)
	OnMore      func()
	OnClient    func(id string) // "" turns back to all of them
	OnNewClient func()
	OnNewOrder  func()
	OnCloth     func(id string) // "" turns back to all of it
	OnNewCloth  func()
	OnRecover   func(id string)
	OnLanguage  func(id string)
	OnPaste     func(text string)
	OnScan      func()
}

// SearchID is the id of the field that searches.
const SearchID = "search"

// Render returns the nodes of the stage.
func (v *View) Render() app.UI {
	return kit.Stage(v.T("Book")).Body(
		kit.P().ID("welcome").Hidden(!v.First).Text(v.T("Chalkfold turns a client's measurements into a garment, drafted by your own rules and chalked straight onto the cloth.")),
		kit.Div().Class("actions").Body(
			kit.Button(v.T("New job"), v.OnNew),
			kit.Act("first-sample", "choice", v.T("Open the sample"), v.OnSample).Hidden(!v.First),
		),
		kit.Div().ID("remind").Hidden(len(v.Remind) == 0).Body(
			app.If(len(v.Remind) > 0, func() app.UI { return kit.Note(kit.Mind, v.T("To be minded"), v.Remind...) }),
		),
		kit.P().Class("quiet").Hidden(!v.Busy).Text(v.T("The open job is not saved yet: it stays until it is.")),
		kit.Div().ID("open-job").Hidden(v.Open == nil).Body(
			app.If(v.Open != nil, func() app.UI { return v.Open.render(v.Words) }),
		),
		kit.Div().ID("book-views").Hidden(v.First).Body(
			kit.Views(v.T("What to look at"), []kit.Choice{
				{ID: ViewJobs, Name: v.T("Jobs")}, {ID: ViewClients, Name: v.T("Clients")}, {ID: ViewCloth, Name: v.T("Cloth")}, {ID: ViewDeleted, Name: v.T("Deleted")},
			}, v.View, v.OnView),
		),
		kit.Div().Class("search").Hidden(!v.Many).Body(
			kit.Label(SearchID, v.T("Search")),
			&kit.Field{ID: SearchID, Text: v.Search, Most: 60, OnText: func(_, text string) { v.OnSearch(text) }},
		),
		kit.Div().Class("jobs").Hidden(v.First).Body(v.listed()),
		v.sent(),
		v.Keep,
		kit.Div().ID("settings").Class("jobs").Body(
			kit.Choose("language", v.T("Language"), "", v.Languages, v.Language, func(_, id string) { v.OnLanguage(id) }),
			kit.Div().Class("actions").Hidden(v.First).Body(
				kit.Act("sample", "choice", v.T("Open the sample"), v.OnSample),
			),
		),
	)
}

// PasteID is the id of the field for a link.
const PasteID = "paste-sent"

// sent takes a link that somebody sent.
func (v *View) sent() app.UI {
	return kit.Div().ID("sent").Class("jobs").Body(
		kit.Label(PasteID, v.T("A link that somebody sent you")),
		&kit.Field{ID: PasteID, Text: v.Paste, Hint: v.T("paste it here"), Bad: v.NoUse != "", Note: "sent-told", OnText: func(_, text string) { v.OnPaste(text) }},
		kit.P().ID("sent-told").Class("bad").Hidden(v.NoUse == "").Text(v.NoUse),
		kit.Div().Class("actions").Hidden(!v.Scans).Body(
			kit.Act("book-scan", "choice", v.T("Read a code with the camera"), v.OnScan),
		),
	)
}

// listed is the list that is looked at.
func (v *View) listed() app.UI {
	switch v.View {
	case ViewClients:
		if v.Client != nil {
			return kit.Div().ID("client").Class("jobs").Body(v.Client.render(v)...)
		}
		return kit.Div().ID("clients").Class("jobs").Body(
			kit.P().Class("quiet").Hidden(len(v.Clients) > 0).Text(v.none(v.T("No client yet. A job can be for a client: open it and write the name under Details."))),
			&list{ID: "clients", Words: v.Words, All: v.Clients, on: v.OnClient},
			v.more(),
			kit.Div().Class("actions").Body(kit.Button(v.T("New client"), v.OnNewClient)),
		)
	case ViewCloth:
		if v.Cloth != nil {
			return kit.Div().ID("one-cloth").Class("jobs").Body(v.Cloth.render(v)...)
		}
		return kit.Div().ID("cloths").Class("jobs").Body(
			kit.P().Class("quiet").Hidden(len(v.Cloths) > 0).Text(v.T("No cloth is kept yet. What a lay leaves over can be kept from the stage Cloth.")),
			&list{ID: "cloths", Words: v.Words, All: v.Cloths, on: v.OnCloth},
			v.more(),
			kit.Div().Class("actions").Body(kit.Button(v.T("New cloth"), v.OnNewCloth)),
		)
	case ViewDeleted:
		return kit.Div().ID("deleted").Class("jobs").Body(
			kit.P().Class("quiet").Text(v.T("What is deleted can be recovered for 30 days.")),
			kit.P().Hidden(len(v.Deleted) > 0).Text(v.none(v.T("Nothing is deleted."))),
			app.Range(v.Deleted).Slice(func(i int) app.UI {
				e := v.Deleted[i]
				return kit.Div().Class("job", "deleted").Body(
					kit.Strong().Text(e.Name),
					kit.Span().Class("quiet").Text(e.Changed),
					kit.Act("recover-"+e.ID, "choice", v.T("Recover"), func() { v.OnRecover(e.ID) }).Aria("label", v.F("Recover %s", e.Name)),
				)
			}),
			v.more(),
		)
	}
	return kit.Div().ID("jobs").Class("jobs").Body(
		v.workload(),
		kit.P().ID("reading").Class("quiet").Role("status").Hidden(!v.Reading).Text(v.T("Reading the Book…")),
		&list{ID: "orders", Words: v.Words, Heading: v.T("Orders"), All: v.Orders, on: v.OnOpen},
		&list{ID: "due", Words: v.Words, Heading: v.T("Due next"), All: v.Due, on: v.OnOpen},
		&list{ID: "jobs", Words: v.Words, Heading: v.otherJobs(), All: v.Jobs, on: v.OnOpen},
		kit.P().Class("quiet").Hidden(len(v.Due)+len(v.Jobs) > 0 || v.Open != nil && v.Search == "").Text(v.none(v.T("No job is kept yet."))),
		v.more(),
		kit.Div().Class("actions").Hidden(v.Search != "").Body(
			kit.Act("new-order", "choice", v.T("New order: several garments"), v.OnNewOrder).Attr("disabled", v.Busy),
		),
	)
}

// otherJobs heads the jobs that are not due, where it is not plain what they
// are.
func (v *View) otherJobs() string {
	if len(v.Due)+len(v.Orders) > 0 || v.Open != nil {
		return v.T("Other jobs")
	}
	return ""
}

// none is said of an empty list.
func (v *View) none(empty string) string {
	if v.Search != "" {
		return v.T("Nothing is found.")
	}
	return empty
}

func (v *View) more() app.UI {
	return kit.Act("book-more", "choice", v.N(v.Left, "Show %d more", "Show %d more"), v.OnMore).Hidden(v.Left == 0)
}
