package main

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"chalkfold/wasm/browser"
)

// sees turns what a selector finds into sight.
func sees(tab *browser.Tab, selector string) {
	browser.Eval[any](tab, "document.querySelector(`"+selector+"`).scrollIntoView({block: \"start\"})")
}

// TestStoryOfOneClient follows a pair of trousers from the quote to the receipt:
// a deposit, a fitting with an alteration, the band cut to the waist that was sewn;
// and her next pair begins with what was learned of the first.
func TestStoryOfOneClient(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.On(browser.Screens()[0])
	tab.Goto(s.url("/#book"))
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	turnTo(tab, "book")
	tap(tab, "#details[aria-expanded=false]")
	tab.Do(chromedp.SendKeys(chromedp.ID("job-client"), "Adama"))
	press(tab, "New client: Adama")
	tab.Until(`document.querySelector("#look")?.textContent === "Adama"`)

	// The quote has the hours of the order of work, and the notions of the bench.
	press(tab, "Quote")
	tab.Until(`document.querySelector("#bill-labour-note")?.textContent.includes("reckoned at")`)
	hours := browser.Eval[string](tab, value("bill-labour-count"))
	if hours == "" || hours == "0" {
		t.Errorf("labour is reckoned at %q hours", hours)
	}
	notions := `[...document.querySelectorAll("#bill-lines .bill-line")].map((e) => e.querySelector("strong").id.replace("bill-", "")).filter((id) => !["main", "labour"].includes(id)).join()`
	charged := browser.Eval[string](tab, notions)
	tap(tab, "#bill-by")
	retype(tab, "bill-currency", "GHS")
	retype(tab, "bill-step", "5")
	retype(tab, "bill-deposit", "50")
	retype(tab, "bill-main-count", "2.25")
	retype(tab, "bill-main-price", "40")
	retype(tab, "bill-zip-price", "7.50")
	retype(tab, "bill-labour-count", "5")
	retype(tab, "bill-labour-price", "12.50")
	total := `document.querySelector("#bill-sum .bill-strong td").textContent`
	tab.Until(total + ` === "160.00 GHS"`)
	sees(tab, "#bill-terms")
	shot(t, tab, "story-terms")
	press(tab, "by the piece")
	tab.Until(value("bill-labour-count") + ` === "1"`)
	retype(tab, "bill-labour-price", "60")
	tab.Until(total + ` === "160.00 GHS"`) // 157.50, rounded up
	sees(tab, "#bill-lines")
	shot(t, tab, "story-lines")
	for _, f := range illFitting(tab) {
		t.Errorf("the quote: %s", f)
	}
	press(tab, "It is agreed with the client")
	retype(tab, "bill-pay", "80")
	press(tab, "Write down")
	tab.Until(`document.querySelector("#bill-whole").textContent.includes("80.00")`)

	// What was charged is what the bench says is needed.
	turnTo(tab, "bench")
	tab.Until(`document.querySelector("#notions [data-tick]")`)
	if needed := browser.Eval[string](tab, `[...document.querySelectorAll("#notions [data-tick]")].map((e) => e.dataset.tick).join()`); needed != charged {
		t.Errorf("charged are %s, needed %s", charged, needed)
	}
	tap(tab, "#bench-cut [data-tick=cut]")
	tap(tab, "[data-step=measure]")
	retype(tab, "made-up", "34 1/4")
	tab.Until(`document.querySelector("#made-up-says").textContent.startsWith("¼ in less")`)
	shot(t, tab, "story-made-up")

	// The fitting.
	turnTo(tab, "fitting")
	press(tab, "Back")
	tap(tab, "[data-sign=seat_ropes]")
	tap(tab, "[data-alter=back_longer]")
	press(tab, "Also the next ones of Adama")
	tab.Until(`document.querySelector("#altered")?.textContent.includes("½ in")`)
	tab.Until(savedAs("Alto 3"))

	// Sewn, with the hours that it took; paid, and the receipt.
	turnTo(tab, "bench")
	tap(tab, "#bench-sewn [data-tick=sewn]")
	retype(tab, "took", "6.5")
	sees(tab, "#bench-sewn")
	shot(t, tab, "story-took")
	for _, f := range illFitting(tab) {
		t.Errorf("the bench: %s", f)
	}
	turnTo(tab, "book")
	press(tab, "Quote")
	tap(tab, "#bill-whole")
	tab.Until(`document.querySelector("#bill-told").textContent.includes("Paid in full")`)
	sees(tab, "#bill-send")
	shot(t, tab, "story-receipt")
	told := browser.Eval[string](tab, `document.querySelector("#bill-told").innerText`)
	for _, want := range []string{"160.00 GHS", "80.00 GHS", "Paid in full"} {
		if !strings.Contains(told, want) {
			t.Errorf("the receipt does not say %q:\n%s", want, told)
		}
	}
	tab.Until(savedAs("Alto 3"))

	// Her next pair.
	nextPair(tab)
	tab.Until(`document.querySelector("#hers")?.textContent.includes("½ in")`)
	turnTo(tab, "book")
	looks(tab, "jobs")
	press(tab, "Quote")
	tab.Until(value("bill-labour-price") + ` === "60.00" && ` + value("bill-zip-price") + ` === "7.50" && ` + value("bill-main-price") + ` === ""`)
	noProblems(t, tab)
}
