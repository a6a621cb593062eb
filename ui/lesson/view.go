// Package lesson is the screen on which a student works out a construction, and
// that of her marks.
package lesson

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/lesson"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
	"chalkfold/ui/drafting"
	"chalkfold/ui/kit"
	"chalkfold/ui/tape"
)

// State is how far she is with a step.
type State uint8

// The states of a step.
const (
	Given State = iota // it needs no sum, and is only shown
	Asked
	Wrong
	Right
	Shown
)

// drawing names the drawing of the construction.
const drawing = "lesson"

// Kept is a sitting that is kept on this device.
type Kept struct {
	ID, Name, Marks string
	Over            bool
}

// View is what the screen shows and whom it tells.
type View struct {
	*say.Words

	// No sitting is open.
	Drafted bool   // there is a draft to begin with
	Ticket  string // of it
	Kept    []Kept
	Sure    string // ID of the one that is to be deleted at the next tap

	Open    bool // a sitting is
	Title   string
	Tape    unit.Format
	State   State
	No, Of  int // of the questions
	Replay  drafting.Replay
	Given   []lesson.Figure
	Text    string // of her answer
	Bad     string
	Reply   lesson.Reply
	Sum     string // the whole of it, once she may see it
	Last    bool   // no question follows
	Flat    bool   // the step has no place on the drawing
	Student string
	Keeps   bool // it is kept on this device

	Marking bool // the marks are looked at
	Marks   lesson.Marks
	Over    bool
	Making  bool
	Percent int
	Told    string
	ToldOf  string
	Sends   bool

	OnBegin   func()
	OnOpen    func(id string)
	OnDelete  func(id string)
	OnLeave   func()
	OnText    func(text string)
	OnKey     func(key string)
	OnCheck   func()
	OnAgain   func()
	OnShow    func()
	OnNext    func(toQuestion bool)
	OnMarks   func(look bool)
	OnStudent func(name string)
	OnKeep    func()
	OnSend    func(send bool)
	OnFile    func(form string, send bool)
	OnStop    func()
}

// Render returns the nodes of the screen.
func (v View) Render() app.UI {
	switch {
	case !v.Open:
		return kit.Stage(v.T("Lesson"), "stack").Body(v.home())
	case v.Marking:
		return kit.Stage(v.T("Lesson"), "stack").Body(v.marks())
	}
	return kit.Stage(v.T("Lesson"), "lesson").OnKeyDown(v.onKey).Body(v.step())
}

// home is where a lesson begins, and where those that are kept are found again.
func (v View) home() app.UI {
	begin, needs := v.F("Begin: %s", v.Ticket), ""
	if !v.Drafted {
		begin, needs = "", v.T("A lesson needs a draft: measure first, or open the sample in the book.")
	}
	return stack("lesson-home",
		line("", "", v.T("Work out the draft yourself, number by number. Each sum is asked for before it is drawn; a wrong one is explained.")),
		line("", "quiet", needs),
		key("lesson-begin", "action", begin, v.OnBegin),
		kit.H2().Hidden(len(v.Kept) == 0).Text(v.T("Kept on this phone")),
		app.Range(v.Kept).Slice(func(i int) app.UI { return v.kept(v.Kept[i]) }),
	)
}

func (v View) kept(k Kept) app.UI {
	does, del := v.T("Go on"), v.T("Delete")
	if k.Over {
		does = v.T("Marks")
	}
	if v.Sure == k.ID {
		del = v.T("Yes, delete it")
	}
	return kit.Div().Class("card", "stack").DataSet("sitting", k.ID).Body(
		kit.Strong().Text(k.Name),
		line("", "", k.Marks),
		keys(key("go-on-"+k.ID, "choice", does, func() { v.OnOpen(k.ID) }), key("delete-"+k.ID, "choice", del, func() { v.OnDelete(k.ID) })),
	)
}

// onKey checks by the key that ends a line, or goes on.
func (v View) onKey(_ app.Context, e app.Event) {
	if e.Get("key").String() != "Enter" || e.Get("target").Get("tagName").String() != "INPUT" {
		return
	}
	e.PreventDefault()
	v.OnCheck()
}

// step is one step: what is asked or told, the drawing, and the keys under the
// thumb.
func (v View) step() app.UI {
	r := v.Replay
	why := kit.Sentence(r.Why)
	if v.State == Wrong {
		why = ""
	}
	return stack("",
		kit.Div().Class("single-head").Body(
			kit.Div().Body(
				line("lesson-at", "quiet", v.F("%s: question %d of %d", kit.Sentence(v.T(r.Part)), v.No, v.Of)),
				kit.H2().ID("lesson-title").Text(kit.Sentence(r.Title)),
			),
			key("lesson-marks", "choice", v.T("Marks"), func() { v.OnMarks(true) }),
		),
		stack("lesson-said", line("", "", r.Tape), line("", "quiet", why), v.reply()).Role("status"),
		v.given(),
		app.If(!v.Flat || v.State != Asked, v.drawing),
		v.pad(),
	)
}

func (v View) drawing() app.UI {
	r := v.Replay
	return &kit.Drawing{
		Words: v.Words, Name: drawing, SVG: r.Scene.SVG, Label: v.T("The construction so far"), Size: "on-lesson",
		Spot: v.spot(), SpotAt: r.Place,
	}
}

func (v View) spot() string {
	if !v.Replay.Placed {
		return ""
	}
	return v.Replay.Title
}

// given is what the sum is done with, while it is asked for.
func (v View) given() app.UI {
	return kit.Div().ID("lesson-given").Class("lesson-given").Hidden(v.State != Asked).Body(
		app.Range(v.Given).Slice(func(i int) app.UI {
			g := v.Given[i]
			return kit.P().Body(kit.Span().Text(kit.Sentence(g.Label)), kit.Strong().Text(g.Figure))
		}),
	)
}

// reply tells what became of her answer, or what there is to see.
func (v View) reply() app.UI {
	switch v.State {
	case Right:
		return kit.Note(kit.Fine, v.T("Right"), v.Sum)
	case Shown:
		return kit.Note(kit.Mind, v.T("So it is worked out"), v.Sum)
	case Wrong:
		lines := []string{v.Reply.Slip}
		if v.Reply.Hers != "" {
			lines = append(lines, v.F("Yours: %s", v.Reply.Hers))
		}
		rule := v.Reply.Rule
		if v.Reply.Sum != "" {
			rule = v.F("%s: %s", rule, v.Reply.Sum)
		}
		return kit.Note(kit.Stop, v.F("Not %s", v.Text), append(lines, v.F("The rule: %s", rule))...)
	case Given:
		return line("", "figures", kit.Sentence(v.Sum))
	case Asked:
	}
	return line("", "", "")
}

// pad is the keys of the state: those of a tape for an answer, else to go on.
func (v View) pad() app.UI {
	next := v.T("Next")
	if v.Replay.At == v.Replay.Of {
		next = v.T("Marks")
	}
	name, on := v.T("What now"), func() { v.OnNext(false) }
	var all []app.UI
	switch {
	case v.State == Asked:
		name, all = v.T("Keys for your answer"), append([]app.UI{v.answer()}, v.keys()...)
	case v.State == Wrong:
		all = []app.UI{key("lesson-again", onPad, v.T("Try again"), v.OnAgain), key("lesson-show", onPad, v.T("Show me"), v.OnShow)}
	case v.State == Given && !v.Last:
		all = []app.UI{key("lesson-skip", onPad, v.T("Next question"), func() { v.OnNext(true) }), key("lesson-next", onPad, next, on)}
	default:
		all = []app.UI{key("lesson-next", onPad+" wide6", next, on)}
	}
	return kit.Div().Class("pad").Role("group").Aria("label", name).Body(all...)
}

// onPad is the class of the keys to go on.
const onPad = "pad-key pad-on wide3"

// answer is the field for her answer.
func (v View) answer() app.UI {
	return kit.Div().Class("wide6", "lesson-answer").Body(
		kit.Label("lesson-answer", v.T("Your number")),
		&kit.Field{ID: "lesson-answer", Text: v.Text, Quiet: true, Bad: v.Bad != "", Note: "lesson-bad", Most: 20, OnText: func(_, text string) { v.OnText(text) }},
		kit.Span().Class("echo").Text(v.Tape.System.In(v.Words)),
		kit.P().ID("lesson-bad").Class("bad").Hidden(v.Bad == "").Text(v.Bad),
	)
}

// keys are those for her answer, which stands above them.
func (v View) keys() []app.UI {
	p := tape.Pad{Words: v.Words, Tape: v.Tape, OnKey: v.OnKey}
	check := "pad-key pad-on wide2"
	all := []app.UI{p.Digits(v.Text), p.Zero(), p.Unit()}
	if p.Fine(v.Text) {
		check, all = "pad-key pad-on", append(all, p.Sixteenth())
	}
	return append(all, key("lesson-show", "pad-key pad-word wide2", v.T("Show me"), v.OnShow), key("lesson-check", check, "✓", v.OnCheck).Aria("label", v.T("Check")))
}

// The few kinds of nodes that the screens are made of.

func stack(id string, all ...app.UI) app.HTMLElem {
	return kit.Div().ID(id).Class("stack").Body(all...)
}

func keys(all ...app.UI) app.UI { return kit.Div().Class("choices").Body(all...) }

// line is a paragraph, hidden when it says nothing.
func line(id, class, text string) app.UI {
	return kit.P().ID(id).Class(class).Hidden(text == "").Text(text)
}

// key is a key, hidden when it has no name.
func key(id, class, name string, do func()) app.HTMLElem {
	return kit.Act(id, class, name, do).Hidden(name == "")
}
