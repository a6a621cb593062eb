package cloth

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/calendar"
	"chalkfold/ui/kit"
)

// Buy is how much of the cloth to buy, at each width on sale.
type Buy struct {
	Can     bool // there is a draft
	Open    bool
	Busy    bool
	Percent int
	Fault   string
	Rows    []BuyRow
	Note    string // to what it is rounded
	OneWay  string // said of cloth with nap
	OnOpen  func()
	OnStop  func()
}

// BuyRow is one width.
type BuyRow struct{ Width, Folded, Open string }

// buy shows how much to buy.
func (v View) buy() app.UI {
	b := v.Buy
	return kit.Div().ID("buy").Class("stack").Hidden(!b.Can).Body(
		kit.Disclose("buy-open", v.T("How much to buy"), "", b.Open, b.OnOpen),
		kit.Div().Class("stack").Hidden(!b.Open).Body(
			kit.Div().Class("task").Hidden(!b.Busy).Body(
				kit.Progress("buying", v.T("Laying the pieces on each width"), b.Busy, b.Percent),
				kit.Act("buy-stop", "choice", v.T("Stop"), b.OnStop),
			),
			kit.P().Class("bad").Hidden(b.Fault == "").Text(b.Fault),
			app.If(len(b.Rows) > 0, func() app.UI {
				return kit.Table("buy-table", []string{v.T("Width"), v.T("Folded"), v.T("Open")}, app.Range(b.Rows).Slice(func(i int) app.UI {
					r := b.Rows[i]
					return kit.Row("", r.Width, r.Folded, r.Open)
				}))
			}),
			kit.P().Class("quiet").Hidden(b.Note == "").Text(b.Note),
			kit.P().Class("quiet").Hidden(b.OneWay == "").Text(b.OneWay),
		),
	)
}

// needed is what is bought besides, and what of it is there.
func (v View) needed() app.UI {
	return kit.Div().ID("needed").Class("stack").Hidden(!v.Buy.Can).Body(
		kit.Disclose("needed-open", v.T("Notions"), "", v.Drawer, v.OnDrawer),
		kit.Div().Class("stack").Hidden(!v.Drawer).Body(
			kit.P().Class("quiet").Text(v.T("Tap what is in the drawer.")), calendar.Ticks(v.Needed, v.OnNotion),
		),
	)
}
