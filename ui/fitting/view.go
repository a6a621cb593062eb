// Package fitting is the stage where the garment is tried on, and what is seen
// is kept.
package fitting

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/say"
	"chalkfold/ui/album"
	"chalkfold/ui/calendar"
	"chalkfold/ui/day"
	"chalkfold/ui/kit"
)

// View is what the stage shows and whom it tells.
type View struct {
	*say.Words

	Ready     bool // there is a draft
	On, Today day.Day
	Girths    []Girth
	Rooms     []Room
	Seen      string
	Photos    album.View
	Steps     []calendar.Tick

	Groups  []Group // what may be seen, by the side that it is seen from
	Open    garment.View
	Sign    *Sign // that was tapped
	Altered []Altered
	Learned []Learned
	Cut     bool   // it is cut already
	Client  string // who it is for; "" is nobody in particular

	OnGroup   func(v garment.View)
	OnSign    func(id string) // "" leaves it
	OnAlter   func(id string)
	OnAmount  func(up bool)
	OnSides   func(side job.Side)
	OnKeep    func(hers bool)
	OnTakeOut func(n int)
	OnHouse   func(kind string)

	OnDay       func(days int)
	OnNoDay     func()
	OnSeen      func(text string)
	OnMilestone func(id string)
}

// Girth is what the finished garment should measure round the body.
type Girth struct {
	Name               string
	Body, Garment, Has string
	Less               bool // less than the body
}

// Room is what a seam can give.
type Room struct {
	Seam string // "back centre"
	By   string // "½ in", "½ in to 1½ in"
}

// Render returns the nodes of the stage.
func (v View) Render() app.UI {
	if v.Sign != nil {
		return kit.Stage(v.T("Fitting"), "fitting").Body(v.sign())
	}
	return kit.Stage(v.T("Fitting"), "fitting").Body(
		calendar.Days(v.Words, "fitting-day", v.T("To be fitted"), v.On, v.Today, v.OnDay, v.OnNoDay),
		v.altered(),
		v.signs(),
		v.learned(),
		kit.Div().Class("row").Body(
			kit.Label("seen", v.T("What was seen on the body")),
			&kit.Field{ID: "seen", Text: v.Seen, Lines: 4, OnText: func(_, text string) { v.OnSeen(text) }},
		),
		v.Photos.Render(),
		kit.Div().ID("fitting-steps").Body(calendar.Ticks(v.Steps, v.OnMilestone)),
		kit.Div().Hidden(v.Ready).Body(
			kit.Note(kit.Mind, v.T("Nothing to compare yet"), v.T("What the garment should measure is listed here once the draft is made.")),
		),
		kit.Div().Hidden(len(v.Girths) == 0).Body(
			kit.H2().Text(v.T("Check with the tape")),
			kit.Table("fitting-girths", []string{v.T("round"), v.T("body"), v.T("garment"), v.T("room")}, app.Range(v.Girths).Slice(func(i int) app.UI {
				g := v.Girths[i]
				class := ""
				if g.Less {
					class = "less"
				}
				return kit.Row(class, g.Name, g.Body, g.Garment, g.Has)
			})),
			kit.P().Class("quiet").Text(v.T("Finished, seams closed. * body estimated, not taken.")),
		),
		kit.Div().Hidden(len(v.Rooms) == 0).Body(
			kit.H2().Text(v.T("What can be let out")),
			kit.Table("rooms", []string{v.T("seam"), v.T("cloth beyond it")}, app.Range(v.Rooms).Slice(func(i int) app.UI {
				r := v.Rooms[i]
				return kit.Row("", r.Seam, r.By)
			})),
			kit.P().Class("quiet").Text(v.T("On each layer. Let out less than this: the seam needs cloth beyond it again.")),
		),
	)
}
