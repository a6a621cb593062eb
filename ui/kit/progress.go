package kit

import (
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// Progress tells in words and by a bar how far a task is. A task of which that
// is not known has below nought per cent.
func Progress(id, words string, busy bool, percent int) app.UI {
	bar := app.Elem("progress").ID(id+"-bar").Attr("max", 100).Aria("hidden", "true")
	figure := "…"
	if percent >= 0 {
		bar = bar.Attr("value", percent)
		figure = "… " + strconv.Itoa(percent) + " %"
	}
	return Div().ID(id).Class("progress").Hidden(!busy).Body(
		// The figure would be read out again and again.
		P().Role("status").Body(app.Text(words), Span().Aria("hidden", "true").Text(figure)),
		bar,
	)
}

// Remark is a note that may not be there.
type Remark struct {
	Tone        Tone // Mind when it is not said
	Title, Text string
}

// Render returns the note, hidden when there is nothing to say.
func (r Remark) Render() app.UI {
	if r.Tone == "" {
		r.Tone = Mind
	}
	return Div().Role("status").Hidden(r.Title == "").Body(Note(r.Tone, r.Title, r.Text))
}
