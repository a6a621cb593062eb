package main

import (
	"errors"
	"io/fs"
	"net"
	"net/http"
	"net/http/httputil"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/chromedp/chromedp"

	"chalkfold/static"
	"chalkfold/wasm/browser"
)

// A stall is the built page served on one address, which can be shut and
// opened again, as a network comes and goes.
type stall struct {
	t    testing.TB
	addr string

	mu     sync.Mutex
	site   http.Handler
	asked  []string // every path that reached the server
	heard  []string // every request, with its heads and its body
	server *http.Server
}

// builtPage returns the page as it was built last. A test is skipped where it
// is not built, unless the browser is needed.
func builtPage(t testing.TB) (fs.FS, static.List) {
	t.Helper()
	built, list, err := static.Open()
	if errors.Is(err, static.ErrNotBuilt) {
		browser.Skip(t, err.Error())
	}
	if err != nil {
		t.Fatal(err)
	}
	return built, list
}

func openStall(t testing.TB) *stall {
	t.Helper()
	s := &stall{t: t, addr: "127.0.0.1:0"}
	s.put(builtPage(t))
	s.open()
	t.Cleanup(s.shut)
	return s
}

// put changes what is served.
func (s *stall) put(built fs.FS, list static.List) {
	s.t.Helper()
	site, err := newSite(built, list)
	if err != nil {
		s.t.Fatal(err)
	}
	s.mu.Lock()
	s.site = site
	s.mu.Unlock()
}

// open starts the server, on the same address as before.
func (s *stall) open() {
	s.t.Helper()
	l, err := net.Listen("tcp", s.addr)
	if err != nil {
		s.t.Fatal(err)
	}
	s.addr = l.Addr().String()
	s.server = &http.Server{Handler: http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		whole, err := httputil.DumpRequest(r, true)
		if err != nil {
			s.t.Error(err)
		}
		s.mu.Lock()
		s.asked = append(s.asked, r.URL.Path)
		s.heard = append(s.heard, string(whole))
		site := s.site
		s.mu.Unlock()
		site.ServeHTTP(w, r)
	})}
	go func(server *http.Server) { _ = server.Serve(l) }(s.server)
}

// shut stops the server: nothing listens any more.
func (s *stall) shut() { _ = s.server.Close() }

func (s *stall) url(path string) string { return "http://" + s.addr + path }

// took returns what has been asked for since it was called last.
func (s *stall) took() []string {
	s.mu.Lock()
	defer s.mu.Unlock()
	asked := s.asked
	s.asked = nil
	return asked
}

const (
	deskStands   = `document.querySelector("#ticket")`
	readyOffline = `document.querySelector("#files")?.textContent === "Ready without a network"`
	ticketText   = `document.querySelector("#ticket").value`
)

// savedAs is that the page shows the ticket and says that it is saved. Both are
// drawn at once: "Saved" alone may still be about the change before.
func savedAs(ticket string) string {
	return `document.querySelector("h1").textContent === "` + ticket + `" && document.querySelector("#saving").textContent === "Saved"`
}

func noProblems(t *testing.T, tab *browser.Tab) {
	t.Helper()
	for _, p := range tab.Problems() {
		t.Errorf("the page reports: %s", p)
	}
}

// shot keeps a picture of the screen where CHALKFOLD_SHOTS names a folder.
func shot(t *testing.T, tab *browser.Tab, name string) {
	t.Helper()
	if dir := os.Getenv("CHALKFOLD_SHOTS"); dir != "" {
		tab.Shot(filepath.Join(dir, name+".png"), false)
	}
}

func TestWithoutNetwork(t *testing.T) {
	s := openStall(t)
	b := browser.Open(t, "")
	tab := b.Tab()
	tab.Goto(s.url("/#tape"))
	tab.Until(deskStands)
	tab.Until(readyOffline)
	shot(t, tab, "tape-empty")

	// The page counts its files itself; count them here as well.
	_, list := builtPage(t)
	want := -1 // the worker is kept by the browser
	for _, f := range list.Files {
		if f.Kept() {
			want++
		}
	}
	kept := browser.Eval[int](tab, `(async () => {
		let n = 0;
		for (const name of await caches.keys())
			for (const r of await (await caches.open(name)).keys())
				if (!r.url.endsWith("/.replaces")) n++;
		return n;
	})()`)
	if kept != want {
		t.Errorf("%d files kept, want %d", kept, want)
	}

	tab.Do(
		chromedp.SendKeys(chromedp.ID("waist_girth"), "34"),
		chromedp.SendKeys(chromedp.ID("hip_girth"), "42"),
		chromedp.SendKeys(chromedp.ID("ticket"), "Alto 3"),
	)
	tab.Until(savedAs("Alto 3"))
	shot(t, tab, "tape-typed")
	noProblems(t, tab)

	s.shut()
	for _, path := range []string{"/", "/any/deep/link", "/#draft"} {
		tab.Goto(s.url(path))
		tab.Until(`document.querySelector(".bar")`)
		tab.Until(`document.querySelector("h1").textContent === "Alto 3"`)
		noProblems(t, tab)
	}
	tab.Goto(s.url("/#tape"))
	tab.Until(`document.querySelector("#hip_girth")?.value === "42"`)
	tab.Until(readyOffline)

	// Another window with the network still gone.
	other := b.Tab()
	other.Goto(s.url("/#tape"))
	other.Until(ticketText + ` === "Alto 3"`)
	noProblems(t, other)
}

// TestEveryFileOffline asks for every file of the list with the server stopped,
// and weighs each against the list.
func TestEveryFileOffline(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.Goto(s.url("/"))
	tab.Until(readyOffline)
	s.shut()
	_, list := builtPage(t)
	for _, f := range list.Files {
		if !f.Kept() || f.Name == "sw.js" { // kept by the browser itself
			continue
		}
		got := browser.Eval[string](tab, `fetch("`+f.Path+`").then(async (r) => {
			const sum = await crypto.subtle.digest("SHA-256", await r.arrayBuffer());
			return Array.from(new Uint8Array(sum), (b) => b.toString(16).padStart(2, "0")).join("") + " " + r.headers.get("Content-Type");
		}, String)`)
		if want := f.Hash + " " + f.Type; got != want {
			t.Errorf("%s without a network: %s, want %s", f.Path, got, want)
		}
	}
}

// TestLaterOpensCostNothing: once kept, a page asks the server for nothing but
// whether the worker has changed.
func TestLaterOpensCostNothing(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.Goto(s.url("/#tape"))
	tab.Until(readyOffline)
	s.took()
	tab.Goto(s.url("/?again#tape"))
	tab.Until(deskStands)
	tab.Until(readyOffline)
	for _, path := range s.took() {
		if path != "/sw.js" {
			t.Errorf("a later open fetched %s", path)
		}
	}
}
