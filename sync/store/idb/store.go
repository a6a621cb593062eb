//go:build js && wasm

package idb

import (
	"cmp"
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
	// version is that of the layout: one object store, keys [kind, id].
	//
	//	1  records, see encode
	//	2  and tombstones: {kind, id, rev, deleted: true}, which a program that
	//	   knows 1 alone would take for damaged records
	version   = 2
	storeName = "records" // the object store
	// openPatience is how long another window may take to let go of an older
	// layout. The browser tells us of the wait in no other way.
	openPatience = 10 * time.Second
)

// Store keeps records in one IndexedDB database.
type Store struct{ db *idb.Database }

var _ store.Store = (*Store)(nil)

// Open opens the database of that name, and makes it if there is none. The
// error is store.ErrBusy if another window will not let go of an older layout.
func Open(ctx context.Context, name string) (*Store, error) {
	if !js.Global().Get("indexedDB").Truthy() {
		return nil, errors.New("this browser keeps no records (no IndexedDB): use another one, or leave private browsing")
	}
	waiting, cancel := context.WithTimeout(ctx, openPatience)
	defer cancel()
	var layoutErr error
	// The upgrader's context must outlast this call: see Request.Listen. An
	// error returned from the upgrader would end the program, so it is noted.
	req, err := idb.Global().Open(context.WithoutCancel(ctx), name, version, func(db *idb.Database, was, _ uint) error {
		if was > 0 { // records of 1 are records of 2
			return nil
		}
		_, layoutErr = db.CreateObjectStore(storeName, idb.ObjectStoreOptions{})
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("open records: %w", explain(err))
	}
	db, err := req.Await(waiting)
	switch {
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case waiting.Err() != nil:
		return nil, store.ErrBusy
	case layoutErr != nil:
		return nil, fmt.Errorf("lay out records: %w", explain(layoutErr))
	case err != nil:
		return nil, fmt.Errorf("open records: %w", explain(err))
	}
	return &Store{db}, nil
}

// Close lets go of the database.
func (s *Store) Close() error { return s.db.Close() }

// Put implements store.Store.
func (s *Store) Put(ctx context.Context, records ...store.Record) error {
	for _, r := range records {
		if err := r.Check(); err != nil {
			return err
		}
	}
	return s.change(ctx, func(objects *idb.ObjectStore) error {
		for _, r := range records {
			kept, _, err := head(ctx, objects, r.Kind, r.ID)
			if err != nil {
				return err
			}
			if r.Rev <= kept.Rev {
				return store.Stale(kept, r.Rev)
			}
			if _, err := objects.PutKey(key(r.Kind, r.ID), encode(r)); err != nil {
				return err
			}
		}
		return nil
	})
}

// Delete implements store.Store.
func (s *Store) Delete(ctx context.Context, kind, id string, rev uint32) error {
	if err := store.CheckKey(kind, id); err != nil {
		return err
	}
	return s.change(ctx, func(objects *idb.ObjectStore) error {
		kept, deleted, err := head(ctx, objects, kind, id)
		if err != nil {
			return err
		}
		left, ok, err := store.Tombstone(kept, deleted, rev)
		if ok {
			_, err = objects.PutKey(key(kind, id), js.ValueOf(map[string]any{
				"kind": kind, "id": id, "rev": float64(left.Rev), "deleted": true,
			}))
		}
		return err
	})
}

// head reads a record without its data, within a transaction; the revision is
// nought if there is none.
func head(ctx context.Context, objects *idb.ObjectStore, kind, id string) (r store.Record, deleted bool, err error) {
	r = store.Record{Kind: kind, ID: id}
	req, err := objects.Get(key(kind, id))
	if err != nil {
		return r, false, err
	}
	v, err := await(ctx, req)
	if err == nil && v.Truthy() {
		r.Rev, deleted = uint32(v.Get("rev").Float()), v.Get("deleted").Truthy()
	}
	return r, deleted, err
}

// Get implements store.Store.
func (s *Store) Get(ctx context.Context, kind, id string) (store.Record, error) {
	if err := store.CheckKey(kind, id); err != nil {
		return store.Record{}, err
	}
	objects, err := s.objects(ctx)
	if err != nil {
		return store.Record{}, err
	}
	req, err := objects.Get(key(kind, id))
	if err != nil {
		return store.Record{}, explain(err)
	}
	v, err := await(ctx, req)
	if err != nil {
		return store.Record{}, explain(err)
	}
	gone := fmt.Errorf("%s %q: %w", kind, id, store.ErrNotFound)
	if !v.Truthy() {
		return store.Record{}, gone
	}
	if v.Get("deleted").Truthy() {
		return store.Record{Rev: uint32(v.Get("rev").Float())}, gone
	}
	return decode(v)
}

// List implements store.Store.
func (s *Store) List(ctx context.Context, kind string) ([]store.Record, error) {
	objects, err := s.objects(ctx)
	if err != nil {
		return nil, err
	}
	// An array sorts after every string: [kind, []] ends the ids of one kind.
	all, err := idb.NewKeyRangeBound(js.ValueOf([]any{kind}), js.ValueOf([]any{kind, []any{}}), false, true)
	if err != nil {
		return nil, explain(err)
	}
	req, err := objects.OpenCursorRange(all, idb.CursorNext)
	if err != nil {
		return nil, explain(err)
	}
	var list []store.Record
	err = req.Iter(ctx, func(c *idb.CursorWithValue) error {
		v, err := c.Value()
		if err != nil || v.Get("deleted").Truthy() {
			return err
		}
		r, err := decode(v)
		list = append(list, r)
		return err
	})
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if err != nil {
		return nil, explain(err)
	}
	// The browser sorts by UTF-16.
	slices.SortFunc(list, func(a, b store.Record) int { return cmp.Compare(a.ID, b.ID) })
	return list, nil
}

// objects opens a transaction for reading.
func (s *Store) objects(ctx context.Context) (*idb.ObjectStore, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	tx, err := s.db.Transaction(idb.TransactionReadOnly, storeName)
	if err != nil {
		return nil, explain(err)
	}
	objects, err := tx.ObjectStore(storeName)
	return objects, explain(err)
}

// change runs do in one strict transaction and returns when the disk has it.
func (s *Store) change(ctx context.Context, do func(*idb.ObjectStore) error) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	tx, err := s.db.TransactionWithOptions(idb.TransactionOptions{
		Mode:       idb.TransactionReadWrite,
		Durability: idb.DurabilityStrict,
	}, storeName)
	if err != nil {
		return explain(err)
	}
	objects, err := tx.ObjectStore(storeName)
	if err != nil {
		return explain(err)
	}
	if err := do(objects); err != nil {
		_ = tx.Abort() // fails only where there is nothing left to abort
		return explain(err)
	}
	return explain(tx.Await(ctx))
}

// await waits for one request. It must be called before control goes back to
// the browser for the first time, or the answer may be missed.
func await(ctx context.Context, req *idb.Request) (js.Value, error) {
	v, err := req.Await(ctx)
	if ctx.Err() != nil { // which Await does not tell
		return js.Undefined(), ctx.Err()
	}
	return v, err
}

// explain gives the browser's errors the names that package store has for them.
func explain(err error) error {
	switch {
	case err == nil:
		return nil
	case errors.Is(err, idb.NewDOMException("QuotaExceededError")):
		return fmt.Errorf("%w (%w)", store.ErrFull, err)
	case errors.Is(err, idb.NewDOMException("InvalidStateError")):
		return fmt.Errorf("%w (%w)", store.ErrClosed, err)
	case errors.Is(err, idb.NewDOMException("VersionError")):
		return fmt.Errorf("%w (%w)", store.ErrClosed, err)
	}
	return err
}

func key(kind, id string) js.Value { return js.ValueOf([]any{kind, id}) }

func encode(r store.Record) js.Value {
	data := js.Global().Get("Uint8Array").New(len(r.Data))
	js.CopyBytesToJS(data, r.Data)
	return js.ValueOf(map[string]any{
		"kind": r.Kind, "id": r.ID, "rev": float64(r.Rev),
		"updated": float64(r.Updated.UnixMilli()), "data": data,
	})
}

func decode(v js.Value) (store.Record, error) {
	kind, id, rev := v.Get("kind"), v.Get("id"), v.Get("rev")
	updated, data := v.Get("updated"), v.Get("data")
	if kind.Type() != js.TypeString || id.Type() != js.TypeString || rev.Type() != js.TypeNumber ||
		updated.Type() != js.TypeNumber || !data.InstanceOf(js.Global().Get("Uint8Array")) {
		return store.Record{}, errors.New("a record is damaged: restore a backup file")
	}
	r := store.Record{
		Kind: kind.String(), ID: id.String(), Rev: uint32(rev.Float()),
		Data: make([]byte, data.Length()), Updated: time.UnixMilli(int64(updated.Float())).UTC(),
	}
	js.CopyBytesToGo(r.Data, data)
	return r, nil
}
