package main

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"chalkfold/wasm/browser"
)

// tabTo goes on by the Tab key until the element e that has the keys is so.
func tabTo(t *testing.T, tab *browser.Tab, so string) {
	t.Helper()
	var met []string
	for range 150 {
		tab.Do(chromedp.KeyEvent(kb.Tab))
		if browser.Eval[bool](tab, `((e) => `+so+`)(document.activeElement)`) {
			return
		}
		met = append(met, browser.Eval[string](tab, `((e) => e.id || e.className)(document.activeElement)`))
	}
	t.Fatalf("the Tab key never comes to %s, but to %s", so, strings.Join(met, ", "))
}

// TestKeyboardAlone goes with the keyboard alone from the first visit over the tape,
// the style and the draft to the marks, and takes a change back.
func TestKeyboardAlone(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.On(browser.Screens()[2])
	tab.Goto(s.url("/"))
	enter := func(so string) {
		t.Helper()
		tabTo(t, tab, so)
		tab.Do(chromedp.KeyEvent(kb.Enter))
	}
	turn := func(stage string) {
		t.Helper()
		enter(`e.dataset.stage === "` + stage + `"`)
		tab.Until(`document.querySelector('.stage-link[data-stage="` + stage + `"][aria-current]')`)
	}
	tab.Until(`document.querySelector("main .stage")`)
	enter(`e.textContent === "Open the sample"`)
	tab.Until(savedAs("Alto 3"))

	turn("tape")
	tabTo(t, tab, `e.id === "waist_girth"`)
	tab.Do(chromedp.KeyEvent("36")) // what has the keys is typed over
	tab.Until(value("waist_girth") + ` === "36"`)
	tab.Do(chromedp.KeyEvent(kb.Enter))
	tab.Until(`document.activeElement.id === "hip_girth"`)

	turn("style")
	tab.Until(`document.querySelector("#ask-hem .small svg path")`)
	enter(`e.id === "ask-hem"`)
	enter(`e.matches("#choose-hem .drawn[aria-pressed=false]")`)
	tab.Until(`!document.querySelector("#choose-hem .drawn:first-child[aria-pressed=true]")`)

	turn("draft")
	tab.Until(`document.querySelector("#verdict")`)
	enter(`e.textContent === "Lines"`)
	tab.Until(`document.querySelector("#lines")`)
	tabTo(t, tab, `e.matches(".paper")`)
	whole := scale(tab)
	tab.Do(chromedp.KeyEvent("+"))
	tab.Still()
	if scale(tab) <= whole {
		t.Error("+ does not look nearer")
	}
	enter(`e.matches('.about-thing [aria-label="the next one"]')`)
	tab.Until(`document.querySelector("#thing-sum")`)
	enter(`e.matches(".thing .step-key")`)
	tab.Until(`document.querySelector("#undo:not([disabled])")`)

	turn("chalk")
	tab.Until(`document.querySelector("#mark-next")`)
	tabTo(t, tab, `e.id === "mark-next"`)
	tab.Do(chromedp.KeyEvent(" "))
	tab.Until(`document.querySelector("#mark-place").textContent.includes(" 2 of ")`)

	turn("tape")
	for range 5 { // the mark, the line, the style, and two figures of the waist at most
		if browser.Eval[string](tab, value("waist_girth")) == "34" {
			break
		}
		enter(`e.id === "undo"`)
		tab.Still()
	}
	tab.Until(value("waist_girth") + ` === "34"`)
	noProblems(t, tab)
}
