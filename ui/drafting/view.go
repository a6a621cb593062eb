// Package drafting is the stage that shows the draft and what was found out
// about it: the pieces, the construction line by line, what truing moved, and
// the construction step by step.
package drafting

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft"
	"chalkfold/draft/geom"
	"chalkfold/draft/say"
	"chalkfold/ui/kit"
)

// The ways to look at a draft.
const (
	ViewPieces = "pieces"
	ViewLines  = "lines"
	ViewTrued  = "trued"
	ViewReplay = "replay"
	ViewGirths = "girths"
)

// View is what the stage shows and whom it tells. Of what belongs to one way to
// look only that which is open is given.
type View struct {
	*say.Words

	Drafted bool
	Whys    []Why  // why there is no draft
	Open    string // one of the ways to look
	Full    bool   // the drawing has the whole screen
	Scene   Scene
	Place   geom.Pt // of what is pointed at
	Spot    string  // names what is pointed at; empty is nothing

	Fractions func(id, name string) app.UI // keys for the field of a length

	Chosen string // the thing that is pointed at
	Card   Card   // of the thing; none without an ID
	Inputs []Input

	// The pieces.
	Findings []Finding
	Lit      int                  // number of the finding that is pointed at, from 1
	Cures    map[int][]draft.Cure // by number; 0 is of what stands in the way of a draft
	Mended   Mended
	Rests    []string // the estimates that the draft rests on
	Fine     bool     // findings that are fine are shown too
	Learn    bool     // it is told what their signs mean
	Cut      []string // names of the pieces
	CutID    []string
	ShowCut  bool

	// The lines.
	Parts    []string
	Part     string
	Sums     []Sum
	ShowSums bool

	// What truing moved.
	Changes []Truing
	Taught  []string // what would stop the cut as it is spoken
	Spoken  bool

	Replay  Replay
	Playing bool

	Girths []Girth

	Hers []kit.Choice // alterations that the client's fittings taught

	OnOpen   func(view string)
	OnFull   func()
	OnTap    func(at geom.Pt, reach float64)
	OnChoose func(id string)
	OnBeside func(by int)
	OnPart   func(part string)
	OnText   func(path, text string)
	OnStep   func(path string, up bool)
	OnLit    func(n int)
	OnCure   func(n, cure int)
	OnUndo   func()
	OnFine   func()
	OnLearnt func()
	OnCut    func()
	OnSums   func()
	OnReplay func(by int)
	OnStart  func(at int)
	OnPlay   func()
	OnLesson func()
	OnMend   func(path string)
	OnHers   func(id string) // takes it out
}

// Why is one thing in the way of a draft.
type Why struct{ Path, What, Text string }

// Mended is what the last mend did, while it can be undone.
type Mended struct {
	What string
	Gone string // what holds again
}

// Render returns the nodes of the stage.
func (v View) Render() app.UI {
	if !v.Drafted {
		return kit.Stage(v.T("Draft")).Body(v.missing())
	}
	full := ""
	if v.Full {
		full = "full"
	}
	return kit.Stage(v.T("Draft"), "draft", full).Body(
		kit.Div().Class("board").Body(
			app.If(v.Open != ViewGirths, func() app.UI { return v.drawing() }),
			kit.Views(v.T("What to look at"), []kit.Choice{
				{ID: ViewPieces, Name: v.T("Pieces")},
				{ID: ViewLines, Name: v.T("Lines")},
				{ID: ViewTrued, Name: v.T("Trued")},
				{ID: ViewReplay, Name: v.T("Replay")},
				{ID: ViewGirths, Name: v.T("Girths")},
			}, v.Open, v.OnOpen),
		),
		kit.Div().Class("beneath").Body(v.hers(), v.beneath()),
	)
}

// hers lists what the client's fittings taught, each to be taken out.
func (v View) hers() app.UI {
	return kit.Div().ID("hers").Hidden(len(v.Hers) == 0).Body(app.Range(v.Hers).Slice(func(i int) app.UI {
		h := v.Hers[i]
		return kit.Div().Class("card").Body(
			kit.P().Text(h.Name),
			kit.Key().Class("choice").DataSet("hers", h.ID).Text(v.T("Take it out")).
				OnClick(func(app.Context, app.Event) { v.OnHers(h.ID) }, app.EventScope(h.ID)),
		)
	}))
}

func (v View) drawing() app.UI {
	label := v.T("The pieces as they are cut")
	switch v.Open {
	case ViewLines:
		label = v.T("The construction as it lies on the cloth")
	case ViewTrued:
		label = v.T("The draft as it is spoken, under the draft as it is trued")
	case ViewReplay:
		label = v.T("The construction so far")
	}
	return &kit.Drawing{
		Words: v.Words, Name: v.Open, SVG: v.Scene.SVG, Label: label, Size: "on-board",
		Spot: v.Spot, SpotAt: v.Place, OnTap: v.OnTap, OnFill: v.OnFull, Filled: v.Full,
	}
}

func (v View) beneath() app.UI {
	switch v.Open {
	case ViewGirths:
		return v.girths()
	case ViewLines:
		return v.lines()
	case ViewTrued:
		return v.changes()
	case ViewReplay:
		return v.replay()
	}
	return v.checks()
}

func (v View) missing() app.UI {
	if len(v.Whys) == 0 {
		return kit.Note(kit.Mind, v.T("No draft yet"), v.T("It is drawn here once the waist and the hip are taken."))
	}
	return kit.Div().Class("findings").Body(
		kit.Note(kit.Stop, v.T("No draft until this is mended")),
		app.Range(v.Whys).Slice(func(i int) app.UI {
			w := v.Whys[i]
			return kit.Div().Class("card").Body(
				kit.Strong().Text(kit.Sentence(w.What)),
				kit.P().Text(w.Text),
				app.If(w.Path != "", func() app.UI {
					return kit.Key().Class("choice").Text(v.T("Mend it")).
						OnClick(func(app.Context, app.Event) { v.OnMend(w.Path) }, app.EventScope(w.Path))
				}).Else(func() app.UI {
					return kit.Div().Class("stack").Body(
						v.cures(0),
						kit.Div().Class("actions").Body(
							kit.Button(v.T("To the tape"), func() { v.OnMend("measurements.") }),
							kit.Button(v.T("To the style"), func() { v.OnMend("style.") }),
						),
					)
				}),
			)
		}),
	)
}

func (v View) girths() app.UI {
	return kit.Div().Body(
		kit.Table("girths", []string{v.T("round"), v.T("body"), v.T("draft"), v.T("room")}, app.Range(v.Girths).Slice(func(i int) app.UI {
			g := v.Girths[i]
			name := g.Name
			if g.Estimated {
				name += " *"
			}
			class := ""
			if g.Less {
				class = "less"
			}
			return kit.Row(class, name, g.Body, g.Draft, g.Room)
		})),
		kit.P().Class("quiet").Text(v.T("Finished, seams closed. * body estimated, not taken.")),
	)
}

func (v View) changes() app.UI {
	if v.Spoken {
		return kit.P().Class("quiet").Text(v.T("The draft is as it is spoken: nothing is trued. The Style stage has the switch."))
	}
	return kit.Div().ID("changes").Class("findings").Body(
		kit.P().Class("quiet").Text(v.T("The line is the draft as it is trued; broken and thin, as it is spoken. Tap what moved to see where.")),
		app.Range(v.Changes).Slice(func(i int) app.UI {
			t := v.Changes[i]
			return kit.Div().Class("card").Body(
				kit.Strong().Text(kit.Sentence(t.Name)),
				app.Range(t.Steps).Slice(func(j int) app.UI {
					c := t.Steps[j]
					if _, ok := v.Scene.Place(c.Step); !ok {
						return kit.P().Text(kit.Sentence(c.Text))
					}
					return kit.Key().Class("change").DataSet("step", c.Step).Aria("pressed", kit.YesNo(v.Chosen == c.Step)).Text(kit.Sentence(c.Text)).
						OnClick(func(app.Context, app.Event) { v.OnChoose(c.Step) }, app.EventScope(c.Step))
				}),
			)
		}),
		app.If(len(v.Taught) > 0, func() app.UI {
			return kit.Note(kit.Stop, v.T("As it is spoken, without all this, the cut would be stopped"), v.Taught...)
		}),
	)
}
