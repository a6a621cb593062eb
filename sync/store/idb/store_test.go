//go:build js && wasm

package idb_test

import (
	"context"
	"syscall/js"
	"testing"

	"chalkfold/sync/store"
	"chalkfold/sync/store/idb"
	"chalkfold/sync/store/storetest"
)

// open opens a database of this test's own; each run has a new browser profile.
func open(t *testing.T, name string) store.Store {
	t.Helper()
	s, err := idb.Open(context.Background(), t.Name()+" "+name)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	return s
}

func TestStore(t *testing.T) { storetest.Run(t, open) }

func TestSurvivesClosing(t *testing.T) {
	ctx := context.Background()
	first, err := idb.Open(ctx, "survives")
	if err != nil {
		t.Fatal(err)
	}
	if err := first.Put(ctx, store.Record{Kind: "job", ID: "Alto 3", Rev: 1, Data: []byte("kept")}); err != nil {
		t.Fatal(err)
	}
	if err := first.Close(); err != nil {
		t.Fatal(err)
	}
	again, err := idb.Open(ctx, "survives")
	if err != nil {
		t.Fatal(err)
	}
	defer again.Close()
	r, err := again.Get(ctx, "job", "Alto 3")
	if err != nil || string(r.Data) != "kept" {
		t.Errorf("got %q, %v; want what was put before closing", r.Data, err)
	}
}

// TestStrict watches what the browser is asked for: a change that is not
// strict may be lost after Put has returned.
func TestStrict(t *testing.T) {
	s := open(t, "strict")
	proto := js.Global().Get("IDBDatabase").Get("prototype")
	original := proto.Get("transaction")
	var asked []string
	watch := js.FuncOf(func(this js.Value, args []js.Value) any {
		mode, durability := args[1].String(), "not said"
		if len(args) > 2 && args[2].Get("durability").Truthy() {
			durability = args[2].Get("durability").String()
		}
		asked = append(asked, mode+" "+durability)
		rest := make([]any, len(args))
		for i, a := range args {
			rest[i] = a
		}
		return original.Call("apply", this, rest)
	})
	defer watch.Release()
	proto.Set("transaction", watch)
	defer proto.Set("transaction", original)

	ctx := context.Background()
	if err := s.Put(ctx, store.Record{Kind: "job", ID: "a", Rev: 1}); err != nil {
		t.Fatal(err)
	}
	if err := s.Delete(ctx, "job", "a"); err != nil {
		t.Fatal(err)
	}
	if len(asked) != 2 {
		t.Fatalf("%d transactions, want 2: %q", len(asked), asked)
	}
	for _, got := range asked {
		if got != "readwrite strict" {
			t.Errorf("asked for a %q transaction, want readwrite strict", got)
		}
	}
}
