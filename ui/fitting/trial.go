package fitting

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/job"
	"chalkfold/ui/kit"
)

// Trial is an alteration that is tried: what it would make of the garment.
type Trial struct {
	By         string // "½ in"
	Less, More bool   // it can be made so
	Fault      string // why it cannot be drafted
	SVG        string // the panels, before and after
	Changes    []Changed
	Told       []Told // what is to be minded that was not before
	Recut      *Recut // of a garment that is cut
}

// Changed is a length that changes.
type Changed struct{ What, Was, Is string }

// Told is a finding of the proof.
type Told struct {
	Stops      bool
	What, Mend string
}

// Recut is what becomes of the cut garment.
type Recut struct {
	Can     bool
	Lowered []string // "Set the back ¼ in lower on its cloth."
	Seams   []Seam
	Anew    []string // "Waistband: ½ in longer"
	Steps   []string
	Instead []string
}

// Seam is a seam of the cut garment that is sewn elsewhere.
type Seam struct {
	Name, Asks, Has, Left string
	Short                 bool // there is not enough
}

func (v View) trial(a Alter, t Trial) app.UI {
	return kit.Div().ID("trial").Class("stack").Body(
		kit.P().Text(a.Does),
		kit.Div().Class("amount").Role("group").Aria("label", v.T("By how much")).Body(
			v.amountKey("−", v.T("less"), t.Less, false),
			kit.Strong().Aria("live", "polite").Text(t.By),
			v.amountKey("+", v.T("more"), t.More, true),
		),
		app.If(a.OneSide, func() app.UI {
			return kit.Choose("alter-sides", v.T("Which side, as it is worn"), "", []kit.Choice{
				{ID: "", Name: v.T("both")}, {ID: string(job.LeftSide), Name: v.T("left")}, {ID: string(job.RightSide), Name: v.T("right")},
			}, string(a.Side), func(_, side string) { v.OnSides(job.Side(side)) })
		}),
		app.If(t.Fault != "", func() app.UI {
			return kit.Note(kit.Stop, v.T("It cannot be drafted so"), t.Fault)
		}).Else(func() app.UI { return v.tried(t) }),
	)
}

func (v View) amountKey(sign, name string, can, up bool) app.UI {
	return kit.Key().Class("choice", "amount-key").Aria("label", name).Attr("disabled", !can).Text(sign).
		OnClick(func(app.Context, app.Event) { v.OnAmount(up) }, app.EventScope(sign))
}

func (v View) tried(t Trial) app.UI {
	return kit.Div().Class("stack").Body(
		&kit.Drawing{Words: v.Words, SVG: t.SVG, Label: v.T("The panels as they are altered, over those of before"), Size: "on-trial"},
		kit.P().Class("quiet").Text(v.T("The line is how it is altered; broken and thin, as it was.")),
		app.If(len(t.Changes) > 0, func() app.UI {
			return kit.Table("changes", []string{"", v.T("before"), v.T("after")}, app.Range(t.Changes).Slice(func(i int) app.UI {
				c := t.Changes[i]
				return kit.Row("", c.What, c.Was, c.Is)
			}))
		}),
		app.Range(t.Told).Slice(func(i int) app.UI {
			tone := kit.Mind
			if t.Told[i].Stops {
				tone = kit.Stop
			}
			return kit.Note(tone, t.Told[i].What, t.Told[i].Mend)
		}),
		app.If(len(t.Told) == 0, func() app.UI {
			return kit.Note(kit.Fine, v.T("Everything that was proved before holds again."))
		}),
		app.If(t.Recut != nil, func() app.UI { return v.recut(*t.Recut) }),
		kit.Div().Class("actions").Body(
			kit.Act("keep-job", "choice", v.T("Alter this garment"), func() { v.OnKeep(false) }),
			app.If(v.Client != "", func() app.UI {
				return kit.Act("keep-hers", "choice", v.F("Also the next ones of %s", v.Client), func() { v.OnKeep(true) })
			}),
		),
		kit.P().Class("quiet").Hidden(v.Client != "").Text(v.T("Put the job under a client in the Book, and her next garments can start from it.")),
	)
}

// recut tells what can be let out of the cut that there is.
func (v View) recut(r Recut) app.UI {
	title, tone := v.T("It is cut: there is cloth enough for it"), kit.Fine
	if !r.Can {
		title, tone = v.T("It is cut: there is not cloth enough for all of it"), kit.Stop
	}
	return kit.Div().ID("recut").Class("stack").Body(
		kit.Note(tone, title, r.Lowered...),
		app.If(len(r.Seams) > 0, func() app.UI {
			return kit.Table("recut-seams", []string{v.T("seam"), v.T("asks"), v.T("there is"), v.T("left")}, app.Range(r.Seams).Slice(func(i int) app.UI {
				s := r.Seams[i]
				class := ""
				if s.Short {
					class = "less"
				}
				return kit.Row(class, s.Name, s.Asks, s.Has, s.Left)
			}))
		}),
		v.told(v.T("In this order"), true, r.Steps),
		v.told(v.T("Pieces that come out otherwise"), false, r.Anew),
		v.told(v.T("What can be done instead"), false, r.Instead),
	)
}

func (v View) told(title string, numbered bool, lines []string) app.UI {
	return kit.Div().Hidden(len(lines) == 0).Body(
		kit.Strong().Text(title),
		kit.List(numbered).Body(app.Range(lines).Slice(func(i int) app.UI { return kit.Entry().Text(lines[i]) })),
	)
}
