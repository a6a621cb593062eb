package main

import (
	"testing"

	"chalkfold/wasm/browser"
)

// drawnSmall is how many choices of the open question have their drawing.
const drawnSmall = `[...document.querySelectorAll(".drawn .small")].filter((s) => s.querySelector("svg path")).length`

// TestStyleIsDrawn asks the questions of style: every answer is a drawing, and
// the sketch changes with what is chosen, before and after anyone is measured.
func TestStyleIsDrawn(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, t.TempDir()).Tab()
	tab.Goto(s.url("/#style"))
	tab.Until(`document.querySelector(".on-style svg path") && document.querySelector(".sketch").textContent.includes("until the client is measured")`)
	shot(t, tab, "style-middle")

	turnTo(tab, "book")
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	turnTo(tab, "style")
	tab.Until(`document.querySelectorAll(".ask .small svg path").length > 0 && !document.querySelector(".ask .small:empty:not([hidden])")`)
	shot(t, tab, "style-questions")
	for _, q := range []struct{ option, choice string }{
		{"closure", "front fly, right over left"},
		{"front_dart", "sewn"},
		{"back_dart", "none"},
		{"pocket", "none"},
		{"leg", "free from the thigh"},
		{"crease", "pressed"},
	} {
		tap(tab, "#ask-"+q.option+"[aria-expanded=false]")
		tab.Until(`document.querySelector("#ask-` + q.option + `[aria-expanded=true]")`)
		tab.Until(drawnSmall + ` === document.querySelectorAll(".drawn").length`)
		tab.Until(`((top, first, bar) => first >= top && first < bar - 48)(document.querySelector(".sketch").getBoundingClientRect().bottom,
			document.querySelector(".drawn").getBoundingClientRect().top, document.querySelector(".bar").getBoundingClientRect().top)`)
		before := browser.Eval[string](tab, `document.querySelector(".on-style svg").outerHTML`)
		browser.Eval[any](tab, `document.querySelector("#ask-`+q.option+`").scrollIntoView({block: "center"})`)
		shot(t, tab, "style-"+q.option)
		press(tab, q.choice)
		tab.Until(`[...document.querySelectorAll(".drawn[aria-pressed=true]")].some((k) => k.textContent === "` + q.choice + `")`)
		browser.Eval[any](tab, `window.sketchBefore = `+quoted(before))
		tab.Until(`document.querySelector(".on-style svg").outerHTML !== sketchBefore`)
		tap(tab, "#ask-"+q.option)
		tab.Until(`!document.querySelector(".drawn")`)
	}
	shot(t, tab, "style-all-changed")
	tab.On(browser.Screens()[2])
	tap(tab, "#ask-leg")
	shot(t, tab, "style-laptop")

	// On its side the sketch stands beside the questions, also the last of them.
	tab.On(browser.Screens()[1])
	tab.Until(`((last) => (last.scrollIntoView({block: "nearest"}), ((ask, sketch, bar) => sketch.right <= ask.left && sketch.top >= 0 && sketch.bottom <= bar && ask.bottom <= bar)(
		last.getBoundingClientRect(), document.querySelector(".on-style").getBoundingClientRect(), document.querySelector(".bar").getBoundingClientRect().top)))(
		[...document.querySelectorAll(".ask")].at(-1))`)
	shot(t, tab, "style-side")
	tab.On(browser.Screens()[0])
	tap(tab, "#fold-sketch")
	tab.Until(`document.querySelector(".on-style").getClientRects().length === 0`)
	noProblems(t, tab)
}
