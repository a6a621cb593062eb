package main

import (
	"cmp"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"chalkfold/wasm/browser"
)

// perfFile is where the report goes.
const perfFile = "../../.build/perf.md"

// perfRuns is how often each time is taken.
const perfRuns = 5

// A reading is one thing measured, several times over.
type reading struct {
	what   string
	budget float64 // 0 where there is none
	unit   string
	got    []float64
}

func (r reading) median() float64 {
	sorted := slices.Sorted(slices.Values(r.got))
	return sorted[len(sorted)/2]
}

// row is the reading as a row of the report.
func (r reading) row() string {
	budget, mark := "", ""
	if r.budget > 0 {
		budget = fmt.Sprintf("%.0f %s", r.budget, r.unit)
		mark = "✓"
		if r.median() > r.budget {
			mark = "**over**"
		}
	}
	return fmt.Sprintf("| %s | %.0f %s | %.0f to %.0f, %d runs | %s | %s |",
		r.what, r.median(), r.unit, slices.Min(r.got), slices.Max(r.got), len(r.got), budget, mark)
}

// BenchmarkPage writes the report of make perf: what the page costs, and how
// fast it is on a slow phone and a slow line. The times are of this machine,
// with its tab slowed down, and mean something only where nothing else runs;
// the load that it had stands above them. Only the sizes are gated, where the
// page is built.
func BenchmarkPage(b *testing.B) {
	var report strings.Builder
	fmt.Fprintln(&report, "# What the page costs")
	firstLoad(b, &report)
	fmt.Fprintf(&report, "\nLoad of the machine before: %s\n", load())
	fmt.Fprintln(&report, "\n| what | median | from, to | budget | |\n| --- | --- | --- | --- | --- |")
	for _, part := range []struct {
		name  string
		taken func(*testing.B) []reading
	}{
		{"bytes", laterOpens},
		{"slow-line", slowLine},
		{"empty-page", bareOpens},
		{"first-visit", coldOpens},
		{"opened-again", warmOpens},
		{"answers", answers},
		{"printing", printing},
		{"full-book", fullBook},
		{"memory", thirtyMinutes},
	} {
		b.Run(part.name, func(b *testing.B) {
			for range b.N {
				for _, r := range part.taken(b) {
					fmt.Fprintln(&report, r.row())
				}
			}
		})
	}
	fmt.Fprintf(&report, "\nLoad of the machine after: %s\n", load())
	if err := os.WriteFile(perfFile, []byte(report.String()), 0o644); err != nil {
		b.Fatal(err)
	}
}

// load is how many programs have wanted a processor, over 1, 5 and 15 minutes,
// where the system tells.
func load() string {
	told, err := os.ReadFile("/proc/loadavg")
	if err != nil {
		return "not told"
	}
	return fmt.Sprintf("%s, on %d processors", strings.Join(strings.Fields(string(told))[:3], " "), runtime.NumCPU())
}

// firstLoad lists what is fetched at the first visit.
func firstLoad(b *testing.B, w io.Writer) {
	b.Helper()
	_, list := builtPage(b)
	fmt.Fprintln(w, "\n| file | bytes | over the wire |\n| --- | --- | --- |")
	var all, wire int64
	for _, f := range list.Files {
		if !f.Kept() {
			continue
		}
		sent := cmp.Or(f.Brotli, f.Plain)
		fmt.Fprintf(w, "| %s | %d | %d |\n", f.Path, f.Size, sent)
		all += f.Size
		wire += sent
	}
	fmt.Fprintf(w, "| all | %d | %d |\n", all, wire)
}

// weighs counts the bytes that are sent, but for the service worker's own file,
// by which the browser looks for an update.
type weighs struct {
	http.Handler
	mu    sync.Mutex
	bytes int
}

type weighed struct {
	http.ResponseWriter
	by *weighs
}

func (w weighed) Write(p []byte) (int, error) {
	w.by.mu.Lock()
	w.by.bytes += len(p)
	w.by.mu.Unlock()
	return w.ResponseWriter.Write(p)
}

func (ws *weighs) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if r.URL.Path != "/sw.js" {
		w = weighed{w, ws}
	}
	ws.Handler.ServeHTTP(w, r)
}

func (ws *weighs) took() float64 {
	ws.mu.Lock()
	defer ws.mu.Unlock()
	n := ws.bytes
	ws.bytes = 0
	return float64(n)
}

func laterOpens(b *testing.B) []reading {
	b.Helper()
	s := openStall(b)
	scale := &weighs{Handler: s.site}
	s.site = scale
	bytes := reading{what: "bytes of the first visit, without sw.js", unit: "B"}
	again := reading{what: "bytes of a later open", unit: "B"}
	for range perfRuns {
		br := browser.Open(b, "")
		tab := br.Tab()
		tab.Goto(s.url("/"))
		tab.Until(readyOffline)
		bytes.got = append(bytes.got, scale.took())
		tab.Goto(s.url("/?again"))
		tab.Until(readyOffline)
		again.got = append(again.got, scale.took())
		br.Close()
	}
	return []reading{bytes, again}
}

// slowLine opens the page for the first time where the line is slow.
func slowLine(b *testing.B) []reading {
	b.Helper()
	s := openStall(b)
	s.site = newLine(400, 400*time.Millisecond).over(s.site)
	painted := reading{what: "first screen, first visit, 400 kbit/s, answers in 400 ms, 4×", budget: 1500, unit: "ms"}
	stands := reading{what: "interactive, the same", unit: "ms"}
	firstOpens(b, s.url("/"), times{"painted": &painted, "stands": &stands})
	return []reading{painted, stands}
}

// coldOpens opens the page for the first time where the line is fast.
func coldOpens(b *testing.B) []reading {
	b.Helper()
	s := openStall(b)
	fetched := reading{what: "  of which until the program is compiled", unit: "ms"}
	stands := reading{what: "interactive, first visit, fast line, 4×", budget: 900, unit: "ms"}
	firstOpens(b, s.url("/"), times{"stands": &stands, "compiled": &fetched})
	return []reading{stands, fetched}
}

// times are readings, each by the name that the probe has for what it takes.
type times map[string]*reading

// taken opens a page in a tab and takes them once it stands: all are known then.
func (ts times) taken(tab *browser.Tab, address string) {
	tab.Goto(address)
	browser.Eval[float64](tab, "probe.stands")
	for name, r := range ts {
		r.got = append(r.got, browser.Eval[float64](tab, "probe."+name))
	}
}

// firstOpens takes the times of a page that is opened for the first time, in a new
// browser each time, four times slowed down.
func firstOpens(b *testing.B, address string, ts times) {
	b.Helper()
	for range perfRuns {
		br := browser.Open(b, "")
		warm(br)
		ts.taken(probed(br, 4), address)
		br.Close()
	}
}

// warmOpens opens it again and again with the server stopped.
func warmOpens(b *testing.B) []reading {
	b.Helper()
	s := openStall(b)
	br := browser.Open(b, "")
	tab := br.Tab()
	tab.Goto(s.url("/"))
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	tab.Until(readyOffline)
	// The browser keeps the compiled program once it has been run for a while
	// from the copy that is kept.
	tab.Goto(s.url("/?again"))
	tab.Until(readyOffline)
	browser.Eval[float64](tab, stretch+"(600)")
	tab.Goto(s.url("/?again"))
	tab.Until(lookKept)
	tab.Close()
	s.shut()
	var out []reading
	for _, c := range []struct {
		slow, budget float64
		morning      bool
	}{{4, 350, false}, {6, 900, false}, {4, 0, true}} {
		seen := reading{what: fmt.Sprintf("the Book seen, opened again after some use, no network, %.0f×", c.slow), budget: c.budget, unit: "ms"}
		if c.morning {
			seen.what += ", no service worker running yet"
		}
		stands := reading{what: "  and interactive", budget: c.budget, unit: "ms"}
		compiled := reading{what: "  of which until the program is compiled", unit: "ms"}
		for range perfRuns {
			tab := probed(br, c.slow)
			if c.morning {
				tab.Morning()
			}
			times{"painted": &seen, "stands": &stands, "compiled": &compiled}.taken(tab, s.url("/#book"))
			tab.Close()
		}
		out = append(out, seen, stands, compiled)
	}
	return out
}

// warm has the browser show another page first: what it takes to start the
// browser itself is not the page's.
func warm(br *browser.Browser) {
	other := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		_, _ = io.WriteString(w, "<!doctype html><title>Another page</title><p>Nothing yet.")
	}))
	defer other.Close()
	tab := br.Tab()
	tab.Goto(other.URL)
	time.Sleep(time.Second)
}

// probed is a tab that takes its own times, so many times slowed down. Nobody listens to
// what it fetches: that alone takes a slowed page 0.15 s to start.
func probed(br *browser.Browser, slow float64) *browser.Tab {
	tab := br.Tab()
	tab.Before(probe)
	tab.Unheard()
	tab.Slow(slow)
	return tab
}

// probe takes the times of a page in the page itself.
const probe = `window.probe = { interactions: new Map(), tasks: [], compiled: 0, memory: null };
	probe.painted = new Promise((done) => new PerformanceObserver((list) => {
		for (const e of list.getEntriesByName("first-contentful-paint")) done(e.startTime);
	}).observe({ type: "paint", buffered: true }));
	// It stands when the frame after the first stage begins.
	probe.stands = new Promise((done) => new MutationObserver((_, watch) => {
		if (!` + stageStands + `) return;
		watch.disconnect();
		requestAnimationFrame(() => done(performance.now()));
	}).observe(document, { subtree: true, childList: true }));
	new PerformanceObserver((list) => {
		for (const e of list.getEntries()) if (e.interactionId)
			probe.interactions.set(e.interactionId, Math.max(e.duration, probe.interactions.get(e.interactionId) ?? 0));
	}).observe({ type: "event", durationThreshold: 16, buffered: true });
	new PerformanceObserver((list) => {
		for (const e of list.getEntries()) probe.tasks.push(e.duration);
	}).observe({ type: "longtask" });
	const instantiate = WebAssembly.instantiate;
	WebAssembly.instantiate = async (...args) => {
		const made = await instantiate.apply(WebAssembly, args);
		probe.compiled ||= performance.now(); // the first part; the rest has neither
		probe.memory ??= made.exports.mem;
		return made;
	};`
