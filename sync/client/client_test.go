package client_test

import (
	"bytes"
	"context"
	"errors"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"strconv"
	"strings"
	"testing"
	"time"

	"chalkfold/sync/client"
	"chalkfold/sync/ledger"
	ledgers "chalkfold/sync/ledger/mem"
	"chalkfold/sync/merge"
	"chalkfold/sync/seal"
	"chalkfold/sync/server"
	"chalkfold/sync/store"
	"chalkfold/sync/store/mem"
)

// shape has records of one field, "text".
type shape struct{ most int }

var errLong = errors.New("too long to be read")

func (s shape) Carries(kind string) bool { return kind == "job" }

func (s shape) Split(_ string, data []byte) (map[string][]byte, error) {
	if s.most > 0 && len(data) > s.most {
		return nil, errLong
	}
	return map[string][]byte{"text": data}, nil
}

func (s shape) Join(d *merge.Doc, _ []byte) ([]byte, error) {
	text, _ := d.Shown("text")
	return text, nil
}

func (s shape) Aside(_ string, data []byte, _ int64) []byte {
	return append([]byte("aside: "), data...)
}

// line is a line to a server in this program.
type line struct {
	handler http.Handler
	cut     func(path string) error // before the server answers; may be nil
	after   func(path string)       // before the answer arrives; may be nil
	sized   func(bytes int) error   // as cut, by the length of the message; may be nil
	sent    map[string]int          // requests, by their path
}

func (l *line) Send(_ context.Context, path, bearer string, message []byte) (int, []byte, error) {
	l.sent[path]++
	if l.cut != nil {
		if err := l.cut(path); err != nil {
			return 0, nil, err
		}
	}
	if l.sized != nil {
		if err := l.sized(len(message)); err != nil {
			return 0, nil, err
		}
	}
	r := httptest.NewRequest(http.MethodPost, server.Path+path, bytes.NewReader(message))
	if bearer != "" {
		r.Header.Set("Authorization", bearer)
	}
	w := httptest.NewRecorder()
	l.handler.ServeHTTP(w, r)
	if l.after != nil {
		l.after(path)
	}
	return w.Code, w.Body.Bytes(), nil
}

const noon = int64(1_936_000_000_000)

func serving(l *ledgers.Ledger) http.Handler {
	return server.New(server.Config{Ledger: l, Boxes: l, Now: func() time.Time { return time.UnixMilli(noon) }})
}

func newLine(l *ledgers.Ledger) *line { return &line{handler: serving(l), sent: map[string]int{}} }

// device is a client with its store and line.
type device struct {
	*client.Client
	t     *testing.T
	store *mem.Store
	line  *line
	draw  seal.Random
}

func random(seed byte) seal.Random {
	r := rand.NewChaCha8([32]byte{seed})
	return func(b []byte) { _, _ = r.Read(b) } // it never fails
}

// opened opens a window of a device.
func opened(t *testing.T, s *mem.Store, l *line, seed byte, h shape) *device {
	t.Helper()
	d := &device{t: t, store: s, line: l, draw: random(seed)}
	c, err := client.Open(t.Context(), client.Config{Store: s, Line: l, Shape: h, Now: func() int64 { return noon }, Random: d.draw})
	if err != nil {
		t.Fatal(err)
	}
	d.Client = c
	return d
}

// begun is a new device of the workshop.
func begun(t *testing.T, l *line, seed byte) *device {
	t.Helper()
	d := opened(t, &mem.Store{}, l, seed, shape{})
	if err := d.Begin(t.Context(), seal.Key{7}); err != nil {
		t.Fatal(err)
	}
	return d
}

func (d *device) put(id, text string) {
	d.t.Helper()
	was, err := d.store.Get(d.t.Context(), "job", id)
	if err != nil && !errors.Is(err, store.ErrNotFound) {
		d.t.Fatal(err)
	}
	if err := d.store.Put(d.t.Context(), store.Record{Kind: "job", ID: id, Rev: was.Rev + 1, Data: []byte(text), Updated: time.UnixMilli(noon)}); err != nil {
		d.t.Fatal(err)
	}
	d.Touch("job", id)
}

func (d *device) pass(want error) {
	d.t.Helper()
	if err := d.Pass(d.t.Context()); !errors.Is(err, want) {
		d.t.Fatalf("pass: %v, want %v", err, want)
	}
}

func (d *device) has(id, want string) {
	d.t.Helper()
	r, err := d.store.Get(d.t.Context(), "job", id)
	if got := string(r.Data); err != nil && want != "" || got != want {
		d.t.Errorf("%s is %.40q, %v; want %.40q", id, got, err, want)
	}
}

func (d *device) account(here, both int) {
	d.t.Helper()
	if a := d.Account(); a.Here != here || a.Both != both {
		d.t.Errorf("here %d, both %d; want %d and %d", a.Here, a.Both, here, both)
	}
}

func TestAccount(t *testing.T) {
	l := newLine(ledgers.New(ledger.Common()))
	a, b := begun(t, l, 1), begun(t, l, 2)
	a.put("one", "1")
	a.put("two", "2")
	a.account(2, 0)
	a.pass(nil)
	a.account(0, 2)
	a.put("two", "22")
	a.account(1, 1)
	b.pass(nil)
	b.account(0, 2)
	b.has("two", "2")
	up := b.Account().Up
	a.pass(nil)
	b.pass(nil)
	b.has("two", "22")
	if now := b.Account(); now.Up <= up || now.Even != noon || now.Down == 0 {
		t.Errorf("the account is %+v", now)
	}
	// Opened anew, it knows the same after its first pass, and has nothing to send.
	c := opened(t, a.store, l, 3, shape{})
	if c.Account().Known {
		t.Error("it knows before it has looked")
	}
	pushes := l.sent["push"]
	c.pass(nil)
	c.account(0, 2)
	if l.sent["push"] != pushes {
		t.Error("something was sent again")
	}
}

// TestCutAnywhere: at whatever request the line is cut, the next pass goes on, and
// nothing is lost or sent more often than it must.
func TestCutAnywhere(t *testing.T) {
	errCut := errors.New("cut")
	for n := 1; ; n++ {
		l := newLine(ledgers.New(ledger.Common()))
		a, b := begun(t, l, 1), begun(t, l, 2)
		for i := range 40 {
			a.put(strings.Repeat("x", i+1), strings.Repeat("text ", 400))
		}
		left := n
		l.cut = func(string) error {
			if left--; left == 0 {
				return errCut
			}
			return nil
		}
		err := a.Pass(t.Context())
		if left > 0 {
			break
		}
		if !errors.Is(err, errCut) {
			t.Fatalf("cut at request %d: %v", n, err)
		}
		a.pass(nil)
		b.pass(nil)
		a.account(0, 40)
		b.account(0, 40)
	}
}

// TestNarrowLine: a line on which messages of more than 48 KiB are cut, as those that take
// too long are, gets everything over, and little of it twice.
func TestNarrowLine(t *testing.T) {
	const narrow, records, size = 48 << 10, 600, 4000
	l := newLine(ledgers.New(ledger.Common()))
	a := begun(t, l, 1)
	for i := range records {
		text := make([]byte, size)
		a.draw(text)
		a.put("r"+strconv.Itoa(i), string(text))
	}
	sent, lost := 0, 0
	a.line.sized = func(n int) error {
		sent += n
		if n <= narrow {
			return nil
		}
		lost += n
		return errors.New("it took too long")
	}
	for tries := 0; a.Pass(t.Context()) != nil; tries++ {
		if tries > 20 {
			t.Fatal("it never gets over")
		}
	}
	if got := a.Account(); got.Both != records || lost > sent/4 {
		t.Errorf("%d of %d records are over; of %d bytes sent %d were lost", got.Both, records, sent, lost)
	}
}

// TestYearAway: a device that was away while others went on, and went on itself, has
// all of both afterwards, and fetches one entry for each record.
func TestYearAway(t *testing.T) {
	l := newLine(ledgers.New(ledger.Common()))
	a, b := begun(t, l, 1), begun(t, l, 2)
	a.put("both", "start")
	a.pass(nil)
	b.pass(nil)
	for i := range 200 {
		a.put("a", strings.Repeat("a", i+1))
		a.pass(nil)
	}
	b.put("b", "of the one that was away")
	b.put("both", "of the one that was away")
	down := b.Account().Down
	b.pass(nil)
	a.pass(nil)
	b.has("a", strings.Repeat("a", 200))
	a.has("b", "of the one that was away")
	a.has("both", "of the one that was away")
	if fetched := b.Account().Down - down; fetched > 10_000 {
		t.Errorf("it fetched %d bytes", fetched)
	}
}

// TestTwoWindows: one finds that what it knew is damaged, and that all is to be
// fetched again, while the other waits for an answer. What that brings is no reason
// not to.
func TestTwoWindows(t *testing.T) {
	ctx := t.Context()
	l := newLine(ledgers.New(ledger.Common()))
	a := begun(t, l, 1)
	a.put("gone", "1")
	a.pass(nil)
	if err := a.store.Delete(ctx, "job", "gone", 1); err != nil {
		t.Fatal(err)
	}
	a.Touch("job", "gone")
	a.pass(nil)
	slow := &line{handler: l.handler, sent: map[string]int{}}
	b := opened(t, a.store, slow, 3, shape{})
	slow.after = func(string) {
		slow.after = nil
		notes, err := a.store.List(ctx, client.KindNote)
		if err != nil || len(notes) != 1 {
			t.Fatalf("%d notes, %v", len(notes), err)
		}
		notes[0].Rev, notes[0].Data = notes[0].Rev+1, []byte("x")
		if err := a.store.Put(ctx, notes[0]); err != nil {
			t.Fatal(err)
		}
		opened(t, a.store, l, 4, shape{})
	}
	b.pass(nil)
	if doc, err := b.Doc(ctx, "job", "gone"); err != nil || doc == nil || !doc.Dead {
		t.Errorf("it is not known any more that it is gone: %+v, %v", doc, err)
	}
}

func TestMove(t *testing.T) {
	l := newLine(ledgers.New(ledger.Common()))
	a, b := begun(t, l, 1), begun(t, l, 2)
	a.put("one", "1")
	a.pass(nil)
	b.pass(nil)
	if err := a.Move(t.Context(), seal.Key{8}); err != nil {
		t.Fatal(err)
	}
	a.account(1, 0)
	if err := a.Move(t.Context(), seal.Key{9}); !errors.Is(err, client.ErrLeaving) {
		t.Errorf("moved twice: %v", err)
	}
	a.pass(nil)
	if a.account(0, 1); a.Account().Leaving {
		t.Error("the old copy is still there")
	}
	b.put("two", "2")
	b.pass(client.ErrMoved)
	b.has("one", "1")
	if err := b.Begin(t.Context(), seal.Key{8}); err != nil {
		t.Fatal(err)
	}
	b.pass(nil)
	a.pass(nil)
	a.has("two", "2")
}
