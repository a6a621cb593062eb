package main

import (
	"testing"

	"chalkfold/wasm/browser"
)

// TestQuoteOnThePage: from the book to the quote, prices typed, agreed, half of it
// paid; the book says what is owed, also when the page is opened again.
func TestQuoteOnThePage(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.On(browser.Screens()[0])
	tab.Goto(s.url("/#book"))
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	turnTo(tab, "book")
	press(tab, "Quote")
	tab.Until(`document.querySelector("#bill-main-count")?.value`)
	shot(t, tab, "quote-empty")
	tap(tab, "#bill-by")
	retype(tab, "bill-currency", "GHS")
	retype(tab, "bill-step", "5")
	retype(tab, "bill-deposit", "50")
	retype(tab, "bill-main-price", "40")
	retype(tab, "bill-labour-count", "5")
	retype(tab, "bill-labour-price", "12.50")
	retype(tab, "bill-main-count", "2.25")
	tab.Until(`document.querySelector("#bill-sum .bill-strong td").textContent === "155.00 GHS"`)
	for _, f := range illFitting(tab) {
		t.Errorf("the quote: %s", f)
	}
	shot(t, tab, "quote")
	press(tab, "It is agreed with the client")
	retype(tab, "bill-pay", "77.50")
	press(tab, "Write down")
	tab.Until(`document.querySelector("#bill-whole").textContent.includes("77.50")`)
	browser.Eval[any](tab, `document.querySelector("#bill-paid").scrollIntoView({block: "start"})`)
	shot(t, tab, "quote-paid")
	browser.Eval[any](tab, `document.querySelector("#bill-send").scrollIntoView({block: "start"})`)
	shot(t, tab, "quote-send")
	for _, f := range illFitting(tab) {
		t.Errorf("the quote, agreed: %s", f)
	}
	tab.Until(savedAs("Alto 3"))
	tab.Goto(s.url("/?again#book"))
	tab.Until(`document.querySelector("#open-job .owed")?.textContent === "77.50 GHS owed"`)
	shot(t, tab, "quote-book")
	noProblems(t, tab)
}
