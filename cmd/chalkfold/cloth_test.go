package main

import (
	"fmt"
	"testing"

	"chalkfold/wasm/browser"
)

const (
	// covered is how many pieces of the lay lie under a place of the drawing, as
	// the browser reckons.
	covered  = `((p) => [...document.querySelectorAll(".lay .paper .cut")].filter((c) => c.isPointInFill(p)).length)(new DOMPoint(%f, %f))`
	cutLines = `document.querySelectorAll(".lay .paper .cut").length`
	enough   = `document.querySelector("#lay-verdict .note-fine") && document.querySelector("#advice").hidden`
	tooShort = `document.querySelector("#lay-verdict .note-stop") && !document.querySelector("#advice").hidden`
)

// TestShortCloth goes the maker's way with cloth that is too short: she asks what
// can give and taps it, and it fits; she marks a flaw, and no piece lies on it;
// she folds the cloth another way; and she takes a piece by keys to where the
// cloth is opened out, and the others are laid round it.
func TestShortCloth(t *testing.T) {
	t.Parallel()
	tab := helped(t, browser.Open(t, ""), openStall(t))
	look := func(what, at string) {
		browser.Eval[any](tab, `document.querySelector("`+at+`").scrollIntoView({block: "start"})`)
		tab.Still()
		shot(t, tab, "short-"+what)
	}
	fold := func(n int) { tap(tab, fmt.Sprintf("#choose-cloth-main-fold button:nth-child(%d)", n)) }

	// The search is stopped as soon as it shows what is waited for.
	found := func(what string) {
		tab.Until(what)
		browser.Eval[any](tab, `document.querySelector("#lay-stop:not([hidden])")?.click()`)
		tab.Until(laid)
	}

	turnTo(tab, "cloth")
	found(enough)
	retype(tab, "cloth-main-length", "1 5/8 yd")
	found(tooShort)
	look("short", "#lay-verdict")
	tap(tab, "#advice-ask")
	tab.Until(`document.querySelector('#advice [data-fits="true"] .cure')`)
	look("gifts", "#advice")
	tap(tab, "#advice-stop")
	look("stopped", "#advice")
	tap(tab, `#advice [data-fits="true"] .cure`)
	found(enough)
	look("given", "#lay-verdict")

	tap(tab, "#cloth-more")
	tap(tab, "#flaw-mark")
	browser.Eval[any](tab, `document.querySelector(".lay .paper").scrollIntoView({block: "start"})`)
	tab.Still()
	at := pieceAt(tab, 1)
	on := cloth(tab, at)
	if n := browser.Eval[int](tab, fmt.Sprintf(covered, on.X, on.Y)); n != 1 {
		t.Fatalf("%d pieces lie where the flaw is marked, want 1", n)
	}
	touch(tab, []place{at, at})
	found(`document.querySelector(".lay .paper .flaw")`)
	if n := browser.Eval[int](tab, fmt.Sprintf(covered, on.X, on.Y)); n != 0 {
		t.Errorf("%d pieces lie on the flaw", n)
	}
	shot(t, tab, "short-flaw")
	tap(tab, "#flaw-gone-0")
	found(`!document.querySelector(".lay .paper .flaw")`)
	tap(tab, "#cloth-more")

	retype(tab, "cloth-main-length", "2 1/4 yd")
	fold(1) // lengthwise, if the gift was to open it
	tab.Until(`document.querySelector("#choose-cloth-main-fold button:nth-child(1)[aria-pressed=true]")`)
	tab.Still()
	found(enough)
	folded := browser.Eval[int](tab, cutLines)
	fold(2) // open: what was cut through both layers is cut one by one
	found(enough + fmt.Sprintf(` && %s > %d`, cutLines, folded))
	look("laid-open", ".lay .paper")
	fold(3) // across
	found(fmt.Sprintf(`%s <= %d`, cutLines, folded))
	look("across", ".lay .paper")
	fold(1) // lengthwise
	found(enough + fmt.Sprintf(` && %s === %d`, cutLines, folded))

	tap(tab, "#take-3")
	tab.Until(handUp)
	look("hand", "#on-table")
	tap(tab, "#hand-part")
	tab.Until(pinned + ` === 1`)
	look("opened", "#on-table")
	put := pieceOn(tab, 3)
	tap(tab, "#hand-down")
	found(handEmpty)
	if now := pieceOn(tab, 3); now != put {
		t.Errorf("the others laid, the piece lies at %v across, and was put at %v", now, put)
	}
	tap(tab, "#buy-open")
	tab.Until(`document.querySelector("#buy-table")`)
	look("buy", "#buy")
	tap(tab, "#buy-stop")
	noProblems(t, tab)
}

// pieceOn is how far across the cloth a piece lies, by its number, in tenths of a
// millimetre.
func pieceOn(tab *browser.Tab, no int) int {
	return browser.Eval[int](tab, fmt.Sprintf(`Math.round(10 * document.querySelector('[data-id="item-%d"] .cut').getBBox().x)`, no-1))
}
