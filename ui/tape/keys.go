package tape

import (
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/say"
	"chalkfold/draft/unit"
	"chalkfold/ui/kit"
)

// padKey is one key of the pad.
type padKey struct {
	key   string // for Press
	shows string
	label string // for those who cannot see what it shows; "" when that says it
	width string // a class, when it is wider than one, or smaller in its type
}

// Pad is the keys for a figure on a tape.
type Pad struct {
	*say.Words
	Tape  unit.Format
	OnKey func(key string) // see Press
}

// metric reports whether a figure is in decimals: by the tape, unless it says
// itself that it is in the other unit.
func (p Pad) metric(text string) bool {
	own := p.Tape.System
	if strings.HasSuffix(text, " "+otherOf(own).String()) {
		own = otherOf(own)
	}
	return own.Metric()
}

// Digits are the keys from 1 to 9, in three rows, for a figure that is text so
// far. Zero and Unit go below them.
func (p Pad) Digits(text string) app.UI {
	keys := p.keys(p.metric(text))
	return app.Range(keys).Slice(func(i int) app.UI { return p.key(keys[i]) })
}

// Zero is the key of nought.
func (p Pad) Zero() app.UI { return p.key(padKey{key: "0", shows: "0"}) }

// Unit is the key that says that the figure is in the other unit.
func (p Pad) Unit() app.UI {
	other := otherOf(p.Tape.System)
	return p.key(padKey{keyUnit, other.In(p.Words), p.F("this one in %s", other.In(p.Words)), "pad-word"})
}

// Sixteenth is the key that adds a sixteenth, and Fine whether the tape has them.
func (p Pad) Sixteenth() app.UI {
	return p.key(padKey{keyFine, keyFine, p.T("a sixteenth more"), "pad-word"})
}

// Fine reports whether a figure that is text so far can have sixteenths.
func (p Pad) Fine(text string) bool { return p.Tape.Den == 16 && !p.metric(text) }

// keys are the digits with, beside them, what a figure of that kind needs: seven
// fractions, three, or the point.
func (p Pad) keys(metric bool) []padKey {
	back := padKey{keyBack, markErase, p.T("take the last sign away"), ""}
	none := padKey{keyClear, "C", p.T("clear"), ""}
	var beside []padKey
	switch finest := p.Tape.Den; {
	case metric:
		beside = []padKey{{keyPoint, p.Decimal("."), p.T("decimal point"), "wide3"}, back.wide(), none.wide()}
	case finest == 4:
		beside = append(fractionKeys(finest), back.wide(), none.wide())
	default:
		beside = append(fractionKeys(finest), none, back)
	}
	var all []padKey
	for row := range 3 {
		for i := range 3 {
			digit := string(rune('1' + 3*row + i))
			all = append(all, padKey{key: digit, shows: digit})
		}
		taken := 0
		for taken < 3 {
			k := beside[0]
			beside = beside[1:]
			all = append(all, k)
			taken++
			if k.width != "" {
				taken = 3
			}
		}
	}
	return all
}

// wide is the key as wide as the column of fractions.
func (k padKey) wide() padKey {
	k.width = "wide3"
	return k
}

func fractionKeys(finest int) []padKey {
	var out []padKey
	for _, f := range fractions(finest) {
		out = append(out, padKey{key: f, shows: f})
	}
	return out
}

// pad is the keys under the thumb for one measurement.
func (v View) pad(r Row) app.UI {
	p := Pad{v.Words, v.Tape, v.OnPad}
	next := "wide2"
	fine := p.Fine(r.Text)
	if fine {
		next = ""
	}
	return kit.Div().Class("pad").Role("group").Aria("label", v.F("Keys for the %s", r.Name)).Body(
		p.Digits(r.Text),
		kit.Key().ID("phone-keys").Class("pad-key", "pad-word").Aria("pressed", kit.YesNo(v.Phone)).Aria("label", v.T("the phone's own keys")).Text(v.T("abc")).
			OnClick(func(app.Context, app.Event) { v.OnPhone() }),
		p.Zero(),
		p.Unit(),
		app.If(fine, p.Sixteenth),
		v.leave(r),
		kit.Key().ID("tape-next").Class("pad-key", "pad-on", next).Text(v.T("Next")).
			Attr("disabled", v.Sheet.Step(r.ID, 1) == r.ID).
			OnClick(func(app.Context, app.Event) { v.OnStep(1) }),
	)
}

// leave goes back to the measurement before; in the list, where all are in
// sight, it puts the pad away.
func (v View) leave(r Row) app.UI {
	if v.Singly {
		return kit.Key().ID("tape-back").Class("pad-key", "pad-on").Aria("label", v.T("Previous")).Text("‹").
			Attr("disabled", v.Sheet.Step(r.ID, -1) == r.ID).
			OnClick(func(app.Context, app.Event) { v.OnStep(-1) })
	}
	return kit.Key().ID("pad-away").Class("pad-key", "pad-on").Aria("label", v.T("Put the keys away")).Text("✓").
		OnClick(func(app.Context, app.Event) { v.OnFocus("") })
}

func (p Pad) key(k padKey) app.UI {
	key := kit.Key().Class("pad-key", k.width).DataSet("key", k.key).
		OnMouseDown(keepCaret).
		OnClick(func(app.Context, app.Event) { p.OnKey(k.key) }, app.EventScope(k.key))
	if k.label != "" {
		key = key.Aria("label", k.label)
	}
	if k.key == keyBack {
		return key.Body(app.Raw(k.shows))
	}
	return key.Text(k.shows)
}

// keepCaret leaves the caret, and the phone's keys, where they are.
func keepCaret(ctx app.Context, e app.Event) {
	e.PreventDefault()
	ctx.PreventUpdate() // there is nothing to draw anew for it
}

const markErase = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 24 24" width="26" height="26" fill="none" stroke="currentColor" stroke-width="2" stroke-linecap="round" stroke-linejoin="round" aria-hidden="true"><path d="M8 5h13v14H8l-6-7zM11 9l6 6M17 9l-6 6"/></svg>`
