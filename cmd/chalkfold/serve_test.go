package main

import (
	"bytes"
	"context"
	"io"
	"net"
	"net/http"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

func TestServeStopsGracefully(t *testing.T) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	entered, release := make(chan struct{}), make(chan struct{})
	slow := http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		close(entered)
		<-release
		_, _ = io.WriteString(w, "finished")
	})
	done := make(chan error, 1)
	go func() { done <- serveUntil(ctx, l, slow) }()

	answer := make(chan string, 1)
	go func() {
		res, err := http.Get("http://" + l.Addr().String() + "/")
		if err != nil {
			answer <- err.Error()
			return
		}
		defer res.Body.Close()
		body, _ := io.ReadAll(res.Body)
		answer <- string(body)
	}()
	<-entered
	stop()
	// Wait until the listener is closed, so that the request is answered by a
	// server that is already stopping.
	for {
		c, err := net.DialTimeout("tcp", l.Addr().String(), time.Second)
		if err != nil {
			break
		}
		_ = c.Close()
	}
	close(release)
	if got := <-answer; got != "finished" {
		t.Errorf("the request under way got %q, want it finished", got)
	}
	if err := <-done; err != nil {
		t.Errorf("serveUntil: %v", err)
	}
}

// TestDrip: whoever sends a request byte by byte, its head or its body, or reads no
// answer, is cut off, and the others are answered meanwhile.
func TestDrip(t *testing.T) {
	c := opened(t, io.Discard, "-store", filepath.Join(t.TempDir(), "store.db"))
	const patience = 50 * time.Millisecond
	server := serverOf(c.Handler(), patience)
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	go func() { _ = server.Serve(l) }()
	defer server.Close()
	head := "POST /sync/1/create HTTP/1.1\r\nHost: shop.example\r\n"
	for what, sent := range map[string]string{
		"the head":   head + "X-Drip: ",
		"the body":   head + "Content-Length: 1000\r\n\r\n",
		"no chunk":   head + "Transfer-Encoding: chunked\r\n\r\n",
		"a message ": "GET /sync/1/hints HTTP/1.1\r\nHost: shop.example\r\nX-Drip: ",
	} {
		line, err := net.Dial("tcp", l.Addr().String())
		if err != nil {
			t.Fatal(err)
		}
		defer line.Close()
		if _, err := io.WriteString(line, sent); err != nil {
			t.Fatal(err)
		}
		cut := make(chan bool)
		go func() { // until the server hangs up
			_, _ = io.Copy(io.Discard, line)
			close(cut)
		}()
		for open, n := true, 0; open; n++ {
			if n == 2000 {
				t.Fatalf("%s, byte by byte: still listened to", what)
			}
			_, _ = io.WriteString(line, "1") // once it is cut, nobody takes it
			select {
			case <-cut:
				open = false
			case <-time.After(patience / 5):
			}
		}
		if got := get(t, http.DefaultClient, "http://"+l.Addr().String()+"/"); got != "200 the page" {
			t.Errorf("after %s: %s", what, got)
		}
	}
}

func TestListenTakesTheNextFreePort(t *testing.T) {
	first, err := listen("")
	if err != nil {
		t.Fatal(err)
	}
	defer first.Close()
	second, err := listen("")
	if err != nil {
		t.Fatal(err)
	}
	defer second.Close()
	for _, l := range []net.Listener{first, second} {
		if !l.Addr().(*net.TCPAddr).IP.IsLoopback() {
			t.Errorf("%s is not on this machine alone", l.Addr())
		}
	}
	if first.Addr().String() == second.Addr().String() {
		t.Errorf("both listen on %s", first.Addr())
	}
	if _, err := listen(first.Addr().String()); err == nil {
		t.Error("a port that was asked for and is taken must be an error")
	}
}

func TestDispatch(t *testing.T) {
	tests := []struct {
		args      string
		status    int
		out, errs string
	}{
		{"", 2, "", "usage: chalkfold COMMAND"},
		{"help", 0, "serve", ""},
		{"sew", 2, "", `there is no "sew"`},
		{"serve -nonsense", 2, "", "flag provided but not defined"},
		{"serve here", 2, "", "takes no arguments"},
	}
	for _, tt := range tests {
		t.Run(tt.args, func(t *testing.T) {
			var out, errs bytes.Buffer
			if got := dispatch(context.Background(), strings.Fields(tt.args), &out, &errs); got != tt.status {
				t.Errorf("status %d, want %d", got, tt.status)
			}
			if !strings.Contains(out.String(), tt.out) || !strings.Contains(errs.String(), tt.errs) {
				t.Errorf("out %q, errs %q; want %q and %q in them", out.String(), errs.String(), tt.out, tt.errs)
			}
		})
	}
}
