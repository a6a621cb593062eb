package main

import (
	"testing"

	"chalkfold/wasm/browser"
)

func TestZShot(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, t.TempDir()).Tab()
	tab.Goto(s.url("/#book"))
	tab.On(browser.Screens()[0])
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	turnTo(tab, "style")
	tab.Until(`document.querySelectorAll(".ask .small svg path").length > 0 && !document.querySelector(".ask .small:empty")`)
	press(tab, "balanced method")
	tab.Until(`!document.querySelector("#balanced").hidden`)
	browser.Eval[any](tab, `document.querySelector("#choose-method").scrollIntoView({block: "start"})`)
	shot(t, tab, "z-method")
	turnTo(tab, "draft")
	tab.Until(`document.querySelector(".drawing svg path")`)
	shot(t, tab, "z-draft")
	press(tab, "Trued")
	shot(t, tab, "z-trued")
	turnTo(tab, "house")
	shot(t, tab, "z-house")
}
