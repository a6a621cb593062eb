//go:build !js

package hints_test

import (
	"context"
	"crypto/sha256"
	"net/http"
	"net/http/httptest"
	"testing"
	"time"

	"github.com/coder/websocket"

	"chalkfold/sync/ledger"
	"chalkfold/sync/ledger/mem"
	"chalkfold/sync/server/hints"
	"chalkfold/sync/wire"
)

// serve serves a hub of two workshops; bearer has the credentials of the first.
func serve(t *testing.T, limits hints.Limits) (hub *hints.Hub, url, bearer string) {
	t.Helper()
	l := mem.New(ledger.Common())
	for i := range byte(2) {
		token := wire.Token{i}
		if _, err := l.Create(t.Context(), wire.Workshop{i}, sha256.Sum256(token[:])); err != nil {
			t.Fatal(err)
		}
	}
	hub = hints.New(l, limits)
	s := httptest.NewServer(hub)
	t.Cleanup(func() { hub.Close(); s.Close() })
	return hub, s.URL, wire.Bearer(wire.Workshop{0}, wire.Token{0})
}

// listen opens a socket and sends what is given for the credentials.
func listen(t *testing.T, url, bearer string) *websocket.Conn {
	t.Helper()
	c, _, err := websocket.Dial(t.Context(), url, nil)
	if err == nil {
		err = c.Write(t.Context(), websocket.MessageText, []byte(bearer))
	}
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = c.CloseNow() })
	return c
}

// heard tells of heads until one is heard: nobody says when a listener has joined.
func heard(t *testing.T, hub *hints.Hub, c *websocket.Conn) wire.Position {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	go func() {
		for seq := uint64(1); ctx.Err() == nil; seq++ {
			hub.Moved(wire.Workshop{1}, wire.Position{Seq: 1 << 40})
			hub.Moved(wire.Workshop{0}, wire.Position{Seq: seq, ID: wire.Name{7}})
			time.Sleep(time.Millisecond)
		}
	}()
	kind, message, err := c.Read(ctx)
	if err != nil || kind != websocket.MessageBinary {
		t.Fatalf("%v, %v", kind, err)
	}
	p, err := wire.DecodePosition(message)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestHint(t *testing.T) {
	hub, url, bearer := serve(t, hints.Common())
	c := listen(t, url, bearer)
	first := heard(t, hub, c)
	if first.ID != (wire.Name{7}) || first.Seq >= 1<<40 {
		t.Errorf("heard of %+v", first)
	}
	hub.Moved(wire.Workshop{0}, wire.Position{Seq: 1 << 50})
	for {
		_, message, err := c.Read(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		if p, err := wire.DecodePosition(message); err != nil || p.Seq == 1<<50 {
			break
		}
	}
}

// TestRefused: whoever is not of the workshop, says too much, says nothing or comes
// from another page hears nothing.
func TestRefused(t *testing.T) {
	limits := hints.Common()
	limits.Patience = 50 * time.Millisecond
	_, url, bearer := serve(t, limits)
	long := make([]byte, 1000)
	for what, credentials := range map[string]string{"wrong": bearer[:len(bearer)-1] + "1", "another's": wire.Bearer(wire.Workshop{1}, wire.Token{0}), "long": string(long), "empty": ""} {
		c := listen(t, url, credentials)
		if _, message, err := c.Read(t.Context()); err == nil {
			t.Errorf("%s: heard %x", what, message)
		}
	}
	silent, _, err := websocket.Dial(t.Context(), url, nil)
	if err != nil {
		t.Fatal(err)
	}
	if _, message, err := silent.Read(t.Context()); err == nil {
		t.Errorf("who said nothing heard %x", message)
	}
	_, answer, err := websocket.Dial(t.Context(), url, &websocket.DialOptions{HTTPHeader: http.Header{"Origin": {"https://elsewhere.example"}}})
	if err == nil || answer == nil || answer.StatusCode != http.StatusForbidden {
		t.Errorf("a page from elsewhere: %v, %v", answer, err)
	}
}

func TestManyListeners(t *testing.T) {
	limits := hints.Common()
	limits.All, limits.Workshop = 3, 2
	hub, url, bearer := serve(t, limits)
	members := []*websocket.Conn{listen(t, url, bearer), listen(t, url, bearer)}
	for _, c := range members {
		heard(t, hub, c)
	}
	third := listen(t, url, bearer)
	if _, _, err := third.Read(t.Context()); websocket.CloseStatus(err) != websocket.StatusTryAgainLater {
		t.Errorf("a third device of a workshop that may have two: %v", err)
	}
	for hub.Listeners() > 2 {
		time.Sleep(time.Millisecond)
	}
	other := listen(t, url, wire.Bearer(wire.Workshop{1}, wire.Token{1}))
	for hub.Listeners() < 3 {
		time.Sleep(time.Millisecond)
	}
	_, answer, err := websocket.Dial(t.Context(), url, nil)
	if err == nil || answer == nil || answer.StatusCode != http.StatusServiceUnavailable || answer.Header.Get("Retry-After") == "" {
		t.Errorf("a fourth where three may listen: %v, %v", answer, err)
	}
	for _, c := range members {
		_ = c.CloseNow() // it would not answer that the server goes
	}
	hub.Close()
	if _, _, err := other.Read(t.Context()); websocket.CloseStatus(err) != websocket.StatusGoingAway {
		t.Errorf("when the hub is closed: %v", err)
	}
	for hub.Listeners() > 0 {
		time.Sleep(time.Millisecond)
	}
}

// TestGone: a device that vanished without a word is noticed.
func TestGone(t *testing.T) {
	limits := hints.Common()
	limits.Quiet, limits.Patience = 5*time.Millisecond, 20*time.Millisecond
	hub, url, bearer := serve(t, limits)
	c := listen(t, url, bearer)
	heard(t, hub, c)
	// It does not read any more, so that it answers no ping.
	for hub.Listeners() > 0 {
		time.Sleep(time.Millisecond)
	}
}
