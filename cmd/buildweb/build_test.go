package main

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/andybalholm/brotli"

	"chalkfold/static"
)

func TestCutsRefuseOtherSource(t *testing.T) {
	tests := []struct {
		name, src string
		ok        bool
	}{
		{"once", "a b c", true},
		{"not there", "a c", false},
		{"twice", "a b b c", false},
	}
	for _, tt := range tests {
		got, err := applyCuts([]byte(tt.src), []cut{{"b", "x"}})
		if (err == nil) != tt.ok {
			t.Errorf("%s: %v", tt.name, err)
		}
		if tt.ok && string(got) != "a x c" {
			t.Errorf("%s: %q", tt.name, got)
		}
	}
}

// moduleCopy copies the two packages of the ui module that the program uses.
func moduleCopy(t *testing.T) string {
	t.Helper()
	from, err := findUIModule(filepath.Join("..", ".."))
	if err != nil {
		t.Fatal(err)
	}
	to := t.TempDir()
	for _, pkg := range []string{"app", "errors"} {
		if err := os.CopyFS(filepath.Join(to, "pkg", pkg), os.DirFS(filepath.Join(from, "pkg", pkg))); err != nil {
			t.Fatal(err)
		}
	}
	return to
}

func TestSlimCopy(t *testing.T) {
	from, to := moduleCopy(t), filepath.Join(t.TempDir(), "slim")
	if err := writeSlim(from, to); err != nil {
		t.Fatal(err)
	}
	forbidden := []string{`"net/http"`, `"net/url"`, `"crypto/`, `"regexp"`, `"os"`, `"encoding/json"`, `"github.com/google/uuid"`}
	files, err := filepath.Glob(filepath.Join(to, "pkg", "*", "*.go"))
	if err != nil || len(files) < 30 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, name := range files {
		src, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range forbidden {
			if bytes.Contains(src, []byte("\t"+f)) || bytes.Contains(src, []byte("import "+f)) {
				t.Errorf("%s still imports %s", filepath.Base(name), f)
			}
		}
	}

	// Each file that is changed, gone or changed upstream, must stop the build.
	for _, c := range slimChanges() {
		for _, harm := range []string{"gone", "changed"} {
			if harm == "changed" && c.cuts == nil {
				continue // the whole file is ours or dropped
			}
			t.Run(c.path()+" "+harm, func(t *testing.T) {
				from := moduleCopy(t)
				name := filepath.Join(from, "pkg", c.path())
				if err := os.Chmod(filepath.Dir(name), 0o755); err != nil {
					t.Fatal(err)
				}
				if err := os.Remove(name); err != nil {
					t.Fatal(err)
				}
				if harm == "changed" {
					if err := os.WriteFile(name, []byte("package app\n"), 0o644); err != nil {
						t.Fatal(err)
					}
				}
				err := writeSlim(from, filepath.Join(t.TempDir(), "slim"))
				if err == nil || !strings.Contains(err.Error(), c.file) {
					t.Errorf("%v, want it refused by name", err)
				}
			})
		}
	}
}

func TestDist(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{".gitkeep", "from-before.js"} {
		if err := os.WriteFile(filepath.Join(dir, name), nil, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	page := os.DirFS(filepath.Join("..", "..", "static", "page"))
	wasm := bytes.Repeat([]byte("program "), 1000)
	list, err := writeDist(dir, page, program{wasm: wasm, rest: []byte("the rest"), names: []byte("main.main")}, []byte("the loader of the compiler"), pressFully)
	if err != nil {
		t.Fatal(err)
	}
	again, err := static.ReadList(os.DirFS(dir))
	if err != nil || again.Version != list.Version || !slices.Equal(again.Files, list.Files) {
		t.Errorf("the list reads back as %+v, %v", again, err)
	}
	if _, err := os.Stat(filepath.Join(dir, "from-before.js")); err == nil {
		t.Error("a file of the build before is still there")
	}
	if _, err := os.Stat(filepath.Join(dir, ".gitkeep")); err != nil {
		t.Error("the placeholder is gone")
	}
	worker := ""
	for _, f := range list.Files {
		for suffix, open := range map[string]func(io.Reader) (io.Reader, error){
			".br": func(r io.Reader) (io.Reader, error) { return brotli.NewReader(r), nil },
			".gz": func(r io.Reader) (io.Reader, error) { return gzip.NewReader(r) },
			"":    func(r io.Reader) (io.Reader, error) { return r, nil },
		} {
			if size := map[string]int64{".br": f.Brotli, ".gz": f.Gzip, "": f.Plain}[suffix]; size == 0 {
				continue
			}
			pressed, err := os.ReadFile(filepath.Join(dir, f.Name+suffix))
			if err != nil {
				t.Fatal(err)
			}
			r, err := open(bytes.NewReader(pressed))
			if err != nil {
				t.Fatal(err)
			}
			body, err := io.ReadAll(r)
			if err != nil || hashOf(body) != f.Hash || int64(len(body)) != f.Size {
				t.Errorf("%s%s opens to %d bytes, %v; want the file listed", f.Name, suffix, len(body), err)
			}
			if f.Name == workerName {
				worker = string(body)
			}
		}
	}
	if !strings.Contains(worker, `const VERSION = "`+list.Version+`"`) {
		t.Error("the worker does not know its version")
	}
	start, end := strings.Index(worker, "const FILES = ")+len("const FILES = "), strings.Index(worker, "; // path")
	var hashes map[string]string
	if err := json.Unmarshal([]byte(worker[start:end]), &hashes); err != nil {
		t.Fatal(err)
	}
	for _, f := range list.Files[:len(list.Files)-1] {
		if hashes[f.Path] != f.Hash && !f.Rare {
			t.Errorf("the worker expects %s to be %q, it is %q", f.Path, hashes[f.Path], f.Hash)
		}
	}
	if len(hashes) != len(list.Files)-2 { // the worker itself and the rare names
		t.Errorf("the worker keeps %d files, want %d", len(hashes), len(list.Files)-2)
	}

	wasm[0]++
	other, err := writeDist(t.TempDir(), page, program{wasm: wasm, rest: []byte("the rest"), names: []byte("main.main")}, []byte("the loader of the compiler"), pressFully)
	if err != nil || other.Version == list.Version {
		t.Errorf("one byte changed and the version is still %s (%v)", other.Version, err)
	}
}

// TestNoRemoteAddress reads everything that the page is made of.
func TestNoRemoteAddress(t *testing.T) {
	n := 0
	err := fs.WalkDir(static.Page, ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		text, err := fs.ReadFile(static.Page, name)
		if err != nil {
			return err
		}
		n++
		rest := strings.ReplaceAll(string(text), `xmlns="http://www.w3.org/2000/svg"`, "")
		for _, bad := range []string{"http://", "https://", "src=\"//", "url(//"} {
			if strings.Contains(rest, bad) {
				t.Errorf("%s holds a remote address: %s", name, bad)
			}
		}
		return nil
	})
	if err != nil || n < 20 {
		t.Fatalf("%d files, %v", n, err)
	}
}

func TestOverlayRefusesOlderBehaviour(t *testing.T) {
	for _, tt := range []struct {
		mod string
		ok  bool
	}{
		{"module m\n\ngo 1.26\n", true},
		{"module m\n\ngo 1.26.3\n", true},
		{"module m\n\ngo 1.25\n", false},
		{"module m\n", false},
		{"module m\n\ngo 1.26\n\ngodebug asynctimerchan=1\n", false},
		{"module m\n\ngo 1.26\n\ngodebug (\n\tdefault=go1.21\n)\n", false},
	} {
		if err := refuseOlder(tt.mod, "go1.26.8"); (err == nil) != tt.ok {
			t.Errorf("%q: %v", tt.mod, err)
		}
	}
}

func TestBudgets(t *testing.T) {
	var out bytes.Buffer
	list := static.List{Files: []static.File{{Path: "/app.wasm", Brotli: maxProgram}}}
	if err := report(&out, list, true); err != nil {
		t.Errorf("at the budget: %v", err)
	}
	list.Files[0].Brotli++
	if err := report(&out, list, false); err != nil {
		t.Errorf("a page that is not weighed is refused: %v", err)
	}
	if err := report(&out, list, true); err == nil || !strings.Contains(err.Error(), "program") {
		t.Errorf("over the program's budget: %v", err)
	}
	list.Files = append(list.Files[:0], static.File{Path: "/", Brotli: maxFirst + 1})
	if err := report(&out, list, true); err == nil || !strings.Contains(err.Error(), "first screen") {
		t.Errorf("over the budget of the first load: %v", err)
	}
	list.Files[0].Late = true
	if err := report(&out, list, true); err != nil {
		t.Errorf("what comes late counts as first: %v", err)
	}
	list.Files[0].Brotli = maxKept + 1
	list.Files[0].Speaks = "fr"
	if err := report(&out, list, true); err != nil || !strings.Contains(out.String(), "; 2000001 more where the language is fr") {
		t.Errorf("the words of a language that is not spoken count as kept: %v\n%s", err, out.String())
	}
	list.Files[0].Speaks = ""
	if err := report(&out, list, true); err == nil || !strings.Contains(err.Error(), "first visit") {
		t.Errorf("over the whole budget: %v", err)
	}
}

// TestEveryPageFileIsListed: what stands in the page's folder is sent, and what
// the page asks for is there. A file left out of the list would be missing
// without a network.
func TestEveryPageFileIsListed(t *testing.T) {
	listed := map[string]bool{workerName: true}
	for _, f := range pageFiles() {
		if listed[f.Name] {
			t.Errorf("%s is listed twice", f.Name)
		}
		listed[f.Name] = true
	}
	for _, parts := range scripts() {
		for _, part := range parts {
			listed[part] = true
		}
	}
	for _, s := range within() {
		listed[s.name] = true
	}
	dir := filepath.Join("..", "..", "static", "page")
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	address := regexp.MustCompile(`"/([\w.-]+\.\w+)"`)
	named := 0
	for _, e := range entries {
		if e.IsDir() { // parts that are joined to one of the files
			continue
		}
		if !listed[e.Name()] {
			t.Errorf("%s stands in %s and is not listed", e.Name(), dir)
		}
		switch filepath.Ext(e.Name()) {
		case ".html", ".js", ".webmanifest", ".css":
			text, err := os.ReadFile(filepath.Join(dir, e.Name()))
			if err != nil {
				t.Fatal(err)
			}
			for _, m := range address.FindAllStringSubmatch(string(text), -1) {
				named++
				if !listed[m[1]] && m[1] != ".replaces" { // the worker's own note
					t.Errorf("%s asks for /%s, which is not listed", e.Name(), m[1])
				}
			}
		}
	}
	if named < 10 {
		t.Errorf("only %d addresses found in the page", named)
	}
}
