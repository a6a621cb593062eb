package main

import (
	"strconv"
	"strings"
	"testing"

	"chalkfold/wasm/browser"
	"chalkfold/wasm/browser/audit"
)

// sound fails where the checks of the screens find anything on the one that is
// shown.
func sound(t *testing.T, a *audit.Audit, where string) {
	t.Helper()
	for _, check := range []func() []string{a.Axe, a.Look, a.Names} {
		for _, fault := range check() {
			t.Errorf("%s: %s", where, fault)
		}
	}
}

// TestLessonFromALink has a student open a teacher's link, answer a question
// wrong, then right, and be shown the next; the marks tell of it. Nothing is kept
// until she wishes it. After that a killed tab goes on where it was.
func TestLessonFromALink(t *testing.T) {
	s := openStall(t)
	profile := t.TempDir()
	b := browser.Open(t, profile)
	tab := b.Tab()
	a := audit.Of(t, tab)
	tab.On(browser.Screens()[0])
	tab.Goto(sentTo(s))
	tab.Until(`document.querySelector("#job-lesson")`)
	tap(tab, "#job-lesson")
	const asked = `document.querySelector("#lesson-check")`
	tab.Until(asked)
	tab.Still()
	sound(t, a, "a question")
	shot(t, tab, "lesson-asked")
	skips := func(to string) {
		for !browser.Eval[bool](tab, `document.querySelector("#lesson-title").textContent === "`+to+`"`) {
			tab.Until(asked)
			was := browser.Eval[string](tab, `document.querySelector("#lesson-title").textContent`)
			tap(tab, "#lesson-show")
			tab.Until(`document.querySelector("#lesson-next") && !document.querySelector("#lesson-skip")`)
			tap(tab, "#lesson-next")
			tab.Until(`document.querySelector("#lesson-title").textContent !== "` + was + `"`)
			if browser.Eval[bool](tab, `!!document.querySelector("#lesson-skip")`) {
				shot(t, tab, "lesson-given")
				tap(tab, "#lesson-skip")
			}
			tab.Until(asked)
		}
	}
	skips("Hip quarter")

	types := func(keys ...string) {
		for _, k := range keys {
			tap(tab, `.lesson .pad [data-key="`+k+`"]`)
		}
		tab.Until(`document.querySelector("#lesson-answer").value === "` + strings.Join(keys, "") + `"`)
		tap(tab, "#lesson-check")
	}
	types("2", "1")
	tab.Until(`document.querySelector(".lesson .note-stop")?.textContent.includes("Did you take a half? It is a quarter.")`)
	sound(t, a, "a wrong answer")
	shot(t, tab, "lesson-wrong")
	tap(tab, "#lesson-again")
	tab.Until(asked)
	types("1", "0", "½")
	tab.Until(`document.querySelector(".lesson .note-fine")?.textContent.includes("42 ÷ 4 = 10½")`)
	sound(t, a, "a right answer")
	shot(t, tab, "lesson-right")
	tap(tab, "#lesson-marks")
	const score = `document.querySelector("#lesson-score").textContent`
	tab.Until(score)
	if got := browser.Eval[string](tab, score); !strings.HasPrefix(got, "0 of ") || !strings.Contains(got, "1 after more tries") {
		t.Errorf("the marks are %q", got)
	}
	if rows := browser.Eval[string](tab, `document.querySelector("#lesson-rows").innerText`); !strings.Contains(rows, "21; 10½") {
		t.Errorf("the marksheet has\n%s", rows)
	}
	sound(t, a, "the marks")
	shot(t, tab, "lesson-marks")

	tap(tab, "#lesson-keep[aria-pressed=false]")
	tab.Until(`document.querySelector("#lesson-keep[aria-pressed=true]")`)
	retype(tab, "student", "Second bench")
	tap(tab, "#lesson-on")
	tab.Until(`document.querySelector("#lesson-title")?.textContent === "Hip quarter" && document.querySelector("#saving").textContent === "Saved"`)
	noProblems(t, tab)
	b.Kill()

	tab = browser.Open(t, profile).Tab()
	tab.On(browser.Screens()[0])
	tab.Goto(s.url("/#lesson"))
	tab.Until(`document.querySelector("#lesson-title")?.textContent === "Hip quarter" && document.querySelector(".lesson .note-fine")`)
	tap(tab, "#lesson-marks")
	tab.Until(value("student") + ` === "Second bench"`)
	tap(tab, "#lesson-leave")
	tab.Until(`document.querySelector("[data-sitting]")`)
	sound(t, audit.Of(t, tab), "where lessons begin")
	shot(t, tab, "lesson-home")
	noProblems(t, tab)
}

// sentTo is the sample with its measurements, as a link to a stall.
func sentTo(s *stall) string {
	_, fragment, _ := strings.Cut(sentDraft, "#")
	return s.url("/#" + fragment)
}

// TestHow opens the help of every stage from its one key, on a small phone, and
// comes back to where it was.
func TestHow(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.On(browser.Screens()[0])
	a := audit.Of(t, tab)
	tab.Goto(s.url("/"))
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	for _, stage := range []string{"book", "tape", "style", "draft", "cloth", "chalk", "bench", "fitting", "share", "house", "quote", "lesson", "order", "copy"} {
		switch stage {
		case "order":
			turnTo(tab, "book")
			tap(tab, "#details[aria-expanded=false]")
			press(tab, "Begin an order with it")
			tab.Until(`document.querySelector("#order-name") && document.querySelector("#garments .job")`)
		case "copy":
			noProblems(t, tab) // the stall has no copies, which the browser reports
		}
		browser.Eval[any](tab, `void (location.hash = "#`+stage+`")`)
		tab.Until(`document.querySelector("main .stage") && document.querySelector("#how[aria-expanded=false]")?.dataset.of === "` + stage + `"`)
		tab.Still()
		browser.Eval[any](tab, `window.scrollTo(0, 120)`)
		from := browser.Eval[int](tab, `window.scrollY`)
		tap(tab, "#how")
		tab.Until(`document.querySelector("#help")`)
		tab.Still()
		shot(t, tab, "how-"+stage)
		for _, fault := range a.Look() {
			t.Errorf("how %s: %s", stage, fault)
		}
		if stage == "draft" {
			sound(t, a, "how draft")
		}
		if words := browser.Eval[int](tab, `document.querySelector("#help").innerText.trim().split(/\s+/).length`); words > 130 {
			t.Errorf("%s: %d words", stage, words)
		}
		if drawn := browser.Eval[bool](tab, `!!document.querySelector("#help svg path")`); !drawn && stage != "copy" && stage != "quote" {
			t.Errorf("%s: no drawing", stage)
		}
		tap(tab, "#how-back")
		tab.Until(`!document.querySelector("#help") && location.hash === "#` + stage + `"`)
		tab.Until(`window.scrollY === ` + strconv.Itoa(from))
	}
}
