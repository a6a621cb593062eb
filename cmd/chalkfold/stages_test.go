package main

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"chalkfold/draft"
	"chalkfold/testdata/jobs"
	"chalkfold/wasm/browser"
)

// shownGirths are the figures of the table of girths, row by row.
const shownGirths = `[...document.querySelectorAll("#girths tbody tr")].map((r) => [...r.cells].map((c) => c.textContent).join(" "))`

func girthsOf(r *draft.Result) []string {
	var out []string
	for _, g := range r.Report.Girths {
		name := strings.ToUpper(g.Name[:1]) + g.Name[1:]
		if g.Estimated {
			name += " *"
		}
		out = append(out, fmt.Sprintf("%s %s %s %s", name, r.Format.Bare(g.Body), r.Format.Bare(g.Draft), r.Format.Bare(g.Ease)))
	}
	return out
}

// shownChecks are the checks in the list, each with how grave it is.
const shownChecks = `[...document.querySelectorAll(".finding")].map((f) => f.dataset.check + " " + f.querySelector(".sign").textContent)`

func checksOf(r *draft.Result) []string {
	var out []string
	for _, f := range r.Report.Findings {
		out = append(out, f.Check+" "+map[string]string{"fine": "✓", "mind": "!", "stops the cut": "✕"}[f.Level.String()])
	}
	return out
}

func same(t *testing.T, what string, got, want []string) {
	t.Helper()
	if len(want) == 0 {
		t.Fatalf("%s: nothing to compare with", what)
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("%s on the page:\n%s\nnatively:\n%s", what, strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// TestSampleStages opens the sample as someone does who has never been here,
// and looks at every stage of it. It is not the page that looks for the lay.
func TestSampleStages(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.Before(countsHelpers)
	tab.Goto(s.url("/"))
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	r := jobs.Made(t, "alto-3.json")

	tab.Until(`document.querySelector("#verdict")`)
	shot(t, tab, "draft")
	tap(tab, "#fine")
	tab.Until(`document.querySelectorAll(".finding").length > 9`)
	same(t, "checks", browser.Eval[[]string](tab, shownChecks), checksOf(r))
	tap(tab, `.found:has([data-check^="waist at the side"]) .finding`)
	tab.Until(`document.querySelector(".finding[aria-pressed=true]") && document.querySelector(".paper .spot")`)
	whole := scale(tab)
	press(tab, "+")
	press(tab, "+")
	tab.Still()
	if scale(tab) < 2*whole {
		t.Error("+ does not look nearer")
	}
	shot(t, tab, "draft-lit")
	press(tab, "Girths")
	tab.Until(`document.querySelector("#girths")`)
	same(t, "girths", browser.Eval[[]string](tab, shownGirths), girthsOf(r))
	shot(t, tab, "draft-girths")
	press(tab, "Lines")
	tap(tab, "#all-sums")
	tap(tab, `.sum[data-step="hip_part"]`)
	tab.Until(`document.querySelector("#thing-sum")?.textContent.includes("= 10⅞") && document.querySelector(".thing #hip_girth")`)
	shot(t, tab, "draft-sums")
	press(tab, "Trued")
	tab.Until(`document.querySelector("#changes .note-stop")?.textContent.includes("Hip girth")`)
	browser.Eval[any](tab, `scrollTo(0, 0)`)
	shot(t, tab, "draft-trued")

	turnTo(tab, "tape")
	shot(t, tab, "tape")
	turnTo(tab, "style")
	press(tab, "What is trued")
	shot(t, tab, "style")
	tap(tab, "#group-band")
	tab.Until(`document.getElementById("belt_loops")`)
	browser.Eval[any](tab, `document.querySelector("#belt_loops").closest(".row").querySelector(".help").click()`)
	tab.Until(`document.querySelector("#choose-belt_loops-level")`)
	browser.Eval[any](tab, `document.querySelector("#belt_loops").scrollIntoView({block: "center"})`)
	shot(t, tab, "style-rule")

	turnTo(tab, "cloth")
	tab.Until(laid)
	// Helpers beside the page find the lay that is found here.
	best := bestLay(t, r)
	told := browser.Eval[string](tab, verdict)
	for _, want := range []string{"It fits", "Needs " + r.Format.Text(best.Length), fmt.Sprintf("cover %.0f in 100", best.Density)} {
		if !strings.Contains(told, want) {
			t.Errorf("the lay says %q, want %q in it", told, want)
		}
	}
	if n := browser.Eval[int](tab, `helpers.length`); n < 1 || n > 4 {
		t.Errorf("%d helpers", n)
	}
	shot(t, tab, "cloth")
	browser.Eval[any](tab, `document.querySelector(".lay").scrollIntoView()`)
	shot(t, tab, "cloth-lay")

	turnTo(tab, "chalk")
	tab.Until(`document.querySelector("#mark-name")`)
	guide := draft.Chalk(r)
	for i := range 11 {
		m := guide[0].Marks[i]
		tab.Until(`document.querySelector("#mark-place").textContent.includes(" ` + fmt.Sprint(i+1) + ` of ")`)
		name := browser.Eval[string](tab, `document.querySelector("#mark-name").textContent`)
		if !strings.EqualFold(name, m.Name) {
			t.Errorf("mark %d is %q, want %q", i+1, name, m.Name)
		}
		figure := browser.Eval[string](tab, `document.querySelector("#mark-figure:not([hidden])")?.textContent ?? ""`)
		want := ""
		if m.Measure != 0 {
			want = r.Format.Text(m.Measure)
		}
		if figure != want {
			t.Errorf("mark %d measures %q, want %q", i+1, figure, want)
		}
		tap(tab, "#mark-next")
	}
	shot(t, tab, "chalk")
	press(tab, "List")
	tab.Until(`document.querySelector("#marks")`)
	shot(t, tab, "chalk-list")
	for i, m := range guide[0].Marks {
		if len(m.Ordinates) > 1 {
			browser.Eval[any](tab, `document.querySelectorAll("#marks .step")[`+fmt.Sprint(i)+`].click()`)
			break
		}
	}
	tab.Until(`document.querySelector("#points")`)
	shot(t, tab, "chalk-curve")
	place := browser.Eval[string](tab, `document.querySelector("#mark-place").textContent`)
	tab.Until(savedAs("Alto 3"))
	tab.Goto(s.url("/?again#chalk"))
	tab.Until(`document.querySelector("#mark-place")?.textContent === "` + place + `"`)

	// Another job beside it, and back.
	turnTo(tab, "book")
	press(tab, "New job")
	tab.Until(deskStands)
	tab.Do(chromedp.SendKeys(chromedp.ID("ticket"), "Bass 1"))
	tab.Until(savedAs("Bass 1"))
	turnTo(tab, "book")
	tab.Until(tickets + ` === "Bass 1,Alto 3"`)
	shot(t, tab, "book")
	tap(tab, ".job:not([aria-current])")
	tab.Until(savedAs("Alto 3"))
	turnTo(tab, "tape")
	tab.Until(value("hip_girth") + ` === "42"`)
	noProblems(t, tab)
}
