package main

import (
	"testing"

	"github.com/chromedp/chromedp"

	"chalkfold/wasm/browser"
)

// listens notes all that a page can ask of its visitor.
const listens = `window.askedFor = [];
	const note = (on, name) => { if (on && on[name]) on[name] = () => { askedFor.push(name); return new Promise(() => {}); }; };
	for (const name of ["alert", "confirm", "prompt"]) note(window, name);
	note(window.Notification, "requestPermission");
	note(navigator.geolocation, "getCurrentPosition");
	note(navigator.geolocation, "watchPosition");
	note(navigator.mediaDevices, "getUserMedia");
	note(navigator.credentials, "get");`

// touches puts a finger on the key of that name, which must be in sight as the
// screen opens.
func touches(t *testing.T, tab *browser.Tab, name string) {
	t.Helper()
	tab.Until(`window.sought = [...document.querySelectorAll("button, a")].find((b) => b.checkVisibility() && b.textContent === "` + name + `")`)
	at := browser.Eval[[]float64](tab, `(() => {
		const r = sought.getBoundingClientRect();
		const [x, y] = [r.left + r.width / 2, r.top + r.height / 2];
		return sought.contains(document.elementFromPoint(x, y)) ? [x, y] : [];
	})()`)
	if len(at) == 0 {
		t.Fatalf("the key %q is not in sight", name)
	}
	tab.Do(chromedp.TapXY(at[0], at[1]))
}

// TestFirstVisit comes with a blank browser, and is at a drafted garment after
// one tap, having been asked for nothing.
func TestFirstVisit(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.Before(listens)
	tab.Goto(s.url("/"))

	touches(t, tab, "Open the sample") // the one tap
	tab.Until(`document.querySelector("#verdict")?.textContent.includes("It can be cut")`)
	tab.Until(`document.querySelectorAll(".paper .cut").length > 2`)
	if asked := browser.Eval[[]string](tab, `askedFor`); len(asked) > 0 {
		t.Errorf("a first visitor is asked for %v", asked)
	}
	if n := browser.Eval[int](tab, `document.querySelectorAll("[required], dialog[open], [role=dialog]").length`); n > 0 {
		t.Errorf("a first visitor meets %d questions that must be answered", n)
	}
	noProblems(t, tab)
}
