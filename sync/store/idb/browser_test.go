//go:build !js

package idb_test

import (
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"chalkfold/wasm/browser"
)

const runner = `<!doctype html><title>tests</title><script src="/wasm_exec.js"></script><script>
const go = new Go();
go.argv = ["idb.test", "-test.v"];
go.exit = (code) => { window.status = "exit " + code; };
WebAssembly.instantiateStreaming(fetch("/idb.test"), go.importObject).then((made) => go.run(made.instance));
</script>`

// TestInBrowser compiles the tests of this package for the browser and runs
// them there.
func TestInBrowser(t *testing.T) {
	// What runs there is no part of this program: the go command only knows that
	// it has changed if it is looked at.
	for _, sources := range []string{"*.go", "testdata/*", "../*.go", "../storetest/*.go"} {
		names, err := filepath.Glob(sources)
		if err != nil || len(names) == 0 {
			t.Fatalf("%s: %d files, %v", sources, len(names), err)
		}
		for _, name := range names {
			if _, err := os.ReadFile(name); err != nil {
				t.Fatal(err)
			}
		}
	}
	b := browser.Open(t, "")
	program := filepath.Join(t.TempDir(), "idb.test")
	build := exec.Command("go", "test", "-c", "-o", program, ".")
	build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("go test -c: %v\n%s", err, out)
	}
	goroot, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch r.URL.Path {
		case "/":
			w.Header().Set("Content-Type", "text/html")
			_, _ = w.Write([]byte(runner))
		case "/idb.test":
			w.Header().Set("Content-Type", "application/wasm")
			http.ServeFile(w, r, program)
		case "/wasm_exec.js":
			http.ServeFile(w, r, filepath.Join(strings.TrimSpace(string(goroot)), "lib", "wasm", "wasm_exec.js"))
		default:
			w.WriteHeader(http.StatusNoContent)
		}
	}))
	defer server.Close()

	tab := b.Tab()
	tab.Goto(server.URL + "/")
	tab.Until(`window.status.startsWith("exit")`)
	output := strings.Join(tab.Lines(), "\n")
	t.Log(output)
	if got := browser.Eval[string](tab, "window.status"); got != "exit 0" {
		t.Errorf("the tests in the browser ended with %s", got)
	}
	if passed := strings.Count(output, "--- PASS: "); passed < 10 {
		t.Errorf("%d tests passed in the browser: the suite did not run", passed)
	}
}
