package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"

	"chalkfold/wasm/browser"
)

// TestBack: the phone's Back key closes what covers a stage, the topmost first, before
// it leaves the stage; what was closed by its own key, or left by going on, costs no
// press of it.
func TestBack(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.On(browser.Screens()[0])
	tab.Calm()
	tab.Goto(s.url("/"))
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	back := func() { browser.Eval[any](tab, `void history.back()`) }
	const listed, helped, full, pad = `document.querySelector("#stages[data-open=true]")`, `document.querySelector("#help")`, `document.querySelector(".draft.full")`, `document.querySelector(".pad")`
	stands := func(stage, more string) {
		t.Helper()
		tab.Until(`location.hash === "#` + stage + `" && document.querySelector('.stage-link[data-stage="` + stage + `"][aria-current]') && ` + more)
	}
	turnTo(tab, "book")
	turnTo(tab, "style")

	// The list of stages: closed, or gone on from.
	tap(tab, "#all-stages")
	tab.Until(listed)
	back()
	stands("style", "!"+listed)
	tap(tab, "#all-stages")
	tab.Until(listed)
	tap(tab, "#stages [data-stage=draft]")
	stands("draft", "!"+listed)
	back()
	stands("style", "!"+listed)

	// The help comes back to where the page was; by its own key it leaves no step.
	browser.Eval[any](tab, `window.scrollTo(0, 120)`)
	tap(tab, "#how")
	tab.Until(helped + ` && window.scrollY === 0`)
	back()
	stands("style", "!"+helped+` && window.scrollY === 120`)
	tap(tab, "#how")
	tab.Until(helped)
	tap(tab, "#how-back")
	stands("style", "!"+helped)
	back()
	stands("book", "true")

	// One over the other.
	turnTo(tab, "draft")
	tap(tab, "#fill")
	tab.Until(full)
	tap(tab, "#all-stages")
	tab.Until(listed)
	back()
	stands("draft", full+" && !"+listed)
	back()
	stands("draft", "!"+full)
	back()
	stands("book", "true")

	// The keys of the tape, which a tap on the same field brings again.
	turnTo(tab, "tape")
	for range 2 {
		tab.Do(chromedp.Click(chromedp.ID("waist_girth")))
		tab.Until(pad)
		back()
		stands("tape", "!"+pad)
	}

	// A photo.
	turnTo(tab, "fitting")
	file := filepath.Join(t.TempDir(), "IMG_1.jpg")
	if err := os.WriteFile(file, fromCamera(t, 800, 600), 0o600); err != nil {
		t.Fatal(err)
	}
	photograph(tab, "fitting", file, photosShown("fitting", "1"))
	tap(tab, "#photos-fitting .photo")
	tab.Until(`document.querySelector("#photo-close")`)
	back()
	stands("fitting", `!document.querySelector("#photo-close") && document.querySelector("#photos-fitting .photo")`)
	back()
	stands("tape", "!"+pad)
	noProblems(t, tab)
}
