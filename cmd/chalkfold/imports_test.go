package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path"
	"slices"
	"strings"
	"testing"
)

const project = "chalkfold/"

// A listed package is what go list says of it.
type listed struct {
	ImportPath    string
	Imports, Deps []string
}

// A wall forbids imports. Patterns are as go list takes them, without the name
// of the project: "draft/..." is draft and all below it.
type wall struct {
	words string // of the rule that it holds
	who   []string
	not   []string // packages that are let off
	// A package of who may import, of the project's own, only these.
	only []string
	// What it may not import itself.
	never []string
	// What it may not import through anyone either.
	neverAtAll []string
}

// stage lists what each stage of the core may import, below itself included.
func stages() []wall {
	return []wall{
		{words: "say imports nothing", who: []string{"draft/say"}, only: []string{}},
		{words: "plain imports say alone", who: []string{"draft/plain"}, only: []string{"draft/say"}},
		{words: "unit imports say alone", who: []string{"draft/unit"}, only: []string{"draft/say"}},
		{words: "geom imports unit", who: []string{"draft/geom"}, only: []string{"draft/unit"}},
		{words: "body imports unit, say", who: []string{"draft/body"}, only: []string{"draft/unit", "draft/say"}},
		{words: "rules imports unit, say, body", who: []string{"draft/rules"}, only: []string{"draft/unit", "draft/say", "draft/body"}},
		{
			words: "construct imports geom, unit, say, rules, body", who: []string{"draft/construct"},
			only: []string{"draft/geom", "draft/unit", "draft/say", "draft/rules", "draft/body"},
		},
		{
			words: "a piece is made of sew lines", who: []string{"draft/piece"},
			only: []string{"draft/geom", "draft/unit", "draft/say"},
		},
		{
			words: "garment/* imports construct, piece and below", who: []string{"draft/garment/..."},
			not: []string{"draft/garment/garmenttest"}, // drafts and proves for tests
			// draft/garment says what a garment is, draft/garment/dart draws what
			// garments have in common; no garment knows another.
			only: []string{
				"draft/garment", "draft/garment/dart", "draft/balance", "draft/bench", "draft/construct", "draft/piece",
				"draft/geom", "draft/unit", "draft/say", "draft/rules", "draft/body",
			},
		},
		{words: "darts are lines alone", who: []string{"draft/garment/dart"}, only: []string{"draft/geom"}},
		{
			words: "proof imports piece, construct, body", who: []string{"draft/proof"},
			only: []string{"draft/piece", "draft/construct", "draft/body", "draft/geom", "draft/unit", "draft/say", "draft/rules"},
		},
		{
			words: "lay imports piece, geom and below", who: []string{"draft/lay"},
			only: []string{"draft/piece", "draft/geom", "draft/unit", "draft/say"},
		},
		{
			words: "bench orders what is told of pieces", who: []string{"draft/bench"},
			only: []string{"draft/piece", "draft/geom", "draft/unit", "draft/say"},
		},
		{words: "balance imports nothing", who: []string{"draft/balance"}, only: []string{}},
		{
			words: "a lesson is asked of a construction", who: []string{"draft/lesson"},
			only: []string{"draft/construct", "draft/geom", "draft/unit", "draft/say", "draft/rules", "draft/body", "draft/plain"},
		},
		{words: "quote imports plain and say alone", who: []string{"draft/quote"}, only: []string{"draft/plain", "draft/say"}},
		{words: "roster imports body, unit, say", who: []string{"draft/roster"}, only: []string{"draft/body", "draft/unit", "draft/say"}},
		{words: "qr imports nothing", who: []string{"draft/qr"}, only: []string{}},
		{
			words: "sketch is drawn from panels", who: []string{"draft/sketch"},
			only: []string{"draft/piece", "draft/geom", "draft/unit"},
		},
		{
			words: "chalk and sheet are drawn from the results",
			who:   []string{"draft/chalk", "draft/sheet/..."},
			only: []string{
				"draft/construct", "draft/piece", "draft/proof", "draft/lay",
				"draft/geom", "draft/unit", "draft/say", "draft/rules", "draft/body", "draft/sheet", "draft/sheet/...",
			},
		},
	}
}

func walls() []wall {
	return append(stages(), []wall{
		{
			words: "draft.go imports its stages, no stage imports it",
			who:   []string{"draft/..."}, not: []string{"draft"}, neverAtAll: []string{project + "draft"},
		},
		{
			words: "draft/** never imports ui, sync, net/http, os, syscall/js",
			who:   []string{"draft/..."}, never: []string{"os", "syscall/js"},
			neverAtAll: []string{project + "ui/...", project + "sync/...", project + "wasm/...", project + "cmd/...", "net/http"},
		},
		{
			words: "sync/** never imports draft or ui: it carries opaque records",
			who:   []string{"sync/..."}, neverAtAll: []string{project + "draft/...", project + "ui/..."},
		},
		{
			words: "sync/server and sync/ledger never import seal: what answers cannot read",
			who:   []string{"sync/server/...", "sync/ledger/..."}, neverAtAll: []string{project + "sync/seal/..."},
		},
		{
			words: "ui imports the interfaces of sync, never a concrete store",
			who:   []string{"ui/..."}, neverAtAll: []string{project + "sync/store/*"},
		},
		{
			words: "the page fetches the font of PDFs when it wants it",
			who:   []string{"ui/...", "wasm/..."}, neverAtAll: []string{project + "draft/sheet/pdf/noto"},
		},
		{
			words: "what the page keeps is written and read by draft/plain",
			who:   []string{"draft/...", "ui/...", "wasm/..."}, never: []string{"encoding/json"},
		},
		{
			words: "go-app only in ui, wasm, cmd/chalkfold",
			who:   []string{"..."}, not: []string{"ui/...", "wasm/...", "cmd/chalkfold"},
			never: []string{"github.com/maxence-charriere/go-app/..."},
		},
		{
			words: "go-indexeddb only in sync/store/idb",
			who:   []string{"..."}, not: []string{"sync/store/idb"},
			never: []string{"github.com/hack-pad/go-indexeddb/...", "github.com/hack-pad/safejs/..."},
		},
		{
			words: "the Workers runtime only in cmd/edge and sync/store/edge",
			who:   []string{"..."}, not: []string{"cmd/edge", "sync/store/edge"},
			never: []string{"github.com/syumai/workers/..."},
		},
		{
			words: "the browser driver is for tests: only wasm/browser has it",
			who:   []string{"..."}, not: []string{"wasm/browser/..."},
			never: []string{"github.com/chromedp/..."},
		},
	}...)
}

// matches reports whether a pattern takes in an import path. A last element of
// "..." takes in everything from there down, one of "*" all that is below.
func matches(pattern, importPath string) bool {
	if base, ok := strings.CutSuffix(pattern, "..."); ok {
		return base == "" || importPath == strings.TrimSuffix(base, "/") || strings.HasPrefix(importPath, base)
	}
	if base, ok := strings.CutSuffix(pattern, "*"); ok {
		return strings.HasPrefix(importPath, base)
	}
	return pattern == importPath
}

func matchesAny(patterns []string, importPath string) bool {
	return slices.ContainsFunc(patterns, func(p string) bool { return matches(p, importPath) })
}

// breaches says who breaks which wall.
func breaches(packages []listed, walls []wall) []string {
	var found []string
	for _, p := range packages {
		name, own := strings.CutPrefix(p.ImportPath, project)
		if !own {
			continue
		}
		for _, w := range walls {
			if !matchesAny(w.who, name) || matchesAny(w.not, name) {
				continue
			}
			for _, imported := range p.Imports {
				theirs, own := strings.CutPrefix(imported, project)
				if (own && w.only != nil && !matchesAny(w.only, theirs)) || matchesAny(w.never, imported) {
					found = append(found, fmt.Sprintf("%s imports %s: %s", name, imported, w.words))
				}
			}
			for _, dep := range p.Deps {
				if matchesAny(w.neverAtAll, dep) {
					found = append(found, fmt.Sprintf("%s reaches %s: %s", name, dep, w.words))
				}
			}
		}
	}
	return found
}

// inBrowser are the packages that are built for the page.
func inBrowser() []string { return []string{"./draft/...", "./sync/...", "./ui/...", "./wasm"} }

// list runs go list over packages for one target.
func list(t *testing.T, packages []string, target ...string) []listed {
	t.Helper()
	cmd := exec.Command("go", append([]string{"list", "-deps", "-json=ImportPath,Imports,Deps"}, packages...)...)
	cmd.Dir = path.Join("..", "..")
	cmd.Env = append(os.Environ(), target...)
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list: %v\n%s", err, stderr.Bytes())
	}
	var all []listed
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			return all
		} else if err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
}

func TestImports(t *testing.T) {
	for _, tt := range []struct{ packages, target []string }{
		{[]string{"./..."}, []string{"GOFLAGS="}},
		{inBrowser(), []string{"GOOS=js", "GOARCH=wasm"}},
	} {
		t.Run(strings.Join(tt.target, " "), func(t *testing.T) {
			packages := list(t, tt.packages, tt.target...)
			for _, b := range breaches(packages, walls()) {
				t.Error(b)
			}
			seen := func(name string) bool {
				return slices.ContainsFunc(packages, func(p listed) bool { return p.ImportPath == project+name })
			}
			for _, name := range []string{"draft/unit", "draft/geom", "draft/construct", "sync/store", "draft/say"} {
				if !seen(name) {
					t.Errorf("go list does not know %s: the test looks at the wrong tree", name)
				}
			}
		})
	}
}

// TestWallsStand breaks each wall once and expects to be told.
func TestWallsStand(t *testing.T) {
	tests := []struct{ who, imported, words string }{
		{"draft/say", "chalkfold/draft/unit", "say imports nothing"},
		{"draft/unit", "chalkfold/draft/geom", "unit imports say alone"},
		{"draft/plain", "chalkfold/draft/unit", "plain imports say alone"},
		{"draft/geom", "chalkfold/draft/say", "geom imports unit"},
		{"draft/qr", "chalkfold/draft/geom", "qr imports nothing"},
		{"draft/body", "chalkfold/draft/geom", "body imports unit, say"},
		{"draft/rules", "chalkfold/draft/geom", "rules imports unit, say, body"},
		{"draft/construct", "chalkfold/draft/piece", "construct imports"},
		{"draft/piece", "chalkfold/draft/construct", "a piece is made of sew lines"},
		{"draft/garment/trouser", "chalkfold/draft/proof", "garment/* imports"},
		{"draft/garment/skirt", "chalkfold/draft/garment/trouser", "garment/* imports"},
		{"draft/proof", "chalkfold/draft/lay", "proof imports"},
		{"draft/proof", "chalkfold/draft/garment/trouser", "proof imports"},
		{"draft/lay", "chalkfold/draft/construct", "lay imports"},
		{"draft/chalk", "chalkfold/draft/garment/trouser", "drawn from the results"},
		{"draft/sheet/pdf", "chalkfold/draft/job", "drawn from the results"},
		{"draft/lay", "chalkfold/draft", "no stage imports it"},
		{"draft/job", "os", "draft/** never imports"},
		{"draft", "net/http", "draft/** never imports"},
		{"draft/sheet", "syscall/js", "draft/** never imports"},
		{"draft", "chalkfold/ui/kit", "draft/** never imports"},
		{"draft", "chalkfold/sync/store", "draft/** never imports"},
		{"sync/store/idb", "chalkfold/draft/job", "sync/** never imports"},
		{"sync/client", "chalkfold/ui", "sync/** never imports"},
		{"sync/server", "chalkfold/sync/seal", "never import seal"},
		{"ui", "chalkfold/sync/store/idb", "never a concrete store"},
		{"ui/tape", "chalkfold/sync/store/mem", "never a concrete store"},
		{"ui/engine", "chalkfold/draft/sheet/pdf/noto", "the page fetches the font"},
		{"ui", "encoding/json", "by draft/plain"},
		{"draft/sheet", "github.com/maxence-charriere/go-app/v10/pkg/app", "go-app only in"},
		{"wasm", "github.com/hack-pad/go-indexeddb/idb", "go-indexeddb only in"},
		{"cmd/chalkfold", "github.com/syumai/workers", "the Workers runtime only in"},
		{"cmd/chalkfold", "github.com/chromedp/chromedp", "only wasm/browser"},
	}
	for _, tt := range tests {
		p := listed{ImportPath: project + tt.who, Imports: []string{tt.imported}, Deps: []string{tt.imported}}
		got := strings.Join(breaches([]listed{p}, walls()), "\n")
		if !strings.Contains(got, tt.words) {
			t.Errorf("%s importing %s: told %q, want %q in it", tt.who, tt.imported, got, tt.words)
		}
	}
	fine := []struct{ who, imported string }{
		{"draft/construct", "chalkfold/draft/unit"},
		{"draft/unit", "chalkfold/draft/say"},
		{"draft/garment/trouser", "chalkfold/draft/piece"},
		{"draft", "chalkfold/draft/garment/trouser"},
		{"draft/sheet/pdf", "chalkfold/draft/sheet"},
		{"ui", "chalkfold/sync/store"},
		{"ui/drafting", "chalkfold/draft"},
		{"wasm", "chalkfold/sync/store/idb"},
		{"ui/kit", "github.com/maxence-charriere/go-app/v10/pkg/app"},
	}
	for _, tt := range fine {
		p := listed{ImportPath: project + tt.who, Imports: []string{tt.imported}, Deps: []string{tt.imported}}
		if got := breaches([]listed{p}, walls()); len(got) > 0 {
			t.Errorf("%s may import %s, but: %q", tt.who, tt.imported, got)
		}
	}
}
