// Package house is the screen of the rules that all jobs of the house begin with.
package house

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/say"
	"chalkfold/ui/kit"
)

// View is what the screen shows and whom it tells.
type View struct {
	*say.Words
}

// Render returns the nodes of the screen.
func (v View) Render() app.UI {
	return kit.Stage(v.T("House rules")).Body(kit.H2().Text(v.T("House rules")))
}
