//go:build js && wasm

package idb_test

import (
	"context"
	"errors"
	"strings"
	"testing"
	"time"

	"chalkfold/sync/store"
	"chalkfold/sync/store/idb"
)

// openRaw opens a database as another window would, and holds it.
const openRaw = `(name, version, done) => {
	const open = indexedDB.open(name, Number(version));
	open.onupgradeneeded = () => {
		if (!open.result.objectStoreNames.contains("records")) open.result.createObjectStore("records");
	};
	open.onsuccess = () => { (globalThis.held ??= {})[name] = open.result; done(""); };
	open.onerror = () => done(String(open.error));
}`

const letGo = `(name, done) => { held[name].close(); done(""); }`

// TestBlocked: an older window that does not let go is told of, and waited for.
func TestBlocked(t *testing.T) {
	if fault := ask(openRaw, t.Name(), "1"); fault != "" {
		t.Fatal(fault)
	}
	told, opened := make(chan error, 9), make(chan error, 1)
	go func() {
		s, err := idb.Open(context.Background(), t.Name(), func(why error) { told <- why })
		if err == nil {
			err = errors.Join(s.Put(context.Background(), store.Record{Kind: "job", ID: "a", Rev: 1}), s.Close())
		}
		opened <- err
	}()
	if why := <-told; !errors.Is(why, store.ErrBusy) {
		t.Errorf("told %v, want ErrBusy", why)
	}
	select {
	case err := <-opened:
		t.Fatalf("opened while the other window held on: %v", err)
	case <-time.After(100 * time.Millisecond):
	}
	ask(letGo, t.Name())
	if err := <-opened; err != nil {
		t.Error(err)
	}
}

// TestGivesWay: a newer window gets the database, and this one says why it
// keeps nothing any more.
func TestGivesWay(t *testing.T) {
	for _, tt := range []struct {
		name, do string
		want     error
	}{
		{"newer", openRaw, store.ErrClosed},
		{"cleared", `(name, _, done) => {
			const gone = indexedDB.deleteDatabase(name);
			gone.onsuccess = () => done("");
			gone.onerror = gone.onblocked = () => done("not deleted");
		}`, store.ErrCleared},
	} {
		ctx, name := context.Background(), t.Name()+tt.name
		told := make(chan error, 9)
		s, err := idb.Open(ctx, name, func(why error) { told <- why })
		if err != nil {
			t.Fatal(err)
		}
		if err := s.Put(ctx, store.Record{Kind: "job", ID: "a", Rev: 1}); err != nil {
			t.Fatal(err)
		}
		if fault := ask(tt.do, name, "99"); fault != "" {
			t.Fatalf("%s: %s", tt.name, fault)
		}
		if why := <-told; !errors.Is(why, tt.want) {
			t.Errorf("%s: told %v, want %v", tt.name, why, tt.want)
		}
		if err := s.Put(ctx, store.Record{Kind: "job", ID: "a", Rev: 2}); !errors.Is(err, tt.want) {
			t.Errorf("%s: put: %v, want %v", tt.name, err, tt.want)
		}
		if _, err := s.List(ctx, "job"); !errors.Is(err, tt.want) {
			t.Errorf("%s: list: %v, want %v", tt.name, err, tt.want)
		}
		if tt.name == "newer" {
			if _, err := idb.Open(ctx, name, quiet); !errors.Is(err, store.ErrClosed) {
				t.Errorf("opened again: %v, want ErrClosed", err)
			}
		}
	}
}

// TestForeign: what is no database of ours is refused, and left as it is.
func TestForeign(t *testing.T) {
	for name, layout := range map[string]string{
		"no records":  `db.createObjectStore("patterns")`,
		"keys within": `(db.createObjectStore("blobs"), db.createObjectStore("records", { keyPath: "id" }))`,
		"older":       `db.createObjectStore("patterns")`,
	} {
		version := "3"
		if name == "older" {
			version = "1"
		}
		name = t.Name() + name
		if fault := ask(`(name, version, done) => {
			const open = indexedDB.open(name, Number(version));
			open.onupgradeneeded = () => { const db = open.result; `+layout+`.put({ id: 7 }, ...(db.objectStoreNames.contains("records") ? [] : [1])); };
			open.onsuccess = () => { open.result.close(); done(""); };
			open.onerror = () => done(String(open.error));
		}`, name, version); fault != "" {
			t.Fatal(fault)
		}
		if _, err := idb.Open(context.Background(), name, quiet); !errors.Is(err, store.ErrDamaged) {
			t.Errorf("%s: %v, want ErrDamaged", name, err)
		}
		if left := ask(`(name, done) => {
			const open = indexedDB.open(name);
			open.onsuccess = () => {
				const store = [...open.result.objectStoreNames].at(-1);
				open.result.transaction(store).objectStore(store).getAll().onsuccess = (e) => done(JSON.stringify(e.target.result));
			};
		}`, name); left != `[{"id":7}]` {
			t.Errorf("%s: left is %s", name, left)
		}
	}
}

// putRaw puts any value under a key, both as JavaScript.
const putRaw = `(name, key, value, done) => {
	const open = indexedDB.open(name);
	open.onsuccess = () => {
		const db = open.result;
		const tx = db.transaction("records", "readwrite");
		tx.objectStore("records").put(eval("(" + value + ")"), eval("(" + key + ")"));
		tx.oncomplete = () => { db.close(); done(""); };
		tx.onabort = () => { db.close(); done(String(tx.error)); };
	};
}`

// TestDamagedRecords: garbage among the records hides none of the others, is
// told of, and gives way to a whole record of a higher revision alone.
func TestDamagedRecords(t *testing.T) {
	ctx := context.Background()
	s := open(t, "garbage")
	name := t.Name() + " garbage"
	for _, id := range []string{"a", "z"} {
		if err := s.Put(ctx, store.Record{Kind: "job", ID: id, Rev: 1, Data: []byte("whole")}); err != nil {
			t.Fatal(err)
		}
	}
	tests := []struct {
		id, value string
		rev       uint32
		data      string
	}{
		{"text", `"chalk"`, 1, `"chalk"`},
		{"nought", `0`, 1, `0`},
		{"null", `null`, 1, `null`},
		{"nothing of it", `({})`, 1, `{}`},
		{"rev as text", `({ kind: "job", id: "x", rev: "7", updated: 1, data: new Uint8Array([104, 105]) })`, 1, "hi"},
		{"rev of half", `({ kind: "job", id: "x", rev: -1, updated: 1, data: new Uint8Array([104, 105]) })`, 1, "hi"},
		{"no time", `({ kind: "job", id: "x", rev: 7, data: new Uint8Array([104, 105]) })`, 7, "hi"},
		{"no such time", `({ kind: "job", id: "x", rev: 7, updated: NaN, data: new Uint8Array([104, 105]) })`, 7, "hi"},
		{"data as text", `({ kind: "job", id: "x", rev: 7, updated: 1, data: "hi" })`, 7, `{"kind":"job","id":"x","rev":7,"updated":1,"data":"hi"}`},
		{"deleted, perhaps", `({ rev: 7, deleted: "yes" })`, 7, `{"rev":7,"deleted":"yes"}`},
		{"deleted without a rev", `({ deleted: true })`, 1, `{"deleted":true}`},
		{"in a ring", `(() => { const r = {}; r.r = r; return r })()`, 1, ""},
		{"too great", `10n`, 1, ""},
		{"too great a rev", `({ rev: 10n, deleted: 3n, updated: 1, data: new Uint8Array([104, 105]) })`, 1, "hi"},
		{"bytes of another kind", `({ rev: 7, updated: 1, data: new Uint16Array([104]) })`, 7, `{"rev":7,"updated":1,"data":{"0":104}}`},
	}
	for _, tt := range tests {
		if fault := ask(putRaw, name, `["job", "`+tt.id+`"]`, tt.value); fault != "" {
			t.Fatal(fault)
		}
	}
	for _, key := range []string{`["job", 7]`, `["job", "a", "b"]`, `"job"`, `7`} { // keys of nobody's
		if fault := ask(putRaw, name, key, "1"); fault != "" {
			t.Fatal(fault)
		}
	}
	list, err := s.List(ctx, "job")
	if err != nil || len(list) != len(tests)+2 {
		t.Fatalf("%d records, %v; want %d", len(list), err, len(tests)+2)
	}
	if all, err := s.All(ctx); err != nil || len(all) != len(list) {
		t.Errorf("all are %d, %v; want %d", len(all), err, len(list))
	}
	for _, tt := range tests {
		got, err := s.Get(ctx, "job", tt.id)
		if err != nil || !got.Damaged || got.Rev != tt.rev || string(got.Data) != tt.data {
			t.Errorf("%s: rev %d, damaged %v, %q, %v; want rev %d, %q", tt.id, got.Rev, got.Damaged, got.Data, err, tt.rev, tt.data)
		}
		if err := s.Put(ctx, store.Record{Kind: "job", ID: tt.id, Rev: tt.rev}); !errors.Is(err, store.ErrStale) {
			t.Errorf("%s: put at its own rev: %v, want ErrStale", tt.id, err)
		}
		if err := s.Put(ctx, store.Record{Kind: "job", ID: tt.id, Rev: tt.rev + 1, Data: []byte("whole")}); err != nil {
			t.Errorf("%s: put over it: %v", tt.id, err)
		}
	}
	list, err = s.List(ctx, "job")
	for _, r := range list {
		if r.Damaged || string(r.Data) != "whole" {
			t.Errorf("%s is still damaged: %q", r.ID, r.Data)
		}
	}
	if err != nil || !strings.HasPrefix(list[0].ID, "a") {
		t.Errorf("%v, %v", list, err)
	}
}
