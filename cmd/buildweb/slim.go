package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

const (
	uiModule  = "github.com/maxence-charriere/go-app/v10"
	uiVersion = "v10.1.8" // the version the cuts below were read against
)

// A cut takes one stretch of a file of the ui module and puts another in its
// place. The stretch must be there exactly once.
type cut struct{ was, now string }

// A change says what happens to one file of package app on its way into the
// slim copy, or of package pkg if that is set.
type change struct {
	pkg  string
	file string
	drop bool   // the file is left out
	text string // the whole file is this instead
	cuts []cut
}

// slimChanges lists what the browser program never calls and what drags in
// net/http, crypto, uuid and regexp, a third of the first load. What is cut
// away fails loudly if it is called after all.
func slimChanges() []change {
	ownJSON := cut{"\t\"encoding/json\"\n", "\t\"" + uiModule + "/pkg/json\"\n"}
	ownURL := cut{"\t\"net/url\"\n", "\t\"" + uiModule + "/pkg/url\"\n"}
	return []change{
		{pkg: "errors", file: "errors.go", text: slimErrors},
		{file: "app.go", cuts: []cut{
			{"\t\"os\"\n", ""},
			{"\t\treturn os.Getenv(k)\n", "\t\treturn \"\"\n"}, // a page has no environment
		}},
		{file: "engine.go", cuts: []cut{
			ownURL,
			{"\t\"encoding/json\"\n", ""},
			{"\tif e.internalURLs == nil {\n\t\tjson.Unmarshal([]byte(Getenv(\"GOAPP_INTERNAL_URLS\")), &e.internalURLs)\n\t}\n\n", ""},
		}},
		{file: "js_nowasm.go", drop: true}, // for what is not a browser
		{file: "js.go", cuts: []cut{ownURL}},
		{file: "js_wasm.go", cuts: []cut{ownURL}},
		{file: "notification.go", cuts: []cut{ownJSON}},
		{file: "page.go", cuts: []cut{ownURL}},
		{file: "storage.go", cuts: []cut{ownJSON}},
		{file: "strings.go", cuts: []cut{ownJSON}},
		{file: "testing.go", cuts: []cut{ownURL}},
		{file: "http.go", drop: true},   // the page's server: ours is cmd/chalkfold
		{file: "static.go", drop: true}, // writes a static site, not for the browser
		{file: "wasm.go", text: `package app

func wasmExecJS() string { return "" }
`},
		{file: "crypto.go", text: `package app

import "github.com/maxence-charriere/go-app/v10/pkg/errors"

func encrypt(string, []byte) ([]byte, error) {
	return nil, errors.New("sealing a state is left out of this build")
}

func decrypt(string, []byte) ([]byte, error) {
	return nil, errors.New("opening a sealed state is left out of this build")
}
`},
		{file: "context.go", cuts: []cut{
			ownJSON,
			ownURL,
			{"\t\"github.com/google/uuid\"\n", ""},
			{"id = uuid.NewString()\n", "panic(errors.New(\"device ids are left out of this build\"))\n"},
		}},
		// Kept states bring JSON of times, and all that times can be written as.
		{file: "state.go", text: `package app

import "github.com/maxence-charriere/go-app/v10/pkg/errors"

type State struct{}

type Observer struct{}

type stateManager struct{}

func noStates() error { return errors.New("states are left out of this build") }

func (*stateManager) Observe(Context, string, any) Observer { panic(noStates()) }

func (*stateManager) Get(Context, string, any) { panic(noStates()) }

func (*stateManager) Set(Context, string, any) State { panic(noStates()) }

func (*stateManager) Delete(Context, string) { panic(noStates()) }

func (*stateManager) CleanupExpiredPersistedStates(Context) {}

func (*stateManager) Cleanup() {}
`},
		// Elements of which the page has none are types with a hundred methods
		// each.
		{file: "notfound.go", text: `package app

var NotFound UI = &notFound{}

type notFound struct {
	Compo
	Icon string
}

func (n *notFound) Render() UI { return Elem("div").Text("Not Found") }
`},
		{file: "component.go", cuts: []cut{
			{"\treturn Div().\n\t\tDataSet(\"compo-type\", componentName).\n", "\treturn Elem(\"div\").\n\t\tDataSet(\"compo-type\", componentName).\n"},
			{"H1().Text(\"Component \"", "Elem(\"h1\").Text(\"Component \""},
			{"\t\t\tP().Body(\n", "\t\t\tElem(\"p\").Body(\n"},
			{"\t\t\t\tCode().\n", "\t\t\t\tElem(\"code\").\n"},
		}},
		{file: "node.go", cuts: []cut{
			{"\t\"time\"\n", ""},
			{"\t\tcase time.Time:\n\t\t\treturn !v.Equal(new)\n\n", ""}, // no part of the page has a time in a field
		}},
		{file: "resource.go", cuts: []cut{
			{"import (\n\t\"net/http\"\n\t\"strings\"\n)", "import \"strings\""},
			{"\t\tHandler:   http.FileServer(http.Dir(directory)),\n", ""},
			{"\thttp.Handler\n\tdirectory string\n", "\tdirectory string\n"},
		}},
		{file: "route.go", cuts: []cut{
			{"import (\n\t\"regexp\"\n\t\"sync\"\n)", "import \"sync\""},
			{"\t\tregexp:       regexp.MustCompile(pattern),\n", "\t\tregexp:       noPattern{}.mustCompile(pattern),\n"},
			{"\tregexp       *regexp.Regexp\n\tnewComponent func() Composer\n}", "\tregexp       noPattern\n\tnewComponent func() Composer\n}\n\ntype noPattern struct{}\n\nfunc (noPattern) mustCompile(string) noPattern { panic(\"routes by pattern are left out of this build\") }\n\nfunc (noPattern) MatchString(string) bool { return false }"},
		}},
	}
}

func (c change) path() string {
	if c.pkg == "" {
		return "app/" + c.file
	}
	return c.pkg + "/" + c.file
}

// applyCuts makes the cuts in src, or says which stretch was not there once.
func applyCuts(src []byte, cuts []cut) ([]byte, error) {
	for _, c := range cuts {
		if n := bytes.Count(src, []byte(c.was)); n != 1 {
			return nil, fmt.Errorf("expected exactly once, found %d times: %q", n, c.was)
		}
		src = bytes.Replace(src, []byte(c.was), []byte(c.now), 1)
	}
	return src, nil
}

// writeSlim derives the slim copy of the ui module in moduleDir and writes it
// to outDir, which is made anew. Nothing of it is ever committed.
func writeSlim(moduleDir, outDir string) error {
	if err := os.RemoveAll(outDir); err != nil {
		return err
	}
	changes := map[string]change{}
	for _, c := range slimChanges() {
		changes[c.path()] = c
	}
	for _, pkg := range []string{"app", "errors"} {
		from := filepath.Join(moduleDir, "pkg", pkg)
		to := filepath.Join(outDir, "pkg", pkg)
		if err := os.MkdirAll(to, 0o755); err != nil {
			return err
		}
		entries, err := os.ReadDir(from)
		if err != nil {
			return err
		}
		for _, e := range entries {
			name := e.Name()
			if !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
				continue
			}
			src, err := os.ReadFile(filepath.Join(from, name))
			if err != nil {
				return err
			}
			if c, ok := changes[pkg+"/"+name]; ok {
				delete(changes, pkg+"/"+name)
				if c.drop {
					continue
				}
				if c.text != "" {
					src = []byte(c.text)
				}
				if src, err = applyCuts(src, c.cuts); err != nil {
					return fmt.Errorf("%s %s: %s is not what the cuts were read against: %w", uiModule, uiVersion, name, err)
				}
			}
			if err := os.WriteFile(filepath.Join(to, name), src, 0o644); err != nil {
				return err
			}
		}
	}
	for name := range changes {
		return fmt.Errorf("%s %s: %s is gone: read the cuts in slim.go against the new source", uiModule, uiVersion, name)
	}
	for name, text := range map[string]string{"json": slimJSON, "url": slimURL} {
		if err := os.Mkdir(filepath.Join(outDir, "pkg", name), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(outDir, "pkg", name, name+".go"), []byte(text), 0o644); err != nil {
			return err
		}
	}
	mod := "module " + uiModule + "\n\ngo 1.23.0\n"
	return os.WriteFile(filepath.Join(outDir, "go.mod"), []byte(mod), 0o644)
}
