// Package fitting is the stage where the garment is tried on, and what is seen is kept.
package fitting

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/say"
	"chalkfold/ui/kit"
)

// View is what the stage shows and whom it tells.
type View struct {
	*say.Words
}

// Render returns the nodes of the stage.
func (v View) Render() app.UI {
	return kit.Stage(v.T("Fitting")).Body(kit.H2().Text(v.T("Fitting")))
}
