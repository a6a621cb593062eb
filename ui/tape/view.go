package tape

import (
	"strconv"

	"chalkfold/draft/say"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/body"
	"chalkfold/draft/unit"
	"chalkfold/ui/kit"
)

// View is what the stage shows and whom it tells.
type View struct {
	*say.Words

	Sheet  Sheet
	Ticket string
	System unit.System
	Figure body.Figure
	Focus  body.ID // the row that was touched last: it has the keys
	Help   body.ID // the row whose how-to is open
	More   bool    // what the garment can do without is shown too
	Sample bool    // offer the sample job

	OnSample func()
	OnTicket func(text string)
	OnText   func(id body.ID, text string)
	OnOf     func(id body.ID, of body.Of)
	OnKeep   func(id body.ID, text string)
	OnFocus  func(id body.ID)
	OnHelp   func(id body.ID)
	OnMore   func()
	OnSystem func(sign string)
	OnFigure func(figure string)
}

// Render returns the nodes of the stage.
func (v View) Render() app.UI {
	return kit.Stage("Tape").Body(
		// Hidden, not left out: what follows would become other fields, and the
		// one that is being typed in would lose the keys.
		kit.Div().Class("card").Hidden(!v.Sample).Body(
			kit.P().Text("New here? Look at a finished draft first: trousers for the choir, ticket Alto 3. Nothing of yours is asked for."),
			kit.Button("Open the sample", v.OnSample),
		),
		kit.Div().Class("row").Body(
			kit.Label("ticket", "Ticket"),
			&kit.Field{
				ID: "ticket", Text: v.Ticket, Hint: "such as Alto 3", Most: 66,
				OnText: func(_, text string) { v.OnTicket(text) },
			},
		),
		kit.Div().Class("lines").Body(
			kit.Choose("system", "Tape in", "", []kit.Choice{
				{ID: unit.Inches.String(), Name: "inches"}, {ID: unit.Centimetres.String(), Name: "cm"},
			}, v.System.String(), func(_, choice string) { v.OnSystem(choice) }),
			kit.Choose("figure", "Figure", "", []kit.Choice{
				{ID: string(body.Women), Name: "women"}, {ID: string(body.Men), Name: "men"}, {ID: "", Name: "either"},
			}, string(v.Figure), func(_, choice string) { v.OnFigure(choice) }),
		),
		kit.Div().Class("rows").Body(v.rows(false)),
		kit.Disclose("more", "More, when you take them", v.more(), v.More, v.OnMore),
		kit.Div().Class("rows").Hidden(!v.More).Body(app.If(v.More, func() app.UI { return v.rows(true) })),
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
	return strconv.Itoa(taken) + " taken"
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
	id := string(r.ID)
	note := id + "-note"
	return kit.Div().Class("row").Body(
		kit.Div().Class("row-head").Body(
			kit.Label(id, r.Name),
			kit.Span().Class("echo").Text(r.Echo),
		),
		kit.P().Class("howto").Hidden(v.Help != r.ID).Text(r.HowTo),
		kit.Div().Class("row-in").Body(
			&kit.Field{
				ID: id, Text: r.Text, Numeric: true, Bad: r.Bad != "", Note: note, Most: 40,
				OnText:  func(_, text string) { v.OnText(r.ID, text) },
				OnFocus: func(string) { v.OnFocus(r.ID) },
			},
			kit.Key().Class("help").
				Aria("expanded", kit.YesNo(v.Help == r.ID)).
				Aria("label", "how to take the "+r.Name).
				Text("?").
				OnClick(func(app.Context, app.Event) { v.OnHelp(r.ID) }, app.EventScope(id)),
		),
		app.If(v.Focus == r.ID, func() app.UI { return v.keys(r) }),
		kit.P().Class("quiet").Hidden(v.Focus == r.ID || r.Of == body.OfBody).Text("of a garment that fits"),
		kit.Div().ID(note).Body(
			kit.P().Class("estimate").Hidden(r.Estimate == "").Text(r.Estimate),
			kit.P().Class("bad").Hidden(r.Bad == "").Text(r.Bad),
			v.doubts(r),
		),
	)
}

// keys are the tape's own fractions, and what was measured.
func (v View) keys(r Row) app.UI {
	fractions := Fractions()
	return kit.Div().Class("lines", "keys").Body(
		kit.Div().Class("fractions").Hidden(v.System.Metric()).Body(
			app.Range(fractions).Slice(func(i int) app.UI {
				f := fractions[i]
				return kit.Key().Class("key").Text(f).
					OnMouseDown(keepCaret).
					OnClick(func(app.Context, app.Event) { v.OnText(r.ID, Append(r.Text, f)) },
						// The text is part of the scope, or the handler of an
						// older text would stay.
						app.EventScope(string(r.ID), f, r.Text))
			}),
		),
		kit.Choose(string(r.ID)+"-of", "", "", []kit.Choice{
			{ID: body.OfBody.String(), Name: "of the body"}, {ID: body.OfGarment.String(), Name: "of a garment that fits"},
		}, r.Of.String(), func(_, choice string) {
			of := body.OfBody
			if choice == body.OfGarment.String() {
				of = body.OfGarment
			}
			v.OnOf(r.ID, of)
		}),
	)
}

func (v View) doubts(r Row) app.UI {
	if len(r.Doubts) == 0 {
		return kit.Div().Hidden(true)
	}
	if r.Kept {
		return kit.P().Class("quiet").Text("Unusual, and kept as measured.")
	}
	return kit.Div().Body(
		app.Range(r.Doubts).Slice(func(i int) app.UI { return kit.P().Class("doubt").Text(r.Doubts[i]) }),
		kit.Key().Class("choice").Text("Keep it").
			OnClick(func(app.Context, app.Event) { v.OnKeep(r.ID, r.Text) }, app.EventScope(string(r.ID), r.Text)),
	)
}

// keepCaret leaves the caret, and the phone's keys, where they are.
func keepCaret(_ app.Context, e app.Event) { e.PreventDefault() }
