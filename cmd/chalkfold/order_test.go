package main

import (
	"testing"

	"chalkfold/wasm/browser"
)

// TestOrderOfWork ticks notions and steps, shuts the page in the middle and goes
// on where it was; it shares the work, and marks the band for the waist that was
// sewn.
func TestOrderOfWork(t *testing.T) {
	s := openStall(t)
	b := browser.Open(t, "")
	tab := b.Tab()
	tab.Goto(s.url("/"))
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	turnTo(tab, "bench")
	tap(tab, "[data-tick=zip]")
	tap(tab, "[data-step=mark][aria-expanded=true]")
	shot(t, tab, "order-notions")
	tap(tab, "[data-step=mark][aria-expanded=false]")
	said := `document.querySelector("#order-said").textContent`
	for _, done := range []string{"1 of ", "2 of "} {
		tap(tab, "#step-done[aria-pressed=false]")
		tab.Until(said + `.startsWith("` + done + `")`)
	}
	tab.Until(said + `.startsWith("2 of ") && document.querySelector("[data-step=folds][aria-expanded=true]")`)
	browser.Eval[any](tab, `document.querySelector("[data-step=folds]").scrollIntoView()`)
	shot(t, tab, "order-step")
	tab.Until(savedAs("Alto 3"))
	tab.Goto("about:blank")
	tab.Goto(s.url("/?again#bench"))
	tab.Until(said + `.startsWith("2 of ") && document.querySelector("[data-step=folds][aria-expanded=true]") && document.querySelector("[data-tick=zip][aria-pressed=true]")`)
	tap(tab, "[data-step=side]")
	tab.Until(`document.querySelector("#step .paper path.now") && document.querySelector("#step .note") === null`)
	browser.Eval[any](tab, `document.querySelector("[data-step=side]").scrollIntoView()`)
	shot(t, tab, "order-side")
	tap(tab, "[data-step=measure]")
	retype(tab, "made-up", "35")
	tab.Until(`document.querySelector("#made-up-says").textContent.startsWith("½ in more") && document.querySelectorAll("#step tbody tr").length >= 5`)
	browser.Eval[any](tab, `document.querySelector("#made-up").scrollIntoView()`)
	shot(t, tab, "order-made-up")
	for _, f := range illFitting(tab) {
		t.Errorf("the bench: %s", f)
	}
	tap(tab, "#sewn-with")
	press(tab, "two, side by side")
	tab.Until(`document.querySelector("#order").textContent.includes("Second worker")`)
	tap(tab, "[data-step=band]")
	tab.Until(`document.querySelector("#step").textContent.includes("Take over from the other")`)
	browser.Eval[any](tab, `document.querySelector("#order").scrollIntoView()`)
	shot(t, tab, "order-two")
	browser.Eval[any](tab, `document.querySelector("[data-step=band]").scrollIntoView()`)
	shot(t, tab, "order-band")
	noProblems(t, tab)
}
