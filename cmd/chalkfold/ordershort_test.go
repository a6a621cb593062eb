package main

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"

	"chalkfold/wasm/browser"
)

// treble is a table of sizes: one more body of the choir.
const treble = `ticket,figure,waist_girth (in),hip_girth (in),thigh_girth (in),outside_leg_length (in)
Alto 1,women,31,39,23 1/2,39
`

// TestUniformOnShortCloth lays two bodies of a uniform on cloth that is too short for
// them: what can give is worked out on the lay of both, one tap has every garment
// give it, and it fits; one tap takes it back.
func TestUniformOnShortCloth(t *testing.T) {
	t.Parallel()
	s := openStall(t)
	tab := helped(t, browser.Open(t, ""), s)
	tab.On(browser.Screens()[0])
	look := func(name, at string) {
		t.Helper()
		tab.Until(`document.querySelector("` + at + `:not([hidden])")`)
		browser.Eval[any](tab, `document.querySelector("`+at+`").scrollIntoView({block: "start"})`)
		shot(t, tab, "uniform-"+name)
		for _, f := range illFitting(tab) {
			t.Errorf("%s: %s", name, f)
		}
	}
	turnTo(tab, "book")
	tap(tab, "#details[aria-expanded=false]")
	press(tab, "Begin an order with it")
	tab.Until(`document.querySelector("#order-name")`)
	table := filepath.Join(t.TempDir(), "sizes.csv")
	if err := os.WriteFile(table, []byte(treble), 0o600); err != nil {
		t.Fatal(err)
	}
	tab.Do(chromedp.SetUploadFiles(chromedp.ID("table-file"), []string{table}))
	tab.Until(`document.querySelector("#table-found:not([hidden])")?.textContent.includes("1 would be a new job")`)
	press(tab, "Take them in, made like Alto 3")
	tab.Until(`document.querySelectorAll("#garments .job").length === 2`)

	// Two inches less cloth than the quick lay of them takes.
	press(tab, "Lay them on one cloth")
	tab.Until(laid)
	taken := browser.Eval[int](tab, `parseInt(document.querySelector("#lay-verdict").textContent.match(/\d+/)[0])`)
	retype(tab, "cloth-main-length", fmt.Sprintf("%d in", taken-2))
	tab.Until(tooShort + ` && ` + laid) // whole: the advice goes by this lay
	tap(tab, "#advice-ask")
	tab.Until(`[...document.querySelectorAll('#advice [data-fits="true"]')].some((c) => c.textContent.includes("Changes 2 garments."))`)
	look("gifts", "#advice")
	tap(tab, "#advice-stop")
	look("stopped", "#advice")
	tab.Until(`((c) => c && (c.querySelector(".cure").click(), true))([...document.querySelectorAll('#advice [data-fits="true"]')].find((c) => c.textContent.includes("Changes 2 garments.")))`)
	tab.Until(`document.querySelector("#given:not([hidden])")?.textContent.includes("Done in 2 garments.") && ` + enough)
	look("given", "#given")
	tap(tab, "#given-back")
	tab.Until(`document.querySelector("#given").hidden && ` + tooShort)
	noProblems(t, tab)
}
