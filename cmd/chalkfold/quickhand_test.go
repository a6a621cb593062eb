package main

import (
	"fmt"
	"testing"

	"chalkfold/wasm/browser"
)

// typesAnd has a figure typed over another one and something else done before the
// browser has shown it, as where keys pile up on a slow phone.
func typesAnd(id, text, then string) string {
	return fmt.Sprintf(`((field) => {
		field.value = %q;
		field.dispatchEvent(new Event("input", { bubbles: true }));
		%s;
		return true;
	})(document.getElementById(%q))`, text, then, id)
}

// TestQuickHand does something before what was typed is heeded: nothing of it is lost.
func TestQuickHand(t *testing.T) {
	s := openStall(t)
	tab := helped(t, browser.Open(t, ""), s)
	turnTo(tab, "tape")
	const hip = "hip_girth"
	tab.Until(value(hip) + ` === "42"`)
	retype(tab, "waist_girth", "33")
	tab.Until(savedAs("Alto 3"))
	do := func(js string) { browser.Eval[bool](tab, js) }

	do(typesAnd(hip, "43", `document.getElementById("undo").click()`))
	tab.Until(value(hip) + ` === "42" && ` + value("waist_girth") + ` === "33"`)
	tap(tab, "#redo:not([disabled])")
	tab.Until(value(hip) + ` === "43" && ` + savedAs("Alto 3"))

	do(typesAnd(hip, "44", `location.hash = "#draft"`))
	tab.Until(`document.querySelector('.stage-link[data-stage="draft"][aria-current]') && ` + savedAs("Alto 3"))
	tab.Goto(s.url("/?again#tape"))
	tab.Until(value(hip) + ` === "44" && ` + savedAs("Alto 3"))
}
