package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"

	"chalkfold/wasm/browser"
)

// altos is a table of sizes: four bodies of the choir.
const altos = `ticket,client,figure,waist_girth (in),hip_girth (in),thigh_girth (in),outside_leg_length (in)
Alto 1,Alto 1,women,31,39,23 1/2,39
Alto 2,Alto 2,women,32,40,24,38 1/2
Alto 4,Alto 4,women,35,43,25 1/2,40 1/2
Alto 5,Alto 5,women,37,45,26 1/2,39 1/2
`

// TestUniformOrder is the choir's uniform: one pair of trousers becomes an order, four
// bodies come in by a table of sizes, all five are laid on one length of cloth, each
// piece by its ticket, and how much to buy is told; then one is made again on new
// measurements.
func TestUniformOrder(t *testing.T) {
	t.Parallel()
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.On(browser.Screens()[0])
	look := func(name, at string) {
		t.Helper()
		tab.Until(`document.querySelector("` + at + `")`)
		browser.Eval[any](tab, `document.querySelector("`+at+`").scrollIntoView({block: "start"})`)
		tab.Still()
		shot(t, tab, "order-"+name)
		for _, f := range illFitting(tab) {
			t.Errorf("%s: %s", name, f)
		}
	}
	tab.Goto(s.url("/#book"))
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	turnTo(tab, "book")
	tap(tab, "#details[aria-expanded=false]")
	look("details", "#job-order")
	press(tab, "Begin an order with it")
	tab.Until(`document.querySelector("#order-name")`)
	retype(tab, "order-name", "Choir uniforms")
	tab.Until(savedAs("Choir uniforms"))
	press(tab, "In two weeks")
	table := filepath.Join(t.TempDir(), "sizes.csv")
	if err := os.WriteFile(table, []byte(altos), 0o600); err != nil {
		t.Fatal(err)
	}
	tab.Do(chromedp.SetUploadFiles(chromedp.ID("table-file"), []string{table}))
	tab.Until(`document.querySelector("#table-found:not([hidden])")?.textContent.includes("4 would be new jobs")`)
	look("table", "#table-found")
	press(tab, "Take them in, made like Alto 3")
	garments := `[...document.querySelectorAll("#garments .job strong")].map((e) => e.textContent).join()`
	tab.Until(garments + ` === "Alto 1,Alto 2,Alto 3,Alto 4,Alto 5"`)
	look("garments", ".stage")

	// How much to buy: each cloth, width by width; stopped at the first.
	tap(tab, "#buy-open")
	tab.Until(`document.querySelector("#buy-main")?.textContent.includes("36 in")`)
	tap(tab, "#buy-stop")
	yards := `parseFloat(document.querySelectorAll("#buy-main td")[1].textContent)`
	tab.Until(yards + ` > 0`)
	look("buy", "#buy")
	tap(tab, "#needed-open")
	tab.Until(`[...document.querySelectorAll("#needed button")].some((e) => e.textContent.includes("5 × button"))`)
	look("notions", "#needed")
	// Five pairs take no less than their cloth lies end to end in a width of 36 in,
	// one pair being some 1¾ yd of it, and no more than each by itself.
	if y := browser.Eval[float64](tab, yards); y < 5*1.2 || y > 5*2.75 {
		t.Errorf("%v yd of 36 in for five pairs of trousers", y)
	}

	// The lay: every piece by its ticket.
	press(tab, "Lay them on one cloth")
	tab.Until(`document.querySelector("#lay-verdict") && document.querySelector("#lay-list")?.textContent.includes("Alto 5, front")`)
	browser.Eval[any](tab, `document.querySelector("#lay-stop:not([hidden])")?.click()`)
	tab.Until(laid)
	look("lay", ".lay")
	look("list", "#lay-list")
	names := browser.Eval[[]string](tab, `[...document.querySelectorAll("#lay-list strong")].map((e) => e.textContent.replace(/^\d+ /, ""))`)
	fronts := map[string]int{}
	for _, n := range names {
		fronts[n]++
	}
	for _, ticket := range []string{"Alto 1", "Alto 2", "Alto 3", "Alto 4", "Alto 5"} {
		if fronts[ticket+", front"] == 0 || fronts[ticket+", back"] == 0 {
			t.Errorf("the lay has no front or back of %s: %v", ticket, fronts)
		}
	}
	press(tab, "Chalk by this lay")
	tab.Until(`document.querySelector("#lies")?.textContent.includes("Alto 4, back")`)
	look("chalk", ".stage")

	// What is cut is not laid again.
	turnTo(tab, "order")
	tap(tab, "#garments .job:nth-of-type(1)")
	tab.Until(savedAs("Alto 1"))
	turnTo(tab, "bench")
	tap(tab, "#bench-cut button")
	tab.Until(`document.querySelector("#bench-cut button[aria-pressed=true]")`)
	tab.Until(`document.querySelector("#saving").textContent === "Saved"`)
	turnTo(tab, "book")
	tab.Until(`((e) => e && (e.click(), true))([...document.querySelectorAll("button.job")].find((e) => e.textContent.startsWith("Choir uniforms")))`)
	tab.Until(`document.querySelector("#cut-already")?.textContent.includes("Cut already, and not laid again: Alto 1.")`)
	look("cut", "#cut-already")

	// One of them is made again, a year on, her hip measured anew.
	turnTo(tab, "order")
	tap(tab, "#garments .job:nth-of-type(2)")
	tab.Until(savedAs("Alto 2"))
	turnTo(tab, "book")
	look("book", ".stage")
	tap(tab, "#details[aria-expanded=false]")
	press(tab, "Make it again, on the newest measurements")
	tab.Until(deskStands + ` && ` + value("hip_girth") + ` === "40" && ` + ticketText + ` === "Alto 2"`)
	retype(tab, "hip_girth", "41")
	tab.Until(savedAs("Alto 2"))
	turnTo(tab, "book")
	tab.Until(`document.querySelectorAll("#jobs .job").length === 6`) // the order, and five beside the open one
	tap(tab, "#details[aria-expanded=false]")
	press(tab, "Alto 2")
	tab.Until(`document.querySelectorAll("#client-jobs .job").length === 2`)
	look("client", "#client")
	noProblems(t, tab)
}
