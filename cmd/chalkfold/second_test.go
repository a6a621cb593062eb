package main

import (
	"bytes"
	"io"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"chalkfold/wasm/browser"
)

// copying serves the page with second copies, and tells where, and in which file the
// copies are.
func copying(t *testing.T) (address, store string) {
	t.Helper()
	built, list := builtPage(t)
	site, err := newSite(built, list)
	if err != nil {
		t.Fatal(err)
	}
	store = filepath.Join(t.TempDir(), "store.db")
	flags, s := serveFlags(io.Discard)
	if err := flags.Parse([]string{"-store", store}); err != nil {
		t.Fatal(err)
	}
	c, err := s.open(t.Context(), site, io.Discard)
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(c.Handler())
	t.Cleanup(func() {
		server.Close()
		if err := c.Close(); err != nil {
			t.Error(err)
		}
	})
	return server.URL, store
}

const (
	wordsShown = `[...document.querySelectorAll("#copy-words strong")].map((w) => w.textContent)`
	account    = `document.querySelector("#copy-account").textContent`
	allThere   = account + `.includes("On this phone only: 0")`
)

// toCopy opens the screen of the second copy from the book.
func toCopy(tab *browser.Tab) {
	turnTo(tab, "book")
	press(tab, "Open the second copy")
	tab.Until(`document.querySelector("section.copy")`)
}

// TestTwoPhones: a second copy is begun in one browser, another is paired with it by
// words and goes on working without a network, and both end with the same; nothing
// that was entered is to be read in the file of the server.
func TestTwoPhones(t *testing.T) {
	address, store := copying(t)
	a, b := browser.Open(t, "").Tab(), browser.Open(t, "").Tab()
	a.Goto(address + "/")
	press(a, "Open the sample")
	a.Until(savedAs("Alto 3"))
	toCopy(a)
	shot(t, a, "copy-offer")
	press(a, "Start a second copy")
	a.Until(`document.querySelectorAll("#copy-words strong").length === 24`)
	shot(t, a, "copy-words")
	for _, f := range browser.Eval[[]string](a, measure) {
		t.Errorf("the words: %s", f)
	}
	words := browser.Eval[[]string](a, wordsShown)
	press(a, "I have written them down")
	a.Until(`document.querySelector("#copy-word-2")`)
	asked := browser.Eval[[]int](a, `[...document.querySelectorAll("label[for^=copy-word-]")].map((l) => Number(l.textContent.replace(/\D/g, "")))`)
	for i, n := range asked {
		a.Do(chromedp.SendKeys(chromedp.ID("copy-word-"+string(rune('0'+i))), words[n-1]))
	}
	shot(t, a, "copy-asked")
	tap(a, "#copy-repeat")
	a.Until(allThere)
	shot(t, a, "copy-begun")
	for _, f := range browser.Eval[[]string](a, measure) {
		t.Errorf("what is where: %s", f)
	}
	press(a, "Pair another phone")
	a.Until(`document.querySelectorAll("#copy-pair-words strong").length === 8`)
	a.Still()
	shot(t, a, "copy-pair")
	code := browser.Eval[[]string](a, strings.ReplaceAll(wordsShown, "copy-words", "copy-pair-words"))

	b.Goto(address + "/#pair=" + strings.Join(code, "-"))
	b.Until(value("copy-code") + ` === "` + strings.Join(code, " ") + `"`)
	shot(t, b, "copy-join")
	tap(b, "#copy-enter")
	b.Until(allThere)
	turnTo(b, "book")
	b.Until(`document.querySelector("#jobs").textContent.includes("Alto 3")`)
	shot(t, b, "copy-book")

	// Both measure, one of them without a network.
	tap(b, "#jobs .job")
	turnTo(b, "tape")
	retype(b, "hip_girth", "43")
	b.Until(savedAs("Alto 3"))
	tap(a, "#copy-back")
	turnTo(a, "tape")
	retype(a, "hip_girth", "41")
	a.Until(savedAs("Alto 3"))
	for range 2 {
		for _, tab := range []*browser.Tab{a, b} {
			toCopy(tab)
			press(tab, "Bring it up to date")
			tab.Until(allThere)
		}
	}
	a.Until(`document.querySelector("#copy-conflicts").offsetParent`)
	shot(t, a, "copy-conflict")
	for _, f := range browser.Eval[[]string](a, measure) {
		t.Errorf("what was measured differently: %s", f)
	}
	tap(a, "#copy-choose-0-1")
	a.Until(`!document.querySelector("#copy-conflicts").offsetParent && ` + allThere)
	press(a, "Bring it up to date")
	press(b, "Bring it up to date")
	b.Until(`!document.querySelector("#copy-conflicts").offsetParent`)

	// What the server has can be read by nobody.
	for _, name := range []string{store, store + "-wal"} {
		kept, err := os.ReadFile(name)
		if err != nil && !os.IsNotExist(err) {
			t.Fatal(err)
		}
		for _, text := range append(words[:1:1], "Alto 3", "hip_girth", "navy suiting", strings.Join(words[:2], " ")) {
			if len(text) > 4 && bytes.Contains(kept, []byte(text)) {
				t.Errorf("%q is to be read in %s", text, filepath.Base(name))
			}
		}
	}
	for _, tab := range []*browser.Tab{a, b} {
		for _, p := range tab.Problems() {
			t.Error(p)
		}
	}
}
