// Package chalk is the stage that guides the hand: the marks in order.
package chalk

import (
	"strconv"
	"unicode/utf8"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/say"
	"chalkfold/ui/kit"
)

// View is what the stage shows and whom it tells.
type View struct {
	*say.Words

	Guide   Guide
	At      int    // index of the mark to make now
	Drawing string // SVG of the mark on its piece
	Near    string // SVG of the mark and where the tape is held; "" when it shows no more
	List    bool   // all marks of the piece instead of one
	Whole   bool   // the mark has the screen to itself
	Stopped bool   // the draft must not be cut
	Missing string // why there are no marks
	Lies    Lies
	Several bool // garments of an order: each has its marks in its own job

	OnAt      func(i int)  // one mark
	OnStep    func(by int) // on, or back
	OnSection func(i int)  // the piece that begins with that mark
	OnList    func()
	OnWhole   func(whole bool)
}

// Render returns the nodes of the stage.
func (v View) Render() app.UI {
	if v.Several {
		return kit.Stage(v.T("Chalk")).Body(v.lies(), kit.P().Class("quiet").Text(v.T("How each piece is marked is told in its own job: open it from the order.")))
	}
	if len(v.Guide.Marks) == 0 {
		return kit.Stage(v.T("Chalk")).Body(kit.Note(kit.Mind, v.T("Nothing to chalk yet"), v.Missing))
	}
	m := v.Guide.Marks[v.At]
	return kit.Stage(v.T("Chalk"), "chalk").Body(
		app.If(v.Stopped, func() app.UI { return kit.Note(kit.Stop, v.T("Do not cut this draft: see Draft for what to mend")) }),
		kit.Div().Class("chalk-head").Body(
			kit.P().ID("mark-place").Text(v.place(m)),
			v.wholeKey(),
		),
		kit.Div().Hidden(v.Whole).Body(v.sections(m.Section)),
		app.If(v.List, func() app.UI { return v.list(m.Section) }).Else(func() app.UI { return v.one(m) }),
		kit.Div().Hidden(v.Whole).Body(v.lies()),
		&Hand{
			Awake: v.T("The screen stays on while this is open."), Sleepy: v.T("This browser lets the screen go dark."),
			OnStep: v.OnStep, OnLeave: func() { v.OnWhole(false) },
			OnFirst: func() { v.OnAt(0) }, OnLast: func() { v.OnAt(len(v.Guide.Marks) - 1) },
		},
		v.steps(),
	)
}

// place says where in the guide the mark is, and on a screen of its own on
// which piece.
func (v View) place(m Mark) string {
	if v.Whole {
		return v.F("%s: %s, %d of %d", v.Guide.Sections[m.Section].Title, m.What, v.At+1, len(v.Guide.Marks))
	}
	return v.F("%s, %d of %d", m.What, v.At+1, len(v.Guide.Marks))
}

func (v View) wholeKey() app.UI {
	name := v.T("Full screen")
	if v.Whole {
		name = v.T("Leave")
	}
	return kit.Key().ID("mark-whole").Class("choice").Text(name).
		OnClick(func(app.Context, app.Event) { v.OnWhole(!v.Whole) }, app.EventScope(name))
}

func (v View) sections(open int) app.UI {
	all := make([]kit.Choice, len(v.Guide.Sections))
	for i, s := range v.Guide.Sections {
		all[i] = kit.Choice{ID: strconv.Itoa(s.First), Name: s.Title}
	}
	return &kit.Strip{Label: v.T("Pieces"), Views: all, Open: all[open].ID, On: func(id string) {
		first, _ := strconv.Atoi(id)
		v.OnSection(first)
	}}
}

func (v View) one(m Mark) app.UI {
	s := v.Guide.Sections[m.Section]
	note, lies := "", []string(nil)
	if m.No-1 == s.First {
		note, lies = s.Note, v.Lies.of(s.Piece)
	}
	return kit.Div().ID("mark").Class("mark-now").Body(
		kit.Div().Class("mark-figures").Body(
			kit.P().Class("mark-note", "quiet").Hidden(note == "").Text(note),
			app.Range(lies).Slice(func(i int) app.UI { return kit.P().Class("mark-note").Text(lies[i]) }),
			kit.H2().ID("mark-name").Text(kit.Sentence(m.Name)),
			kit.P().ID("mark-figure").Class("figure", size(m.Figure)).Hidden(m.Figure == "").Body(
				app.Text(m.Figure), kit.Span().Class("unit").Text(" "+m.Unit),
			),
			kit.P().Class("how").Text(m.How),
			kit.P().ID("mark-then").Class("figure", "second").Hidden(m.Then == "").Body(
				app.Text(m.Then), kit.Span().Class("unit").Text(" "+m.Unit),
			),
			kit.P().Class("how").Hidden(m.Then == "").Text(m.ThenHow),
			kit.P().Class("from").Text(m.From),
			v.points(m),
			kit.P().Class("quiet because").Hidden(m.Because == "").Text(m.Because),
		),
		kit.Div().Class("mark-look").Body(
			kit.Div().Class("near").Hidden(v.Near == "").Body(
				&kit.Drawing{Words: v.Words, SVG: v.Near, Label: v.T("The mark, and where the tape is held"), Size: "on-mark", Still: true},
			),
			&kit.Drawing{Words: v.Words, SVG: v.Drawing, Label: v.F("Where it is on the piece: %s", s.Title), Size: "on-mark", Still: true},
			v.area("area-back", -1), v.area("area-on", 1),
		),
	)
}

// area is a large part of the picture that goes on or back. The keys below do
// the same, and are those that are told to whoever does not see the page.
func (v View) area(id string, by int) app.UI {
	return kit.Key().ID(id).Class("area").TabIndex(-1).Aria("hidden", "true").
		OnClick(func(app.Context, app.Event) { v.OnStep(by) }, app.EventScope(by))
}

// size makes a long figure smaller, so that it stays on its line.
func size(figure string) string {
	switch n := utf8.RuneCountInString(figure); {
	case n <= 3:
		return ""
	case n <= 5:
		return "long"
	}
	return "longest"
}

func (v View) points(m Mark) app.UI {
	if len(m.Points) == 0 {
		return kit.Div().Hidden(true)
	}
	return kit.Div().Body(
		kit.Table("points", []string{v.T("along it"), v.T("off it"), v.T("to")}, app.Range(m.Points).Slice(func(i int) app.UI {
			p := m.Points[i]
			return kit.Row("", "", p.Along, p.Off, p.Side)
		})),
		kit.P().Hidden(m.Corner == "").Text(m.Corner),
	)
}

func (v View) list(section int) app.UI {
	s := v.Guide.Sections[section]
	marks := v.Guide.Marks[s.First : s.First+s.Count]
	return kit.Div().ID("marks").Body(
		kit.P().Class("quiet").Hidden(s.Note == "").Text(s.Note),
		app.Range(marks).Slice(func(i int) app.UI {
			m := marks[i]
			current := kit.Key().Class("step").
				OnClick(func(app.Context, app.Event) { v.OnAt(m.No - 1) }, app.EventScope(m.No))
			if m.No-1 == v.At {
				current = current.Aria("current", "step")
			}
			return current.Body(
				kit.Span().Class("step-no").Text(strconv.Itoa(m.No)),
				kit.Span().Class("words").Body(
					kit.Strong().Text(m.Name),
					kit.Span().Text(v.measures(m)),
					kit.Span().Class("quiet").Text(m.From),
				),
			)
		}),
	)
}

// measures is what is measured for a mark, on one line.
func (v View) measures(m Mark) string {
	first := m.How
	if m.Figure != "" {
		first = m.Figure + " " + m.Unit + " " + m.How
	}
	if m.Then == "" {
		return first
	}
	return v.F("%s, then %s", first, m.Then+" "+m.Unit+" "+m.ThenHow)
}

// steps are the keys under the thumb.
func (v View) steps() app.UI {
	name := v.T("List")
	if v.List {
		name = v.T("One")
	}
	last := len(v.Guide.Marks) - 1
	return kit.Div().Class("steps").Body(
		kit.Key().ID("mark-back").Class("stepper").Text(v.T("Previous")).Attr("disabled", v.At == 0).
			OnClick(func(app.Context, app.Event) { v.OnStep(-1) }),
		kit.Key().ID("mark-list").Class("stepper", "plain").Text(name).
			OnClick(func(app.Context, app.Event) { v.OnList() }),
		kit.Key().ID("mark-next").Class("stepper").Text(v.T("Next")).Attr("disabled", v.At >= last).
			OnClick(func(app.Context, app.Event) { v.OnStep(1) }),
	)
}
