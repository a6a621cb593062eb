package cloth

import (
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/kit"
)

// Advice is what can give where the cloth is not enough.
type Advice struct {
	Wanted bool // the cloth is not enough
	Asked  bool
	Busy   bool
	Tried  int
	Fault  string
	Gifts  []Gift   // those together that make it fit first
	Given  []string // what garments of an order gave last ...
	Told   string   // ... and in how many of them
	OnBack func()   // takes that back
	OnAsk  func()
	OnStop func()
	OnTake func(i int)
}

// Gift is one of them, in words.
type Gift struct {
	Does, Costs []string
	Of          string // "Changes 5 garments."
	Saves       string // "Saves 4 in: it fits."
	Fits        bool
	Together    bool
	Leave       bool
}

// gifts shows what can give.
func (v View) gifts() app.UI {
	a := v.Advice
	return kit.Div().ID("advice").Class("stack").Hidden(!a.Wanted).Body(
		kit.Act("advice-ask", "action", v.T("What can give?"), a.OnAsk).Hidden(a.Asked),
		kit.Div().Class("task").Hidden(!a.Busy).Body(
			kit.Progress("advising", v.T("Trying what can give: each is drafted and laid afresh"), a.Busy, -1),
			kit.P().Class("quiet").Hidden(a.Tried == 0).Text(v.N(a.Tried, "%d tried so far.", "%d tried so far.")),
			kit.Act("advice-stop", "choice", v.T("Stop"), a.OnStop),
		),
		kit.P().Class("bad").Hidden(a.Fault == "").Text(a.Fault),
		kit.P().ID("advice-none").Class("quiet").Hidden(!a.Asked || a.Busy || len(a.Gifts) > 0).Text(v.T("Nothing was found that can give.")),
		kit.Div().Class("findings").Body(
			app.Range(a.Gifts).Slice(func(i int) app.UI { return v.gift(i, a.Gifts[i]) }),
		),
	)
}

// given is what garments of an order gave last.
func (v View) given() app.UI {
	a := v.Advice
	return kit.Div().ID("given").Class("card").Hidden(a.Told == "").Body(
		app.Range(a.Given).Slice(func(i int) app.UI { return kit.P().Class("gift").Text(a.Given[i]) }),
		kit.P().Text(a.Told),
		kit.Act("given-back", "choice", v.T("Take it back"), a.OnBack),
	)
}

func (v View) gift(i int, g Gift) app.UI {
	class, take := "card", v.T("Do this")
	if g.Together {
		class, take = "card together", v.T("Do all of this")
	}
	return kit.Div().Class(class).DataSet("fits", kit.YesNo(g.Fits)).Body(
		kit.Strong().Hidden(!g.Together).Text(v.T("Together, with least harm")),
		app.Range(g.Does).Slice(func(j int) app.UI { return kit.P().Class("gift").Text(g.Does[j]) }),
		kit.P().Class("saves").Text(g.Saves),
		kit.P().Hidden(g.Of == "").Text(g.Of),
		kit.P().Class("leave").Hidden(!g.Leave).Text(v.T("Only if the client agrees.")),
		app.Range(g.Costs).Slice(func(j int) app.UI { return kit.P().Class("quiet").Text(kit.Sentence(g.Costs[j])) }),
		kit.Key().ID("gift-"+strconv.Itoa(i)).Class("cure").Text(take).
			OnClick(func(app.Context, app.Event) { v.Advice.OnTake(i) }, app.EventScope(i)),
	)
}
