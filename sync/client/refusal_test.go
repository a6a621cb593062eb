package client_test

import (
	"net/http"
	"strings"
	"testing"

	"chalkfold/sync/client"
	"chalkfold/sync/ledger"
	ledgers "chalkfold/sync/ledger/mem"
	"chalkfold/sync/seal"
	"chalkfold/sync/store/mem"
	"chalkfold/sync/wire"
)

func TestRefusals(t *testing.T) {
	for status, want := range map[int]error{
		403: client.ErrInvite, 404: client.ErrNoCopies, 405: client.ErrNoCopies, 410: client.ErrMoved, 507: client.ErrFull,
		429: client.ErrBusy, 500: client.ErrBusy, 503: client.ErrBusy, 400: client.ErrRefused, 413: client.ErrRefused, 401: client.ErrRefused,
	} {
		l := newLine(ledgers.New(ledger.Common()))
		l.handler = http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(status) })
		a := begun(t, l, 1)
		a.put("one", "1")
		a.pass(want)
		a.account(1, 0)
	}
	// A server that leads nowhere is given up.
	l := newLine(ledgers.New(ledger.Common()))
	a := begun(t, l, 1)
	a.put("one", "1")
	a.pass(nil)
	l.handler = http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(http.StatusPreconditionFailed) })
	a.pass(client.ErrBusy)
}

// TestTooLarge, and what this version cannot read: it stays here, and the rest goes.
func TestTooLarge(t *testing.T) {
	l := newLine(ledgers.New(ledger.Common()))
	a := begun(t, l, 1)
	a.put("large", strings.Repeat("x", seal.MostText+1))
	a.put("small", "1")
	a.pass(nil)
	a.account(1, 1)
	if got := a.Account().TooLarge; got != 1 {
		t.Errorf("%d are too large", got)
	}
	a.put("large", "smaller")
	a.pass(nil)
	a.account(0, 2)
	b := opened(t, &mem.Store{}, l, 2, shape{most: 5})
	if err := b.Begin(t.Context(), seal.Key{7}); err != nil {
		t.Fatal(err)
	}
	b.put("large", "cannot be read")
	b.pass(nil)
	b.has("large", "cannot be read")
	b.has("small", "1")
	if got := b.Account(); got.Unread != 1 || got.Later != 1 {
		t.Errorf("the account is %+v", got)
	}
	again := opened(t, b.store, l, 3, shape{}) // a newer version
	again.pass(nil)
	a.pass(nil)
	if got := again.Account(); got.Unread != 0 || got.Later != 0 {
		t.Errorf("the account is %+v", got)
	}
	doc, err := a.Doc(t.Context(), "job", "large")
	if err != nil || len(doc.Fields["text"]) != 2 {
		t.Errorf("both sides are not there: %+v, %v", doc, err)
	}
	if ids := a.Conflicts("job"); len(ids) != 1 || ids[0] != "large" {
		t.Errorf("in conflict are %q", ids)
	}
	if err := a.Choose(t.Context(), "job", "large", map[string][]byte{"text": []byte("smaller")}); err != nil {
		t.Fatal(err)
	}
	a.pass(nil)
	again.pass(nil)
	again.has("large", "smaller")
}

// TestNewerSeal: what a newer version has sealed is kept until it can be read, and
// not written over.
func TestNewerSeal(t *testing.T) {
	ctx := t.Context()
	ledgerOf := ledgers.New(ledger.Common())
	l := newLine(ledgerOf)
	a := begun(t, l, 1)
	a.put("one", "1")
	a.pass(nil)
	keys := seal.KeysOf(seal.Key{7})
	page, err := ledgerOf.Pull(ctx, keys.Workshop, wire.Position{}, 1000)
	if err != nil {
		t.Fatal(err)
	}
	newer := wire.Entry{ID: wire.Name{9}, Slot: keys.Slot("job", "one"), Blob: []byte{2, 2, 2}}
	if _, err := ledgerOf.Append(ctx, keys.Workshop, page.To, []wire.Entry{newer}); err != nil {
		t.Fatal(err)
	}
	a.pass(nil)
	a.put("one", "2")
	a.pass(nil)
	if got := a.Account(); got.Later != 1 || got.Here != 1 {
		t.Errorf("the account is %+v", got)
	}
	page, err = ledgerOf.Pull(ctx, keys.Workshop, wire.Position{}, 1000)
	if err != nil || len(page.Entries) != 1 || page.Entries[0].ID != newer.ID {
		t.Errorf("it was written over: %+v, %v", page, err)
	}
}

// TestStrange: an entry that does not open is counted, and hides nothing.
func TestStrange(t *testing.T) {
	ctx := t.Context()
	ledgerOf := ledgers.New(ledger.Common())
	l := newLine(ledgerOf)
	a, b := begun(t, l, 1), begun(t, l, 2)
	a.put("one", "1")
	a.pass(nil)
	keys := seal.KeysOf(seal.Key{7})
	page, err := ledgerOf.Pull(ctx, keys.Workshop, wire.Position{}, 1000)
	if err != nil {
		t.Fatal(err)
	}
	bad := page.Entries[0]
	bad.ID, bad.Blob[30] = wire.Name{9}, bad.Blob[30]^1
	if _, err := ledgerOf.Append(ctx, keys.Workshop, page.To, []wire.Entry{bad}); err != nil {
		t.Fatal(err)
	}
	b.put("two", "2")
	b.pass(nil)
	b.has("two", "2")
	if got := b.Account(); got.Strange != 1 || got.Both != 1 {
		t.Errorf("the account is %+v", got)
	}
}
