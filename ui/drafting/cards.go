package drafting

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/kit"
)

// Input is a measurement or a rule that can be changed where it counts.
type Input struct {
	Path string // "measurements.hip_girth", "rules.seat_tilt"
	ID   string
	Name string
	Text string // what its field holds
	Hint string // shown while empty
	From string // measured or estimated; the level of a rule
	Bad  string // why it cannot be used
	Less bool   // there is a step down
	More bool

	Length bool // and no part, ratio or angle
}

// card tells about the thing that is pointed at, or how to point at one.
func (v View) card() app.UI {
	c := v.Card
	return kit.Div().Class("about-thing").Body(
		kit.Div().Class("beside").Body(
			v.besideKey(-1, "‹", v.T("the one before")),
			kit.P().ID("thing").Role("status").Body(
				kit.Strong().Hidden(c.ID == "").Text(kit.Sentence(c.Title)),
				kit.Span().ID("thing-sum").Class("figures").Hidden(c.Sum == "").Text(kit.Sentence(c.Sum)),
				kit.Span().Class("quiet").Hidden(c.ID != "").Text(v.T("Tap a line, a mark or a piece.")),
			),
			v.besideKey(+1, "›", v.T("the next one")),
		),
		app.If(c.ID != "", func() app.UI { return v.opened(c) }),
	)
}

func (v View) besideKey(by int, sign, name string) app.UI {
	return kit.Key().Class("zoom-key").Aria("label", name).Attr("title", name).Text(sign).
		OnClick(func(app.Context, app.Event) { v.OnBeside(by) }, app.EventScope(by))
}

func (v View) opened(c Card) app.UI {
	return kit.Div().Class("card", "thing").DataSet("thing", c.ID).Body(
		app.Range(v.Inputs).Slice(func(i int) app.UI { return v.input(v.Inputs[i]) }),
		kit.P().Hidden(c.Tape == "").Text(c.Tape),
		kit.P().Class("quiet").Hidden(c.Why == "").Text(kit.Sentence(c.Why)),
		app.Range(c.Moved).Slice(func(i int) app.UI { return kit.P().Class("moved-by").Text(v.F("Trued: %s", c.Moved[i])) }),
		kit.P().Class("quiet").Hidden(len(c.Links) == 0).Text(v.T("It rests on")),
		kit.Div().Class("links").Body(
			app.Range(c.Links).Slice(func(i int) app.UI {
				l := c.Links[i]
				return kit.Key().Class("choice", "link").DataSet("step", l.Step).Body(
					kit.Span().Text(kit.Sentence(l.Label)), kit.Span().Class("aside").Text(l.Text),
				).OnClick(func(app.Context, app.Event) { v.OnChoose(l.Step) }, app.EventScope(l.Step))
			}),
		),
	)
}

// input is the field of a measurement or a rule, with a key less and a key more.
func (v View) input(in Input) app.UI {
	step := func(up, can bool, sign, name string) app.UI {
		return kit.Key().Class("zoom-key", "step-key").Aria("label", name).Text(sign).Attr("disabled", !can).
			OnClick(func(app.Context, app.Event) { v.OnStep(in.Path, up) }, app.EventScope(in.Path, up))
	}
	note := in.ID + "-note"
	return kit.Div().Class("row").Body(
		kit.Div().Class("row-head").Body(
			kit.Label(in.ID, in.Name),
			kit.Span().Class("echo").Text(in.From),
		),
		kit.Div().Class("row-in").Body(
			step(false, in.Less, "−", v.F("%s, less", in.Name)),
			&kit.Field{
				ID: in.ID, Text: in.Text, Numeric: true, Bad: in.Bad != "", Note: note, Most: 40, Hint: in.Hint,
				OnText: func(_, text string) { v.OnText(in.Path, text) },
			},
			step(true, in.More, "+", v.F("%s, more", in.Name)),
		),
		v.fractions(in),
		kit.P().ID(note).Class("bad").Hidden(in.Bad == "").Text(in.Bad),
	)
}

func (v View) fractions(in Input) app.UI {
	if !in.Length {
		return kit.Div().Hidden(true)
	}
	return v.Fractions(in.ID, in.Name)
}

// lines tells about the construction of one part.
func (v View) lines() app.UI {
	parts := make([]kit.Choice, len(v.Parts))
	for i, p := range v.Parts {
		parts[i] = kit.Choice{ID: p, Name: kit.Sentence(v.T(p))}
	}
	return kit.Div().ID("lines").Class("findings").Body(
		v.card(),
		kit.Choose("part", "", "", parts, v.Part, func(_, part string) { v.OnPart(part) }),
		kit.Disclose("all-sums", v.T("All sums"), "", v.ShowSums, v.OnSums),
		app.If(v.ShowSums, func() app.UI { return v.sums() }),
	)
}

func (v View) sums() app.UI {
	return kit.Div().ID("sums").Class("sums").Body(
		app.Range(v.Sums).Slice(func(i int) app.UI {
			s := v.Sums[i]
			label := s.Label
			if s.Truing {
				label = v.F("%s (trued)", s.Label)
			}
			return kit.Div().Body(
				kit.H2().Hidden(i > 0 && v.Sums[i-1].Part == s.Part).Text(kit.Sentence(v.T(s.Part))),
				kit.Key().Class("sum").DataSet("step", s.Step).Aria("pressed", kit.YesNo(v.Chosen == s.Step)).Body(
					kit.Strong().Text(label),
					kit.Span().Text(s.Sum),
				).OnClick(func(app.Context, app.Event) { v.OnChoose(s.Step) }, app.EventScope(s.Step)),
			)
		}),
	)
}

// replay tells the step that the construction has come to.
func (v View) replay() app.UI {
	r := v.Replay
	play := v.T("Play it slowly")
	if v.Playing {
		play = v.T("Stop here")
	}
	return kit.Div().ID("replay").Class("replay").
		On("keydown", func(_ app.Context, e app.Event) {
			switch e.Get("key").String() {
			case "ArrowLeft", "ArrowUp":
				e.PreventDefault()
				v.OnReplay(-1)
			case "ArrowRight", "ArrowDown":
				e.PreventDefault()
				v.OnReplay(1)
			}
		}).
		Body(
			kit.Div().Class("steps-keys").Body(
				kit.Key().ID("replay-back").Class("action", "big").Text("‹").Aria("label", v.T("One step back")).Attr("disabled", r.At <= 1).
					OnClick(func(app.Context, app.Event) { v.OnReplay(-1) }),
				kit.P().Role("status").Body(
					kit.Strong().ID("replay-title").Text(kit.Sentence(r.Title)),
					kit.Span().ID("replay-at").Class("quiet").Text(v.F("%s: step %d of %d", kit.Sentence(v.T(r.Part)), r.At, r.Of)),
				),
				kit.Key().ID("replay-next").Class("action", "big").Text("›").Aria("label", v.T("One step on")).Attr("disabled", r.At >= r.Of).
					OnClick(func(app.Context, app.Event) { v.OnReplay(1) }),
			),
			kit.Div().Class("card").Body(
				kit.P().Class("figures").Hidden(r.Sum == "").Text(kit.Sentence(r.Sum)),
				kit.P().Hidden(r.Tape == "").Text(r.Tape),
				kit.P().Class("quiet").Hidden(r.Why == "").Text(kit.Sentence(r.Why)),
				kit.P().Class("moved-by").Hidden(!r.Truing).Text(v.T("A truing: the method as it is spoken has no such step.")),
			),
			kit.Div().Class("choices").Body(
				kit.Key().ID("replay-play").Class("choice").Text(play).Aria("pressed", kit.YesNo(v.Playing)).
					OnClick(func(app.Context, app.Event) { v.OnPlay() }),
				kit.Act("take-lesson", "choice", v.T("Lesson: work it out"), v.OnLesson),
				app.Range(r.Parts).Slice(func(i int) app.UI {
					p := r.Parts[i]
					return kit.Key().Class("choice").Text(kit.Sentence(v.T(p.Part))).
						OnClick(func(app.Context, app.Event) { v.OnStart(p.At) }, app.EventScope(p.At, p.Part))
				}),
			),
		)
}
