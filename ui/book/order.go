package book

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/say"
	"chalkfold/ui/calendar"
	"chalkfold/ui/kit"
)

// Order is several garments that are made together, and what is asked of them all.
type Order struct {
	*say.Words
	Card     *Card // its name, client, note and day
	Busy     bool  // it is not saved yet: nothing may take its place
	Garments []Entry
	Laid     bool     // some can be laid
	NotLaid  string   // which cannot, and until when
	Cut      []string // what is not laid again
	Owed     string   // of all garments
	Buy      app.UI   // how much cloth
	Needed   app.UI   // besides it
	Table    app.UI   // of sizes
	Out      bool     // the jobs that can be added are
	Others   []Entry

	OnOpen   func(id string)
	OnLay    func()
	OnLike   func() // one more, for another body
	OnHers   func() // one more, for the client of the order
	OnOthers func()
	OnAdd    func(id string)
}

// Render returns the nodes of the screen.
func (v *Order) Render() app.UI {
	c := v.Card
	remove := v.T("Delete this order")
	if c.Sure {
		remove = v.T("Yes, delete: the garments stay")
	}
	return kit.Stage(v.T("Order")).Body(
		kit.Div().Class("row").Body(
			kit.Label("order-name", v.T("Name")),
			&kit.Field{ID: "order-name", Text: c.Ticket, Most: 200, OnText: func(_, text string) { c.OnTicket(text) }},
		),
		kit.P().ID("order-owed").Class("owed").Hidden(v.Owed == "").Text(v.F("%s owed", v.Owed)),
		kit.Div().ID("garments").Body(&list{ID: "garments", Words: v.Words, Heading: v.N(len(v.Garments), "%d garment", "%d garments"), All: v.Garments, on: v.OnOpen}),
		kit.P().Class("quiet").Hidden(len(v.Garments) > 0).Text(v.T("No garment yet. Begin one below, or take in a table of sizes: one row for each body.")),
		kit.P().ID("not-laid").Class("bad").Hidden(v.NotLaid == "").Text(v.NotLaid),
		kit.Div().ID("cut-already").Class("quiet").Body(app.Range(v.Cut).Slice(func(i int) app.UI { return kit.P().Text(v.Cut[i]) })),
		kit.Div().Class("actions").Hidden(!v.Laid).Body(
			kit.Act("order-lay", "action", v.T("Lay them on one cloth"), v.OnLay),
		),
		v.Buy, v.Needed,
		kit.Div().Class("jobs").Body(
			kit.H2().Text(v.T("More garments")),
			kit.Div().Class("choices").Body(
				kit.Act("order-like", "choice", v.T("Another body, same style"), v.OnLike).Attr("disabled", v.Busy),
				kit.Act("order-hers", "choice", v.F("One more for %s", c.Client), v.OnHers).Attr("disabled", v.Busy).Hidden(c.Client == ""),
			),
			kit.Disclose("order-others", v.T("Jobs of the Book"), "", v.Out, v.OnOthers),
			kit.Div().Hidden(!v.Out).Body(&list{ID: "others", Words: v.Words, All: v.Others, on: v.OnAdd}),
		),
		v.Table,
		kit.Div().Class("jobs").Body(
			kit.H2().Text(v.T("About the order")),
			c.client(v.Words),
			calendar.Days(v.Words, "due", v.T("Due"), c.Promised, c.Today, c.OnDue, c.OnNoDue),
			c.note(v.Words),
			kit.Act("delete-order", "choice", remove, c.OnDelete),
		),
	)
}
