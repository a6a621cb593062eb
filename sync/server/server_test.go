package server_test

import (
	"bytes"
	"context"
	"errors"
	"net/http"
	"net/http/httptest"
	"testing"
	"time"

	"chalkfold/sync/ledger"
	"chalkfold/sync/ledger/mem"
	"chalkfold/sync/server"
	"chalkfold/sync/server/servertest"
	"chalkfold/sync/wire"
)

func noon() time.Time { return time.Date(2031, 5, 17, 12, 0, 0, 0, time.UTC) }

func TestConformance(t *testing.T) {
	l := mem.New(ledger.Common())
	s := httptest.NewServer(server.New(server.Config{
		Ledger: l, Boxes: l, Now: noon,
		Invite: func(_ context.Context, shown string) bool { return shown == servertest.Invitation },
		Failed: func(r *http.Request, err error) { t.Errorf("%s failed: %v", r.URL.Path, err) },
	}))
	defer s.Close()
	servertest.Run(t, s.URL)
}

// ask sends one message to a handler.
func ask(h http.Handler, path string, message []byte) *httptest.ResponseRecorder {
	r := httptest.NewRequest(http.MethodPost, server.Path+path, bytes.NewReader(message))
	r.Header.Set("Authorization", wire.Bearer(wire.Workshop{1}, wire.Token{2}))
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

func TestInvitation(t *testing.T) {
	l := mem.New(ledger.Common())
	h := server.New(server.Config{Ledger: l, Boxes: l, Now: noon, Invite: func(_ context.Context, shown string) bool { return shown == "open" }})
	for _, tt := range []struct {
		shown string
		want  int
	}{{"", http.StatusForbidden}, {"shut", http.StatusForbidden}, {"open", http.StatusOK}, {"", http.StatusOK}} {
		if got := ask(h, "create", wire.Create{Invite: tt.shown}.Encode()).Code; got != tt.want {
			t.Errorf("with %q: %d, want %d", tt.shown, got, tt.want)
		}
	}
}

// broken fails at everything.
type broken struct{ ledger.Ledger }

var errDisk = errors.New("disk sda1 is on fire")

func (broken) Proof(context.Context, wire.Workshop) (ledger.Proof, error) {
	return ledger.Proof{}, errDisk
}

func (broken) Create(context.Context, wire.Workshop, ledger.Proof) (wire.Position, error) {
	return wire.Position{}, errDisk
}

// TestFailure: what went wrong within is told to the log alone.
func TestFailure(t *testing.T) {
	var heard []error
	h := server.New(server.Config{Ledger: broken{}, Now: noon, Failed: func(_ *http.Request, err error) { heard = append(heard, err) }})
	for _, path := range []string{"create", "pull"} {
		got := ask(h, path, wire.Create{}.Encode())
		if got.Code != http.StatusServiceUnavailable || bytes.Contains(got.Body.Bytes(), []byte("fire")) {
			t.Errorf("%s: %d, %q", path, got.Code, got.Body)
		}
	}
	if len(heard) != 2 || !errors.Is(heard[0], errDisk) {
		t.Errorf("heard %v", heard)
	}
}

func TestMoved(t *testing.T) {
	l := mem.New(ledger.Common())
	var heads []wire.Position
	h := server.New(server.Config{Ledger: l, Boxes: l, Now: noon, Moved: func(_ wire.Workshop, head wire.Position) { heads = append(heads, head) }})
	ask(h, "create", wire.Create{}.Encode())
	push := wire.Push{Entries: []wire.Entry{{ID: wire.Name{7}, Slot: wire.Name{1}, Blob: []byte("x")}}}
	ask(h, "push", push.Encode())
	push.Entries[0].ID = wire.Name{8}
	ask(h, "push", push.Encode()) // behind
	if len(heads) != 1 || heads[0].ID != (wire.Name{7}) {
		t.Errorf("heard of %v", heads)
	}
}

func TestBoxTime(t *testing.T) {
	l := mem.New(ledger.Common())
	now := noon()
	h := server.New(server.Config{Ledger: l, Boxes: l, Now: func() time.Time { return now }})
	ask(h, "create", wire.Create{}.Encode())
	p := wire.Parcel{Name: wire.Name{1}, Blob: []byte("x")}
	if got := ask(h, "box/put", p.Encode()); got.Code != http.StatusOK {
		t.Fatal(got.Code)
	}
	now = now.Add(ledger.BoxTime)
	if got := ask(h, "box/take", wire.EncodeNames([]wire.Name{p.Name})); got.Code != http.StatusNotFound {
		t.Errorf("after ten minutes: %d", got.Code)
	}
}
