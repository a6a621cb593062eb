//go:build !js

// Pack gathers in one folder what is deployed on a Workers runtime: the program, the
// modules that host it and the page, pressed.
//
//	go run ./cmd/edge/pack .build/edge
//
// The page must have been built (make build). The folder is emptied first.
package main

import (
	"embed"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"

	"chalkfold/static"
)

//go:embed modules/*.mjs
var modules embed.FS

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: pack FOLDER")
		os.Exit(2)
	}
	if err := pack(os.Args[1], os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "pack:", err)
		os.Exit(1)
	}
}

func pack(folder string, out io.Writer) error {
	built, list, err := static.Open()
	if err != nil {
		return err
	}
	// The library's own modules: how Go runs there, and the front's handler.
	if err := run("go", "run", "github.com/syumai/workers/cmd/workers-assets-gen", "-mode=go", "-o", folder); err != nil {
		return err
	}
	program := filepath.Join(folder, "app.wasm")
	if err := run("env", "GOOS=js", "GOARCH=wasm", "go", "build", "-trimpath", "-ldflags=-s -w", "-o", program, "./cmd/edge"); err != nil {
		return err
	}
	ours, err := fs.Sub(modules, "modules")
	if err != nil {
		return err
	}
	if err := errors.Join(os.CopyFS(folder, ours), os.RemoveAll(filepath.Join(folder, "assets"))); err != nil {
		return err
	}
	if err := packPage(built, list, folder); err != nil {
		return err
	}
	info, err := os.Stat(program)
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%s: the program has %d bytes, the page is version %s\n", folder, info.Size(), list.Version)
	return nil
}

// A page is what the front knows of the files.
type page struct {
	Headers map[string]string `json:"headers"`
	Files   map[string]file   `json:"files"`
}

type file struct {
	Type  string `json:"type"`
	Hash  string `json:"hash"`
	Forms []form `json:"forms"` // best first
}

type form struct {
	Name     string `json:"name"`
	Encoding string `json:"encoding"`
}

// packPage copies the forms of every file that are there, and says which in site.mjs.
func packPage(built fs.FS, list static.List, folder string) error {
	assets := filepath.Join(folder, "assets")
	if err := os.Mkdir(assets, 0o755); err != nil {
		return err
	}
	p := page{Headers: list.Headers(), Files: map[string]file{}}
	for _, f := range list.Files {
		told := file{Type: f.Type, Hash: f.Hash}
		for _, held := range f.Forms() {
			name := f.Name + held.Suffix
			content, err := fs.ReadFile(built, name)
			if err != nil {
				return fmt.Errorf("%w: run `make build` again", err)
			}
			if err := os.WriteFile(filepath.Join(assets, name), content, 0o644); err != nil {
				return err
			}
			told.Forms = append(told.Forms, form{name, held.Encoding})
		}
		p.Files[f.Path] = told
	}
	text, err := json.MarshalIndent(p, "", " ")
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(folder, "site.mjs"), append(append([]byte("export default "), text...), ";\n"...), 0o644)
}

func run(name string, args ...string) error {
	c := exec.Command(name, args...)
	c.Stderr = os.Stderr
	if err := c.Run(); err != nil {
		return fmt.Errorf("%s %v: %w", name, args, err)
	}
	return nil
}
