package cloth

import (
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/kit"
)

// FlawKey is the key of one figure of a flaw, as the job file has it.
func FlawKey(i int, figure string) string { return "flaws[" + strconv.Itoa(i) + "]." + figure }

// weave asks what kind of cloth it is: stripes, shrinkage, how it is sold.
func (v View) weave(at string) app.UI {
	return kit.Div().Class("about").Body(
		kit.Div().Class("pair").Body(
			v.length(at, "repeat_across", v.T("Stripes repeat across"), v.T("plain")),
			v.length(at, "repeat_along", v.T("Checks repeat along"), v.T("plain")),
		),
		kit.Div().Class("pair").Body(
			v.share(at, "shrinks_along", v.T("Will shrink in length, of 100"), v.T("none")),
			v.share(at, "shrinks_across", v.T("Will shrink in width, of 100"), v.T("none")),
		),
		kit.Div().Class("pair").Body(
			v.share(at, "tilt", v.T("Grain may lean, degrees"), v.T("not at all")),
			v.length(at, "sold_by", v.T("Sold by the"), v.T("⅛ yd, 10 cm")),
		),
		v.flaws(at),
	)
}

// flaws are the places that no piece may lie on, by their figures.
func (v View) flaws(at string) app.UI {
	return kit.Div().ID("flaws").Class("stack").Role("group").Aria("label", v.T("Flaws")).Body(
		kit.Strong().Text(v.T("Flaws")),
		app.Range(make([]struct{}, v.Flaws)).Slice(func(i int) app.UI {
			return kit.Div().Class("card").Body(
				kit.Strong().Text(v.F("Flaw %d", i+1)),
				kit.Div().Class("pair").Body(
					v.length(at, FlawKey(i, "from_selvedge"), v.T("From the left selvedge"), ""),
					v.length(at, FlawKey(i, "from_edge"), v.T("From the cut edge"), ""),
					v.length(at, FlawKey(i, "across"), v.T("It reaches across"), ""),
					v.length(at, FlawKey(i, "along"), v.T("It reaches along"), ""),
				),
				kit.Key().ID("flaw-gone-"+strconv.Itoa(i)).Class("choice").Text(v.T("Take this flaw out")).
					OnClick(func(app.Context, app.Event) { v.OnNoFlaw(i) }, app.EventScope(i)),
			)
		}),
		kit.Div().Class("choices").Body(
			kit.Act("flaw-mark", "choice", v.T("Mark a flaw on the drawing"), v.OnMark).Hidden(v.Drawing == "").Aria("pressed", kit.YesNo(v.Marking)),
			kit.Act("flaw-add", "choice", v.T("Enter a flaw by its figures"), v.OnFlaw),
		),
		kit.P().Class("quiet").Role("status").Hidden(!v.Marking).Text(v.T("Tap the flaw on the drawing.")),
	)
}
