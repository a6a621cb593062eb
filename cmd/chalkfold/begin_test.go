package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"chalkfold/wasm/browser"
)

const (
	beginFile = "../buildweb/begin.txt"      // see begin.go there
	partsFile = "../../.build/web/parts.txt" // lists the functions of the page that was built last

	stageStands = `document.querySelector(".desk:not(#first) .stage")`
)

// TestBegin: the worker that fetches the program calls what the program begins with, and
// none of these calls goes on for ever. The list is not out of date: of its names nine in
// ten are still functions of the first part; if not, make begin takes it anew.
func TestBegin(t *testing.T) {
	if os.Getenv("CHALKFOLD_BEGIN") == "refresh" {
		takeBegin(t)
		return
	}
	names, err := os.ReadFile(beginFile)
	if err != nil {
		t.Fatal(err)
	}
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.Goto(s.url("/"))
	tab.Until(stageStands)
	there := browser.Eval[int](tab, `(async () => {
		const module = await WebAssembly.compileStreaming(fetch("/app.wasm"));
		return WebAssembly.Module.customSections(module, "begin")[0].byteLength / 2;
	})()`)
	if want := strings.Count(string(names), "\n"); there*10 < want*9 {
		t.Errorf("of %d functions that the program begins with, %d are there: make begin takes them anew", want, there)
	}
	// The second order is heard once the calls for the first have ended.
	heard := browser.Eval[string](tab, `new Promise((done) => {
		const worker = new Worker("/fetcher.js", { name: JSON.stringify({ path: "/app.wasm" }) });
		const heard = [];
		worker.onmessage = ({ data: { of, module, fault } }) => {
			heard.push(of + (module ? " module" : ""));
			if (module) worker.postMessage({ path: "/not-there" });
			if (!fault) return;
			worker.terminate();
			done(heard.join());
		};
	})`)
	if want := "/app.wasm module,/not-there"; heard != want {
		t.Errorf("the worker told of %q, not of %q", heard, want)
	}
}

// takeBegin writes the list anew, from a page that was built with an empty one: what the
// browser compiles until the first stage stands, at the first visit and when a job is
// there. That the browser tells of what it compiles is a switch for its developers, and
// may change.
func takeBegin(t *testing.T) {
	s := openStall(t)
	profile := t.TempDir()
	b := browser.Open(t, profile)
	tab := b.Tab()
	tab.Goto(s.url("/"))
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	tab.Until(readyOffline)
	places := browser.Eval[map[string]int](tab, placesOfNumbers)
	b.Kill()

	listed, err := os.ReadFile(partsFile)
	if err != nil {
		t.Fatal(err)
	}
	parts := strings.Split(string(listed), "\n")
	var begin []string
	for _, profile := range []string{t.TempDir(), profile} {
		for _, number := range compiledFirst(t, profile, s.url("/")) {
			place, ok := places[number]
			if !ok {
				continue // one that split adds, which is not called by the table
			}
			columns := strings.Split(parts[place], "\t")
			if part, name := columns[0], columns[2]; part == "first" && !slices.Contains(begin, name) {
				begin = append(begin, name)
			}
		}
	}
	if len(begin) < 500 {
		t.Fatalf("the browser told of %d functions only", len(begin))
	}
	if err := os.WriteFile(beginFile, []byte(strings.Join(begin, "\n")+"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	t.Logf("%d functions", len(begin))
}

// placesOfNumbers tells in which place of all functions, as parts.txt lists them, those
// of the first part stand, by their numbers in it. In the table they follow on empty slots.
const placesOfNumbers = `(async () => {
	const module = await WebAssembly.compileStreaming(fetch("/app.wasm"));
	const imports = {};
	for (const { module: of, name } of WebAssembly.Module.imports(module)) (imports[of] ??= {})[name] = () => {};
	const { exports } = await WebAssembly.instantiate(module, imports);
	const table = Object.values(exports).find((it) => it instanceof WebAssembly.Table);
	const all = Array.from({ length: table.length }, (_, slot) => table.get(slot)).filter(Boolean);
	return Object.fromEntries(all.map((f, place) => [f.name, place]).reverse());
})()`

var compiled = regexp.MustCompile(`Compiled function (\w+)#(\d+) using Liftoff`)

// compiledFirst returns the numbers of the functions that a browser compiles of the
// program that it meets first, until its first stage stands, in that order.
func compiledFirst(t *testing.T, profile, address string) (numbers []string) {
	t.Helper()
	told, err := os.Create(filepath.Join(t.TempDir(), "told"))
	if err != nil {
		t.Fatal(err)
	}
	defer told.Close()
	b := browser.Open(t, profile, chromedp.CombinedOutput(told), chromedp.Flag("js-flags", "--trace-wasm-compilation-times"))
	tab := b.Tab()
	tab.Goto(address)
	tab.Until(stageStands)
	b.Kill()
	lines, err := os.ReadFile(told.Name())
	if err != nil {
		t.Fatal(err)
	}
	program := ""
	for _, m := range compiled.FindAllStringSubmatch(string(lines), -1) {
		if program == "" {
			program = m[1]
		}
		if m[1] == program {
			numbers = append(numbers, m[2])
		}
	}
	return numbers
}
