package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"

	"chalkfold/draft/say"
	"chalkfold/draft/sheet/pdf/noto"
	"chalkfold/static"
	"chalkfold/static/words"
)

// pageFiles lists what the browser may ask for, in the order in which the
// service worker keeps it. The worker itself is not among them: the browser
// keeps that one.
func pageFiles() []static.File {
	return []static.File{
		{Path: "/", Name: frontName, Type: "text/html; charset=utf-8"},
		{Path: "/app.wasm", Name: "app.wasm", Type: "application/wasm"},
		{Path: "/rest.wasm", Name: "rest.wasm", Type: "application/wasm", Late: true},
		{Path: "/fetcher.js", Name: "fetcher.js", Type: "text/javascript; charset=utf-8"},
		{Path: "/page.js", Name: "page.js", Type: "text/javascript; charset=utf-8"},
		{Path: "/engine.js", Name: "engine.js", Type: "text/javascript; charset=utf-8", Late: true},
		{Path: "/manifest.webmanifest", Name: "manifest.webmanifest", Type: "application/manifest+json"},
		{Path: "/icon.svg", Name: "icon.svg", Type: "image/svg+xml"},
		{Path: "/icon-192.png", Name: "icon-192.png", Type: "image/png"},
		{Path: "/icon-512.png", Name: "icon-512.png", Type: "image/png", Late: true},
		{Path: "/icon-whole.png", Name: "icon-whole.png", Type: "image/png", Late: true},
		{Path: "/noto.ttf", Name: "noto.ttf", Type: "font/ttf", Late: true},
		{Path: "/names.txt", Name: "names.txt", Type: "text/plain; charset=utf-8", Rare: true},
	}
}

// wordsFiles are the catalogues, each asked for when its language is chosen.
func wordsFiles() ([]static.File, map[string][]byte, error) {
	var files []static.File
	bodies := map[string][]byte{}
	for _, l := range say.Offered()[1:] {
		c, err := words.Read(l.ID)
		if err != nil {
			return nil, nil, err
		}
		name := "words-" + l.ID + ".txt"
		files = append(files, static.File{Path: "/words/" + l.ID + ".txt", Name: name, Type: "text/plain; charset=utf-8", Late: true, Speaks: l.ID})
		bodies[name] = []byte(c.Page())
	}
	return files, bodies, nil
}

const (
	frontName  = "index.html"
	workerName = "sw.js"
)

// styleSheets are joined in this order: what is said last wins.
func styleSheets() []string {
	return []string{
		"base", "first", "frame", "kit", "drawing",
		"book", "tape", "style", "draft", "cloth", "chalk", "bench", "fitting", "share", "house", "keep", "bill", "album", "lesson", "how",
		"motion",
	}
}

// scripts are joined to the files that the browser asks for, in this order: each
// file more costs a slow phone a hundredth of a second whenever it opens the page.
// The first, wasm_exec.js, is Go's own.
func scripts() map[string][]string {
	return map[string][]string{
		"page.js":   {loaderName, "device.js", "start.js"},
		"engine.js": {loaderName, "engine.js"},
	}
}

const loaderName = "wasm_exec.js"

// within are the scripts that stand within the page itself, where the mark is.
func within() []struct{ mark, name string } {
	return []struct{ mark, name string }{{"@EARLY@", "early.js"}, {"@LOOK@", "look.js"}}
}

// joinScripts returns those files; loader is Go's own.
func joinScripts(page fs.FS, loader []byte) (map[string][]byte, error) {
	joined := map[string][]byte{}
	for name, parts := range scripts() {
		var all bytes.Buffer
		for _, part := range parts {
			body := loader
			if part != loaderName {
				var err error
				if body, err = fs.ReadFile(page, part); err != nil {
					return nil, err
				}
			}
			all.Write(body)
		}
		joined[name] = all.Bytes()
	}
	return joined, nil
}

// joinStyle returns the one style of the page. A sheet of the sources that is not named
// in styleSheets is an error.
func joinStyle(page fs.FS) ([]byte, error) {
	var all bytes.Buffer
	for _, name := range styleSheets() {
		sheet, err := fs.ReadFile(page, "style/"+name+".css")
		if err != nil {
			return nil, err
		}
		all.Write(sheet)
	}
	there, err := fs.Glob(page, "style/*.css")
	if err == nil && len(there) != len(styleSheets()) {
		err = fmt.Errorf("style: %d sheets are there, %d are joined: name each in styleSheets", len(there), len(styleSheets()))
	}
	return all.Bytes(), err
}

// writeDist fills dir with the built page: p is the compiled program,
// loader Go's own wasm_exec.js, page the sources. It returns the list.
func writeDist(dir string, page fs.FS, p program, loader []byte, press presser) (static.List, error) {
	list := static.List{Files: pageFiles()}
	files, catalogues, err := wordsFiles()
	if err != nil {
		return list, err
	}
	bodies, err := readPage(&list, page, p, loader, press)
	if err != nil {
		return list, err
	}
	maps.Copy(bodies, catalogues)
	list.Files = append(list.Files, files...)
	hashes := map[string]string{}
	for i, f := range list.Files {
		list.Files[i].Hash = hashOf(bodies[f.Name])
		if !f.Rare {
			hashes[f.Path] = list.Files[i].Hash
		}
	}
	worker, err := fs.ReadFile(page, workerName)
	if err != nil {
		return list, err
	}
	list.Version = versionOf(hashes, worker)
	if bodies[workerName], err = fillWorker(worker, list.Version, hashes); err != nil {
		return list, err
	}
	list.Files = append(list.Files, static.File{
		Path: "/" + workerName, Name: workerName, Type: "text/javascript; charset=utf-8",
		Hash: hashOf(bodies[workerName]),
	})

	if err := emptyDir(dir); err != nil {
		return list, err
	}
	for i := range list.Files {
		f := &list.Files[i]
		if err := writeForms(dir, f, bodies[f.Name], press); err != nil {
			return list, err
		}
	}
	text, err := json.MarshalIndent(list, "", "  ")
	if err != nil {
		return list, err
	}
	return list, os.WriteFile(filepath.Join(dir, static.ListName), append(text, '\n'), 0o644)
}

// readPage returns what each of the files of the list holds, with the figures that
// the page tells of itself in their places.
func readPage(list *static.List, page fs.FS, p program, loader []byte, press presser) (map[string][]byte, error) {
	bodies, err := joinScripts(page, loader)
	if err != nil {
		return nil, err
	}
	if bodies[frontName], err = fillFront(list, page); err != nil {
		return nil, fmt.Errorf("%s: %w", frontName, err)
	}
	maps.Copy(bodies, map[string][]byte{"app.wasm": p.wasm, "rest.wasm": p.rest, "names.txt": p.names, "noto.ttf": noto.Sans()})
	var sent int
	for _, f := range list.Files {
		body, ok := bodies[f.Name]
		if !ok {
			if body, err = fs.ReadFile(page, f.Name); err != nil {
				return nil, err
			}
			bodies[f.Name] = body
		}
		if f.Rare {
			continue
		}
		br, _, err := press(body)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", f.Name, err)
		}
		sent += min(len(br), len(body))
	}
	const tenth = 100_000
	megabytes := strconv.FormatFloat(float64((sent+tenth-1)/tenth)/10, 'f', 1, 64)
	for name, cuts := range map[string][]cut{
		frontName: {{"@MEGABYTES@", megabytes}},
		"page.js": {{"@PROGRAM@", strconv.Itoa(len(p.wasm))}, {"@REST@", strconv.Itoa(len(p.rest))}, {"@NAMES@", hashOf(p.names)}},
	} {
		if bodies[name], err = applyCuts(bodies[name], cuts); err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
	}
	return bodies, nil
}

// fillFront returns the page's own file with what its first frame needs within it: what it
// looks like, and the scripts that run before anything else. Were they files, a slow line
// would be waited for once more before anything is seen. Their hashes go in the list.
func fillFront(list *static.List, page fs.FS) ([]byte, error) {
	front, err := fs.ReadFile(page, frontName)
	if err != nil {
		return nil, err
	}
	style, err := joinStyle(page)
	if err != nil {
		return nil, err
	}
	list.Styles = []string{policyHash(style)}
	cuts := []cut{{"@STYLE@", string(style)}}
	for _, s := range within() {
		script, err := fs.ReadFile(page, s.name)
		if err != nil {
			return nil, err
		}
		list.Scripts = append(list.Scripts, policyHash(script))
		cuts = append(cuts, cut{s.mark, string(script)})
	}
	for _, c := range cuts {
		if strings.Contains(c.now, "</") || strings.Contains(c.now, "<!--") {
			return nil, fmt.Errorf("%s would end what it stands in: it may hold neither </ nor <!--", c.was)
		}
	}
	return applyCuts(front, cuts)
}

// policyHash is the hash of what stands within a page as a Content-Security-Policy has it.
func policyHash(b []byte) string {
	sum := sha256.Sum256(b)
	return base64.StdEncoding.EncodeToString(sum[:])
}

// writeForms writes the body compressed, or plain when pressing gains nothing.
// The server opens the gzip form for the rare client that takes neither.
func writeForms(dir string, f *static.File, body []byte, press presser) error {
	f.Size = int64(len(body))
	br, gz, err := press(body)
	if err != nil {
		return fmt.Errorf("%s: %w", f.Name, err)
	}
	name := filepath.Join(dir, f.Name)
	if len(gz) >= len(body) {
		f.Plain = f.Size
		return os.WriteFile(name, body, 0o644)
	}
	f.Brotli, f.Gzip = int64(len(br)), int64(len(gz))
	if err := os.WriteFile(name+".br", br, 0o644); err != nil {
		return err
	}
	return os.WriteFile(name+".gz", gz, 0o644)
}

// fillWorker puts the version and the list of files in their places.
func fillWorker(worker []byte, version string, hashes map[string]string) ([]byte, error) {
	files, err := json.MarshalIndent(hashes, "", "  ")
	if err != nil {
		return nil, err
	}
	return applyCuts(worker, []cut{{"@VERSION@", version}, {"@FILES@", string(files)}})
}

// versionOf is the hash over all files and the worker's own text.
func versionOf(hashes map[string]string, worker []byte) string {
	paths := make([]string, 0, len(hashes))
	for p := range hashes {
		paths = append(paths, p)
	}
	sort.Strings(paths)
	var all bytes.Buffer
	for _, p := range paths {
		fmt.Fprintf(&all, "%s %s\n", p, hashes[p])
	}
	all.Write(worker)
	return hashOf(all.Bytes())[:16]
}

func hashOf(b []byte) string {
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:])
}

// emptyDir removes what is in dir, but for the placeholder that keeps it in
// the repository.
func emptyDir(dir string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	for _, e := range entries {
		if e.Name() == ".gitkeep" {
			continue
		}
		if err := os.RemoveAll(filepath.Join(dir, e.Name())); err != nil {
			return err
		}
	}
	return nil
}
