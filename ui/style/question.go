package style

import (
	"slices"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/garment"
	"chalkfold/draft/say"
	"chalkfold/ui/kit"
)

// board keeps the sketch in sight over the questions.
func (v View) board() app.UI {
	return kit.Div().Class("board", "sketch").Body(
		kit.Div().Hidden(v.Folded).Body(
			&kit.Drawing{Words: v.Words, SVG: v.Sketch, Label: v.T("The garment laid flat, front and back"), Size: "on-style", Still: true},
		),
		kit.P().Class("quiet").Hidden(!v.Middle || v.Folded).Text(v.onWhom()),
		kit.Key().ID("fold-sketch").Class("fold").Aria("expanded", kit.YesNo(!v.Folded)).Body(
			kit.Span().Text(v.T("Sketch")),
		).OnClick(func(app.Context, app.Event) { v.OnFold() }),
	)
}

// onWhom says on whom the garment is shown when it is not the client.
func (v View) onWhom() string {
	if v.Measured {
		return v.T("Shown on a middle figure: no draft is made of these measurements yet.")
	}
	return v.T("Shown on a middle figure until the client is measured.")
}

// QuestionID is the id of the node of a question.
func QuestionID(option string) string { return "question-" + option }

// question is one question with its answer; open, it shows every choice.
func (v View) question(i int) app.UI {
	o := v.Options[i]
	open, answer := v.Option == o.ID, v.Answer(o)
	return kit.Div().ID(QuestionID(o.ID)).Class("question").Body(
		kit.Key().ID("ask-"+o.ID).Class("ask").Aria("expanded", kit.YesNo(open)).Body(
			v.small(i, answer),
			kit.Span().Class("words").Body(
				kit.Strong().Text(kit.Sentence(v.T(o.Name))),
				kit.Span().Text(v.T(named(o, answer))),
			),
		).OnClick(func(app.Context, app.Event) { v.OnOption(o.ID) }, app.EventScope(o.ID)),
		app.If(open, func() app.UI {
			return kit.Div().Class("answers").ID("choose-"+o.ID).Role("group").Aria("label", v.T(o.Name)).Body(
				kit.P().Class("quiet").Text(v.T(o.Explain)),
				kit.Div().Class("grid").Body(app.Range(o.Choices).Slice(func(n int) app.UI { return v.choice(i, o.Choices[n], answer) })),
				kit.Div().Class("stack").Role("status").Hidden(len(v.GaveUp) == 0).Body(
					app.Range(v.GaveUp).Slice(func(n int) app.UI { return kit.P().Text(kit.Sentence(v.GaveUp[n])) }),
				),
				app.If(o.OfFigure, v.moved),
			)
		}),
	)
}

// moved tells which rules the figure changes.
func (v View) moved() app.UI {
	var lines []string
	for _, r := range v.Rules {
		if r.Moved != "" {
			lines = append(lines, v.F("%s: %s, it was %s.", kit.Sentence(v.T(r.Def.Name)), say.Name(r.Moved), r.Def.Told(r.Value)))
		}
	}
	return kit.Div().ID("moved").Class("stack").Hidden(len(lines) == 0).Body(
		kit.P().Text(v.T("Changed for this figure, from the house's rules:")),
		app.Range(lines).Slice(func(i int) app.UI { return kit.P().Text(lines[i]) }),
	)
}

func (v View) choice(question int, c garment.Choice, answer string) app.UI {
	o := v.Options[question]
	return kit.Key().Class("drawn").Aria("pressed", kit.YesNo(c.ID == answer)).Body(
		v.small(question, c.ID),
		kit.Span().Text(v.T(c.Name)),
	).OnClick(func(app.Context, app.Event) { v.On(o.ID, c.ID) }, app.EventScope(o.ID, c.ID))
}

// named is the name of an answer.
func named(o garment.Option, answer string) string {
	for _, c := range o.Choices {
		if c.ID == answer {
			return c.Name
		}
	}
	return answer
}

// picture is the small drawing of an answer, empty until it is made.
func (v View) picture(question int, answer string) string {
	if question >= len(v.Pictures) {
		return ""
	}
	for i, p := range v.Pictures[question] {
		if v.Options[question].Choices[i].ID == answer {
			return p
		}
	}
	return ""
}

// alike reports whether the answers to a question are known to look alike. What is
// asked of the figure shows from the side, where no garment is drawn.
func (v View) alike(question int) bool {
	if v.Options[question].OfFigure {
		return true
	}
	if question >= len(v.Pictures) || len(v.Pictures[question]) == 0 {
		return false
	}
	return !slices.ContainsFunc(v.Pictures[question], func(p string) bool { return p != "" })
}

// small shows the small drawing of an answer, or the place where it will be.
func (v View) small(question int, answer string) app.UI {
	svg := v.picture(question, answer)
	return kit.Span().Class("paper", "small").Aria("hidden", "true").Hidden(v.alike(question)).Body(
		app.If(svg != "", func() app.UI { return app.Raw(svg) }),
	)
}
