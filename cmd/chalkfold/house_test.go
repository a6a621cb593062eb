package main

import (
	"testing"

	"chalkfold/wasm/browser"
)

// TestRulesAreLentByLink changes the rules of the house, lends them by a link,
// and opens that link on another phone.
func TestRulesAreLentByLink(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, t.TempDir()).Tab()
	tab.Goto(s.url("/#house"))
	tab.Until(`document.querySelector("#set-name")?.value === "Our own"`)
	shot(t, tab, "house")
	retype(tab, "set-name", "Mother's")
	tap(tab, "#house-fork")
	tab.Until(`document.querySelector("#house-seat_tilt")`)
	const keys = `document.querySelector(".row:has(#house-seat_tilt) .fractions")`
	tab.Until(`getComputedStyle(` + keys + `).visibility === "hidden"`)
	retype(tab, "house-seat_tilt", "1")
	tab.Until(`getComputedStyle(` + keys + `).visibility === "visible"`)
	for _, f := range illFitting(tab) {
		t.Errorf("the fractions: %s", f)
	}
	tab.Until(`(([half]) => half && (half.click(), true))([...` + keys + `.querySelectorAll("button")].filter((b) => b.textContent === "½"))`)
	tab.Until(value("house-seat_tilt") + ` === "1½" && document.activeElement.id === "house-seat_tilt"`)
	tab.Until(`document.querySelector("#saving").textContent === "Saved"`)
	browser.Eval[any](tab, `document.querySelector("#house-seat_tilt").scrollIntoView({block: "center"})`)
	shot(t, tab, "house-changed")
	press(tab, "Lend “Mother's”")
	tab.Until(`document.querySelector("#link").value.includes("#rules=")`)
	browser.Eval[any](tab, `document.querySelector("#lending").scrollIntoView({block: "center"})`)
	shot(t, tab, "house-lend")
	lent := browser.Eval[string](tab, `document.querySelector("#link").value`)
	tab.On(browser.Screens()[2])
	shot(t, tab, "house-laptop")
	noProblems(t, tab)

	other := browser.Open(t, t.TempDir()).Tab()
	other.Goto(lent)
	other.Until(`document.querySelector("#lent strong")?.textContent === "Rules lent to you: “Mother's”"`)
	other.Until(`document.querySelector("#lent-rules tbody").textContent.includes("1½ in")`)
	shot(t, other, "house-lent")
	press(other, "Keep as a rule set")
	other.Until(`document.querySelectorAll("#sets .set").length === 2`)
	retype(other, "paste-link", "https://elsewhere.example/")
	other.Until(`document.querySelector("#lent").textContent.includes("no link that this program made")`)
	browser.Eval[any](other, `document.querySelector("#paste-link").value = `+quoted(lent)+`;
		document.querySelector("#paste-link").dispatchEvent(new Event("input", {bubbles: true}))`)
	press(other, "Use for this job only")
	other.Until(`document.querySelector("#told").textContent.includes("drafted by these rules")`)
	browser.Eval[any](other, `document.querySelector("#sets").scrollIntoView({block: "start"})`)
	shot(t, other, "house-sets")
	turnTo(other, "style")
	other.Until(`document.querySelector("#house-note")?.textContent.includes("Seat tilt: here 1½ in, in the house 2 in")`)
	tap(other, "#house-differs")
	shot(t, other, "house-note")
	press(other, "Take the house's")
	other.Until(`!document.querySelector("#house-note")`)
	noProblems(t, other)
}
