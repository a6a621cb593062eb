// Package chalk is the stage that guides the hand: the marks in order.
package chalk

import (
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// Step is one mark to make.
type Step struct {
	Group string // the piece it belongs to: "Front"
	Text  string // what to do: "From the fork line measure down 4 in"
	Sum   string // where the figure comes from: "hip 42 ÷ 4 = 10½"
}

// View is what the stage shows.
type View struct {
	Missing string // why there are no steps
	Steps   []Step
}

// Render returns the nodes of the stage.
func (v View) Render() app.UI {
	if len(v.Steps) == 0 {
		return app.Section().Class("stage").Aria("label", "Chalk").Body(app.P().Class("quiet").Text(v.Missing))
	}
	return app.Section().Class("stage").Aria("label", "Chalk").Body(
		app.Range(v.Steps).Slice(func(i int) app.UI {
			s := v.Steps[i]
			return app.Div().Body(
				app.H2().Hidden(i > 0 && v.Steps[i-1].Group == s.Group).Text(s.Group),
				app.Div().Class("step").Body(
					app.Span().Class("step-no").Text(strconv.Itoa(i+1)),
					app.Div().Body(
						app.P().Text(s.Text),
						app.P().Class("quiet").Hidden(s.Sum == "").Text(s.Sum),
					),
				),
			)
		}),
	)
}
