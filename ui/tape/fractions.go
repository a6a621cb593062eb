package tape

import (
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/unit"
	"chalkfold/ui/kit"
)

// Fractions are keys for the field of that id and name, which is typed at with the
// phone's own keys: those for figures have no fractions. They stand in sight while
// the caret is in it. also are units that its figure may be in besides the tape's. A
// tape in decimals needs none of them.
func Fractions(f unit.Format, id, name string, also ...unit.System) app.UI {
	if f.System.Metric() {
		return kit.Div().Hidden(true)
	}
	keys := fractions(f.Den)
	for _, u := range also {
		keys = append(keys, u.In(f.Words))
	}
	return kit.Div().Class("fractions").Role("group").Aria("label", f.Words.F("Fractions for %s", name)).Body(
		app.Range(keys).Slice(func(i int) app.UI {
			return kit.Key().Class("key").Text(keys[i]).OnMouseDown(keepCaret).
				OnClick(func(app.Context, app.Event) { pressAt(id, keys[i], f) }, app.EventScope(id, keys[i]))
		}),
	)
}

// pressAt types a key into a field as its own keys do.
func pressAt(id, key string, f unit.Format) {
	el := app.Window().GetElementByID(id)
	if el == nil || !el.Truthy() {
		return
	}
	el.Set("value", Add(el.Get("value").String(), key, f))
	el.Call("dispatchEvent", app.Window().Get("Event").New("input", map[string]any{"bubbles": true}))
}

// Add is the text with a fraction after its last figure, before the unit that it
// may be in; or with another unit, and without it where it has that.
func Add(text, key string, f unit.Format) string {
	const figures = "0123456789.,/⅛¼⅜½⅝¾⅞"
	end := strings.LastIndexAny(text, figures)
	if end >= 0 {
		_, n := utf8.DecodeRuneInString(text[end:])
		end += n
	} else {
		end = len(text)
	}
	figure, in := text[:end], text[end:]
	switch {
	case slices.Contains(fractions(f.Den), key):
		last := strings.LastIndexByte(figure, ' ') + 1
		return figure[:last] + Press(figure[last:], key, f.System) + in
	case figure == "":
		return text
	case strings.TrimSpace(in) == key:
		return figure
	}
	return figure + " " + key
}
