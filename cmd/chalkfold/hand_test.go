package main

import (
	"fmt"
	"testing"

	"chalkfold/wasm/browser"
)

// pieceAt is where a piece of the lay stands in the window, by its number.
func pieceAt(tab *browser.Tab, no int) place {
	xy := browser.Eval[[]float64](tab, fmt.Sprintf(`((b) => [b.left + b.width / 2, b.top + b.height / 2])(document.querySelector('[data-id="item-%d"] .cut').getBoundingClientRect())`, no-1))
	return place{xy[0], xy[1]}
}

const (
	handUp    = `document.querySelector("#in-hand:not([hidden])")`
	handEmpty = `document.querySelector("#in-hand[hidden]")`
	pinned    = `document.querySelectorAll(".lay .cut.kept").length`
)

// takeUp takes a piece up by its number and brings the drawing into sight.
func takeUp(tab *browser.Tab, no int) {
	tap(tab, fmt.Sprintf("#take-%d", no))
	tab.Until(handUp)
	browser.Eval[any](tab, `document.querySelector("#on-table").scrollIntoView({block: "start"})`)
	tab.Still()
}

// TestLayByHand drags a piece with a finger, moves it with keys, and finds it
// where it was put when the page is opened again.
func TestLayByHand(t *testing.T) {
	t.Parallel()
	s := openStall(t)
	tab := helped(t, browser.Open(t, ""), s, laysQuickly)
	turnTo(tab, "cloth")
	tab.Until(laid)
	browser.Eval[any](tab, `document.querySelector(".lay .drawing").scrollIntoView({block: "center"})`)
	shot(t, tab, "hand-empty")

	const no = 5 // a small piece, for which there is room at the end of the cloth
	takeUp(tab, no)
	was := pieceAt(tab, no)
	end := browser.Eval[float64](tab, `document.querySelector(".lay .drawing").getBoundingClientRect().bottom`)
	touch(tab, straight(was, place{was.x, end - 40}))
	tab.Until(pinned + ` === 1`)
	dragged := pieceAt(tab, no)
	if dragged == was {
		t.Error("the finger moved nothing")
	}
	shot(t, tab, "hand-dragged")
	tap(tab, "#hand-downward")
	tab.Still()
	if now := pieceAt(tab, no); now.y <= dragged.y {
		t.Errorf("one step down led from %v to %v", dragged, now)
	}
	tap(tab, "#hand-down")
	tab.Until(handEmpty + ` && ` + laid)
	cut := browser.Eval[string](tab, `document.querySelector(".lay .cut.kept").getAttribute("d")`)
	tab.Until(`document.querySelector(".saving")?.textContent === "Saved"`)
	shot(t, tab, "hand-kept")

	tab.Goto(s.url("/#cloth"))
	browser.Eval[any](tab, `location.reload()`)
	tab.Until(`document.querySelector("#stages")`)
	tab.Until(laid + ` && ` + pinned + ` === 1`)
	if got := browser.Eval[string](tab, `document.querySelector(".lay .cut.kept").getAttribute("d")`); got != cut {
		t.Errorf("opened again, the piece lies at\n%.80s, was put at\n%.80s", got, cut)
	}
	tap(tab, "#let-all-go")
	tab.Until(laid + ` && ` + pinned + ` === 0`)
	noProblems(t, tab)
}
