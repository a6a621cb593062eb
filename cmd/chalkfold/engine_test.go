package main

import (
	"bytes"
	"context"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"chalkfold/draft"
	"chalkfold/draft/lay"
	"chalkfold/ui/engine"
	"chalkfold/wasm/browser"
)

// countsHelpers has every page keep the engines that it starts in a list, so
// that a test can see them and break them.
const countsHelpers = `window.helpers = [];
window.Worker = class extends Worker {
	constructor(path, ...how) { super(path, ...how); if (path === "/engine.js") helpers.push(this); }
};`

// laysQuickly has helpers look only briefly for a lay that nobody asked to be
// shorter, where a test is about something else than which lay is found.
const laysQuickly = `window.Worker = class extends Worker {
	postMessage(m, ...rest) {
		if (m.do === "lay") {
			const order = JSON.parse(new TextDecoder().decode(m.data));
			order.work ??= 300;
			m.data = new TextEncoder().encode(JSON.stringify(order));
		}
		super.postMessage(m, ...rest);
	}
};`

// breakHelpers sends to the helpers what no page sends, which ends their
// program, and is how many there have been.
const breakHelpers = `helpers.forEach((h) => h.postMessage({id: 99, do: "lay", data: 5})), helpers.length`

// helped opens the sample in a tab whose helpers are counted, after some other
// scripts.
func helped(t *testing.T, b *browser.Browser, s *stall, scripts ...string) *browser.Tab {
	t.Helper()
	tab := b.Tab()
	for _, js := range append(scripts, countsHelpers) {
		tab.Before(js)
	}
	tab.Goto(s.url("/#book"))
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	return tab
}

const (
	laid      = `document.querySelector("#lay-verdict") && document.querySelector("#laying")?.hidden`
	searching = `document.querySelector("#laying") && !document.querySelector("#laying").hidden`
	verdict   = `document.querySelector("#lay-verdict").textContent`
	drawn     = `[...document.querySelectorAll(".lay .paper path")].map((p) => p.getAttribute("d")).join()`
)

// bestLay is what all searches together find here.
func bestLay(t *testing.T, r *draft.Result) *draft.Laid {
	t.Helper()
	var best engine.Best
	l, err := draft.Spread(r, 0)
	if err != nil {
		t.Fatal(err)
	}
	for seed := range engine.Seeds {
		found, err := lay.Pack(l.Cloth, l.Items, lay.Options{Seed: uint64(seed), Round: r.Format.Finest()})
		if err != nil {
			t.Fatal(err)
		}
		best.Take(seed, found)
	}
	l.Result, _, _ = best.Lay()
	return l
}

// TestHandWhileSearching: every key is answered while the search goes on, and
// Stop leaves what was found.
func TestHandWhileSearching(t *testing.T) {
	s := openStall(t)
	tab := helped(t, browser.Open(t, ""), s, laysQuickly)
	turnTo(tab, "cloth")
	tab.Until(laid)
	tap(tab, "#lay-longer")
	for i, open := range []string{"true", "false", "true"} {
		tap(tab, "#cloth-more")
		tab.Until(`document.querySelector("#cloth-more[aria-expanded=` + open + `]")`)
		if !browser.Eval[bool](tab, searching) {
			t.Fatalf("the search was over at key %d: it proves nothing", i+1)
		}
	}
	tab.Until(`document.querySelector("#laying-bar").value > 0`)
	browser.Eval[any](tab, `document.querySelector("#searching").scrollIntoView({block: "center"})`)
	shot(t, tab, "lay-searching")
	tap(tab, "#lay-stop")
	tab.Until(laid)
	if !strings.Contains(browser.Eval[string](tab, verdict), "It fits") {
		t.Errorf("after Stop: %q", browser.Eval[string](tab, verdict))
	}
	noProblems(t, tab)
}

// TestHelpersStop breaks the helpers while they work: others take over, and when
// those are broken too, the page goes on by itself, to the same lay.
func TestHelpersStop(t *testing.T) {
	s := openStall(t)
	tab := helped(t, browser.Open(t, ""), s)
	turnTo(tab, "cloth")
	tab.Until(laid)
	want := browser.Eval[string](tab, drawn)
	says := func(text string) string {
		return `document.querySelector(".stage").textContent.includes("` + text + `")`
	}

	tap(tab, "#lay-longer")
	tab.Until(searching)
	n := browser.Eval[int](tab, breakHelpers)
	tab.Until(says("The helper stopped and was started again"))
	shot(t, tab, "helper-again")
	tab.Until(`helpers.length > ` + strconv.Itoa(n) + ` && (` + breakHelpers + `, ` + says("The page now does its work itself") + `)`)
	browser.Eval[any](tab, `document.querySelector("#lay-verdict").scrollIntoView({block: "center"})`)
	shot(t, tab, "helper-page")
	tap(tab, "#lay-stop")
	tab.Until(laid)

	// The page alone finds what helpers found.
	retype(tab, "cloth-main-width", "59")
	tab.Until(searching)
	retype(tab, "cloth-main-width", "60")
	tab.Until(searching)
	tab.Until(laid + ` && ` + drawn + ` === ` + "`" + want + "`")
}

// TestNoHelperScript: where the helper's script does not come, the page works.
func TestNoHelperScript(t *testing.T) {
	s := openStall(t)
	s.instead("/engine.js", func(w http.ResponseWriter, _ *http.Request) { http.Error(w, "none", http.StatusNotFound) })
	tab := helped(t, browser.Open(t, ""), s)
	turnTo(tab, "cloth")
	tab.Until(`document.querySelector(".stage").textContent.includes("The page now does its work itself")`)
	tab.Until(`document.querySelector("#lay-verdict")`)
	browser.Eval[any](tab, `document.querySelector("#lay-stop:not([hidden])")?.click()`)
	tab.Until(laid)
}

// TestPrintOffline prints in two windows without a network. Each file is
// byte for byte what the command line prints.
func TestPrintOffline(t *testing.T) {
	t.Parallel()
	s := openStall(t)
	b := browser.Open(t, "")
	one := helped(t, b, s, laysQuickly)
	// A language is kept once it was spoken.
	one.Until(readyOffline)
	turnTo(one, "book")
	press(one, "français")
	browser.Eval[bool](one, `(async () => {
		while (!(await caches.match("/words/fr.txt"))) await new Promise((r) => setTimeout(r, 50));
		return true;
	})()`)
	press(one, "English")
	one.Until(`document.documentElement.lang === "en"`)
	s.shut()
	two := b.Tab()
	two.Goto(s.url("/#share"))
	turnTo(one, "share")
	dir := t.TempDir()
	allowDownloads(one, dir)
	allowDownloads(two, dir)
	two.Until(`document.querySelector("#sheet-count")?.textContent.endsWith("sheets of A4")`)
	press(two, "Letter")
	// The first to note its print is the one whose job is kept: the other is asked.
	papers := map[*browser.Tab]string{one: "a4", two: "letter"}
	for _, tab := range []*browser.Tab{one, two} {
		paper := papers[tab]
		tap(tab, "#sheets-save")
		tab.Until(`document.querySelector("#sheets-told:not([hidden])")?.textContent.startsWith("Handed over")`)
		one.Until(savedAs("Alto 3"))
		want := filepath.Join(t.TempDir(), "want.pdf")
		if err := runPrint(context.Background(), []string{"-o", want, "-paper", paper, "../../testdata/jobs/alto-3.json"}, io.Discard, os.Stderr); err != nil {
			t.Fatal(err)
		}
		printed, err := os.ReadFile(want)
		if err != nil {
			t.Fatal(err)
		}
		got := fileCame(t, filepath.Join(dir, "alto-3-"+paper+".pdf"))
		if !bytes.Equal(got, printed) {
			t.Errorf("%s: %d bytes from the page, %d from the command line, and not the same", paper, len(got), len(printed))
		}
		shot(t, tab, "share-"+paper)
		noProblems(t, tab)
	}
	// In French, the sheets are those of the command line in French.
	turnTo(one, "book")
	press(one, "français")
	one.Until(`document.documentElement.lang === "fr"`)
	turnTo(one, "share")
	one.Until(`document.querySelector("#sheet-count")?.textContent.endsWith("feuilles A4")`)
	want := filepath.Join(t.TempDir(), "want.pdf")
	if err := runPrint(context.Background(), []string{"-o", want, "-language", "fr", "../../testdata/jobs/alto-3.json"}, io.Discard, os.Stderr); err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(filepath.Join(dir, "alto-3-a4.pdf")); err != nil {
		t.Fatal(err)
	}
	tap(one, "#sheets-save")
	printed, err := os.ReadFile(want)
	if got := fileCame(t, filepath.Join(dir, "alto-3-a4.pdf")); err != nil || !bytes.Equal(got, printed) {
		t.Errorf("in French %d bytes from the page, %d from the command line, and not the same (%v)", len(got), len(printed), err)
	}
	shot(t, one, "share-french")
	turnTo(one, "book")
	press(one, "English")
	turnTo(one, "cloth")
	one.Until(laid)
	turnTo(one, "share")
	tap(one, "#diagram-save")
	if got := fileCame(t, filepath.Join(dir, "alto-3-cloth.pdf")); !bytes.HasPrefix(got, []byte("%PDF-1.7")) {
		t.Errorf("the diagram begins with %.20q", got)
	}
	browser.Eval[any](one, `document.querySelector("#share-diagram").scrollIntoView()`)
	shot(t, one, "share-diagram")

	// The job file goes out and comes back as a job of its own.
	tap(one, "#job-save")
	file := fileCame(t, filepath.Join(dir, "alto-3.json"))
	sample, err := os.ReadFile("../../testdata/jobs/alto-3.json")
	if err != nil || !bytes.Equal(file, sample) {
		t.Errorf("the job file is\n%s\nwant\n%s (%v)", file, sample, err)
	}
	one.Do(chromedp.SetUploadFiles(chromedp.ID("job-file"), []string{filepath.Join(dir, "alto-3-cloth.pdf")}))
	one.Until(`[...document.querySelectorAll("main strong, main h2, main p")].some((el) => el.textContent.includes("It was not opened, and nothing is changed"))`)
	tap(one, "#look-leave")
	one.Do(chromedp.SetUploadFiles(chromedp.ID("job-file"), []string{filepath.Join(dir, "alto-3.json")}))
	one.Until(`document.querySelector("#looking h2")?.textContent.includes("Alto 3") && document.querySelector("#looking").textContent.includes("5 measurements")`)
	browser.Eval[any](one, `document.querySelector("#looking").scrollIntoView({block: "center"})`)
	shot(t, one, "share-job")
	tap(one, "#job-keep")
	one.Until(savedAs("Alto 3"))
	turnTo(one, "book")
	one.Until(tickets + ` === "Alto 3,Alto 3"`)
	noProblems(t, one)
}
