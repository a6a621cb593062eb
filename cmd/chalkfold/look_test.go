package main

import (
	"testing"

	"chalkfold/wasm/browser"
	"chalkfold/wasm/browser/audit"
)

const (
	// held keeps the program of a page from running until letGo is called.
	held = `window.held = new Promise((go) => (window.letGo = go));
		const instantiate = WebAssembly.instantiate;
		WebAssembly.instantiate = async (...args) => {
			await held;
			return instantiate.apply(WebAssembly, args);
		};`
	letGo     = `letGo(), true`
	lookKept  = `localStorage.getItem("chalkfold-look") !== null`
	bookAgain = `document.querySelector("#first.desk")`
)

// touchLook clicks the button of that name in what is seen before the program runs.
func touchLook(tab *browser.Tab, name string) {
	tab.UntilSeen(`((b) => b && (b.click(), b.matches(".touched")))([...document.querySelectorAll("#first.desk button")].find((b) => b.textContent === "` + name + `"))`)
}

// TestMorning opens the page when neither a server nor the service worker runs.
func TestMorning(t *testing.T) {
	s := openStall(t)
	br := browser.Open(t, "")
	tab := helped(t, br, s)
	tab.Until(readyOffline)
	tab.Close()
	s.shut()
	for _, address := range []string{"/", "/#book", "/?again"} {
		tab := br.Tab()
		tab.Morning()
		tab.Goto(s.url(address))
		tab.Until(stageStands + `?.textContent.includes("Alto 3")`)
		tab.Close()
	}
}

// TestBookAtOnce opens the page while its program is held back: what the Book showed last
// is seen, and a key that is touched there is pressed once the program runs.
func TestBookAtOnce(t *testing.T) {
	s := openStall(t)
	br := browser.Open(t, "")
	tab := helped(t, br, s)
	tab.Until(readyOffline)
	if browser.Eval[bool](tab, lookKept) {
		t.Error("a look was kept before the Book was at rest")
	}
	turnTo(tab, "book")
	tab.Until(lookKept)
	tab.Close()

	hold := func(address string) *browser.Tab {
		tab := br.Tab()
		tab.Before(held)
		tab.Goto(s.url(address))
		return tab
	}
	tab = hold("/?again")
	tab.UntilSeen(bookAgain + `?.textContent.includes("Alto 3")`)
	if browser.Eval[bool](tab, bookAgain+`.querySelector("#saving").textContent !== ""`) {
		t.Error("the look says that something is saved now")
	}
	shot(t, tab, "look")
	touchLook(tab, "Quote")
	touchLook(tab, "Go on: Cloth") // the last one counts
	shot(t, tab, "look-touched")
	a := audit.Of(t, tab)
	for _, check := range []func() []string{a.Axe, a.Look, a.Names} {
		for _, fault := range check() {
			t.Error(fault)
		}
	}
	browser.Eval[bool](tab, letGo)
	tab.Until(`location.hash === "#cloth" && document.querySelector("#saving")?.textContent === "Saved"`)
	tab.Close()

	// A key that is no longer there is not pressed, nor is another in its place.
	tab = br.Tab()
	tab.Before(held + `localStorage.setItem("chalkfold-look", localStorage.getItem("chalkfold-look").replace("Drafted, may be cut", "Measured"));`)
	tab.Goto(s.url("/?again"))
	tab.UntilSeen(bookAgain + `?.textContent.includes("Measured")`)
	touchLook(tab, "Go on: Cloth")
	browser.Eval[bool](tab, letGo)
	tab.Until(readyOffline)
	if hash := browser.Eval[string](tab, `location.hash`); hash != "" {
		t.Errorf("a key of a job that has changed led to %s", hash)
	}
	tab.Close()

	// Who opens a stage, or a link, is not shown the Book meanwhile.
	tab = hold("/?again#draft")
	tab.UntilSeen(`document.querySelector("#first-say")`)
	if browser.Eval[bool](tab, bookAgain+` !== null`) {
		t.Error("the Book is shown where a stage was asked for")
	}
	tab.Close()
}
