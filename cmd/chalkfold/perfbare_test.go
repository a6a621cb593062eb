package main

import (
	"bytes"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"chalkfold/wasm/browser"
)

// bareStart starts a program as soon as it can be started.
const bareStart = `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<title>Bare</title>
<script src="/wasm_exec.js"></script>
<body>
<div></div>
<script>
  const goappGetenv = () => "";
  const go = new Go();
  WebAssembly.compileStreaming(fetch("/app.wasm"))
    .then((module) => WebAssembly.instantiate(module, go.importObject))
    .then((instance) => go.run(instance));
</script>
`

// bareSite serves testdata/bare: one element of the library that the app stands on, from a
// program cut as the app's is, with no store, no worker and no style. The browser may
// keep all of it.
func bareSite(b *testing.B) http.Handler {
	b.Helper()
	build := exec.Command("go", "run", "./cmd/buildweb", "-work", ".build/bare", "-link", "./cmd/chalkfold/testdata/bare")
	build.Dir = "../.."
	if said, err := build.CombinedOutput(); err != nil {
		b.Fatalf("bare program: %v\n%s", err, said)
	}
	mux := http.NewServeMux()
	for path, file := range map[string]string{
		"/app.wasm":     "../../.build/bare/app.wasm",
		"/wasm_exec.js": filepath.Join(runtime.GOROOT(), "lib/wasm/wasm_exec.js"), //nolint:staticcheck // the Go that built it
	} {
		data, err := os.ReadFile(file)
		if err != nil {
			b.Fatal(err)
		}
		mux.HandleFunc(path, func(w http.ResponseWriter, r *http.Request) {
			w.Header().Set("Cache-Control", "max-age=3600, immutable")
			http.ServeContent(w, r, file, time.Time{}, bytes.NewReader(data))
		})
	}
	mux.HandleFunc("/", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		w.Header().Set("Cache-Control", "max-age=3600")
		_, _ = io.WriteString(w, bareStart)
	})
	return mux
}

// bareOpens opens a page of the library that has nothing on it, the first time and again:
// what any page of the library takes on this machine in this hour. What the app takes
// is to be read beside it.
func bareOpens(b *testing.B) []reading {
	b.Helper()
	site := httptest.NewServer(bareSite(b))
	defer site.Close()
	cold := reading{what: "an empty page of the library, first visit, fast line, 4×", unit: "ms"}
	firstOpens(b, site.URL, times{"stands": &cold})
	out := []reading{cold}
	br := browser.Open(b, "")
	tab := br.Tab()
	for range 2 {
		tab.Goto(site.URL)
		tab.Until(stageStands)
		time.Sleep(time.Second)
	}
	tab.Close()
	for _, slow := range []float64{4, 6} {
		again := reading{what: fmt.Sprintf("an empty page of the library, opened again, %.0f×", slow), unit: "ms"}
		for range perfRuns {
			tab := probed(br, slow)
			times{"stands": &again}.taken(tab, site.URL)
			tab.Close()
		}
		out = append(out, again)
	}
	return out
}
