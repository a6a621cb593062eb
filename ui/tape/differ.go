package tape

import (
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/kit"
)

// differ sets side by side what two phones measured, for one tap to choose; or says what
// was not chosen.
func (v View) differ(r Row) app.UI {
	id := string(r.ID) + "-differs"
	return kit.Div().Class("notes").Body(
		kit.Div().ID(id).Class("doubted").Hidden(len(r.Differ) == 0).Body(
			kit.P().Class("doubt").Text(v.T("Measured differently on two phones. Tap the one that counts; the other is kept.")),
			kit.Div().Class("choices").Body(
				app.Range(r.Differ).Slice(func(n int) app.UI {
					return kit.Pick(id+"-"+strconv.Itoa(n), r.Differ[n].Figure, v.taken(r.Differ[n]), func() { v.OnSettle(r.ID, n) })
				}),
			),
		),
		app.Range(r.Aside).Slice(func(n int) app.UI {
			return kit.P().Class("quiet").Text(v.F("Not chosen: %s, %s.", r.Aside[n].Figure, v.taken(r.Aside[n])))
		}),
	)
}

// taken says when, and of what if it was not the body.
func (v View) taken(d Differing) string {
	if d.Garment {
		return v.F("of a garment, on %s", d.Day)
	}
	return v.F("on %s", d.Day)
}
