package tape

import (
	"maps"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/body"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
	"chalkfold/ui/kit"
)

// View is what the stage shows and whom it tells.
type View struct {
	*say.Words

	Sheet  Sheet
	Ticket string
	Tape   unit.Format
	Figure body.Figure
	Singly bool    // one measurement at a time, and not the list
	Focus  body.ID // the row that was touched last: it has the keys
	Help   body.ID // the row whose how-to is open
	More   bool    // what the garment can do without is shown too
	Phone  bool    // the phone's own keys are wanted, and not the pad
	Sample bool    // offer the sample job

	Garments []kit.Choice // that can be made; none when it is settled
	Garment  string       // ID of the one that is

	OnGarment func(id string)
	OnSample  func()
	OnTicket  func(text string)
	OnText    func(id body.ID, text string)
	OnPad     func(key string) // a key of the pad, for the row that has the keys; see Press
	OnOf      func(id body.ID, of body.Of)
	OnKeep    func(id body.ID, text string)
	OnSettle  func(id body.ID, n int) // which of the takings that differ counts
	OnFocus   func(id body.ID)        // "" when nothing is to be typed at
	OnCaret   func(id body.ID)        // its field was gone to, and has the keys
	OnStep    func(by int)            // to another measurement
	OnHelp    func(id body.ID)
	OnMore    func()
	OnPhone   func()
	OnSingly  func()
	OnSystem  func(sign string)
	OnFigure  func(figure string)
}

// Render returns the nodes of the stage.
func (v View) Render() app.UI {
	return kit.Stage(v.T("Tape"), "taking").OnKeyDown(v.onKey).Body(
		app.If(v.Singly && v.Focus != "" && v.Sheet.index(v.Focus) >= 0, v.single).
			ElseIf(v.Singly, v.overview).
			Else(v.list),
	)
}

// onKey goes on to the next field by the key that ends a line.
func (v View) onKey(_ app.Context, e app.Event) {
	if e.Get("key").String() == "Enter" && e.Get("target").Get("tagName").String() == "INPUT" {
		v.OnStep(1)
	}
}

// list is all measurements on one page.
func (v View) list() app.UI {
	i := v.Sheet.index(v.Focus)
	return kit.Div().Class("rows").Body(
		v.welcome(),
		v.about(),
		kit.Key().ID("singly").Class("choice").Text(v.T("One measurement at a time")).OnClick(func(app.Context, app.Event) { v.OnSingly() }),
		kit.Div().Class("rows").Body(v.rows(false)),
		kit.Disclose("more", v.T("More, when you take them"), v.more(), v.More, v.OnMore),
		kit.Div().Class("rows").Hidden(!v.More).Body(app.If(v.More, func() app.UI { return v.rows(true) })),
		app.If(i >= 0, func() app.UI { return v.pad(v.Sheet.Rows[i]) }),
	)
}

// welcome offers the sample. It is hidden, not left out: what follows would
// become other fields, and the one that is being typed in would lose the keys.
func (v View) welcome() app.UI {
	return kit.Div().Class("card").Hidden(!v.Sample).Body(
		kit.P().Text(v.T("New here? Look at a finished draft first: trousers for the choir, ticket Alto 3. Nothing of yours is asked for.")),
		kit.Button(v.T("Open the sample"), v.OnSample),
	)
}

// about is what concerns all measurements.
func (v View) about() app.UI {
	return kit.Div().Class("rows").Body(
		kit.Div().Hidden(len(v.Garments) == 0).Body(
			kit.Choose("garment", v.T("What is made"), "", v.Garments, v.Garment, func(_, id string) { v.OnGarment(id) }),
		),
		kit.Div().Class("row").Body(
			kit.Label("ticket", v.T("Ticket")),
			&kit.Field{
				ID: "ticket", Text: v.Ticket, Hint: v.T("such as Alto 3"), Most: 66,
				OnText:  func(_, text string) { v.OnTicket(text) },
				OnFocus: func(string) { v.OnFocus("") }, // the pad writes no ticket
			},
		),
		kit.Div().Class("lines").Body(
			kit.Choose("system", v.T("Tape in"), "", []kit.Choice{
				{ID: unit.Inches.String(), Name: v.T("inches")}, {ID: unit.Centimetres.String(), Name: v.T("cm")},
			}, v.Tape.System.String(), func(_, choice string) { v.OnSystem(choice) }),
			kit.Choose("figure", v.T("Figure"), "", []kit.Choice{
				{ID: string(body.Women), Name: v.T("women")}, {ID: string(body.Men), Name: v.T("men")}, {ID: "", Name: v.T("either")},
			}, string(v.Figure), func(_, choice string) { v.OnFigure(choice) }),
		),
	)
}

// more says how many of the rows that are not needed have been taken.
func (v View) more() string {
	taken := 0
	for _, r := range v.Sheet.Rows {
		if r.More && r.Text != "" {
			taken++
		}
	}
	if taken == 0 {
		return ""
	}
	return v.N(taken, "%d taken", "%d taken")
}

func (v View) rows(more bool) app.UI {
	var rows []Row
	for _, r := range v.Sheet.Rows {
		if r.More == more {
			rows = append(rows, r)
		}
	}
	return app.Range(rows).Slice(func(i int) app.UI { return v.row(rows[i]) })
}

func (v View) row(r Row) app.UI {
	open := v.Help == r.ID
	return kit.Div().Class("row").Body(
		kit.Div().Class("row-head").Body(
			kit.Label(string(r.ID), r.Name),
			kit.Span().Class("echo").Text(r.Echo),
		),
		kit.Div().Class("taught").Hidden(!open).Body(
			app.If(open, func() app.UI { return v.drawing(r) }),
			kit.P().Class("howto").Text(r.HowTo),
		),
		kit.Div().Class("row-in").Body(
			v.field(r),
			kit.Key().Class("help").
				Aria("expanded", kit.YesNo(open)).
				Aria("label", v.F("how to take the %s", r.Name)).
				Text("?").
				OnClick(func(app.Context, app.Event) { v.OnHelp(r.ID) }, app.EventScope(string(r.ID))),
		),
		v.notes(r),
		app.If(v.Focus == r.ID, func() app.UI { return v.of(r) }),
		kit.P().Class("quiet").Hidden(v.Focus == r.ID || r.Of == body.OfBody).Text(v.T("of a garment that fits")),
	)
}

func (v View) field(r Row) app.UI {
	return &kit.Field{
		ID: string(r.ID), Text: r.Text, Label: r.Name, Numeric: true, Quiet: !v.Phone, Bad: v.bad(r) != "", Note: string(r.ID) + "-note", Most: 40,
		OnText:  func(_, text string) { v.OnText(r.ID, text) },
		OnFocus: func(string) { v.OnCaret(r.ID) },
	}
}

// bad says why what was typed cannot be used, once it is not still being typed.
func (v View) bad(r Row) string {
	if r.Begun && v.Focus == r.ID {
		return ""
	}
	return r.Bad
}

// drawing shows where the tape goes. What is being typed is left out of the
// body's proportions, so that it does not change under the hand.
func (v View) drawing(r Row) app.UI {
	beside := maps.Clone(v.Sheet.Takings)
	delete(beside, r.ID)
	return &kit.Drawing{Words: v.Words, SVG: Drawing(r.ID, v.Figure, beside), Label: v.F("Where the tape goes for the %s", r.Name), Size: "on-body", Still: true}
}

// of asks what was measured.
func (v View) of(r Row) app.UI {
	return kit.Choose(string(r.ID)+"-of", "", "", []kit.Choice{
		{ID: body.OfBody.String(), Name: v.T("of the body")}, {ID: body.OfGarment.String(), Name: v.T("of a garment that fits")},
	}, r.Of.String(), func(_, choice string) {
		of := body.OfBody
		if choice == body.OfGarment.String() {
			of = body.OfGarment
		}
		v.OnOf(r.ID, of)
	})
}
