package main

import (
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"chalkfold/wasm/browser"
)

// padded taps a key of the tape's pad with a finger's press in the middle of it.
func padded(tab *browser.Tab, keys ...string) {
	for _, key := range keys {
		tab.Do(chromedp.Tap(chromedp.CSS(`.pad [data-key="` + key + `"]`)))
	}
}

// turned is the phone on its side, wide the screen of a laptop.
func turned(tab *browser.Tab) {
	tab.Do(chromedp.EmulateViewport(640, 360, chromedp.EmulateScale(2), chromedp.EmulateMobile, chromedp.EmulateTouch))
}

func wide(tab *browser.Tab) { tab.Do(chromedp.EmulateViewport(1280, 800)) }

// TestTapeSingly takes all measurements one at a time, by the pad alone.
func TestTapeSingly(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.Goto(s.url("/#tape"))
	tab.Until(deskStands)
	tap(tab, "#singly")
	tap(tab, "#measure")
	tab.Until(`document.activeElement?.id === "waist_girth" && document.activeElement.inputMode === "none"`)
	shot(t, tab, "tape-one-empty")
	padded(tab, "3", "4")
	tab.Until(value("waist_girth") + ` === "34" && document.querySelector(".echo").textContent === "= 86.4 cm"`)
	shot(t, tab, "tape-one")

	// Every key is large enough for a thumb, and the pad is all in sight.
	small := browser.Eval[[]string](tab, `[...document.querySelectorAll(".single button")].filter((b) => b.offsetParent).filter((b) => {
		const r = b.getBoundingClientRect();
		return r.width < 48 || r.height < 48;
	}).map((b) => b.textContent)`)
	if len(small) > 0 {
		t.Errorf("keys under 48 px: %q", small)
	}
	for _, screen := range []struct {
		name string
		turn func(*browser.Tab)
	}{{"tape-one-turned", turned}, {"tape-one-wide", wide}} {
		screen.turn(tab)
		shot(t, tab, screen.name)
		if out := browser.Eval[int](tab, `document.documentElement.scrollWidth - innerWidth`); out > 0 {
			t.Errorf("%s: %d px are out of sight at the side", screen.name, out)
		}
	}
	tab.Do(chromedp.EmulateViewport(360, 640, chromedp.EmulateScale(2), chromedp.EmulateMobile, chromedp.EmulateTouch))

	// On by the pad, on by the key that ends a line, back, and typed by hand.
	tap(tab, "#tape-next")
	tab.Until(`document.activeElement?.id === "hip_girth"`)
	padded(tab, "1", "0", "6", "unit", ".", "7")
	tab.Until(value("hip_girth") + ` === "106.7 cm" && document.querySelector(".echo").textContent === "= 42 in"`)
	padded(tab, "clear", "½", "4", "2", "½", "back")
	tab.Until(value("hip_girth") + ` === "4"`)
	tab.Do(chromedp.SendKeys(chromedp.ID("hip_girth"), "2"))
	tab.Until(value("hip_girth") + ` === "42"`)
	tab.Do(chromedp.SendKeys(chromedp.ID("hip_girth"), kb.Enter))
	tab.Until(`document.activeElement?.id === "thigh_girth"`)
	tap(tab, "#tape-back")
	tab.Until(`document.activeElement?.id === "hip_girth"`)

	// The phone's own keys, and away with them.
	tap(tab, "#phone-keys")
	tab.Until(`document.activeElement?.id === "hip_girth" && document.activeElement.inputMode === "decimal"`)
	tap(tab, "#phone-keys")
	tab.Until(`document.activeElement?.inputMode === "none"`)

	// A figure that nobody has is asked about, and kept.
	tap(tab, "#overview")
	shot(t, tab, "tape-overview")
	tap(tab, `[data-measure="thigh_girth"]`)
	padded(tab, "3", "8")
	tab.Until(`document.querySelector(".notes .note-stop")`)
	shot(t, tab, "tape-one-far")
	if hidden := browser.Eval[bool](tab, `((keep, pad) => keep.bottom > pad.top)(
		document.querySelector(".single-in .choice").getBoundingClientRect(), document.querySelector(".pad").getBoundingClientRect())`); hidden {
		t.Error("what answers the doubt is behind the pad")
	}
	press(tab, "Keep it")
	tab.Until(`document.querySelector(".notes").textContent.includes("kept as measured")`)
	padded(tab, "clear", "2", "5")
	tab.Until(`!document.querySelector(".notes .note")`)

	// From far down the overview a measurement is shown from its beginning, and the
	// overview after it.
	tap(tab, "#overview")
	tab.Until(`((key) => key && (key.scrollIntoView({block: "center"}), scrollY > 200))(document.querySelector("[data-measure=stature]"))`)
	tap(tab, "[data-measure=stature]")
	tab.Until(`document.activeElement?.id === "stature" && scrollY === 0`)
	tap(tab, "#overview")
	tab.Until(`document.querySelector("#measure") && scrollY === 0`)

	// In any order; the list has all of it.
	tap(tab, `[data-measure="outside_leg_length"]`)
	padded(tab, "4", "0")
	tap(tab, "#overview")
	tap(tab, "#singly")
	tab.Until(`document.querySelectorAll(".row .field").length > 4 && ` + value("outside_leg_length") + ` === "40"`)
	tap(tab, `.row:has(#hip_girth) .help`)
	tab.Until(`document.querySelector(".row .on-body .fig-tape")`)
	tab.Do(chromedp.SendKeys(chromedp.ID("hip_girth"), "¼"))
	tab.Until(value("hip_girth") + ` === "42¼"`)
	shot(t, tab, "tape-list")

	// What is said of a figure stands above the keys, whichever field has them.
	tap(tab, "#more[aria-expanded=false]")
	for _, field := range []string{"calf_girth", "stature", "waist_girth"} {
		tab.Until(`((f) => f && (f.focus(), true))(document.getElementById("` + field + `"))`)
		tab.Until(`((says, pad) => says && pad && says.bottom <= pad.top)(
			document.querySelector("#` + field + `-note")?.getBoundingClientRect(), document.querySelector('.pad[aria-label]')?.getBoundingClientRect())
			&& document.querySelector("#` + field + `-of, .row:has(#` + field + `) .choose")`)
	}
	wide(tab)
	shot(t, tab, "tape-list-wide")
	noProblems(t, tab)
}

// TestTapeKilled ends the tab after each key of the pad: the figure is there as
// far as it was typed, also where it is no length yet.
func TestTapeKilled(t *testing.T) {
	s := openStall(t)
	b := browser.Open(t, "")
	tab := b.Tab()
	tab.Goto(s.url("/#tape"))
	tab.Until(deskStands)
	tap(tab, "#singly")
	text := ""
	for _, step := range []struct{ key, want string }{{"3", "3"}, {"4", "34"}, {"unit", "34 cm"}, {".", "34. cm"}, {"5", "34.5 cm"}, {"clear", ""}, {"½", "½"}} {
		tap(tab, `[data-measure="waist_girth"]`)
		tab.Until(`document.activeElement?.id === "waist_girth" && ` + value("waist_girth") + ` === "` + text + `"`)
		padded(tab, step.key)
		tab.Until(value("waist_girth") + ` === "` + step.want + `" && document.querySelector("#saving").textContent === "Saved"`)
		tab.Close()
		text = step.want
		tab = b.Tab()
		tab.Goto(s.url("/#tape"))
	}
	tap(tab, `[data-measure="waist_girth"]`)
	tab.Until(value("waist_girth") + ` === "½"`)
}
