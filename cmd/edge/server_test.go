//go:build !js

package main_test

import (
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/coder/websocket"

	"chalkfold/static"
	"chalkfold/sync/server"
	"chalkfold/sync/server/servertest"
	"chalkfold/sync/wire"
)

// packed is the folder that make edge has filled.
const packed = "../../.build/edge"

// deployed runs what would be deployed, with variables for it.
func deployed(t *testing.T, variables map[string]string) string {
	t.Helper()
	folder, err := filepath.Abs(packed)
	if err != nil {
		t.Fatal(err)
	}
	var modules []map[string]string
	for _, m := range []struct{ kind, name string }{
		{"ESModule", "front.mjs"}, // the first is where it begins
		{"ESModule", "object.mjs"},
		{"ESModule", "site.mjs"},
		{"ESModule", "worker.mjs"},
		{"ESModule", "runtime.mjs"},
		{"ESModule", "wasm_exec.js"},
		{"CompiledWasm", "app.wasm"},
	} {
		modules = append(modules, map[string]string{"type": m.kind, "path": filepath.Join(folder, m.name)})
	}
	return start(t, map[string]any{
		"modules": modules, "modulesRoot": folder, "compatibilityDate": compatibility,
		"durableObjects": map[string]any{"WORKSHOPS": map[string]any{"className": "Workshop", "useSQLite": true}},
		"d1Databases":    []string{"D1"},
		"assets":         map[string]any{"directory": filepath.Join(folder, "assets"), "binding": "ASSETS", "routerConfig": map[string]any{"invoke_user_worker_ahead_of_assets": true, "has_user_worker": true}},
		"bindings":       variables,
	})
}

// TestServers holds the edge to the one suite of every server, with an object for each
// workshop and with all of them on D1.
func TestServers(t *testing.T) {
	for _, store := range []string{"objects", "d1"} {
		t.Run(store, func(t *testing.T) {
			servertest.Run(t, deployed(t, map[string]string{"STORE": store, "INVITATIONS": "nobody's\n" + servertest.Invitation}))
		})
	}
}

// TestPage: the page is served as by a server of one's own, pressed once.
func TestPage(t *testing.T) {
	address := deployed(t, map[string]string{})
	_, list, err := static.Open()
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range list.Files {
		r, err := http.NewRequestWithContext(t.Context(), http.MethodGet, address+f.Path, nil)
		if err != nil {
			t.Fatal(err)
		}
		r.Header.Set("Accept-Encoding", "br, gzip")
		answer, err := http.DefaultTransport.RoundTrip(r)
		if err != nil {
			t.Fatal(err)
		}
		body, err := io.ReadAll(answer.Body)
		answer.Body.Close()
		want := f.Plain
		if f.Brotli > 0 {
			want = f.Brotli
		}
		if err != nil || answer.StatusCode != http.StatusOK || int64(len(body)) != want || answer.Header.Get("Content-Type") != f.Type {
			t.Errorf("%s: %s, %d bytes of %d, %v, %v", f.Path, answer.Status, len(body), want, answer.Header, err)
		}
		for name, value := range list.Headers() {
			if got := answer.Header.Get(name); got != value {
				t.Errorf("%s: %s is %q", f.Path, name, got)
			}
		}
		r.Header.Set("If-None-Match", answer.Header.Get("ETag"))
		if again, err := http.DefaultTransport.RoundTrip(r); err != nil || again.StatusCode != http.StatusNotModified {
			t.Errorf("%s again: %v, %v", f.Path, again, err)
		} else {
			again.Body.Close()
		}
	}
	answer, err := http.Get(address + "/nothing")
	if err != nil || answer.StatusCode != http.StatusNotFound {
		t.Errorf("nothing: %v, %v", answer, err)
	}
	answer.Body.Close()
}

// bearerOf has the credentials of the nth workshop.
func bearerOf(n int) (wire.Workshop, string) {
	var w wire.Workshop
	binary.BigEndian.PutUint64(w[:], uint64(n)+1<<32)
	return w, wire.Bearer(w, wire.Token{byte(n)})
}

func post(ctx context.Context, address, bearer, path string, message []byte) ([]byte, error) {
	r, err := http.NewRequestWithContext(ctx, http.MethodPost, address+server.Path+path, bytes.NewReader(message))
	if err != nil {
		return nil, err
	}
	r.Header.Set("Authorization", bearer)
	r.Close = true
	answer, err := http.DefaultClient.Do(r)
	if err != nil {
		return nil, err
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err == nil && answer.StatusCode != http.StatusOK {
		err = fmt.Errorf("%s: %s %s", path, answer.Status, body)
	}
	return body, err
}

// TestHint: a device that listens hears of a push at once, and a stranger of nothing.
func TestHint(t *testing.T) {
	address := deployed(t, map[string]string{})
	w, bearer := bearerOf(1)
	if _, err := post(t.Context(), address, bearer, "create", wire.Create{}.Encode()); err != nil {
		t.Fatal(err)
	}
	listen := func(credentials string) *websocket.Conn {
		c, _, err := websocket.Dial(t.Context(), address+server.Path+"hints?"+w.String(), nil)
		if err == nil {
			err = c.Write(t.Context(), websocket.MessageText, []byte(credentials))
		}
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { _ = c.CloseNow() })
		return c
	}
	stranger := listen(wire.Bearer(w, wire.Token{99}))
	if _, m, err := stranger.Read(t.Context()); websocket.CloseStatus(err) != websocket.StatusPolicyViolation {
		t.Errorf("a stranger heard %x, %v", m, err)
	}
	member := listen(bearer)
	heard := make(chan wire.Position, 100)
	go func() {
		for {
			_, m, err := member.Read(context.WithoutCancel(t.Context()))
			if p, bad := wire.DecodePosition(m); err == nil && bad == nil {
				heard <- p
			} else {
				return
			}
		}
	}()
	base := wire.Position{}
	for n := byte(1); ; n++ { // until it has been admitted
		e := wire.Entry{ID: wire.Name{n}, Slot: wire.Name{n}, Blob: []byte("x")}
		body, err := post(t.Context(), address, bearer, "push", wire.Push{Base: base, Entries: []wire.Entry{e}}.Encode())
		if err != nil {
			t.Fatal(err)
		}
		if base, err = wire.DecodePosition(body); err != nil {
			t.Fatal(err)
		}
		select {
		case p := <-heard:
			if p != base {
				t.Errorf("heard of %v, the head is %v", p, base)
			}
			return
		case <-time.After(100 * time.Millisecond):
		}
	}
}

// TestManyWorkshops: two hundred workshops at once, each in an object of its own.
func TestManyWorkshops(t *testing.T) {
	address := deployed(t, map[string]string{})
	const workshops, pushes, atOnce = 200, 3, 16
	var mu sync.Mutex
	var took []time.Duration
	begun := time.Now()
	work := func(n int) error {
		w, bearer := bearerOf(n)
		if _, err := post(t.Context(), address, bearer, "create", wire.Create{}.Encode()); err != nil {
			return err
		}
		base := wire.Position{}
		for i := range pushes {
			p := wire.Push{Base: base}
			for k := range byte(5) {
				p.Entries = append(p.Entries, wire.Entry{ID: wire.Name{byte(i), k, 1}, Slot: wire.Name{k}, Blob: bytes.Repeat(w[:], 20)})
			}
			at := time.Now()
			body, err := post(t.Context(), address, bearer, "push", p.Encode())
			if err != nil {
				return err
			}
			mu.Lock()
			took = append(took, time.Since(at))
			mu.Unlock()
			if base, err = wire.DecodePosition(body); err != nil {
				return err
			}
		}
		body, err := post(t.Context(), address, bearer, "pull", wire.Pull{Most: wire.MostPage}.Encode())
		if err != nil {
			return err
		}
		page, err := wire.DecodePage(body)
		if err == nil && (len(page.Entries) != 5 || page.To != base || !bytes.HasPrefix(page.Entries[0].Blob, w[:])) {
			err = fmt.Errorf("workshop %d has %d entries up to %d", n, len(page.Entries), page.To.Seq)
		}
		return err
	}
	numbers, errs := make(chan int), make(chan error, workshops)
	for range atOnce {
		go func() {
			for n := range numbers {
				errs <- work(n)
			}
		}()
	}
	for n := range workshops {
		numbers <- n
	}
	close(numbers)
	for range workshops {
		if err := <-errs; err != nil {
			t.Fatal(err)
		}
	}
	slices.Sort(took)
	t.Logf("%d workshops, %.0f pushes/s, p50 %v, p99 %v", workshops, float64(len(took))/time.Since(begun).Seconds(), took[len(took)/2], took[len(took)*99/100])
}

// TestRefusesBadHints: an address without a workshop, or a page from elsewhere, gets no
// socket.
func TestRefusesBadHints(t *testing.T) {
	address := deployed(t, map[string]string{})
	w, _ := bearerOf(2)
	for _, tt := range []struct {
		query, origin string
		want          int
	}{{"", "", http.StatusBadRequest}, {"?" + strings.Repeat("g", 32), "", http.StatusBadRequest}, {"?" + w.String(), "https://elsewhere.example", http.StatusForbidden}} {
		_, answer, err := websocket.Dial(t.Context(), address+server.Path+"hints"+tt.query, &websocket.DialOptions{HTTPHeader: http.Header{"Origin": {tt.origin}}})
		if err == nil || answer == nil || answer.StatusCode != tt.want {
			t.Errorf("hints%s from %q: %v, %v", tt.query, tt.origin, answer, err)
		}
	}
}

func TestMain(m *testing.M) {
	if os.Getenv(runtimeFolder) != "" {
		if _, err := os.Stat(filepath.Join(packed, "app.wasm")); err != nil {
			fmt.Fprintln(os.Stderr, "nothing is packed: run make test-edge")
			os.Exit(1)
		}
	}
	os.Exit(m.Run())
}

// TestPhones: two browsers do at the edge what they do by a server of one's own.
func TestPhones(t *testing.T) {
	phones := exec.CommandContext(t.Context(), "go", "test", "../chalkfold", "-count=1", "-v", "-run=^TestTwoPhonesElsewhere$")
	phones.Env = append(os.Environ(), "CHALKFOLD_BROWSER=need", "CHALKFOLD_SERVER="+deployed(t, map[string]string{}))
	out, err := phones.CombinedOutput()
	if err != nil || !bytes.Contains(out, []byte("--- PASS: TestTwoPhonesElsewhere")) {
		t.Errorf("%v\n%s", err, out)
	}
}
