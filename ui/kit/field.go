package kit

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// Field is a text input whose text is always the one given. It sets the
// document's value itself: the value attribute neither clears an input nor
// repairs one whose state has not changed.
type Field struct {
	app.Compo
	ID      string
	Text    string
	Label   string // for those who cannot see the visible one
	Numeric bool   // offer the number keys
	Quiet   bool   // the page has keys of its own for it: leave the phone's away
	Bad     bool
	Note    string // id of the element that says what is wrong or what it is
	Hint    string // shown while empty
	Most    int    // letters that it takes; 0 is no limit
	Lines   int    // how many are in sight; 0 is one, and no more can be typed
	OnText  func(id, text string)
	OnFocus func(id string) // may be nil

	// inside is what the input holds as far as is known: what was typed last or
	// set last. While Text is the same, the document is not touched, since the
	// next key may be in it already and not have been told.
	inside string
}

// CompoID makes the input of another id another input, with its own caret.
func (f *Field) CompoID() string { return f.ID }

// OnMount implements app.Mounter.
func (f *Field) OnMount(app.Context) { f.show() }

// OnUpdate implements app.Updater.
func (f *Field) OnUpdate(ctx app.Context) {
	ctx.Defer(func(app.Context) { f.show() })
}

func (f *Field) show() {
	el := f.JSValue()
	if f.Text == f.inside || el == nil || !el.Truthy() {
		return
	}
	el.Set("value", f.Text)
	f.inside = f.Text
}

// Render implements app.Composer.
func (f *Field) Render() app.UI {
	mode := "text"
	switch {
	case f.Quiet:
		mode = "none"
	case f.Numeric:
		mode = "decimal"
	}
	in := app.Elem("input").Attr("type", "text").Attr("enterkeyhint", "next")
	if f.Lines > 0 {
		in = app.Elem("textarea").Attr("rows", f.Lines)
	}
	in = in.
		ID(f.ID).
		Class("field").
		Attr("autocomplete", "off").
		Attr("inputmode", mode).
		Spellcheck(false).
		OnInput(f.onInput).
		OnFocus(f.onFocus)
	if f.Label != "" {
		in = in.Aria("label", f.Label)
	}
	if f.Note != "" {
		in = in.Aria("describedby", f.Note)
	}
	if f.Bad {
		in = in.Aria("invalid", "true")
	}
	if f.Hint != "" {
		in = in.Attr("placeholder", f.Hint)
	}
	if f.Most > 0 {
		in = in.Attr("maxlength", f.Most)
	}
	return in
}

func (f *Field) onInput(ctx app.Context, _ app.Event) {
	text := ctx.JSSrc().Get("value").String()
	f.inside = text
	if text == f.Text {
		return
	}
	f.Text = text
	f.OnText(f.ID, text)
}

func (f *Field) onFocus(ctx app.Context, _ app.Event) {
	if f.OnFocus != nil {
		f.OnFocus(f.ID)
	}
}
