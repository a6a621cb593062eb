package main

import (
	"testing"

	"github.com/chromedp/chromedp"

	"chalkfold/wasm/browser"
)

// TestClient makes a job for a client who is new, promises it, ticks what is
// done, and finds all of it when the page is opened anew; her next job starts
// from what is known of her, and has nothing measured.
func TestClient(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.Goto(s.url("/"))
	tab.Until(`document.querySelector("#welcome:not([hidden])")`)
	tab.Still()
	shot(t, tab, "book-first")
	press(tab, "New job")
	tab.Until(deskStands)
	tab.Do(
		chromedp.SendKeys(chromedp.ID("ticket"), "Alto 5"),
		chromedp.SendKeys(chromedp.ID("waist_girth"), "34"),
		chromedp.SendKeys(chromedp.ID("hip_girth"), "42 1/2"),
		chromedp.SendKeys(chromedp.ID("outside_leg_length"), "40"),
	)
	press(tab, "women")
	tab.Until(savedAs("Alto 5"))
	turnTo(tab, "book")
	tap(tab, "#details[aria-expanded=false]")
	tab.Do(chromedp.SendKeys(chromedp.ID("job-client"), "Éléonore"))
	press(tab, "New client: Éléonore")
	tab.Until(`document.querySelector("#look")?.textContent === "Éléonore"`)
	press(tab, "In a week")
	press(tab, "A day later")
	tab.Until(`document.querySelector("#due").textContent.includes("in 8 days")`)
	press(tab, "Cut")
	tab.Do(chromedp.SendKeys(chromedp.ID("job-note"), "the hem\nby hand"))
	state := `document.querySelector("#open-job .state").textContent`
	tab.Until(state + ` === "Cut"`)
	shot(t, tab, "book-details")
	for _, f := range illFitting(tab) {
		t.Errorf("the details: %s", f)
	}
	tap(tab, "#undo") // the note, then the milestone
	tap(tab, "#undo")
	tab.Until(state + ` !== "Cut"`)
	tap(tab, "#redo")
	tap(tab, "#redo")
	tab.Until(state + ` === "Cut"`)
	tab.Until(savedAs("Alto 5"))

	tab.Goto(s.url("/?again#book"))
	tab.Until(state + ` === "Cut"`)
	for what, js := range map[string]string{
		"the client": `.job-for span`, "the day": `.due`,
	} {
		want := map[string]string{"the client": "Éléonore", "the day": "in 8 days"}[what]
		if got := browser.Eval[string](tab, `document.querySelector("#open-job `+js+`").textContent`); got != want {
			t.Errorf("opened anew, %s is %q, want %q", what, got, want)
		}
	}
	tap(tab, "#details[aria-expanded=false]")
	tab.Until(value("job-note") + ` === "the hem\nby hand"`)
	press(tab, "Go on: Bench")
	tab.Until(`document.querySelector("#pieces:not([hidden]) [data-piece=front]")`)

	// Her next job, from her own screen.
	turnTo(tab, "book")
	looks(tab, "clients")
	shot(t, tab, "book-clients")
	tap(tab, "#clients .job")
	tab.Until(`document.querySelector("#takings").textContent.includes("42½ in")`)
	retype(tab, "client-name", "Eleonore")
	tab.Until(`document.querySelector("#saving").textContent === "Saved"`)
	shot(t, tab, "client")
	browser.Eval[any](tab, `document.querySelector("#takings").scrollIntoView()`)
	shot(t, tab, "client-takings")
	for _, f := range illFitting(tab) {
		t.Errorf("the client: %s", f)
	}
	press(tab, "New job for this client")
	tab.Until(deskStands + ` && ` + ticketText + ` === "" && ` + value("hip_girth") + ` === ""`)
	tab.Until(`[...document.querySelectorAll("[aria-pressed=true]")].some((b) => b.textContent === "women")`)
	tab.Do(chromedp.SendKeys(chromedp.ID("ticket"), "Alto 6"), chromedp.SendKeys(chromedp.ID("hip_girth"), "43"))
	tab.Until(savedAs("Alto 6"))
	turnTo(tab, "book")
	looks(tab, "jobs")
	tab.Until(tickets + ` === "Alto 6,Alto 5"`)
	tab.Until(`[...document.querySelectorAll(".job-for span:first-child")].every((e) => e.textContent === "Eleonore")`)
	shot(t, tab, "book-due")
	tap(tab, "#details[aria-expanded=false]")
	tap(tab, "#look")
	tab.Until(`document.querySelector("#client") && document.querySelector("#open-job").hidden`)
	taken := `[...document.querySelectorAll(".taking")].map((e) => e.textContent).join()`
	tab.Until(taken + ` === "34 in,43 in,42½ in,40 in"`)
	noProblems(t, tab)
}

// TestBenchAndFitting ticks pieces, measures the sewn waist, keeps what was
// seen, and finds it all after a reload.
func TestBenchAndFitting(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.Goto(s.url("/"))
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	turnTo(tab, "bench")
	tap(tab, "[data-piece=front]")
	tap(tab, "[data-piece=back]")
	tab.Until(`document.querySelector("#cut-count").textContent.startsWith("2 of ")`)
	shot(t, tab, "bench")
	retype(tab, "made-up", "35")
	tab.Until(`document.querySelector("#made-up-says .doubt:not([hidden])")?.textContent.startsWith("½ in more")`)
	browser.Eval[any](tab, `document.querySelector("#notches").scrollIntoView()`)
	shot(t, tab, "bench-notches")
	browser.Eval[any](tab, `document.querySelector("#band").scrollIntoView()`)
	shot(t, tab, "bench-band")
	tap(tab, "[data-tick=sewn]")
	turnTo(tab, "fitting")
	press(tab, "Today")
	tab.Do(chromedp.SendKeys(chromedp.ID("seen"), "gapes at the back"))
	tab.Until(savedAs("Alto 3"))
	shot(t, tab, "fitting")
	browser.Eval[any](tab, `document.querySelector("#fitting-girths").scrollIntoView()`)
	shot(t, tab, "fitting-girths")
	browser.Eval[any](tab, `document.querySelector("#rooms").scrollIntoView()`)
	shot(t, tab, "fitting-rooms")
	tab.Goto(s.url("/?again#fitting"))
	tab.Until(value("seen") + ` === "gapes at the back" && document.querySelector("#fitting-day").textContent.includes("today")`)
	turnTo(tab, "bench")
	tab.Until(value("made-up") + ` === "35" && document.querySelectorAll(".cut-piece[aria-pressed=true]").length === 2`)
	tab.Until(`document.querySelector("[data-tick=sewn][aria-pressed=true]") && document.getAnimations().every((a) => a.playState !== "running")`)
	for _, f := range illFitting(tab) {
		t.Errorf("the bench: %s", f)
	}
	noProblems(t, tab)
}
