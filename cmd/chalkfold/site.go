package main

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"io/fs"
	"net/http"
	"strconv"
	"strings"

	"chalkfold/static"
)

// A form is one stored form of a file.
type form struct {
	encoding string // as in Content-Encoding; empty for plain
	body     []byte
}

type siteFile struct {
	static.File
	forms []form // best first
}

// site answers for the files of the built page.
type site struct {
	files   map[string]siteFile
	headers map[string]string
}

// newSite reads the built page into memory.
func newSite(built fs.FS, list static.List) (http.Handler, error) {
	s := site{files: make(map[string]siteFile, len(list.Files)), headers: list.Headers()}
	for _, f := range list.Files {
		sf := siteFile{File: f}
		for _, held := range f.Forms() {
			body, err := fs.ReadFile(built, f.Name+held.Suffix)
			if err != nil {
				return nil, fmt.Errorf("%w: run `make build` again", err)
			}
			sf.forms = append(sf.forms, form{held.Encoding, body})
		}
		if len(sf.forms) == 0 {
			return nil, fmt.Errorf("%s lists %s in no form: run `make build` again", static.ListName, f.Path)
		}
		s.files[f.Path] = sf
	}
	return s, nil
}

func (s site) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	head := w.Header()
	for name, value := range s.headers {
		head.Set(name, value)
	}

	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		head.Set("Allow", "GET, HEAD")
		http.Error(w, "only GET and HEAD are answered here", http.StatusMethodNotAllowed)
		return
	}
	f, ok := s.files[r.URL.Path]
	if !ok {
		http.Error(w, "there is nothing at "+strconv.Quote(r.URL.Path), http.StatusNotFound)
		return
	}
	// Each address is stable and its content changes with the version: the
	// browser keeps its copy and asks whether it still holds.
	tag := `"` + f.Hash + `"`
	head.Set("Cache-Control", "no-cache")
	head.Set("ETag", tag)
	head.Set("Vary", "Accept-Encoding")
	if tagListed(r.Header.Get("If-None-Match"), tag) {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	encoding, body, err := f.choose(r.Header.Get("Accept-Encoding"))
	if err != nil {
		http.Error(w, "the file is damaged in this binary", http.StatusInternalServerError)
		return
	}
	if encoding != "" {
		head.Set("Content-Encoding", encoding)
	}
	head.Set("Content-Type", f.Type)
	head.Set("Content-Length", strconv.Itoa(len(body)))
	if r.Method == http.MethodHead {
		return
	}
	_, _ = w.Write(body) // the client is gone if this fails
}

// choose returns the best form that the client takes. One that takes neither
// brotli nor gzip gets the gzip form opened.
func (f siteFile) choose(accept string) (encoding string, body []byte, err error) {
	for _, form := range f.forms {
		if form.encoding == "" || accepts(accept, form.encoding) {
			return form.encoding, form.body, nil
		}
	}
	last := f.forms[len(f.forms)-1]
	if last.encoding != "gzip" {
		return "", nil, fmt.Errorf("%s: no form to open", f.Path)
	}
	zr, err := gzip.NewReader(bytes.NewReader(last.body))
	if err != nil {
		return "", nil, err
	}
	body, err = io.ReadAll(zr)
	return "", body, err
}

// accepts reports whether an Accept-Encoding names the encoding and does not
// refuse it with a weight of nought (RFC 9110, 12.5.3).
func accepts(header, encoding string) bool {
	for part := range strings.SplitSeq(header, ",") {
		name, params, _ := strings.Cut(part, ";")
		if !strings.EqualFold(strings.TrimSpace(name), encoding) {
			continue
		}
		key, value, _ := strings.Cut(strings.TrimSpace(params), "=")
		if !strings.EqualFold(strings.TrimSpace(key), "q") {
			return true
		}
		weight, err := strconv.ParseFloat(strings.TrimSpace(value), 64)
		return err == nil && weight > 0
	}
	return false
}

// tagListed reports whether an If-None-Match names the tag (RFC 9110, 13.1.2).
func tagListed(header, tag string) bool {
	for part := range strings.SplitSeq(header, ",") {
		part = strings.TrimSpace(part)
		if part == "*" || strings.TrimPrefix(part, "W/") == tag {
			return true
		}
	}
	return false
}
