// Package share is the stage where a draft leaves the phone: as paper, as a
// drawing, as words for a message, as a link, as the file of the job. What
// others sent comes in here too, and is looked at first.
package share

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/say"
	"chalkfold/ui/kit"
)

// FileID is the id of the input that takes a job file.
const FileID = "job-file"

// The files that can be made, by their ids.
const (
	Sheets     = "sheets"
	Reprint    = "reprint"
	Pieces     = "pieces"
	Diagram    = "diagram"
	DiagramSVG = "diagram-svg"
	JobFile    = "job"
)

// View is what the stage shows and whom it tells.
type View struct {
	*say.Words

	Missing string // why nothing of a draft can be shared
	Stopped bool   // the draft must not be cut
	Note    kit.Remark

	Papers []kit.Choice
	Paper  string
	Count  string // how many sheets it takes
	Bound  string // how many it takes however the pieces are placed
	NoLay  string // why there is no diagram

	Reprint    *Since // nil while nothing was printed
	Printer    Printer
	Pieces     []Piece
	PiecesOpen bool

	Group string            // of the forms, that is open
	Tally map[string]string // how many sheets a form takes

	Making  string // id of the file under way
	Percent int
	Told    string // what became of the last file
	ToldOf  string // its id

	Link    Link
	Looking *Looking // what came by a link or in a file
	Paste   string   // in the field for a link
	// Scans is whether the browser reads codes with its camera, Scanning that it
	// does.
	Scans, Scanning bool

	OnPaper  func(id string)
	OnFile   func(id string, send bool)
	OnStop   func()
	OnText   func(send bool)
	OnCloth  func()
	OnChoose func()
	OnOpen   func(text string)
	OnKeep   func()
	OnLeave  func()
	OnLesson func() // of what came
	OnTick   func(id string)
	OnLink   func(send bool)
	OnCode   func()
	OnPaste  func(text string)
	OnScan   func()
	OnHouse  func()
	OnPieces func()
	OnPiece  func(id string)
	OnGroup  func(id string)
}

// Render returns the nodes of the stage.
func (v View) Render() app.UI {
	return kit.Stage(v.T("Share")).Body(
		kit.Div().ID("look").Body(app.If(v.Looking != nil, v.looking)),
		v.Note.Render(),
		kit.Div().Hidden(v.Missing == "").Body(kit.Note(kit.Mind, v.T("Nothing to print yet"), v.Missing)),
		kit.Div().Hidden(!v.Stopped).Body(kit.Note(kit.Stop, v.T("Do not cut this draft: see Draft for what to mend"))),
		kit.Div().Class("shares").Hidden(v.Missing != "").Body(
			v.paper(),
			v.forms(),
			card(Pieces, v.T("All pieces on one drawing"), line(v.T("True to scale, for a plotter or a screen (SVG).")), v.keys(Pieces, Pieces)),
			v.diagram(),
			v.text(),
		),
		v.link(),
		v.house(),
		v.job(),
		v.opening(),
	)
}

// house leads to the rules of the house, which are lent from there.
func (v View) house() app.UI {
	return card("house", v.T("House rules"),
		line(v.T("A link with the rules of the house alone, for an apprentice who drafts as you do.")),
		some("choices", false, kit.Act("to-house", "choice", v.T("Lend the house rules"), v.OnHouse)),
	)
}

// paper is the pattern on paper.
func (v View) paper() app.UI {
	return card("paper", v.T("Pattern on paper"),
		kit.Choose("paper", v.T("Paper"), "", v.Papers, v.Paper, func(_, id string) { v.OnPaper(id) }),
		kit.Strong().ID("sheet-count").Role("status").Text(v.Count),
		aside("quiet", v.Bound),
		v.pieces(),
		v.printer(),
		line(v.T("Print it at 100 %, or “actual size”. Then measure the square on the first sheet.")),
		v.keys("paper", Sheets),
		app.If(v.Reprint != nil, v.reprint),
	)
}

func (v View) diagram() app.UI {
	return card("diagram", v.T("Cutting diagram"),
		kit.P().Hidden(v.NoLay == "").Text(v.NoLay),
		kit.Key().ID("share-cloth").Class("choice").Hidden(v.NoLay == "").Text(v.T("To the cloth")).
			OnClick(func(app.Context, app.Event) { v.OnCloth() }),
		some("stack", v.NoLay != "",
			line(v.T("How the pieces lie on the cloth, on one sheet of the paper above (PDF).")),
			v.keys("diagram", Diagram),
			line(v.T("The same as a drawing (SVG).")),
			v.keys("diagram", DiagramSVG),
		),
	)
}

// text is the chalk guide as words.
func (v View) text() app.UI {
	return card("text", v.T("Chalk guide in words"),
		line(v.T("All marks in order, short enough for a message. It names no client.")),
		some("choices", false,
			v.key("text", "text-send", v.T("Send"), func() { v.OnText(true) }),
			v.key("text", "text-copy", v.T("Copy"), func() { v.OnText(false) }),
		),
		v.told("text"),
	)
}

// job is the file of the job, out and in.
func (v View) job() app.UI {
	return card("job", v.T("Job file"),
		line(v.T("Everything that this job is drafted from, its measurements too: for another phone, or to keep.")),
		v.keys("job", JobFile),
		kit.FileInput(FileID, ".json,.txt,application/json,text/plain", v.OnOpen),
		some("choices", false, v.key("job", "job-open", v.T("Open a job file"), v.OnChoose)),
		v.told("opened"),
	)
}

// card is one thing to share, or to take in, under its heading.
func card(id, title string, body ...app.UI) app.UI {
	return kit.Div().Class("card").ID("share-" + id).Body(append([]app.UI{kit.H2().ID(id + "-head").Text(title)}, body...)...)
}

// line is a sentence.
func line(text string) app.UI { return kit.P().Text(text) }

// aside is a sentence of a class, where there is one.
func aside(class, text string) app.HTMLElem {
	return kit.P().Class(class).Hidden(text == "").Text(text)
}

// some is a block of a class that may be hidden.
func some(class string, hidden bool, body ...app.UI) app.UI {
	return kit.Div().Class(class).Hidden(hidden).Body(body...)
}

// keys save a file and send it; while it is being made, they give way to how
// far it is.
func (v View) keys(card, id string) app.UI {
	busy := v.Making == id
	return some("stack", false,
		some("choices", busy,
			v.key(card, id+"-save", v.T("Save"), func() { v.OnFile(id, false) }),
			v.key(card, id+"-send", v.T("Send"), func() { v.OnFile(id, true) }),
		),
		some("task", !busy,
			kit.Progress(id+"-making", v.T("Making the file"), busy, v.Percent),
			v.key(card, id+"-stop", v.T("Stop"), v.OnStop),
		),
		v.told(id),
	)
}

func (v View) told(id string) app.UI {
	return kit.P().ID(id + "-told").Role("status").Hidden(v.ToldOf != id || v.Told == "").Text(v.Told)
}

// key does one thing with what stands in its card. Many have the same name, so
// each is described by the heading of its card.
func (v View) key(card, id, name string, do func()) app.HTMLElem {
	return kit.Key().ID(id).Class("choice").Text(name).Aria("describedby", card+"-head").
		OnClick(func(app.Context, app.Event) { do() }, app.EventScope(id))
}
