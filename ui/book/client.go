package book

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/kit"
)

// Client is one client with what is known of her from her jobs.
type Client struct {
	ID         string
	Name, Note string
	Rules      string // how many are hers
	Sure       bool   // one more tap deletes her
	Jobs       []Entry
	Owed       string   // of all of them
	Carried    []string // what her fittings taught
	Taken      []Measurement

	OnName   func(text string)
	OnNote   func(text string)
	OnNewJob func()
	OnDelete func()
}

// Measurement is all takings of one measurement, the newest first.
type Measurement struct {
	Name    string
	Takings []Taking
}

// Taking is one of them, as it was entered.
type Taking struct {
	Text string // "43½ in, of a garment"
	Day  string
	Job  string
}

func (c *Client) render(v *View) []app.UI {
	remove := v.T("Delete this client")
	if c.Sure {
		remove = v.T("Yes, delete: the jobs stay")
	}
	return []app.UI{
		kit.Act("all-clients", "choice", v.T("All clients"), func() { v.OnClient("") }),
		kit.Div().Class("row").Body(
			kit.Label("client-name", v.T("Name")),
			&kit.Field{ID: "client-name", Text: c.Name, Most: 200, OnText: func(_, text string) { c.OnName(text) }},
		),
		kit.Div().Class("row").Body(
			kit.Label("client-note", v.T("Note")),
			&kit.Field{ID: "client-note", Text: c.Note, Lines: 3, OnText: func(_, text string) { c.OnNote(text) }},
		),
		kit.P().Class("quiet").Hidden(c.Rules == "").Text(c.Rules),
		kit.Div().Class("actions").Body(
			kit.Act("new-for", "action", v.T("New job for this client"), c.OnNewJob).Attr("disabled", v.Busy),
		),
		kit.P().ID("client-owed").Class("owed").Hidden(c.Owed == "").Text(v.F("%s owed", c.Owed)),
		kit.Div().ID("client-jobs").Body(&list{ID: "hers", Words: v.Words, Heading: v.T("Jobs"), All: c.Jobs, on: v.OnOpen}),
		kit.Div().ID("carried").Class("jobs").Hidden(len(c.Carried) == 0).Body(
			kit.H2().Text(v.T("Her next garment starts from")),
			app.Range(c.Carried).Slice(func(i int) app.UI { return kit.P().Text(c.Carried[i]) }),
		),
		kit.Div().ID("takings").Class("jobs").Hidden(len(c.Taken) == 0).Body(
			kit.H2().Text(v.T("Measurements over time")),
			app.Range(c.Taken).Slice(func(i int) app.UI {
				m := c.Taken[i]
				return kit.Div().Class("takings").Body(
					kit.Strong().Text(m.Name),
					app.Range(m.Takings).Slice(func(j int) app.UI {
						t := m.Takings[j]
						return kit.P().Body(
							kit.Span().Class("taking").Text(t.Text),
							kit.Span().Class("quiet").Text(t.Day),
							kit.Span().Class("quiet").Text(t.Job),
						)
					}),
				)
			}),
		),
		kit.Act("delete-client", "choice", remove, c.OnDelete),
	}
}
