//go:build js && wasm

package idb_test

import (
	"context"
	"embed"
	"encoding/json"
	"errors"
	"fmt"
	"syscall/js"
	"testing"
	"time"

	"chalkfold/sync/store"
	"chalkfold/sync/store/idb"
	"chalkfold/sync/store/storetest"
)

func quiet(error) {}

// open opens a database of this test's own; each run has a new browser profile.
func open(t *testing.T, name string) store.Store {
	t.Helper()
	s, err := idb.Open(context.Background(), t.Name()+" "+name, quiet)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	return s
}

func TestStore(t *testing.T) {
	storetest.Run(t, open)
	storetest.RunBlobs(t, open)
}

func TestSurvivesClosing(t *testing.T) {
	ctx := context.Background()
	first, err := idb.Open(ctx, "survives", quiet)
	if err != nil {
		t.Fatal(err)
	}
	if err := first.Put(ctx, store.Record{Kind: "job", ID: "Alto 3", Rev: 1, Data: []byte("kept")}); err != nil {
		t.Fatal(err)
	}
	if err := first.Close(); err != nil {
		t.Fatal(err)
	}
	again, err := idb.Open(ctx, "survives", quiet)
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
	if err := s.Delete(ctx, "job", "a", 1); err != nil {
		t.Fatal(err)
	}
	if err := s.(store.Blobs).PutBlob(ctx, "a", []byte("bytes")); err != nil {
		t.Fatal(err)
	}
	if err := s.(store.Blobs).DropBlobs(ctx, "a"); err != nil {
		t.Fatal(err)
	}
	if len(asked) != 4 {
		t.Fatalf("%d transactions, want 4: %q", len(asked), asked)
	}
	for _, got := range asked {
		if got != "readwrite strict" {
			t.Errorf("asked for a %q transaction, want readwrite strict", got)
		}
	}
}

// layouts are the kept databases of every version of the layout, as they were
// written: never change one.
//
//go:embed testdata/layout*.json
var layouts embed.FS

// makeLayout makes a database of a layout without the package that is tested.
const makeLayout = `(name, layout, done) => {
	const fixture = JSON.parse(layout);
	const open = indexedDB.open(name, fixture.version);
	open.onupgradeneeded = () => {
		const objects = open.result.createObjectStore("records");
		for (const r of fixture.records) {
			const { text, ...value } = r;
			if (text !== undefined) value.data = new TextEncoder().encode(text);
			objects.put(value, [r.kind, r.id]);
		}
		if (fixture.blobs) {
			const blobs = open.result.createObjectStore("blobs");
			for (const [name, text] of Object.entries(fixture.blobs)) blobs.put(new TextEncoder().encode(text), name);
		}
	};
	open.onsuccess = () => { open.result.close(); done(""); };
	open.onerror = () => done(String(open.error));
}`

// ask calls a function of JavaScript with some texts and a place for its answer.
func ask(function string, texts ...any) string {
	answer := make(chan string, 1)
	done := js.FuncOf(func(_ js.Value, args []js.Value) any {
		answer <- args[0].String()
		return nil
	})
	defer done.Release()
	js.Global().Call("eval", function).Invoke(append(texts, done)...)
	return <-answer
}

// TestEarlierLayouts opens what every earlier version has left.
func TestEarlierLayouts(t *testing.T) {
	ctx := context.Background()
	for version := 1; version <= 3; version++ {
		t.Run(fmt.Sprint("layout ", version), func(t *testing.T) {
			text, err := layouts.ReadFile(fmt.Sprintf("testdata/layout%d.json", version))
			if err != nil {
				t.Fatal(err)
			}
			var fixture struct {
				Version int
				Records []struct {
					Kind, ID, Text string
					Rev            uint32
					Updated        int64
					Deleted        bool
				}
				Blobs map[string]string
			}
			if err := json.Unmarshal(text, &fixture); err != nil || fixture.Version != version || len(fixture.Records) < 3 {
				t.Fatalf("the fixture: version %d, %d records, %v", fixture.Version, len(fixture.Records), err)
			}
			name := t.Name()
			if fault := ask(makeLayout, name, string(text)); fault != "" {
				t.Fatal(fault)
			}
			s, err := idb.Open(ctx, name, quiet)
			if err != nil {
				t.Fatal(err)
			}
			defer s.Close()
			live := 0
			for _, want := range fixture.Records {
				got, err := s.Get(ctx, want.Kind, want.ID)
				if want.Deleted {
					if !errors.Is(err, store.ErrNotFound) || got.Rev != want.Rev {
						t.Errorf("%s %q: rev %d, %v; want its tombstone of rev %d", want.Kind, want.ID, got.Rev, err, want.Rev)
					}
					continue
				}
				if err != nil || got.Rev != want.Rev || string(got.Data) != want.Text || !got.Updated.Equal(time.UnixMilli(want.Updated)) {
					t.Errorf("%s %q: %+v, %v", want.Kind, want.ID, got, err)
				}
				if want.Kind == "job" {
					live++
				}
			}
			if all, err := s.List(ctx, "job"); err != nil || len(all) != live {
				t.Errorf("%d jobs listed, %v; want %d", len(all), err, live)
			}
			for name, text := range fixture.Blobs {
				if got, err := s.Blob(ctx, name); err != nil || string(got) != text {
					t.Errorf("blob %q: %q, %v", name, got, err)
				}
			}
			if err := s.PutBlob(ctx, "new", []byte("bytes"), store.Record{Kind: "photo", ID: "new", Rev: 1}); err != nil {
				t.Errorf("a blob beside what was there: %v", err)
			}
			if err := s.Delete(ctx, "job", "Alto 3", 7); err != nil {
				t.Fatal(err)
			}
			if err := s.Put(ctx, store.Record{Kind: "job", ID: "Alto 3", Rev: 8}); !errors.Is(err, store.ErrStale) {
				t.Errorf("put after the delete: %v, want ErrStale", err)
			}
		})
	}
}
