package main

import (
	"bytes"
	"compress/gzip"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/fstest"

	"chalkfold/static"
)

const sampleText = "chalk the centre front line first, a long way in from the edge"

func sampleSite(t *testing.T) http.Handler {
	t.Helper()
	var gz bytes.Buffer
	zw := gzip.NewWriter(&gz)
	if _, err := zw.Write([]byte(sampleText)); err != nil {
		t.Fatal(err)
	}
	if err := zw.Close(); err != nil {
		t.Fatal(err)
	}
	built := fstest.MapFS{
		"index.html.br": {Data: []byte("pressed with brotli")},
		"index.html.gz": {Data: gz.Bytes()},
		"dot.png":       {Data: []byte("picture")},
	}
	h, err := newSite(built, static.List{Scripts: []string{"c2NyaXB0"}, Styles: []string{"c3R5bGU="}, Files: []static.File{
		{Path: "/", Name: "index.html", Type: "text/html; charset=utf-8", Hash: "aa11", Brotli: 1, Gzip: 1},
		{Path: "/dot.png", Name: "dot.png", Type: "image/png", Hash: "bb22", Plain: 7},
	}})
	if err != nil {
		t.Fatal(err)
	}
	return h
}

func TestSiteAnswers(t *testing.T) {
	h := sampleSite(t)
	tests := []struct {
		name, method, path string
		header             map[string]string
		status             int
		encoding, body     string
	}{
		{"brotli first", "GET", "/", map[string]string{"Accept-Encoding": "gzip, deflate, br"}, 200, "br", "pressed with brotli"},
		{"brotli refused", "GET", "/", map[string]string{"Accept-Encoding": "br;q=0, gzip"}, 200, "gzip", ""},
		{"neither: opened", "GET", "/", nil, 200, "", sampleText},
		{"plain only", "GET", "/dot.png", map[string]string{"Accept-Encoding": "br"}, 200, "", "picture"},
		{"same as held", "GET", "/", map[string]string{"If-None-Match": `"aa11"`}, 304, "", ""},
		{"one of several held", "GET", "/", map[string]string{"If-None-Match": `"zz", W/"aa11"`}, 304, "", ""},
		{"another held", "GET", "/", map[string]string{"If-None-Match": `"bb22"`}, 200, "", sampleText},
		{"head", "HEAD", "/dot.png", nil, 200, "", ""},
		{"nothing there", "GET", "/dot.png/", nil, 404, "", ""},
		{"no way up", "GET", "/../site.go", nil, 404, "", ""},
		{"list not served", "GET", "/files.json", nil, 404, "", ""},
		{"no writing", "POST", "/", nil, 405, "", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := httptest.NewRequest(tt.method, "http://127.0.0.1"+tt.path, nil)
			for k, v := range tt.header {
				r.Header.Set(k, v)
			}
			w := httptest.NewRecorder()
			h.ServeHTTP(w, r)
			if w.Code != tt.status {
				t.Fatalf("status %d, want %d", w.Code, tt.status)
			}
			if got := w.Header().Get("Content-Encoding"); got != tt.encoding {
				t.Errorf("encoding %q, want %q", got, tt.encoding)
			}
			if tt.body != "" && w.Body.String() != tt.body {
				t.Errorf("body %q, want %q", w.Body, tt.body)
			}
			if tt.method == "HEAD" && w.Body.Len() > 0 {
				t.Errorf("HEAD sent a body: %q", w.Body)
			}
			for key, want := range map[string]string{
				"X-Content-Type-Options": "nosniff",
				"Referrer-Policy":        "no-referrer",
				"X-Frame-Options":        "DENY",
			} {
				if got := w.Header().Get(key); got != want {
					t.Errorf("%s: %q, want %q", key, got, want)
				}
			}
			policy := w.Header().Get("Content-Security-Policy")
			for _, want := range []string{"default-src 'none'", "frame-ancestors 'none'", "script-src 'self' 'wasm-unsafe-eval' 'sha256-c2NyaXB0';", "style-src 'self' 'sha256-c3R5bGU=';"} {
				if !strings.Contains(policy, want) {
					t.Errorf("policy %q lacks %q", policy, want)
				}
			}
			if tt.status == 200 {
				if got := w.Header().Get("Cache-Control"); got != "no-cache" {
					t.Errorf("Cache-Control %q, want no-cache: each address is stable", got)
				}
				if got := w.Header().Get("Vary"); got != "Accept-Encoding" {
					t.Errorf("Vary %q", got)
				}
			}
		})
	}
}

func TestSiteRefusesHalfABuild(t *testing.T) {
	_, err := newSite(fstest.MapFS{}, static.List{Files: []static.File{{Path: "/", Name: "index.html", Brotli: 9}}})
	if err == nil || !strings.Contains(err.Error(), "make build") {
		t.Errorf("a listed file that is missing: %v, want advice to build again", err)
	}
}
