// Package chalk is the stage that guides the hand: the marks in order.
package chalk

import (
	"strconv"

	"chalkfold/draft/say"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/kit"
)

// View is what the stage shows and whom it tells.
type View struct {
	*say.Words

	Guide   Guide
	At      int    // index of the mark to make now
	Drawing string // SVG of the mark on its piece
	List    bool   // all marks of the piece instead of one
	Stopped bool   // the draft must not be cut
	Missing string // why there are no marks

	OnAt      func(i int)  // one mark
	OnStep    func(by int) // on, or back
	OnSection func(i int)  // the piece that begins with that mark
	OnList    func()
}

// Render returns the nodes of the stage.
func (v View) Render() app.UI {
	if len(v.Guide.Marks) == 0 {
		return kit.Stage("Chalk").Body(kit.Note(kit.Mind, "Nothing to chalk yet", v.Missing))
	}
	m := v.Guide.Marks[v.At]
	return kit.Stage("Chalk", "chalk").Body(
		app.If(v.Stopped, func() app.UI { return kit.Note(kit.Stop, "Do not cut this draft: see Draft for what to mend") }),
		v.sections(m.Section),
		app.If(v.List, func() app.UI { return v.list(m.Section) }).Else(func() app.UI { return v.one(m) }),
		v.steps(),
	)
}

func (v View) sections(open int) app.UI {
	return kit.Div().Class("strip").Role("group").Aria("label", "Pieces").Body(
		app.Range(v.Guide.Sections).Slice(func(i int) app.UI {
			s := v.Guide.Sections[i]
			return kit.Key().Class("view").Aria("pressed", kit.YesNo(i == open)).Text(s.Title).
				OnClick(func(app.Context, app.Event) { v.OnSection(s.First) }, app.EventScope(s.Piece, s.First))
		}),
	)
}

func (v View) one(m Mark) app.UI {
	s := v.Guide.Sections[m.Section]
	note := ""
	if m.No-1 == s.First {
		note = s.Note
	}
	return kit.Div().ID("mark").Class("mark-now").Body(
		kit.P().Class("quiet").ID("mark-place").Text(m.What+" "+v.Guide.Place(v.At)),
		kit.P().Class("quiet").Hidden(note == "").Text(note),
		kit.H2().ID("mark-name").Text(kit.Sentence(m.Name)),
		kit.Div().Class("mark-look").Body(
			kit.Div().Class("mark-figures").Body(
				kit.P().ID("mark-figure").Class(size(m.Figure)).Hidden(m.Figure == "").Body(
					app.Text(m.Figure), kit.Span().Class("unit").Text(" "+m.Unit),
				),
				kit.P().Class("how").Text(m.How),
				kit.P().Class("how").Hidden(m.Then == "").Text("and "+m.Then),
				kit.P().Class("from").Text(m.From),
			),
			&kit.Drawing{SVG: v.Drawing, Label: "Where it is on the " + s.Title, Size: "on-mark"},
		),
		v.points(m),
		kit.P().Class("quiet because").Hidden(m.Because == "").Text("because "+m.Because),
	)
}

// size makes a long figure smaller, so that it stays on its line.
func size(figure string) string {
	if len([]rune(figure)) > 3 {
		return "figure long"
	}
	return "figure"
}

func (v View) points(m Mark) app.UI {
	if len(m.Points) == 0 {
		return kit.Div().Hidden(true)
	}
	return kit.Div().Body(
		kit.Table("points", []string{"along it", "off it", "to"}, app.Range(m.Points).Slice(func(i int) app.UI {
			p := m.Points[i]
			return kit.Row("", "", p.Along, p.Off, p.Side)
		})),
		kit.P().Hidden(m.Corner == "").Text("From the corner, on the diagonal: "+m.Corner),
	)
}

func (v View) list(section int) app.UI {
	s := v.Guide.Sections[section]
	marks := v.Guide.Marks[s.First : s.First+s.Count]
	return kit.Div().ID("marks").Body(
		kit.P().Class("quiet").Hidden(s.Note == "").Text(s.Note),
		app.Range(marks).Slice(func(i int) app.UI {
			m := marks[i]
			figure := m.Figure
			if figure != "" {
				figure += " " + m.Unit
			}
			current := kit.Key().Class("step").
				OnClick(func(app.Context, app.Event) { v.OnAt(m.No - 1) }, app.EventScope(m.No))
			if m.No-1 == v.At {
				current = current.Aria("current", "step")
			}
			return current.Body(
				kit.Span().Class("step-no").Text(strconv.Itoa(m.No)),
				kit.Span().Class("words").Body(
					kit.Strong().Text(m.Name),
					kit.Span().Text(join(figure, m.How, m.Then)),
					kit.Span().Class("quiet").Text(m.From),
				),
			)
		}),
	)
}

func join(parts ...string) string {
	out := ""
	for _, p := range parts {
		if p != "" && out != "" {
			out += " "
		}
		out += p
	}
	return out
}

// steps are the keys under the thumb.
func (v View) steps() app.UI {
	name := "List"
	if v.List {
		name = "One"
	}
	last := len(v.Guide.Marks) - 1
	return kit.Div().Class("steps").Body(
		kit.Key().ID("mark-back").Class("stepper").Text("Previous").Attr("disabled", v.At == 0).
			OnClick(func(app.Context, app.Event) { v.OnStep(-1) }),
		kit.Key().ID("mark-list").Class("stepper plain").Text(name).
			OnClick(func(app.Context, app.Event) { v.OnList() }),
		kit.Key().ID("mark-next").Class("stepper").Text("Next").Attr("disabled", v.At >= last).
			OnClick(func(app.Context, app.Event) { v.OnStep(1) }),
	)
}
