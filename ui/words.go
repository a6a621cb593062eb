package ui

import (
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/say"
)

// chooseLanguage has this device speak a language, by its tag, and keeps the
// choice.
func (d *Desk) chooseLanguage(id string) {
	d.set(func(s *Settings) { s.Language = id })
	d.speak()
}

// speak has the page speak the language that was chosen, or else the browser's
// own where it is offered. Its words are among the kept files; until they are
// read the page goes on as before, and without them in English.
func (d *Desk) speak() {
	if loader() == nil {
		return
	}
	lang := d.language()
	if lang == say.English() {
		d.speakIn(nil)
		return
	}
	fetchText("/words/"+lang.ID+".txt", func(text string, ok bool) {
		w, err := say.Read(text)
		d.ctx.Dispatch(func(app.Context) {
			if lang != d.language() { // another was chosen meanwhile
				return
			}
			if !ok || err != nil || w.Language() != lang {
				d.fault = d.F("The words of %s did not come, so the page stays in English. Open it once with the network.", lang.Name)
				w = nil
			}
			d.speakIn(w)
		})
	})
}

// language is the one to speak: that was chosen, or the browser's.
func (d *Desk) language() say.Language {
	return languageFor(d.settings.Language, app.Window().Get("navigator").Get("language").String())
}

// speakIn has the page, and what it drafts, speak in w.
func (d *Desk) speakIn(w *say.Words) {
	if d.Words == w {
		return
	}
	d.Words = w
	app.Window().Get("document").Get("documentElement").Set("lang", w.Language().ID)
	d.redraft()
}

// languageFor is the language chosen, or else that of the browser, or English:
// whichever is offered.
func languageFor(chosen, browsers string) say.Language {
	for _, tag := range []string{chosen, browsers} {
		id, _, _ := strings.Cut(strings.ToLower(tag), "-")
		for _, l := range say.Offered() {
			if l.ID == id {
				return l
			}
		}
	}
	return say.English()
}

// fetchText fetches a text of this page. done hears off the page whether it
// came.
func fetchText(path string, done func(text string, ok bool)) {
	var got, read, failed app.Func
	finish := func(text string, ok bool) {
		got.Release()
		read.Release()
		failed.Release()
		done(text, ok)
	}
	failed = app.FuncOf(func(app.Value, []app.Value) any {
		finish("", false)
		return nil
	})
	read = app.FuncOf(func(_ app.Value, args []app.Value) any {
		finish(args[0].String(), true)
		return nil
	})
	got = app.FuncOf(func(_ app.Value, args []app.Value) any {
		if !args[0].Get("ok").Bool() {
			finish("", false)
			return nil
		}
		args[0].Call("text").Call("then", read, failed)
		return nil
	})
	app.Window().Call("fetch", path).Call("then", got, failed)
}
