//go:build !js

package browser

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"
)

// TestStrayed: a page that reaches for another origin, or breaks its content
// policy, is found out, also when another page has been opened since.
func TestStrayed(t *testing.T) {
	stranger := httptest.NewServer(http.NotFoundHandler())
	defer stranger.Close()
	pages := http.NewServeMux()
	pages.HandleFunc("/", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		_, _ = w.Write([]byte(`<title>quiet</title><link rel="icon" href="data:,">`))
	})
	pages.HandleFunc("/stray", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		_, _ = w.Write([]byte(`<title>stray</title><link rel="icon" href="data:,"><img src="` + stranger.URL + `/spy.gif">`))
	})
	pages.HandleFunc("/forbidden", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		w.Header().Set("Content-Security-Policy", "style-src 'none'")
		_, _ = w.Write([]byte(`<title>forbidden</title><link rel="icon" href="data:,"><style>p { color: red }</style>`))
	})
	server := httptest.NewServer(pages)
	defer server.Close()

	for _, tt := range []struct{ path, want string }{
		{"/", ""},
		{"/stray", "a request left the origin: " + stranger.URL + "/spy.gif"},
		{"/forbidden", violation + "style-src"},
	} {
		tab := Open(t, "").Tab()
		tab.Goto(server.URL + tt.path)
		tab.Goto(server.URL + "/")
		got := ""
		for deadline := time.Now().Add(Patience); ; time.Sleep(30 * time.Millisecond) {
			got = strings.Join(tab.strayed(), "; ")
			if tt.want == "" || got != "" || time.Now().After(deadline) {
				break
			}
		}
		if !strings.HasPrefix(got, tt.want) || tt.want == "" && got != "" {
			t.Errorf("%s: found %q, want %q", tt.path, got, tt.want)
		}
		tab.mu.Lock()
		tab.lines, tab.asked = nil, nil // found, as it was to be
		tab.mu.Unlock()
	}
}
