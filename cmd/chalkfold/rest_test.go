package main

import (
	"bytes"
	"net/http"
	"net/http/httptest"
	"testing"

	"github.com/chromedp/chromedp"

	"chalkfold/wasm/browser"
)

// holdsRest has the rest of the program wait at the server until release is
// called.
func (s *stall) holdsRest() (release func()) {
	built, list := builtPage(s.t)
	held := make(chan struct{})
	s.instead("/rest.wasm", func(w http.ResponseWriter, r *http.Request) {
		select {
		case <-held:
			site, err := newSite(built, list)
			if err != nil {
				s.t.Error(err)
				return
			}
			site.ServeHTTP(w, r)
		case <-r.Context().Done():
		}
	})
	return func() { close(held) }
}

const (
	wantsRest  = `document.querySelector(".wanted")`
	sampleCut  = `document.querySelector("#verdict")?.textContent.includes("It can be cut")`
	shareShown = `document.querySelector("main .stage")?.textContent.includes("Link to this draft")`
)

// firstStands waits until that is so, and fails when the page wants the rest of
// the program for it.
func firstStands(t *testing.T, tab *browser.Tab, js string) {
	t.Helper()
	tab.Until(`chalkfold.wanted() || ` + js)
	if slot := browser.Eval[int](tab, `chalkfold.wanted()`); slot != 0 {
		const firstSlot = 4096 // of the table of functions, as the linker lays it out
		t.Fatalf("one of the first screens waits for the rest of the program, for the function in line %d of .build/web/parts.txt", slot-firstSlot+1)
	}
}

// TestFirstPart works through the first screens while the rest of the program is
// still on its way, then turns to what needs it.
func TestFirstPart(t *testing.T) {
	s := openStall(t)
	release := s.holdsRest()
	tab := browser.Open(t, "").Tab()
	tab.Goto(s.url("/"))
	firstStands(t, tab, `[...document.querySelectorAll("button")].some((b) => b.offsetParent && b.textContent === "Open the sample")`)
	press(tab, "Open the sample")
	firstStands(t, tab, sampleCut)
	for _, stage := range []string{"style", "book", "draft", "tape"} {
		askFor(tab, stage)
		firstStands(t, tab, `document.querySelector('.stage-link[data-stage="`+stage+`"][aria-current]')`)
	}
	firstStands(t, tab, value("hip_girth")+` === "42"`)
	tab.Do(chromedp.SendKeys(chromedp.ID("ticket"), "!"))
	firstStands(t, tab, savedAs("Alto 3!"))

	askFor(tab, "share")
	tab.Until(wantsRest + ` && ` + firstSays + `.startsWith("Fetching")`)
	for _, f := range illFitting(tab) {
		t.Errorf("while the page waits: %s", f)
	}
	shot(t, tab, "rest-wanted")
	release()
	tab.Until(shareShown + ` && !` + wantsRest)
	tab.Until(readyOffline)
	turnTo(tab, "tape")
	tab.Until(ticketText + ` === "Alto 3!"`)
	noProblems(t, tab)
}

// TestRestNotFetched withholds the rest of the program: the first screens work,
// and what needs more says so, and takes another try.
func TestRestNotFetched(t *testing.T) {
	s := openStall(t)
	built, list := builtPage(t)
	s.instead("/rest.wasm", func(w http.ResponseWriter, _ *http.Request) {
		http.Error(w, "the network's own page", http.StatusServiceUnavailable)
	})
	profile := t.TempDir()
	b := browser.Open(t, profile)
	tab := b.Tab()
	tab.Goto(s.url("/#tape"))
	firstStands(t, tab, deskStands)
	tab.Do(chromedp.SendKeys(chromedp.ID("ticket"), "Alto 3"))
	firstStands(t, tab, savedAs("Alto 3"))
	askFor(tab, "share")
	tab.Until(wantsRest + ` && ` + mayRetry + ` && ` + firstSays + `.includes("could not be fetched")`)
	for _, f := range illFitting(tab) {
		t.Errorf("without the rest: %s", f)
	}
	shot(t, tab, "rest-failed")
	tap(tab, "#first-again")
	tab.Until(mayRetry + ` && ` + firstSays + `.includes("could not be fetched")`)
	b.Kill() // with half of a program

	s.put(built, list)
	tab = browser.Open(t, profile).Tab()
	tab.Goto(s.url("/#tape"))
	tab.Until(ticketText + ` === "Alto 3"`)
	askFor(tab, "share")
	tab.Until(shareShown + ` && !` + wantsRest)
	tab.Until(readyOffline)
	noProblems(t, tab)
}

// TestRestTriedAgain lets the rest come at the second try, and has a page that
// opens at a stage of the rest tell of it on its first screen.
func TestRestTriedAgain(t *testing.T) {
	s := openStall(t)
	built, list := builtPage(t)
	s.instead("/rest.wasm", func(w http.ResponseWriter, _ *http.Request) {
		http.Error(w, "the network's own page", http.StatusServiceUnavailable)
	})
	tab := browser.Open(t, "").Tab()
	tab.Goto(s.url("/#share"))
	tab.Until(mayRetry + ` && ` + firstSays + `.includes("could not be fetched")`)
	s.put(built, list)
	tap(tab, "#first-again")
	tab.Until(`document.querySelector("main .stage") && !` + wantsRest)
	tab.Until(readyOffline)
}

// TestRestOfNewerVersion serves the rest of another program than the first part
// is of, as where a server is renewed between the two. The page says so when it
// needs it, and opens anew.
func TestRestOfNewerVersion(t *testing.T) {
	s := openStall(t)
	built, list := builtPage(t)
	site, err := newSite(built, list)
	if err != nil {
		t.Fatal(err)
	}
	w := httptest.NewRecorder()
	site.ServeHTTP(w, httptest.NewRequest(http.MethodGet, "http://127.0.0.1/rest.wasm", nil))
	rest := bytes.Clone(w.Body.Bytes())
	mark := bytes.Index(rest, []byte("first")) + len("first") + 2 // after a length and the letter
	rest[mark] ^= 1
	s.instead("/rest.wasm", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "application/wasm")
		_, _ = w.Write(rest)
	})
	tab := browser.Open(t, "").Tab()
	tab.Goto(s.url("/#tape"))
	tab.Until(deskStands)
	askFor(tab, "share")
	tab.Until(wantsRest + ` && ` + firstSays + `.includes("newer version")`)
	shot(t, tab, "rest-newer")
	s.put(built, list)
	tap(tab, "#first-again")
	tab.Until(deskStands + ` || ` + shareShown)
	tab.Until(readyOffline)
}
