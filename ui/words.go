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
	lang := d.language()
	if lang == say.English() {
		d.speakIn(nil)
		return
	}
	d.ctx.Async(func() {
		w, err := d.deps.Words(lang.ID)
		d.ctx.Dispatch(func(app.Context) {
			if lang != d.language() { // another was chosen meanwhile
				return
			}
			if err != nil || w.Language() != lang {
				d.fault = d.F("The words of %s did not come, so the page stays in English. Open it once with the network.", lang.Name)
				w = nil
			}
			d.speakIn(w)
		})
	})
}

// speakIn has the page, and what it drafts, speak in w. The loader takes the
// same language for its own few words the next time.
func (d *Desk) speakIn(w *say.Words) {
	if l := loader(); l != nil {
		l.Call("speaks", w.Language().ID)
	}
	if d.Words == w {
		return
	}
	d.Words = w
	if l := d.view.share.look; l != nil {
		d.lookAtJob(l)
	}
	d.redraft()
}

// language is the one to speak: that was chosen, or the browser's.
func (d *Desk) language() say.Language {
	browsers := ""
	if app.IsClient {
		browsers = app.Window().Get("navigator").Get("language").String()
	}
	return languageFor(d.settings.Language, browsers)
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
