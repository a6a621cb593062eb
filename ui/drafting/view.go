// Package drafting is the stage that shows the draft and what was found out
// about it.
package drafting

import (
	"fmt"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/kit"
)

// Finding is one check of the draft, as shown.
type Finding struct {
	Tone  kit.Tone
	Check string
	Text  string // the figure and the tolerance, in words
	Mend  string
}

// View is what the stage shows and whom it tells.
type View struct {
	Drawing  string // SVG; empty when there is no draft
	Missing  string // why there is no draft
	Findings []Finding
	Large    bool // the drawing is wider than the screen
	Fine     bool // findings that are fine are shown too

	OnLarge, OnFine func()
}

// Verdict is the one line above all findings.
func Verdict(findings []Finding) (tone kit.Tone, text string) {
	var stops, minds int
	for _, f := range findings {
		switch f.Tone {
		case kit.Stop:
			stops++
		case kit.Mind:
			minds++
		case kit.Fine:
		}
	}
	switch {
	case stops > 0:
		return kit.Stop, fmt.Sprintf("Do not cut: %s to mend", count(stops, "thing", "things"))
	case minds > 0:
		return kit.Mind, fmt.Sprintf("It can be cut; mind %s", count(minds, "thing", "things"))
	}
	return kit.Fine, fmt.Sprintf("It can be cut: all %d checks hold", len(findings))
}

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// Shown returns the findings to show: the gravest first, the fine ones only if
// they are asked for.
func (v View) Shown() []Finding {
	var shown []Finding
	for _, tone := range []kit.Tone{kit.Stop, kit.Mind, kit.Fine} {
		for _, f := range v.Findings {
			if f.Tone == tone && (tone != kit.Fine || v.Fine) {
				shown = append(shown, f)
			}
		}
	}
	return shown
}

// Render returns the nodes of the stage.
func (v View) Render() app.UI {
	if v.Drawing == "" {
		return app.Section().Class("stage").Aria("label", "Draft").Body(
			kit.Note(kit.Mind, "No draft yet", v.Missing),
		)
	}
	tone, verdict := Verdict(v.Findings)
	shown := v.Shown()
	return app.Section().Class("stage").Aria("label", "Draft").Body(
		kit.Note(tone, verdict),
		&kit.Drawing{SVG: v.Drawing, Label: "The drafted pieces", Large: v.Large},
		app.Div().Class("actions").Body(
			toggle("Larger", v.Large, v.OnLarge),
			toggle("Every check", v.Fine, v.OnFine),
		),
		app.Div().Class("findings").Body(
			app.Range(shown).Slice(func(i int) app.UI {
				return kit.Note(shown[i].Tone, shown[i].Check, shown[i].Text, shown[i].Mend)
			}),
		),
	)
}

func toggle(name string, on bool, do func()) app.UI {
	pressed := "false"
	if on {
		pressed = "true"
	}
	return app.Button().Type("button").Class("choice").Aria("pressed", pressed).Text(name).
		OnClick(func(app.Context, app.Event) { do() }, app.EventScope(name))
}
