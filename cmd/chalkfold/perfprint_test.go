package main

import (
	"path/filepath"
	"strings"
	"testing"
	"time"

	"chalkfold/wasm/browser"
)

// heartbeats counts on the page's own thread, and keeps the longest that it was
// silent, ms.
const heartbeats = `void (() => {
	clearInterval(window.beating);
	let last = performance.now();
	window.silent = 0;
	window.beating = setInterval(() => {
		const now = performance.now();
		window.silent = Math.max(window.silent, now - last);
		last = now;
	}, 20);
})()`

// printing measures the whole pattern as PDF: how long it takes from the tap, with
// its search for places, and how the page fares meanwhile. The browser slows the
// page down, and not the helper beside it.
func printing(b *testing.B) []reading {
	b.Helper()
	tab := sampleProbed(b)
	dir := b.TempDir()
	allowDownloads(tab, dir)
	tab.Slow(4)
	visit(tab, "share")
	whole := reading{what: "the pattern as PDF, from the tap, page 4×", unit: "ms"}
	silent := reading{what: "  longest without a heartbeat", budget: 200, unit: "ms"}
	longest := reading{what: "  longest task meanwhile", unit: "ms"}
	before := reading{what: "memory of the page's process, before", unit: "MB", got: []float64{tab.Peak()}}
	for _, paper := range []string{"Letter", "Legal", "A4"} {
		press(tab, paper)
		time.Sleep(300 * time.Millisecond)
		browser.Eval[any](tab, heartbeats+`; void (probe.tasks.length = 0)`)
		began := time.Now()
		tap(tab, "#sheets-save")
		fileCame(b, filepath.Join(dir, "alto-3-"+strings.ToLower(paper)+".pdf"))
		whole.got = append(whole.got, float64(time.Since(began).Milliseconds()))
		silent.got = append(silent.got, browser.Eval[float64](tab, `window.silent`))
		longest.got = append(longest.got, browser.Eval[float64](tab, `Math.max(0, ...probe.tasks)`))
	}
	most := reading{what: "  at most, when all are printed", unit: "MB", got: []float64{tab.Peak()}}
	return []reading{whole, silent, longest, before, most}
}
