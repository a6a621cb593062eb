package share

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/kit"
)

// Since is what has changed since the last print.
type Since struct {
	Print     string // what was printed
	Say, Void string // what is to be done about it
	May       bool   // there are sheets to print
	Open      bool   // the old ones may lie about still

	OnReplaced func()
}

// reprint prints only what has changed.
func (v View) reprint() app.UI {
	s := v.Reprint
	return kit.Div().ID("since").Class("stack").Body(
		kit.Strong().Text(v.T("Only what changed")),
		aside("quiet", s.Print),
		kit.P().ID("since-says").Role("status").Text(s.Say),
		aside("", s.Void),
		some("stack", !s.May, v.keys("paper", Reprint)),
		some("stack", !s.Open,
			v.key("paper", "since-replaced", v.T("The old sheets are replaced"), s.OnReplaced),
			aside("quiet", v.T("Until you say so, more sheets may be printed than needed.")),
		),
	)
}
