package kit

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// Tone is how grave a note is.
type Tone string

// The tones, from the gravest.
const (
	Stop Tone = "stop" // do not cut
	Mind Tone = "mind"
	Fine Tone = "fine"
)

// sign is shown beside the colour, which not everyone can tell.
func (t Tone) sign() string {
	switch t {
	case Stop:
		return "✕"
	case Mind:
		return "!"
	case Fine:
		return "✓"
	}
	return "·"
}

// Note is one remark: a short title and a sentence or two.
func Note(tone Tone, title string, lines ...string) app.UI {
	return app.Div().Class("note", "note-"+string(tone)).Body(
		app.Span().Class("sign").Aria("hidden", "true").Text(tone.sign()),
		app.Div().Body(
			app.Strong().Text(title),
			app.Range(lines).Slice(func(i int) app.UI {
				if lines[i] == "" {
					return app.P().Hidden(true)
				}
				return app.P().Text(lines[i])
			}),
		),
	)
}

// Choice is one value to choose.
type Choice struct{ ID, Name string }

// Choose is a question with a few answers, all in sight.
func Choose(id, question, explain string, choices []Choice, chosen string, on func(id, choice string)) app.UI {
	return app.FieldSet().Class("choose").Body(
		app.Legend().Text(question),
		app.P().Class("quiet").Hidden(explain == "").Text(explain),
		app.Div().Class("choices").Body(
			app.Range(choices).Slice(func(i int) app.UI {
				c := choices[i]
				return app.Button().Type("button").Class("choice").
					Aria("pressed", pressed(c.ID == chosen)).
					Text(c.Name).
					OnClick(func(app.Context, app.Event) { on(id, c.ID) }, app.EventScope(id, c.ID))
			}),
		),
	)
}

func pressed(yes bool) string {
	if yes {
		return "true"
	}
	return "false"
}
