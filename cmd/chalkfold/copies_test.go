package main

import (
	"bytes"
	"context"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/coder/websocket"

	"chalkfold/sync/server"
	"chalkfold/sync/server/hints"
	"chalkfold/sync/server/servertest"
	"chalkfold/sync/wire"
)

// opened opens what serve would with those flags, and a page of one line.
func opened(t *testing.T, log io.Writer, args ...string) *copies {
	t.Helper()
	flags, s := serveFlags(io.Discard)
	if err := flags.Parse(args); err != nil {
		t.Fatal(err)
	}
	page := http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { _, _ = io.WriteString(w, "the page") })
	c, err := s.open(t.Context(), page, log)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := c.Close(); err != nil {
			t.Error(err)
		}
	})
	c.guard.Burst = 1 << 20 // the suite asks in a second what a shop asks in a day
	return c
}

func fileOf(t *testing.T, name, content string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(content), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestServedCopies(t *testing.T) {
	var log bytes.Buffer
	c := opened(t, &log, "-store", filepath.Join(t.TempDir(), "store.db"), "-invitations", fileOf(t, "friends", "# of the shop\n\n"+servertest.Invitation+"\n"))
	s := httptest.NewServer(c.Handler())
	defer s.Close()
	servertest.Run(t, s.URL)
	for path, want := range map[string]string{"/": "the page", server.Path + "nothing": "404"} {
		if got := get(t, s.Client(), s.URL+path); !strings.Contains(got, want) {
			t.Errorf("%s: %s", path, got)
		}
	}
	watch := httptest.NewServer(c.Watched())
	defer watch.Close()
	metrics := get(t, s.Client(), watch.URL+"/metrics")
	for _, want := range []string{`chalkfold_requests_total{part="sync",path="/sync/1/push",status="200"}`, `status="401"`, "chalkfold_store_bytes ", "chalkfold_listeners 0", "chalkfold_memory_bytes "} {
		if !strings.Contains(metrics, want) {
			t.Errorf("no %s in the metrics", want)
		}
	}
	if got := get(t, s.Client(), watch.URL+"/healthz"); got != "200 ok\n" {
		t.Errorf("health: %s", got)
	}
	// The log has a line of JSON for each request, and no secret or address in any.
	if n := strings.Count(log.String(), "\n{"); n < 100 {
		t.Errorf("%d lines were logged", n)
	}
	for _, secret := range []string{"Bearer", "127.0.0.1", servertest.Invitation} {
		if strings.Contains(log.String(), secret) || strings.Contains(metrics, secret) {
			t.Errorf("the log or the metrics tell %q", secret)
		}
	}
}

// get returns the status and the body.
func get(t *testing.T, client *http.Client, url string) string {
	t.Helper()
	answer, err := client.Get(url)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return answer.Status[:3] + " " + string(body)
}

func TestServedHint(t *testing.T) {
	c := opened(t, io.Discard, "-store", filepath.Join(t.TempDir(), "store.db"))
	s := httptest.NewServer(c.Handler())
	defer s.Close()
	bearer := wire.Bearer(wire.Workshop{1}, wire.Token{2})
	post := func(path string, message []byte) {
		t.Helper()
		r, err := http.NewRequestWithContext(t.Context(), http.MethodPost, s.URL+server.Path+path, bytes.NewReader(message))
		if err != nil {
			t.Fatal(err)
		}
		r.Header.Set("Authorization", bearer)
		answer, err := s.Client().Do(r)
		if err != nil {
			t.Fatal(err)
		}
		defer answer.Body.Close()
		if body, _ := io.ReadAll(answer.Body); answer.StatusCode != http.StatusOK && answer.StatusCode != http.StatusConflict {
			t.Fatalf("%s: %s %s", path, answer.Status, body)
		}
	}
	post("create", wire.Create{}.Encode())
	socket, _, err := websocket.Dial(t.Context(), s.URL+hints.Path, nil)
	if err == nil {
		err = socket.Write(t.Context(), websocket.MessageText, []byte(bearer))
	}
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = socket.CloseNow() }()
	heard := make(chan wire.Position, 1)
	go func() {
		defer close(heard)
		_, message, err := socket.Read(context.WithoutCancel(t.Context()))
		if p, bad := wire.DecodePosition(message); err == nil && bad == nil {
			heard <- p
		}
	}()
	// Nobody says when a listener has joined: so each push is of a slot of its own,
	// until one was heard of.
	base, told := wire.Position{}, wire.Position{}
	for n := byte(1); told == (wire.Position{}); n++ {
		e := wire.Entry{ID: wire.Name{n}, Slot: wire.Name{n}, Blob: []byte("x")}
		post("push", wire.Push{Base: base, Entries: []wire.Entry{e}}.Encode())
		base = wire.Position{Seq: base.Seq + 1, ID: e.ID}
		select {
		case told = <-heard:
		case <-time.After(10 * time.Millisecond):
		}
	}
	if told.Seq == 0 || told.Seq > base.Seq {
		t.Errorf("heard of %d, the head is %d", told.Seq, base.Seq)
	}
}

// TestWithoutStore: a server that keeps no copies says so to a page that asks.
func TestWithoutStore(t *testing.T) {
	c := opened(t, io.Discard)
	s := httptest.NewServer(c.Handler())
	defer s.Close()
	if got := get(t, s.Client(), s.URL+server.Path+"usage"); !strings.HasPrefix(got, "404") {
		t.Errorf("a message: %s", got)
	}
	for _, tt := range []struct {
		args string
		want bool
	}{{"", false}, {"-behind-proxy", true}} {
		c := opened(t, io.Discard, strings.Fields(tt.args)...)
		w := httptest.NewRecorder()
		c.Handler().ServeHTTP(w, httptest.NewRequest(http.MethodGet, "/", nil))
		if got := w.Header().Get("Strict-Transport-Security") != ""; got != tt.want {
			t.Errorf("serve %s: told to come by TLS alone: %v", tt.args, got)
		}
	}
}

// TestServeRefuses: what cannot be served is said before anything is.
func TestServeRefuses(t *testing.T) {
	dir := t.TempDir()
	for _, tt := range []struct{ args, want string }{
		{"-store " + dir + "/no/such/folder/store.db", "make it first"},
		{"-store " + fileOf(t, "store.db", strings.Repeat("no database. ", 1000)), "chalkfold restore"},
		{"-store " + dir + "/a.db -invitations " + dir + "/nothing", "invitations cannot be read"},
		{"-store " + dir + "/b.db -invitations " + fileOf(t, "friends", "# nobody\n"), "has no invitation"},
		{"-hosts shop.example.org -behind-proxy", "leave out -hosts"},
		{"-hosts https://shop.example.org", "no name of a host"},
		{"-hosts , -certs " + dir, "names no host"},
	} {
		var out, errs bytes.Buffer
		ctx, cancel := context.WithTimeout(t.Context(), 20*time.Second) // should it serve after all
		if status := dispatch(ctx, append([]string{"serve"}, strings.Fields(tt.args)...), &out, &errs); status != 1 || !strings.Contains(errs.String(), tt.want) {
			t.Errorf("serve %s: %d, %s", tt.args, status, errs.String())
		}
		cancel()
	}
}

// TestBackupCommands: a store is copied while it is served, lost, and put back.
func TestBackupCommands(t *testing.T) {
	dir := t.TempDir()
	store, backup := filepath.Join(dir, "store.db"), filepath.Join(dir, "backup.db")
	c := opened(t, io.Discard, "-store", store)
	ask := func(c *copies, path string, message []byte) int {
		r := httptest.NewRequest(http.MethodPost, server.Path+path, bytes.NewReader(message))
		r.Header.Set("Authorization", wire.Bearer(wire.Workshop{1}, wire.Token{2}))
		w := httptest.NewRecorder()
		c.Handler().ServeHTTP(w, r)
		return w.Code
	}
	if got := ask(c, "create", wire.Create{}.Encode()); got != http.StatusOK {
		t.Fatal(got)
	}
	run := func(want int, args ...string) string {
		t.Helper()
		var out, errs bytes.Buffer
		if got := dispatch(t.Context(), args, &out, &errs); got != want {
			t.Fatalf("%v: %d, %s%s", args, got, out.String(), errs.String())
		}
		return out.String() + errs.String()
	}
	run(0, "backup", "-store", store, "-to", backup)
	run(1, "backup", "-store", store, "-to", backup)
	run(1, "backup", "-store", filepath.Join(dir, "nothing.db"), "-to", filepath.Join(dir, "more.db"))
	run(2, "backup", "-store", store)
	run(2, "restore", "-from", backup)
	if got := ask(c, "close", wire.EncodeClose()); got != http.StatusOK {
		t.Fatal(got)
	}
	if err := c.Close(); err != nil {
		t.Fatal(err)
	}
	if said := run(0, "restore", "-store", store, "-from", backup); !strings.Contains(said, ".before-") {
		t.Errorf("said: %s", said)
	}
	again := opened(t, io.Discard, "-store", store)
	if got := ask(again, "usage", wire.EncodeAsk()); got != http.StatusOK {
		t.Errorf("the workshop of the backup: %d", got)
	}
}

// TestCertificates: there are none for a host that was not named.
func TestCertificates(t *testing.T) {
	m, err := certificates("shop.example.org, other.example.org", t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	for host, want := range map[string]bool{"shop.example.org": true, "other.example.org": true, "example.org": false, "elsewhere.example": false} {
		if err := m.HostPolicy(t.Context(), host); (err == nil) != want {
			t.Errorf("%s: %v", host, err)
		}
	}
}
