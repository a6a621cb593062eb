package main

import (
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"path"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"testing/fstest"
	"time"

	"chalkfold/static"
	"chalkfold/wasm/browser"
)

// nextVersion returns a build in which every single file differs from the one
// given, and still does the same.
func nextVersion(t *testing.T, built fs.FS, list static.List) (fs.FS, static.List) {
	t.Helper()
	site, err := newSite(built, list)
	if err != nil {
		t.Fatal(err)
	}
	next := static.List{Version: strings.Repeat("2", len(list.Version)), Scripts: list.Scripts, Styles: list.Styles}
	files := fstest.MapFS{}
	rename := []string{list.Version, next.Version}
	for _, f := range list.Files { // the worker comes last
		w := httptest.NewRecorder()
		site.ServeHTTP(w, httptest.NewRequest(http.MethodGet, "http://127.0.0.1"+f.Path, nil))
		body := w.Body.Bytes()
		switch path.Ext(f.Name) {
		case ".wasm":
			body = append(body, 0, 5, 4, 'n', 'e', 'x', 't') // a section of its own, which nobody reads
		case ".js", ".css":
			body = append(body, "\n/* next */\n"...)
		case ".html", ".svg":
			body = append(body, "<!-- next -->\n"...)
		default:
			body = append(body, '\n')
		}
		if f.Name == "sw.js" {
			body = []byte(strings.NewReplacer(rename...).Replace(string(body)))
		}
		sum := sha256.Sum256(body)
		hash := hex.EncodeToString(sum[:])
		rename = append(rename, f.Hash, hash)
		files[f.Name] = &fstest.MapFile{Data: body}
		f.Hash, f.Plain, f.Brotli, f.Gzip = hash, int64(len(body)), 0, 0
		next.Files = append(next.Files, f)
	}
	return files, next
}

// faulty serves the next version, but for one file: that one is cut off in the
// middle, or comes damaged, or is missing.
type faulty struct {
	site  http.Handler
	path  string
	fault string
	met   atomic.Int32 // how often the fault has struck
}

func (f *faulty) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if r.URL.Path != f.path {
		f.site.ServeHTTP(w, r)
		return
	}
	f.met.Add(1)
	switch f.fault {
	case "cut off":
		w.Header().Set("Content-Length", "100000")
		_, _ = w.Write([]byte("the first half"))
		panic(http.ErrAbortHandler)
	case "damaged":
		_, _ = w.Write([]byte("a page of the network's own, asking to sign in"))
	case "missing":
		http.NotFound(w, r)
	}
}

const (
	version       = `[...document.querySelectorAll(".foot p")].map((p) => p.textContent).find((s) => s.startsWith("Version "))`
	lookForUpdate = `navigator.serviceWorker.getRegistration().then((r) => r.update()).then(() => "", (e) => String(e))`
	updateSettled = `navigator.serviceWorker.getRegistration().then((r) => !r.installing)`
	updateWaits   = `navigator.serviceWorker.getRegistration().then((r) => !!r.waiting)`
	cacheNames    = `caches.keys().then((names) => names.sort().join(" "))`
)

// waitFor waits until a promise comes true.
func waitFor(t *testing.T, tab *browser.Tab, promise string) {
	t.Helper()
	for deadline := time.Now().Add(browser.Patience); !browser.Eval[bool](tab, promise); time.Sleep(30 * time.Millisecond) {
		if time.Now().After(deadline) {
			t.Fatalf("never so: %s", promise)
		}
	}
}

// TestCutUpdate cuts the network at every single file of an update, damages
// each, and withholds each. The version before must go on opening without a
// network each time, and the update must come through in the end.
func TestCutUpdate(t *testing.T) {
	built, list := builtPage(t)
	nextBuilt, nextList := nextVersion(t, built, list)
	nextSite, err := newSite(nextBuilt, nextList)
	if err != nil {
		t.Fatal(err)
	}
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.Goto(s.url("/#tape"))
	tab.Until(readyOffline)

	// In the order of the worker, so that each is the first that is missing.
	files := slices.DeleteFunc(slices.Clone(nextList.Files[:len(nextList.Files)-1]), func(f static.File) bool { return !f.Kept() })
	slices.SortFunc(files, func(a, b static.File) int { return strings.Compare(a.Path, b.Path) })
	for i, f := range files {
		faults := []string{"cut off"}
		if i == 0 || i == len(files)-1 || f.Path == "/app.wasm" {
			faults = append(faults, "damaged", "missing")
		}
		for _, fault := range faults {
			broken := &faulty{site: nextSite, path: f.Path, fault: fault}
			s.mu.Lock()
			s.site = broken
			s.mu.Unlock()
			browser.Eval[string](tab, lookForUpdate)
			waitFor(t, tab, updateSettled)
			if broken.met.Load() == 0 {
				t.Errorf("%s %s: the update never asked for it: the test cuts nothing", f.Path, fault)
			}
			if browser.Eval[bool](tab, updateWaits) {
				t.Fatalf("%s %s: half an update waits to take over", f.Path, fault)
			}
			s.shut()
			tab.Goto(s.url("/?after" + f.Name + "#tape"))
			tab.Until(deskStands)
			tab.Until(readyOffline)
			if got := browser.Eval[string](tab, version); got != "Version "+list.Version {
				t.Errorf("%s %s: %s opened, want %s", f.Path, fault, got, list.Version)
			}
			s.open()
		}
	}

	// The network holds: the rest comes, and only the rest.
	s.put(nextBuilt, nextList)
	s.took()
	if fault := browser.Eval[string](tab, lookForUpdate); fault != "" {
		t.Fatal(fault)
	}
	waitFor(t, tab, updateWaits)
	fetched := 0
	for _, p := range s.took() {
		if p != "/sw.js" {
			fetched++
		}
	}
	if fetched > 1 {
		t.Errorf("the update fetched %d files again, want only the last one: what came before was kept", fetched)
	}
	tab.Until(`[...document.querySelectorAll("button")].some((b) => b.textContent === "Open it now")`)
	shot(t, tab, "update")
	if names := browser.Eval[string](tab, cacheNames); !strings.Contains(names, list.Version) {
		t.Errorf("caches %q: the version in use was let go before the next had started", names)
	}
	browser.Eval[any](tab, `[...document.querySelectorAll("button")].find((b) => b.textContent === "Open it now").click()`)
	tab.Until(version + ` === "Version ` + nextList.Version + `"`)
	tab.Until(readyOffline)
	waitFor(t, tab, cacheNames+`.then((names) => names === "chalkfold-`+nextList.Version+`")`)
	s.shut()
	tab.Goto(s.url("/?next#tape"))
	tab.Until(deskStands)
	tab.Until(readyOffline)
	if got := browser.Eval[string](tab, version); got != "Version "+nextList.Version {
		t.Errorf("%s opened after the update, want %s", got, nextList.Version)
	}
}
