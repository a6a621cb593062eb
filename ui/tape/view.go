package tape

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/body"
	"chalkfold/draft/unit"
	"chalkfold/ui/kit"
)

// View is what the stage shows and whom it tells.
type View struct {
	Sheet  Sheet
	Ticket string
	System unit.System
	Figure body.Figure
	Focus  body.ID // the row that was touched last: it has the fraction keys
	Help   body.ID // the row whose how-to is open

	OnTicket  func(text string)
	OnText    func(id body.ID, text string)
	OnFocus   func(id body.ID)
	OnHelp    func(id body.ID)
	OnSystem  func(sign string)
	OnFigure  func(figure string)
	fractions []string
}

// Render returns the nodes of the stage.
func (v View) Render() app.UI {
	v.fractions = Fractions()
	return app.Section().Class("stage").Aria("label", "Tape").Body(
		app.Div().Class("row").Body(
			app.Label().For("ticket").Text("Ticket"),
			&kit.Field{
				ID: "ticket", Text: v.Ticket, Hint: "Alto 3",
				OnText: func(_, text string) { v.OnTicket(text) },
			},
		),
		kit.Choose("system", "A figure without a unit is in", "", []kit.Choice{
			{ID: unit.Inches.String(), Name: "inches"}, {ID: unit.Centimetres.String(), Name: "centimetres"},
		}, v.System.String(), func(_, choice string) { v.OnSystem(choice) }),
		kit.Choose("figure", "Ask again when it is unusual for", "", []kit.Choice{
			{ID: "", Name: "anyone"}, {ID: string(body.Women), Name: "women"}, {ID: string(body.Men), Name: "men"},
		}, string(v.Figure), func(_, choice string) { v.OnFigure(choice) }),
		app.Div().Class("rows").Body(
			app.Range(v.Sheet.Rows).Slice(func(i int) app.UI { return v.row(v.Sheet.Rows[i]) }),
		),
	)
}

func (v View) row(r Row) app.UI {
	id := string(r.ID)
	note := id + "-note"
	return app.Div().Class("row").Body(
		app.Div().Class("row-head").Body(
			app.Label().For(id).Text(r.Name),
			app.Span().Class("echo").Text(r.Echo),
		),
		app.P().Class("howto").Hidden(v.Help != r.ID).Text(r.HowTo),
		app.Div().Class("row-in").Body(
			&kit.Field{
				ID: id, Text: r.Text, Numeric: true, Bad: r.Bad != "", Note: note,
				OnText:  func(_, text string) { v.OnText(r.ID, text) },
				OnFocus: func(string) { v.OnFocus(r.ID) },
			},
			app.Button().Type("button").Class("help").
				Aria("expanded", yesNo(v.Help == r.ID)).
				Aria("label", "how to take the "+r.Name).
				Text("?").
				OnClick(func(app.Context, app.Event) { v.OnHelp(r.ID) }, app.EventScope(id)),
		),
		app.Div().Class("fractions").Hidden(v.Focus != r.ID || v.System.Metric()).Body(
			app.Range(v.fractions).Slice(func(i int) app.UI {
				f := v.fractions[i]
				return app.Button().Type("button").Class("key").Text(f).
					OnMouseDown(keepCaret).
					OnClick(func(app.Context, app.Event) { v.OnText(r.ID, Append(r.Text, f)) },
						// The text is part of the scope, or the handler of an
						// older text would stay.
						app.EventScope(id, f, r.Text))
			}),
		),
		app.Div().ID(note).Body(
			app.P().Class("bad").Hidden(r.Bad == "").Text(r.Bad),
			app.Range(r.Doubts).Slice(func(i int) app.UI { return app.P().Class("doubt").Text(r.Doubts[i]) }),
		),
	)
}

// keepCaret leaves the caret, and the phone's keys, where they are.
func keepCaret(_ app.Context, e app.Event) { e.PreventDefault() }

func yesNo(yes bool) string {
	if yes {
		return "true"
	}
	return "false"
}
