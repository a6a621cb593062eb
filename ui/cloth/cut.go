package cloth

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/kit"
)

// Cut is what leads from the lay to the cloth: the page to cut by, and the
// marks.
type Cut struct {
	Busy    bool // the page is being made
	Percent int
	Told    string // what became of it
	OnPage  func()
	OnStop  func()
	OnChalk func()
}

func (v View) cut() app.UI {
	c := v.Cut
	return kit.Div().ID("to-cut").Class("stack").Hidden(v.Hand.Item >= 0).Body(
		kit.Div().Class("choices").Body(
			kit.Act("to-chalk", "choice", v.T("Chalk by this lay"), c.OnChalk),
			kit.Act("lay-page", "choice", v.T("Page to cut by (PDF)"), c.OnPage).Hidden(c.Busy),
		),
		kit.Div().Class("choices").Hidden(!v.Remnants.CanKeep).Body(
			kit.Act("keep-leftover", "choice", v.T("Keep what is left in the Book"), v.Remnants.OnKeep),
		),
		kit.P().ID("leftover-told").Role("status").Hidden(v.Remnants.Told == "").Text(v.Remnants.Told),
		kit.Div().Class("task").Hidden(!c.Busy).Body(
			kit.Progress("lay-page-making", v.T("Making the file"), c.Busy, c.Percent),
			kit.Act("lay-page-stop", "choice", v.T("Stop"), c.OnStop),
		),
		kit.P().Role("status").Hidden(c.Told == "").Text(c.Told),
	)
}
