// Package style is the stage where it is said what is being made.
package style

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/garment"
	"chalkfold/ui/kit"
)

// View is what the stage shows and whom it tells.
type View struct {
	Options []garment.Option
	Chosen  garment.Style // a missing answer is the default
	On      func(option, choice string)
}

// Answer is the answer to an option, the default if none was given.
func (v View) Answer(o garment.Option) string {
	if c := v.Chosen[o.ID]; c != "" {
		return c
	}
	return o.Choices[0].ID
}

// Render returns the nodes of the stage.
func (v View) Render() app.UI {
	return app.Section().Class("stage").Aria("label", "Style").Body(
		app.Range(v.Options).Slice(func(i int) app.UI {
			o := v.Options[i]
			choices := make([]kit.Choice, len(o.Choices))
			for j, c := range o.Choices {
				choices[j] = kit.Choice{ID: c.ID, Name: c.Name}
			}
			return kit.Choose(o.ID, sentence(o.Name), o.Explain, choices, v.Answer(o), v.On)
		}),
	)
}

// sentence starts a name with a capital letter; names here are ASCII.
func sentence(name string) string {
	if name == "" || name[0] < 'a' || name[0] > 'z' {
		return name
	}
	return string(name[0]-'a'+'A') + name[1:]
}
