// Package drafting is the stage that shows the draft and what was found out
// about it.
package drafting

import (
	"fmt"
	"strconv"
	"strings"

	"chalkfold/draft/say"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/kit"
)

// The ways to look at a draft.
const (
	ViewFindings = "findings"
	ViewGirths   = "girths"
	ViewSums     = "sums"
	ViewChanges  = "changes"
)

// View is what the stage shows and whom it tells.
type View struct {
	*say.Words

	Drafted  bool
	Whys     []Why  // why there is no draft
	Drawing  string // SVG
	Findings []Finding
	Rests    []string // the estimates that the draft rests on
	Girths   []Girth
	Sums     []Sum
	Reasons  []Reason // of the sum that is open
	Changes  []Truing
	Taught   []string // what would stop the cut as it is spoken
	Spoken   bool

	Open string // one of the ways to look
	Zoom int
	Lit  int    // number of the finding that is pointed at, from 1
	Sum  string // the step whose reasons are open
	Fine bool   // findings that are fine are shown too

	OnOpen func(view string)
	OnZoom func(steps int)
	OnLit  func(n int)
	OnSum  func(step string)
	OnFine func()
	OnMend func(path string)
}

// Why is one thing in the way of a draft.
type Why struct{ Path, What, Text string }

// Verdict is the one line above all findings.
func Verdict(findings []Finding) (tone kit.Tone, text string) {
	var stops, minds int
	for _, f := range findings {
		switch f.Tone {
		case kit.Stop:
			stops++
		case kit.Mind:
			minds++
		case kit.Fine:
		}
	}
	switch {
	case stops > 0:
		return kit.Stop, "Do not cut: " + kit.Count(stops, "thing", "things") + " to mend"
	case minds > 0:
		return kit.Mind, "It can be cut; mind " + kit.Count(minds, "thing", "things")
	}
	return kit.Fine, fmt.Sprintf("It can be cut: all %d checks hold", len(findings))
}

// Render returns the nodes of the stage.
func (v View) Render() app.UI {
	if !v.Drafted {
		return kit.Stage("Draft").Body(v.missing())
	}
	tone, verdict := Verdict(v.Findings)
	spot := ""
	if v.Lit > 0 {
		spot = strconv.Itoa(v.Lit)
	}
	return kit.Stage("Draft", "draft").Body(
		kit.Div().Class("board").Body(
			kit.Div().Class("verdict").Body(
				kit.Div().ID("verdict").Body(kit.Note(tone, verdict)),
				app.If(v.Open == ViewFindings, func() app.UI { return kit.ZoomKeys(v.Zoom, v.OnZoom) }),
			),
			app.If(v.Open == ViewFindings, func() app.UI {
				return &kit.Drawing{SVG: v.Drawing, Label: "The drafted pieces", Size: "on-board", Zoom: v.Zoom, Spot: spot}
			}),
			kit.Views("What to look at", []kit.Choice{
				{ID: ViewFindings, Name: "Pattern"}, {ID: ViewGirths, Name: "Girths"}, {ID: ViewSums, Name: "Sums"}, {ID: ViewChanges, Name: "Trued"},
			}, v.Open, v.OnOpen),
		),
		v.open(),
	)
}

func (v View) missing() app.UI {
	if len(v.Whys) == 0 {
		return kit.Note(kit.Mind, "No draft yet", "It is drawn here once the waist and the hip are taken.")
	}
	return kit.Div().Class("findings").Body(
		kit.Note(kit.Stop, "No draft until this is mended"),
		app.Range(v.Whys).Slice(func(i int) app.UI {
			w := v.Whys[i]
			return kit.Div().Class("card").Body(
				kit.Strong().Text(kit.Sentence(w.What)),
				kit.P().Text(w.Text),
				app.If(w.Path != "", func() app.UI {
					return kit.Key().Class("choice").Text("Mend it").
						OnClick(func(app.Context, app.Event) { v.OnMend(w.Path) }, app.EventScope(w.Path))
				}),
			)
		}),
	)
}

func (v View) open() app.UI {
	switch v.Open {
	case ViewGirths:
		return v.girths()
	case ViewSums:
		return v.sums()
	case ViewChanges:
		return v.changes()
	}
	return v.findings()
}

func (v View) findings() app.UI {
	fine := 0
	for _, f := range v.Findings {
		if f.Tone == kit.Fine {
			fine++
		}
	}
	return kit.Div().ID("findings").Class("findings").Body(
		kit.P().Class("estimate").Hidden(len(v.Rests) == 0).Text("Rests on what was not taken: "+strings.Join(v.Rests, "; ")),
		app.Range(v.Findings).Slice(func(i int) app.UI {
			f := v.Findings[i]
			if f.Tone == kit.Fine && !v.Fine {
				return kit.Div().Hidden(true)
			}
			return v.finding(f, i+1)
		}),
		app.If(fine > 0, func() app.UI {
			return kit.Disclose("fine", kit.Count(fine, "check holds", "checks hold"), "", v.Fine, v.OnFine)
		}),
	)
}

func (v View) finding(f Finding, n int) app.UI {
	b := kit.Key().Class("note", "finding", "note-"+string(f.Tone)).
		Aria("pressed", kit.YesNo(v.Lit == n)).
		DataSet("check", f.Check).
		Body(
			kit.Span().Class("sign").Aria("hidden", "true").Text(f.Tone.Sign()),
			kit.Span().Class("words").Body(
				kit.Strong().Text(f.Check),
				kit.Span().Text(f.Say),
				kit.Span().Class("figures").Text(f.Figures),
				kit.Span().Class("mend").Hidden(f.Mend == "").Text("Mend: "+f.Mend),
			),
		)
	return b.OnClick(func(app.Context, app.Event) { v.OnLit(n) }, app.EventScope(n))
}

func (v View) girths() app.UI {
	return kit.Div().Body(
		kit.Table("girths", []string{"round", "body", "draft", "room"}, app.Range(v.Girths).Slice(func(i int) app.UI {
			g := v.Girths[i]
			name := g.Name
			if g.Estimated {
				name += " *"
			}
			class := ""
			if g.Less {
				class = "less"
			}
			return kit.Row(class, kit.Sentence(name), g.Body, g.Draft, g.Room)
		})),
		kit.P().Class("quiet").Text("Finished, seams closed. * body estimated, not taken."),
	)
}

func (v View) sums() app.UI {
	return kit.Div().ID("sums").Class("sums").Body(
		kit.P().Class("quiet").Text("Tap a sum to see what it comes from."),
		app.Range(v.Sums).Slice(func(i int) app.UI {
			s := v.Sums[i]
			mark := ""
			if s.Truing {
				mark = " (trued)"
			}
			return kit.Div().Body(
				kit.H2().Hidden(i > 0 && v.Sums[i-1].Part == s.Part).Text(kit.Sentence(s.Part)),
				kit.Key().Class("sum").DataSet("step", s.Step).Aria("expanded", kit.YesNo(v.Sum == s.Step)).Body(
					kit.Strong().Text(s.Label+mark),
					kit.Span().Text(s.Sum),
				).OnClick(func(app.Context, app.Event) { v.OnSum(s.Step) }, app.EventScope(s.Step)),
				app.If(v.Sum == s.Step, func() app.UI { return v.reasons() }),
			)
		}),
	)
}

func (v View) reasons() app.UI {
	return kit.List(false).ID("reasons").Class("reasons").Body(
		app.Range(v.Reasons).Slice(func(i int) app.UI {
			r := v.Reasons[i]
			return kit.Entry().Class("depth"+strconv.Itoa(min(r.Depth, 4))).Body(
				kit.Strong().Text(r.Label), kit.Span().Text(" "+r.Text),
			)
		}),
	)
}

func (v View) changes() app.UI {
	if v.Spoken {
		return kit.P().Class("quiet").Text("The draft is as it is spoken: nothing is trued. The Style stage has the switch.")
	}
	return kit.Div().ID("changes").Class("findings").Body(
		app.If(len(v.Taught) > 0, func() app.UI {
			return kit.Note(kit.Stop, "As it is spoken, without what follows, the cut would be stopped", v.Taught...)
		}),
		app.Range(v.Changes).Slice(func(i int) app.UI {
			t := v.Changes[i]
			return kit.Div().Class("card").Body(
				kit.Strong().Text(kit.Sentence(t.Name)),
				app.Range(t.Steps).Slice(func(j int) app.UI { return kit.P().Text(t.Steps[j]) }),
			)
		}),
	)
}
