package kit

import (
	"strconv"
	"unicode"
	"unicode/utf8"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// Tone is how grave a note is.
type Tone string

// The tones, from the gravest.
const (
	Stop Tone = "stop" // do not cut
	Mind Tone = "mind"
	Fine Tone = "fine"
)

// Sign is shown beside the colour, which not everyone can tell.
func (t Tone) Sign() string {
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
	return Div().Class("note", "note-"+string(tone)).Body(
		Span().Class("sign").Aria("hidden", "true").Text(tone.Sign()),
		Div().Body(
			Strong().Text(title),
			app.Range(lines).Slice(func(i int) app.UI {
				if lines[i] == "" {
					return P().Hidden(true)
				}
				return P().Text(lines[i])
			}),
		),
	)
}

// Button does one thing. What do works on must not change while the button
// keeps its name.
func Button(name string, do func()) app.UI {
	return Key().Class("action").Text(name).
		OnClick(func(app.Context, app.Event) { do() }, app.EventScope(name))
}

// Act is a key of that id that does one thing. What do works on must not change
// while the key keeps its id and name.
func Act(id, class, name string, do func()) app.HTMLElem {
	return Key().ID(id).Class(class).Text(name).
		OnClick(func(app.Context, app.Event) { do() }, app.EventScope(id, name))
}

// Pick is an Act with a line below its name.
func Pick(id, name, line string, do func()) app.HTMLElem {
	return Key().ID(id).Class("choice pick").Body(Strong().Text(name), Span().Text(line)).
		OnClick(func(app.Context, app.Event) { do() }, app.EventScope(id, name, line))
}

// Disclose is a line that opens and closes what follows it.
func Disclose(id, name, aside string, open bool, do func()) app.UI {
	return Key().Class("disclose").ID(id).Aria("expanded", YesNo(open)).
		Body(Span().Text(name), Span().Class("aside").Text(aside)).
		OnClick(func(app.Context, app.Event) { do() }, app.EventScope(id))
}

// Choice is one value to choose.
type Choice struct{ ID, Name string }

// Choose is a question with a few answers, all in sight.
func Choose(id, question, explain string, choices []Choice, chosen string, on func(id, choice string)) app.UI {
	return app.Elem("fieldset").Class("choose").ID("choose-"+id).Body(
		app.Elem("legend").Hidden(question == "").Text(question),
		P().Class("quiet").Hidden(explain == "").Text(explain),
		Div().Class("choices").Body(
			app.Range(choices).Slice(func(i int) app.UI {
				c := choices[i]
				return Key().Class("choice").
					Aria("pressed", YesNo(c.ID == chosen)).
					Text(c.Name).
					OnClick(func(app.Context, app.Event) { on(id, c.ID) }, app.EventScope(id, c.ID))
			}),
		),
	)
}

// Views are the ways to look at one thing, of which one is open.
func Views(label string, views []Choice, open string, on func(id string)) app.UI {
	return Div().Class("views").Role("group").Aria("label", label).Body(viewKeys(label, views, open, on))
}

func viewKeys(label string, views []Choice, open string, on func(id string)) app.UI {
	return app.Range(views).Slice(func(i int) app.UI {
		v := views[i]
		return Key().Class("view").Aria("pressed", YesNo(v.ID == open)).Text(v.Name).
			OnClick(func(app.Context, app.Event) { on(v.ID) }, app.EventScope(label, v.ID))
	})
}

// YesNo is the value of an attribute that is true or false.
func YesNo(yes bool) string { return strconv.FormatBool(yes) }

// Sentence starts a name with a capital letter.
func Sentence(name string) string {
	first, size := utf8.DecodeRuneInString(name)
	if size == 0 {
		return name
	}
	return string(unicode.ToUpper(first)) + name[size:]
}
