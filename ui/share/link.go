package share

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/kit"
)

// Link is the link that carries the job.
type Link struct {
	Address string // empty while there is none
	Fault   string // why there is none
	Ticket  string // of the job; empty when it has none

	Measurements, Name, Lay bool // what goes with rules and style
	MayLay                  bool // the pieces are laid
	Code                    string
	NoCode                  string // why there is no code
	Shown                   bool   // the code
	Sends                   bool   // the browser hands a text to another program
}

// Ticks are what can go with a link.
const (
	TickMeasurements = "measurements"
	TickName         = "ticket"
	TickLay          = "lay"
)

// CodeFile is the picture of the code, among the files.
const CodeFile = "code"

// link is the draft as a link and as a code.
func (v View) link() app.UI {
	l := v.Link
	return card("link", v.T("Link to this draft"),
		line(v.T("Rules and style stand in the link itself: no server keeps them, and it opens without a network.")),
		kit.Div().Class("choices").Role("group").Aria("label", v.T("What goes with it")).Body(
			v.tick(TickMeasurements, v.T("The measurements too"), l.Measurements),
			v.tick(TickName, v.F("The ticket too: “%s”", l.Ticket), l.Name).Hidden(l.Ticket == ""),
			v.tick(TickLay, v.T("The cloth and the lay too"), l.Lay).Hidden(!l.MayLay || !l.Measurements),
		),
		kit.P().ID("link-holds").Role("status").Text(v.holds()),
		aside("bad", l.Fault),
		some("stack", l.Address == "",
			app.Elem("input").ID("draft-link").Class("field").Attr("type", "text").Attr("readonly", true).
				Aria("label", v.T("The link")).Attr("value", l.Address),
			kit.P().ID("link-size").Class("quiet").Text(v.N(len(l.Address), "%d character", "%d characters")),
			some("choices", false,
				v.key("link", "link-send", v.T("Send"), func() { v.OnLink(true) }).Hidden(!l.Sends),
				v.key("link", "link-copy", v.T("Copy"), func() { v.OnLink(false) }),
				v.key("link", "link-code", v.T("Show as a code"), v.OnCode).Aria("expanded", kit.YesNo(l.Shown)),
			),
			v.told("link"),
			kit.Div().ID("code").Class("stack").Body(app.If(l.Shown, v.code)),
		),
	)
}

// tick puts something into the link, or takes it out.
func (v View) tick(id, name string, on bool) app.HTMLElem {
	return kit.Key().ID("tick-"+id).Class("choice").Aria("pressed", kit.YesNo(on)).Text(name).
		OnClick(func(app.Context, app.Event) { v.OnTick(id) }, app.EventScope(id))
}

// holds says what is in the link, and what is not.
func (v View) holds() string {
	switch l := v.Link; {
	case l.Measurements && l.Name:
		return v.T("In it: rules, style, the measurements and the ticket.")
	case l.Measurements:
		return v.T("In it: rules, style and the measurements. Not in it: the ticket, the client's name.")
	case l.Name:
		return v.T("In it: rules, style and the ticket. Not in it: the measurements.")
	}
	return v.T("In it: rules and style. Not in it: the measurements, the ticket, the client's name.")
}

// code shows the link to another phone's camera.
func (v View) code() app.UI {
	l := v.Link
	if l.Code == "" {
		return line(l.NoCode)
	}
	return some("stack", false,
		&kit.Drawing{Words: v.Words, Name: CodeFile, SVG: l.Code, Label: v.T("The link as a code for a camera"), Size: "qr", Still: true},
		kit.P().Class("quiet").Text(v.T("Hold another phone's camera over it, close enough to fill the picture.")),
		v.keys("link", CodeFile),
	)
}

// opening takes a link that somebody sent.
func (v View) opening() app.UI {
	return card("open", v.T("Open a link"),
		line(v.T("A draft, a lay or house rules that somebody sent you. It is shown first, and nothing here is changed.")),
		kit.Label("paste-draft", v.T("The link")),
		&kit.Field{ID: "paste-draft", Text: v.Paste, Hint: v.T("paste it here"), OnText: func(_, text string) { v.OnPaste(text) }},
		some("choices", !v.Scans,
			v.key("open", "scan", v.T("Read a code with the camera"), v.OnScan).Hidden(v.Scanning),
			v.key("open", "scan-stop", v.T("Stop the camera"), v.OnScan).Hidden(!v.Scanning),
		),
		app.Elem("video").ID(VideoID).Class("scan").Hidden(!v.Scanning).Attr("muted", true).Attr("playsinline", true).
			Aria("label", v.T("What the camera sees")),
		v.told("scan"),
	)
}

// VideoID is the id of the picture of the camera.
const VideoID = "scan-picture"
