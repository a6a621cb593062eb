package main

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"chalkfold/wasm/browser"
)

// instead answers for one path, and leaves the rest to the site.
func (s *stall) instead(path string, answer http.HandlerFunc) {
	s.mu.Lock()
	defer s.mu.Unlock()
	site := s.site
	s.site = http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path == path {
			answer(w, r)
			return
		}
		site.ServeHTTP(w, r)
	})
}

const (
	firstSays = `document.querySelector("#first-say").textContent`
	mayRetry  = `document.querySelector("#first-again:not([hidden])")`
)

// TestProgramNotFetched withholds the program, then lets it come.
func TestProgramNotFetched(t *testing.T) {
	s := openStall(t)
	built, list := builtPage(t)
	s.instead("/app.wasm", func(w http.ResponseWriter, _ *http.Request) {
		http.Error(w, "the network's own page", http.StatusServiceUnavailable)
	})
	tab := browser.Open(t, "").Tab()
	tab.Goto(s.url("/#tape"))
	tab.Until(mayRetry + ` && ` + firstSays + `.includes("could not be fetched")`)
	for _, f := range illFitting(tab) {
		t.Errorf("the first screen: %s", f)
	}
	shot(t, tab, "first-failed")
	s.put(built, list)
	tap(tab, "#first-again")
	tab.Until(deskStands)
	tab.Until(readyOffline)
}

// TestProgramComesSlowly sends half of the program and then nothing: the page
// counts what has come, says so, and takes another try.
func TestProgramComesSlowly(t *testing.T) {
	s := openStall(t)
	built, list := builtPage(t)
	site, err := newSite(built, list)
	if err != nil {
		t.Fatal(err)
	}
	file := func(path string) []byte {
		w := httptest.NewRecorder()
		site.ServeHTTP(w, httptest.NewRequest(http.MethodGet, "http://127.0.0.1"+path, nil))
		return w.Body.Bytes()
	}
	const patience = "PATIENCE = 15_000"
	start, program := string(file("/page.js")), file("/app.wasm")
	if strings.Count(start, patience) != 1 {
		t.Fatalf("page.js has no %q", patience)
	}
	done := make(chan struct{})
	s.instead("/app.wasm", func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "application/wasm")
		_, _ = w.Write(program[:len(program)/2])
		w.(http.Flusher).Flush()
		select {
		case <-done:
		case <-r.Context().Done():
		}
	})
	s.instead("/page.js", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/javascript")
		_, _ = w.Write([]byte(strings.Replace(start, patience, "PATIENCE = 500", 1)))
	})
	tab := browser.Open(t, "").Tab()
	tab.Goto(s.url("/#tape"))
	tab.Until(`["49 %", "50 %"].includes(document.querySelector("#first-part").textContent)`)
	tab.Until(mayRetry + ` && ` + firstSays + `.includes("network is slow")`)
	shot(t, tab, "first-slow")
	s.put(built, list)
	tap(tab, "#first-again")
	tab.Until(deskStands)
	close(done)
}

// TestProgramStops stops the program in the ways it may stop, and opens the
// page again: what was saved is there.
func TestProgramStops(t *testing.T) {
	for _, tt := range []struct {
		name, stop string
		told       []string
	}{
		{"panic", `chalkfold.files = () => { throw new Error("a fault for the test") }; dispatchEvent(new Event("chalkfold-files"))`, []string{"a fault for the test", "chalkfold/ui.readFiles("}},
		{"trap", `performance.now = () => { throw new WebAssembly.RuntimeError("a trap for the test") }; dispatchEvent(new Event("chalkfold-files"))`, []string{"a trap for the test"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s := openStall(t)
			tab := browser.Open(t, "").Tab()
			tab.Goto(s.url("/#tape"))
			tab.Until(deskStands)
			tab.Do(chromedp.SendKeys(chromedp.ID("ticket"), "Alto 3"))
			tab.Until(savedAs("Alto 3"))
			browser.Eval[any](tab, "void setTimeout(() => {"+tt.stop+"})")
			tab.Until(`document.querySelector("#stopped-say")?.textContent.includes("saved is safe")`)
			for _, told := range tt.told {
				tab.Until(fmt.Sprintf(`document.querySelector("#stopped-fault").textContent.includes(%q)`, told))
			}
			for _, f := range illFitting(tab) {
				t.Errorf("the last screen: %s", f)
			}
			shot(t, tab, "stopped-"+tt.name)
			tap(tab, "#stopped-open")
			tab.Until(`!document.querySelector(".stopped") && ` + savedAs("Alto 3"))
		})
	}
}
