package main

import (
	"testing"

	"github.com/chromedp/chromedp"

	"chalkfold/wasm/browser"
)

// TestFitting fits a garment that is cut: a sign is tapped, an alteration tried by
// another amount, laid over what was before and kept with the client; her next job
// has it, and it can be taken out there.
func TestFitting(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.Goto(s.url("/"))
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	turnTo(tab, "book")
	tap(tab, "#details[aria-expanded=false]")
	tab.Do(chromedp.SendKeys(chromedp.ID("job-client"), "Adama"))
	press(tab, "New client: Adama")
	tab.Until(`document.querySelector("#look")?.textContent === "Adama"`)
	press(tab, "Cut")
	turnTo(tab, "fitting")
	tab.Until(`document.querySelectorAll("#signs [data-sign]").length > 5`)
	shot(t, tab, "fitting-signs-front")
	press(tab, "Side")
	tab.Until(`document.querySelector("[data-sign=long_hem]")`)
	shot(t, tab, "fitting-signs-side")
	tap(tab, "[data-sign=side_slack]")
	tab.Until(`document.querySelector("#sign")`)
	tap(tab, "[data-alter=side_shorter]")
	tab.Until(`document.querySelector("#choose-alter-sides [aria-pressed=true]")?.textContent === "both"`)
	press(tab, "left")
	tab.Until(`document.querySelector("#changes")?.textContent.includes(", left")`)
	shot(t, tab, "fitting-one-side")
	for _, f := range illFitting(tab) {
		t.Errorf("one side: %s", f)
	}
	browser.Eval[any](tab, `document.querySelector("#trial .drawing, #trial svg")?.scrollIntoView()`)
	shot(t, tab, "fitting-one-side-drawn")
	tap(tab, "#all-signs")
	tab.Until(`document.querySelector("[data-sign=long_hem]")`)
	press(tab, "Back")
	tab.Until(`document.querySelector("[data-sign=seat_ropes]")`)
	shot(t, tab, "fitting-signs-back")
	tap(tab, "[data-sign=seat_ropes]")
	tab.Until(`document.querySelector("#sign")`)
	shot(t, tab, "fitting-sign")
	tap(tab, "[data-alter=back_longer]")
	amount := `document.querySelector("#trial .amount strong")?.textContent`
	tab.Until(amount + ` === "½ in"`)
	tap(tab, `#trial [aria-label=less]`)
	tab.Until(amount + ` === "⅜ in"`)
	shot(t, tab, "fitting-trial")
	browser.Eval[any](tab, `document.querySelector("#changes").scrollIntoView()`)
	shot(t, tab, "fitting-changes")
	browser.Eval[any](tab, `document.querySelector("#recut").scrollIntoView()`)
	shot(t, tab, "fitting-recut")
	for _, f := range illFitting(tab) {
		t.Errorf("the trial: %s", f)
	}
	press(tab, "Also the next ones of Adama")
	tab.Until(`document.querySelector("#altered")?.textContent.includes("⅜ in")`)
	tab.Until(savedAs("Alto 3"))
	shot(t, tab, "fitting-altered")

	// Undone, and made again.
	tap(tab, "#undo")
	tab.Until(`document.querySelector("#altered").hidden`)
	tap(tab, "#redo")
	tab.Until(`!document.querySelector("#altered").hidden`)
	tab.Until(savedAs("Alto 3"))

	nextPair(tab)
	tab.Until(`document.querySelector("#hers")?.textContent.includes("⅜ in")`)
	browser.Eval[any](tab, `document.querySelector("#hers").scrollIntoView()`)
	shot(t, tab, "fitting-hers")
	tap(tab, "[data-hers=back_longer]")
	tab.Until(`document.querySelector("#hers").hidden`)
	noProblems(t, tab)
}

// nextPair begins another job for the client of the open one, measures her, and turns
// to its draft.
func nextPair(tab *browser.Tab) {
	turnTo(tab, "book")
	tap(tab, "#look")
	press(tab, "New job for this client")
	tab.Until(deskStands + ` && ` + ticketText + ` === ""`)
	tab.Do(
		chromedp.SendKeys(chromedp.ID("ticket"), "Alto 4"),
		chromedp.SendKeys(chromedp.ID("waist_girth"), "34"),
		chromedp.SendKeys(chromedp.ID("hip_girth"), "42"),
		chromedp.SendKeys(chromedp.ID("outside_leg_length"), "40"),
	)
	tab.Until(savedAs("Alto 4"))
	turnTo(tab, "draft")
}
