// Package static holds the page as the browser gets it: the first screen, the
// loader, the service worker, the style, the icons and the compiled program,
// each with its brotli and gzip form. Open says whether they have been built.
//
// The sources are in page/; cmd/buildweb turns them into dist/, which is never
// committed. In a fresh clone dist/ holds one placeholder, so that everything
// compiles before the page is built.
package static

import (
	"embed"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
)

// Page holds the sources of the page.
//
//go:embed page
var Page embed.FS

//go:embed all:dist
var dist embed.FS

// ListName is the name, in the built page, of the list of its files.
const ListName = "files.json"

// List is what was built.
type List struct {
	Version string // hash over all files: two builds differ in it if a byte differs
	Files   []File
	// Scripts and Styles stand within the page: SHA-256 of each, in base64.
	Scripts, Styles []string `json:",omitempty"`
}

// File is one file that the browser may ask for.
type File struct {
	Path string // as asked for: "/", "/app.wasm"
	Name string // in the built page: "index.html"; its other forms end in .br and .gz
	Type string // content type
	Hash string // SHA-256 of the content, in hex
	Size int64  // of the content, in bytes
	// Rare says that the file is fetched only when it is wanted, and is not kept for
	// use without a network.
	Rare bool `json:",omitempty"`
	// Late says that the first screen stands without it: it is fetched after that.
	Late bool `json:",omitempty"`
	// Speaks is the language, by its tag, whose words the file holds. It is fetched
	// and kept only where that is spoken.
	Speaks string `json:",omitempty"`
	Plain,
	Brotli,
	Gzip int64 // bytes of each form that is held, 0 for one that is not
}

// Kept says that every device keeps the file for use without a network.
func (f File) Kept() bool { return !f.Rare && f.Speaks == "" }

// A Form is one form in which a file is held.
type Form struct {
	Suffix   string // after the file's name
	Encoding string // as in Content-Encoding; empty for plain
}

// Forms lists the forms that a file is held in, the best first.
func (f File) Forms() []Form {
	var forms []Form
	for _, held := range []struct {
		size int64
		Form
	}{{f.Brotli, Form{".br", "br"}}, {f.Gzip, Form{".gz", "gzip"}}, {f.Plain, Form{}}} {
		if held.size > 0 {
			forms = append(forms, held.Form)
		}
	}
	return forms
}

// ErrNotBuilt says that the page has not been built into this binary.
var ErrNotBuilt = errors.New("the page is not built into this binary: run `make build`, then start .build/chalkfold")

// Open returns the built page and its list.
func Open() (fs.FS, List, error) {
	built, err := fs.Sub(dist, "dist")
	if err != nil {
		return nil, List{}, err
	}
	list, err := ReadList(built)
	return built, list, err
}

// ReadList reads the list of a built page. The error is ErrNotBuilt if there
// is none.
func ReadList(built fs.FS) (List, error) {
	text, err := fs.ReadFile(built, ListName)
	if errors.Is(err, fs.ErrNotExist) {
		return List{}, ErrNotBuilt
	}
	if err != nil {
		return List{}, err
	}
	var list List
	if err := json.Unmarshal(text, &list); err != nil {
		return List{}, fmt.Errorf("%s: %w", ListName, err)
	}
	return list, nil
}
