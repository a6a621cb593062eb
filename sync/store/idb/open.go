//go:build js && wasm

package idb

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"syscall/js"
	"time"

	"github.com/hack-pad/go-indexeddb/idb"

	"chalkfold/sync/store"
)

const (
	// version is that of the layout.
	//
	//	1  an object store of records, keys [kind, id]: see encode
	//	2  and tombstones: {kind, id, rev, deleted: true}, which a program that
	//	   knows 1 alone would take for damaged records
	//	3  and an object store of blobs, bytes by their names; and an index of
	//	   records by kind and time
	version   = 3
	storeName = "records"
	blobsName = "blobs"
	indexName = "updated"
	// openPatience is how long an opening may take before it is told of as one
	// that waits for another window. Not every browser tells of that itself.
	openPatience = 10 * time.Second
)

// Open opens the database of that name, and makes it if there is none. Where
// another window holds an older layout, told hears store.ErrBusy, and Open goes
// on as soon as that window lets go.
//
// Later, told hears why the database was closed: store.ErrClosed if a newer
// version of the program has asked for it, store.ErrCleared if the browser or
// its user has cleared it. The Store is of no use from then on. told may be
// called on any goroutine, and must not wait for anything.
//
// The error is store.ErrClosed for a newer layout, and store.ErrDamaged for
// what is no database of ours or cannot be opened at all: it is left as it is.
func Open(ctx context.Context, name string, told func(error)) (*Store, error) {
	req, err := request(name)
	if err != nil {
		return nil, err
	}
	s := &Store{}
	watch(req, func(why error) {
		if !errors.Is(why, store.ErrBusy) {
			s.lost = why
		}
		told(why)
	})
	late := time.AfterFunc(openPatience, func() { told(store.ErrBusy) })
	defer late.Stop()
	s.db, err = lay(ctx, req, name)
	switch {
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case errors.Is(err, store.ErrFull), errors.Is(err, store.ErrClosed):
		return nil, err
	case err != nil:
		return nil, fmt.Errorf("%w (%w)", store.ErrDamaged, err)
	}
	s.raw = req.Get("result")
	if err := s.ours(); err != nil {
		_ = s.Close() // it is of no use in any case
		return nil, fmt.Errorf("%w (%w)", store.ErrDamaged, err)
	}
	return s, nil
}

// request asks the browser for the database.
func request(name string) (req js.Value, err error) {
	databases := js.Global().Get("indexedDB")
	if !databases.Truthy() {
		return req, errors.New("this browser keeps no records (no IndexedDB): use another one, or leave private browsing")
	}
	defer func() {
		if refused, ok := recover().(js.Error); ok {
			err = fmt.Errorf("this browser keeps no records: use another one, or leave private browsing (%w)", refused)
		}
	}()
	return databases.Call("open", name, version), nil
}

// watch has told hear what the library does not tell.
func watch(req js.Value, told func(error)) {
	hear := func(on js.Value, event string, do func(event js.Value)) {
		// Never released: a database is opened once and watched while the page
		// is open.
		on.Call("addEventListener", event, js.FuncOf(func(_ js.Value, args []js.Value) any {
			do(args[0])
			return nil
		}))
	}
	hear(req, "blocked", func(js.Value) { told(store.ErrBusy) })
	hear(req, "success", func(js.Value) {
		db := req.Get("result")
		hear(db, "versionchange", func(event js.Value) { // the library closes it
			if event.Get("newVersion").IsNull() {
				told(store.ErrCleared)
				return
			}
			told(store.ErrClosed)
		})
		hear(db, "close", func(js.Value) { told(store.ErrCleared) })
	})
}

// lay waits for the database, and makes its layout where there is none.
func lay(ctx context.Context, req js.Value, name string) (*idb.Database, error) {
	// The library makes its own request of what it takes for the browser's
	// databases; it is given the one that is watched.
	given := js.FuncOf(func(js.Value, []js.Value) any { return req })
	defer given.Release()
	factory, err := idb.WrapFactory(js.ValueOf(map[string]any{"open": given}))
	if err != nil {
		return nil, err
	}
	var layoutErr error
	// The upgrader's context must outlast this call: see Request.Listen. An
	// error returned from the upgrader would end the program, so it is noted.
	opening, err := factory.Open(context.WithoutCancel(ctx), name, version, func(db *idb.Database, was, _ uint) error {
		if layoutErr = layOut(db, was); layoutErr == nil {
			index(req)
		}
		return nil
	})
	if err != nil {
		return nil, explain(err)
	}
	db, err := opening.Await(ctx)
	if layoutErr != nil {
		return nil, explain(layoutErr)
	}
	return db, explain(err)
}

// layOut makes what a database of an earlier layout lacks, nought for a new one.
// Records of 1 are records of 2. One without records is none of ours, and is left as
// it is.
func layOut(db *idb.Database, was uint) error {
	if was == 0 {
		if _, err := db.CreateObjectStore(storeName, idb.ObjectStoreOptions{}); err != nil {
			return err
		}
	}
	names, err := db.ObjectStoreNames()
	if err != nil || !slices.Contains(names, storeName) || slices.Contains(names, blobsName) {
		return err
	}
	_, err = db.CreateObjectStore(blobsName, idb.ObjectStoreOptions{})
	return err
}

// index makes the index of records, which the library lets nobody make of an object store
// that was there before.
func index(req js.Value) {
	if !req.Get("result").Get("objectStoreNames").Call("contains", storeName).Bool() {
		return // none of ours
	}
	objects := req.Get("transaction").Call("objectStore", storeName)
	if !objects.Get("indexNames").Call("contains", indexName).Bool() {
		objects.Call("createIndex", indexName, []any{"kind", "updated"})
	}
}

// ours says in what the database is not laid out as ours is.
func (s *Store) ours() error {
	tx, err := s.db.Transaction(idb.TransactionReadOnly, storeName, blobsName)
	if err != nil {
		return err
	}
	objects, err := tx.ObjectStore(storeName)
	if err != nil {
		return err
	}
	path, err := objects.KeyPath()
	if err == nil && !path.IsNull() {
		err = errors.New("the records have their keys within")
	}
	return err
}
