package cloth

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/say"
	"chalkfold/ui/calendar"
	"chalkfold/ui/kit"
)

// Buy is how much cloth to buy, at each width on sale.
type Buy struct {
	Can     bool // there is a draft
	Open    bool
	Busy    bool
	Percent int
	Fault   string
	Tables  []BuyTable
	Note    string // to what it is rounded
	OneWay  string // said of cloth with nap
	OnOpen  func()
	OnStop  func()
}

// BuyTable is one kind of cloth, named where there are several.
type BuyTable struct {
	ID, Name string
	Rows     []BuyRow
}

// BuyRow is one width.
type BuyRow struct{ Width, Folded, Open string }

// Render shows how much to buy.
func (b Buy) Render(w *say.Words) app.UI {
	return kit.Div().ID("buy").Class("stack").Hidden(!b.Can).Body(
		kit.Disclose("buy-open", w.T("How much to buy"), "", b.Open, b.OnOpen),
		kit.Div().Class("stack").Hidden(!b.Open).Body(
			kit.Div().Class("task").Hidden(!b.Busy).Body(
				kit.Progress("buying", w.T("Laying the pieces on each width"), b.Busy, b.Percent),
				kit.Act("buy-stop", "choice", w.T("Stop"), b.OnStop),
			),
			kit.P().Class("bad").Hidden(b.Fault == "").Text(b.Fault),
			app.Range(b.Tables).Slice(func(i int) app.UI {
				t := b.Tables[i]
				return kit.Div().Body(
					kit.Strong().Hidden(t.Name == "").Text(t.Name),
					kit.Table(t.ID, []string{w.T("Width"), w.T("Folded"), w.T("Open")}, app.Range(t.Rows).Slice(func(i int) app.UI {
						r := t.Rows[i]
						return kit.Row("", r.Width, r.Folded, r.Open)
					})),
				)
			}),
			kit.P().Class("quiet").Hidden(b.Note == "").Text(b.Note),
			kit.P().Class("quiet").Hidden(b.OneWay == "").Text(b.OneWay),
		),
	)
}

// Needed is what is bought besides, and what of it is there.
type Needed struct {
	Can, Open bool
	All       []calendar.Tick // when it is open
	OnOpen    func()
	OnNotion  func(id string)
}

// Render shows what is needed.
func (n Needed) Render(w *say.Words) app.UI {
	return kit.Div().ID("needed").Class("stack").Hidden(!n.Can).Body(
		kit.Disclose("needed-open", w.T("Notions"), "", n.Open, n.OnOpen),
		kit.Div().Class("stack").Hidden(!n.Open).Body(
			kit.P().Class("quiet").Text(w.T("Tap what is in the drawer.")), calendar.Ticks(n.All, n.OnNotion),
		),
	)
}
