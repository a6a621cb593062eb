package main

import (
	"fmt"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/heapprofiler"
	"github.com/chromedp/cdproto/performance"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"chalkfold/wasm/browser"
)

// sampleProbed opens the sample in a tab whose answers are measured, and waits
// until nothing is fetched any more.
func sampleProbed(b *testing.B) *browser.Tab {
	b.Helper()
	s := openStall(b)
	tab := probed(browser.Open(b, ""), 1)
	tab.Goto(s.url("/"))
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	tab.Until(readyOffline)
	return tab
}

// answers measures how long the page takes to show what a key has done, as the
// event timing of the browser has it: the worst of a sequence, with the
// processor slowed down. A key that was shown within 16 ms is not counted by
// the browser and stands for 16.
func answers(b *testing.B) []reading {
	b.Helper()
	tab := sampleProbed(b)
	tab.Slow(4)

	sequences := []struct {
		what string
		open func()
		keys func(run int)
	}{
		{
			"keys of the tape, 4×",
			func() {
				visit(tab, "tape")
				tab.Do(chromedp.Focus(chromedp.ID("waist_girth")))
				tab.Until(`document.querySelector(".pad")`)
			},
			func(int) {
				for i := range 12 {
					fingers(tab, `[...document.querySelectorAll(".pad-key[data-key]")].filter((k) => k.checkVisibility())`, i)
				}
			},
		},
		{
			"a measurement typed, 4×",
			func() { visit(tab, "tape"); tab.Do(chromedp.Focus(chromedp.ID("hip_girth"))) },
			func(run int) { typeSlowly(tab, "hip_girth", fmt.Sprint(40+run)) },
		},
		{
			"a rule typed, 4×",
			func() {
				visit(tab, "style")
				if !browser.Eval[bool](tab, `!!document.querySelector("#fork_fullness")`) {
					tap(tab, "#group-fork")
				}
				tab.Until(`document.querySelector("#fork_fullness")`)
				tab.Do(chromedp.Focus(chromedp.ID("fork_fullness")))
			},
			func(run int) { typeSlowly(tab, "fork_fullness", fmt.Sprintf("0.%d", 45+run)) },
		},
		{
			"stage to stage, 4×",
			func() {},
			func(int) {
				for _, stage := range []string{"draft", "cloth", "chalk", "bench", "fitting", "share", "house", "tape", "style", "book"} {
					visit(tab, stage)
					tab.Do(chromedp.TapXY(180, 30)) // an interaction that waits for the stage to be drawn
					time.Sleep(150 * time.Millisecond)
				}
			},
		},
	}
	var out []reading
	for _, seq := range sequences {
		worst := reading{what: "slowest answer, " + seq.what, budget: 100, unit: "ms"}
		longest := reading{what: "  longest task meanwhile", unit: "ms"}
		for run := range perfRuns {
			seq.open()
			time.Sleep(300 * time.Millisecond)
			browser.Eval[any](tab, `void (probe.interactions.clear(), probe.tasks.length = 0)`)
			seq.keys(run)
			time.Sleep(500 * time.Millisecond)
			worst.got = append(worst.got, browser.Eval[float64](tab, `Math.max(16, ...probe.interactions.values())`))
			longest.got = append(longest.got, browser.Eval[float64](tab, `Math.max(0, ...probe.tasks)`))
		}
		out = append(out, worst, longest)
	}
	return out
}

// visit turns to a stage by the address.
func visit(tab *browser.Tab, stage string) {
	browser.Eval[any](tab, `void (location.hash = "#`+stage+`")`)
	tab.Until(`document.querySelector("main .stage") && document.querySelector('[data-stage="` + stage + `"][aria-current]')`)
}

// fingers puts a finger on one of the keys that an expression finds.
func fingers(tab *browser.Tab, keys string, i int) {
	at := browser.Eval[[]float64](tab, fmt.Sprintf(`((keys) => {
		const r = keys[%d %% keys.length].getBoundingClientRect();
		return [r.left + r.width / 2, r.top + r.height / 2];
	})(%s)`, i, keys))
	tab.Do(chromedp.TapXY(at[0], at[1]))
	time.Sleep(150 * time.Millisecond)
}

// typeSlowly writes a text in place of what is there, a key at a time.
func typeSlowly(tab *browser.Tab, id, text string) {
	tab.Do(chromedp.Focus(chromedp.ID(id)))
	browser.Eval[any](tab, `document.getElementById("`+id+`").select()`)
	for _, key := range text {
		tab.Do(chromedp.KeyEvent(string(key)))
		time.Sleep(150 * time.Millisecond)
	}
}

// stretch works the page as half an hour does, a few thousand acts one after
// the other: every stage, the keys that stand on it, what can be typed, and back
// again by undo. What makes files or jobs is left alone.
const stretch = `(async (acts) => {
	const frame = () => new Promise((done) => requestAnimationFrame(() => done()));
	const leave = /delete|backup|restore|recover|new|sample|replace|merge|leave|save|send|print|lend|link|share|code|client|copy|pdf|order|quote|photo|file|again|camera|english|français/i;
	const shown = (el) => el.checkVisibility() && !el.disabled;
	const figures = { waist_girth: 34, hip_girth: 42, thigh_girth: 25, knee_girth: 15.5, outside_leg_length: 40 };
	let done = 0;
	for (let round = 0; done < acts; round++) {
		for (const stage of ["tape", "style", "draft", "cloth", "chalk", "bench", "fitting", "house", "book"]) {
			location.hash = "#" + stage;
			await frame();
			await frame();
			done++;
			for (const [id, figure] of Object.entries(figures)) {
				const field = document.getElementById(id);
				if (!field) continue;
				field.focus();
				field.value = String(figure + (round % 4) / 4);
				field.dispatchEvent(new Event("input", { bubbles: true }));
				done++;
				await frame();
			}
			const keys = [...document.querySelectorAll("main button")].filter((k) => shown(k) && !leave.test(k.textContent + k.ariaLabel));
			for (let i = 0; i < 14 && i < keys.length; i++) {
				const key = keys[(round * 14 + i) % keys.length];
				if (!key.isConnected || !shown(key)) continue;
				key.click();
				done++;
				await frame();
			}
			for (let i = 0; i < 4; i++) {
				const undo = document.getElementById(i < 3 ? "undo" : "redo");
				if (undo && !undo.disabled) undo.click();
				done++;
				await frame();
			}
		}
	}
	return done;
})`

// thirtyMinutes weighs the page before and after a long stretch of use.
func thirtyMinutes(b *testing.B) []reading {
	b.Helper()
	tab := sampleProbed(b)
	browser.Call(tab, performance.Enable, performance.EnableParams{})
	const acts, parts = 3000, 5
	out := []reading{
		{what: "memory of the program", unit: "MB"}, {what: "memory of the page's scripts", unit: "MB"}, {what: "nodes of the page", unit: ""},
	}
	weigh := func(when string) []reading {
		browser.Call(tab, heapprofiler.CollectGarbage, cdp.Empty{})
		got := []float64{
			browser.Eval[float64](tab, `probe.memory.buffer.byteLength / 1e6`),
			browser.Call(tab, runtime.GetHeapUsage, cdp.Empty{}).UsedSize / 1e6,
			metric(tab, "Nodes"),
		}
		weighed := make([]reading, len(out))
		for i, f := range out {
			weighed[i] = reading{what: f.what + ", " + when, unit: f.unit, got: []float64{got[i]}}
		}
		return weighed
	}
	weighings := weigh("opened")
	done := 0.0
	for range parts {
		done += browser.Eval[float64](tab, stretch+fmt.Sprintf("(%d)", acts/parts))
		tab.Until(`document.querySelector("#saving").textContent === "Saved"`)
		weighings = append(weighings, weigh(fmt.Sprintf("after %.0f acts", done))...)
	}
	return weighings
}

func metric(tab *browser.Tab, name string) float64 {
	for _, m := range browser.Call(tab, performance.GetMetrics, cdp.Empty{}).Metrics {
		if m.Name == name {
			return m.Value
		}
	}
	return 0
}
