package main

import (
	"context"
	"fmt"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"chalkfold/wasm/browser"
)

// locks stands in for the browser's own wake lock, and writes down what was
// asked of it. letGo is what a browser does when the page goes out of sight.
const locks = `
	window.asked = 0;
	window.locks = [];
	window.held = () => locks.filter((l) => !l.released).length;
	window.letGo = () => locks.forEach((l) => l.released = true);
	Object.defineProperty(navigator, "wakeLock", {value: {request: async (kind) => {
		if (kind !== "screen") throw new TypeError(kind);
		asked++;
		const lock = {released: false, async release() { this.released = true }};
		locks.push(lock);
		return lock;
	}}});`

// instead runs a script in every page of the tab before its own.
func instead(tab *browser.Tab, script string) {
	tab.Do(func(ctx context.Context, _ *chromedp.Target) (chromedp.Void, error) {
		_, err := chromedp.Call(ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: script})
		return chromedp.Void{}, err
	})
}

// chalked is that the guide shows that mark of its so many.
func chalked(no int) string {
	return fmt.Sprintf(`document.querySelector("#mark-place")?.textContent.includes(", %d of ")`, no)
}

// TestChalkWhole follows the marks on a screen that they have to themselves: by
// the large areas, by the keys, by a keyboard; the screen stays on meanwhile.
func TestChalkWhole(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	instead(tab, locks)
	tab.Goto(s.url("/"))
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	if n := browser.Eval[int](tab, `asked`); n != 0 {
		t.Errorf("the screen is kept on %d times before there is anything to chalk", n)
	}
	turnTo(tab, "chalk")
	tab.Until(chalked(1) + ` && held() === 1 && document.querySelector("#awake").textContent.includes("stays on")`)
	shot(t, tab, "chalk")
	tab.Do(chromedp.Tap(chromedp.CSS("#mark-whole"))) // a finger's: the browser asks for one
	tab.Until(`document.querySelector(".bare") && !document.querySelector(".head").offsetParent && !document.querySelector(".bar").offsetParent`)

	// Touch: a third of the picture goes back, the rest on.
	for _, step := range []struct {
		area string
		mark int
	}{{"#area-on", 2}, {"#area-on", 3}, {"#area-back", 2}, {"#mark-next", 3}, {"#mark-back", 2}} {
		browser.Eval[any](tab, `document.querySelector("`+step.area+`").scrollIntoView({block: "center"})`)
		tab.Do(chromedp.Tap(chromedp.CSS(step.area)))
		tab.Until(chalked(step.mark))
	}
	share := browser.Eval[float64](tab, `document.querySelector("#area-on").offsetWidth / document.querySelector(".mark-look").offsetWidth`)
	if share < 0.65 || share > 0.68 {
		t.Errorf("%.2f of the picture goes on, want two thirds", share)
	}

	// A keyboard, with the focus on nothing.
	browser.Eval[any](tab, `document.activeElement.blur()`)
	for _, step := range []struct {
		key  string
		mark int
	}{{kb.ArrowRight, 3}, {" ", 4}, {kb.Enter, 5}, {"n", 6}, {kb.ArrowLeft, 5}, {kb.Backspace, 4}, {"p", 3}, {kb.End, 0}, {kb.Home, 1}} {
		mark := step.mark
		if mark == 0 {
			mark = browser.Eval[int](tab, `+document.querySelector("#mark-place").textContent.match(/of (\d+)/)[1]`)
		}
		tab.Do(chromedp.KeyEvent(step.key))
		tab.Until(chalked(mark))
	}

	// Readable at arm's length: the figure, on every mark of the front.
	for i := range 60 {
		tab.Until(chalked(i + 1))
		got := browser.Eval[string](tab, `((f) => !f ? "" : [
			parseFloat(getComputedStyle(f).fontSize) >= 96 ? "" : "small",
			f.scrollWidth > f.clientWidth ? "cut off" : "",
			document.documentElement.scrollWidth > innerWidth ? "beyond the side" : "",
		].join(" ").trim())(document.querySelector("#mark-figure:not([hidden])"))`)
		if got != "" {
			t.Errorf("the figure of mark %d is %s", i+1, got)
		}
		if i == 10 || i == 12 || i == 25 {
			shot(t, tab, fmt.Sprintf("chalk-whole-%d", i+1))
		}
		tab.Do(chromedp.KeyEvent(kb.ArrowRight))
	}
	turned(tab)
	browser.Eval[any](tab, `scrollTo(0, 0)`)
	shot(t, tab, "chalk-turned")
	wide(tab)
	shot(t, tab, "chalk-wide")

	// The browser lets go of the screen while the page is out of sight.
	browser.Eval[any](tab, `(letGo(), asked = 0, document.dispatchEvent(new Event("visibilitychange")))`)
	tab.Until(`asked === 1`)
	tab.Until(`held() === 1`)

	tab.Do(chromedp.KeyEvent(kb.Escape))
	tab.Until(`!document.querySelector(".bare") && document.querySelector(".head").offsetParent`)
	place := browser.Eval[string](tab, `document.querySelector("#mark-place").textContent`)
	tab.Do(chromedp.Click(chromedp.CSS(`[data-stage="bench"]`)))
	tab.Until(`!document.querySelector("#mark") && held() === 0`)
	tab.Until(savedAs("Alto 3"))
	tab.Goto(s.url("/?again#chalk"))
	tab.Until(`document.querySelector("#mark-place")?.textContent === "` + place + `" && held() === 1`)
	noProblems(t, tab)
}

// TestChalkSleeps is the guide in a browser that cannot keep the screen on.
func TestChalkSleeps(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	instead(tab, `Object.defineProperty(navigator, "wakeLock", {value: undefined})`)
	tab.Goto(s.url("/"))
	press(tab, "Open the sample")
	turnTo(tab, "chalk")
	tab.Until(`document.querySelector("#awake")?.textContent.includes("lets the screen go dark")`)
	noProblems(t, tab)
}
