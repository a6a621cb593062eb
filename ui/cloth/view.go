// Package cloth is the stage where the pieces are laid on the cloth at hand.
package cloth

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/kit"
)

// View is what the stage shows and whom it tells.
type View struct {
	Width, Length string // as typed
	BadWidth      string // why the width cannot be used
	BadLength     string
	Folded        bool

	Missing string // why there is no lay
	Drawing string // SVG
	Tone    kit.Tone
	Verdict string // "It fits, 12 in are left", "Short by 4 in"
	Lines   []string

	OnWidth, OnLength func(text string)
	OnFolded          func(folded bool)
}

// Render returns the nodes of the stage.
func (v View) Render() app.UI {
	return app.Section().Class("stage").Aria("label", "Cloth").Body(
		input("cloth-width", "Width of the cloth", v.Width, v.BadWidth, v.OnWidth),
		input("cloth-length", "Length at hand", v.Length, v.BadLength, v.OnLength),
		kit.Choose("folded", "Laid", "", []kit.Choice{{ID: "folded", Name: "folded"}, {ID: "open", Name: "open"}},
			map[bool]string{true: "folded", false: "open"}[v.Folded],
			func(_, choice string) { v.OnFolded(choice == "folded") }),
		v.result(),
	)
}

func (v View) result() app.UI {
	if v.Drawing == "" {
		return app.Div().Body(app.P().Class("quiet").Text(v.Missing))
	}
	return app.Div().Body(
		kit.Note(v.Tone, v.Verdict, v.Lines...),
		&kit.Drawing{SVG: v.Drawing, Label: "The pieces laid on the cloth"},
	)
}

func input(id, label, text, bad string, on func(text string)) app.UI {
	return app.Div().Class("row").Body(
		app.Label().For(id).Text(label),
		&kit.Field{
			ID: id, Text: text, Numeric: true, Bad: bad != "", Note: id + "-note",
			OnText: func(_, text string) { on(text) },
		},
		app.P().ID(id+"-note").Class("bad").Hidden(bad == "").Text(bad),
	)
}
