// Package how is the help of each stage: what to do there, in few words and with
// a drawing of the program's own.
package how

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/say"
	"chalkfold/ui/kit"
)

// View is the help of one stage.
type View struct {
	*say.Words

	Stage   string // its id
	Name    string
	Texts   []string
	Drawing string // SVG; empty when there is none
	Shows   string // what it shows
	Signs   bool   // what the signs of findings mean is told too
	OnBack  func()
}

// Render returns the nodes of the help.
func (v View) Render() app.UI {
	return app.Elem("section").ID("help").Class("stage", "helping").Aria("label", v.F("How: %s", v.Name)).Body(
		kit.H2().Text(v.F("How: %s", v.Name)),
		app.If(v.Drawing != "", func() app.UI {
			return &kit.Drawing{Words: v.Words, Name: "how-" + v.Stage, SVG: v.Drawing, Label: v.Shows, Size: "on-help", Still: true}
		}),
		kit.P().Class("quiet").Hidden(v.Drawing == "").Text(v.Shows),
		app.Range(v.Texts).Slice(func(i int) app.UI { return kit.P().Text(v.Texts[i]) }),
		app.If(v.Signs, func() app.UI { return kit.Div().Class("signs").Body(kit.Signs(v.Words)...) }),
		kit.Act("how-back", "action back", v.F("Back to %s", v.Name), v.OnBack),
	)
}
