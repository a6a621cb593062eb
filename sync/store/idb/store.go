//go:build js && wasm

package idb

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"syscall/js"

	"github.com/hack-pad/go-indexeddb/idb"

	"chalkfold/sync/store"
)

// Store keeps records in one IndexedDB database.
type Store struct {
	db   *idb.Database
	raw  js.Value // the same
	lost error    // why the database was closed
}

var (
	_ store.Store  = (*Store)(nil)
	_ store.Blobs  = (*Store)(nil)
	_ store.Recent = (*Store)(nil)
)

// Close lets go of the database.
func (s *Store) Close() error { return s.db.Close() }

// Put implements store.Store.
func (s *Store) Put(ctx context.Context, records ...store.Record) error {
	for _, r := range records {
		if err := r.Check(); err != nil {
			return err
		}
	}
	return s.change(ctx, func(in []*idb.ObjectStore) error { return put(ctx, in[0], records) }, storeName)
}

// put puts records within a transaction.
func put(ctx context.Context, objects *idb.ObjectStore, records []store.Record) error {
	for _, r := range records {
		kept, _, err := head(ctx, objects, r.Kind, r.ID)
		if err != nil {
			return err
		}
		if r.Rev <= kept.Rev {
			return store.Stale(kept, r.Rev)
		}
		if _, err := objects.PutKey(keyOf(r.Kind, r.ID), encode(r)); err != nil {
			return err
		}
	}
	return nil
}

// Delete implements store.Store.
func (s *Store) Delete(ctx context.Context, kind, id string, rev uint32) error {
	if err := store.CheckKey(kind, id); err != nil {
		return err
	}
	return s.change(ctx, func(in []*idb.ObjectStore) error {
		kept, deleted, err := head(ctx, in[0], kind, id)
		if err != nil {
			return err
		}
		left, ok, err := store.Tombstone(kept, deleted, rev)
		if ok {
			_, err = in[0].PutKey(keyOf(kind, id), tombstone(left))
		}
		return err
	}, storeName)
}

// head returns what is kept, within a transaction; the revision is nought if
// nothing is.
func head(ctx context.Context, objects *idb.ObjectStore, kind, id string) (r store.Record, deleted bool, err error) {
	req, err := objects.Get(keyOf(kind, id))
	if err != nil {
		return r, false, err
	}
	v, err := await(ctx, req)
	if err != nil || v.IsUndefined() {
		return store.Record{Kind: kind, ID: id}, false, err
	}
	r, deleted = knownClasses().decode(kind, id, v)
	return r, deleted, nil
}

// Get implements store.Store.
func (s *Store) Get(ctx context.Context, kind, id string) (store.Record, error) {
	if err := store.CheckKey(kind, id); err != nil {
		return store.Record{}, err
	}
	objects, err := s.objects(ctx, storeName)
	if err != nil {
		return store.Record{}, err
	}
	r, deleted, err := head(ctx, objects, kind, id)
	if err != nil {
		return store.Record{}, explain(err)
	}
	if r.Rev == 0 || deleted {
		return store.Record{Rev: r.Rev}, fmt.Errorf("%s %q: %w", kind, id, store.ErrNotFound)
	}
	return r, nil
}

// List implements store.Store.
func (s *Store) List(ctx context.Context, kind string) ([]store.Record, error) {
	// An array sorts after every string: [kind, []] ends the ids of one kind.
	return s.list(ctx, []any{kind}, []any{kind, []any{}})
}

// All implements store.Store.
func (s *Store) All(ctx context.Context) ([]store.Record, error) {
	return s.list(ctx, []any{}, []any{[]any{}})
}

// list returns what is kept between two keys.
func (s *Store) list(ctx context.Context, from, to []any) ([]store.Record, error) {
	list, err := s.sweep(ctx, from, to)
	if err != nil && ctx.Err() == nil && s.lost == nil {
		list, err = s.pick(ctx, from, to)
	}
	// The browser sorts by UTF-16.
	slices.SortStableFunc(list, store.Compare)
	return list, err
}

// pick reads a span one record at a time, each in a transaction of its own: one
// whose value the browser itself has lost ends the transaction that asks for it.
func (s *Store) pick(ctx context.Context, from, to []any) ([]store.Record, error) {
	span, err := idb.NewKeyRangeBound(js.ValueOf(from), js.ValueOf(to), false, true)
	if err != nil {
		return nil, explain(err)
	}
	objects, err := s.objects(ctx, storeName)
	if err != nil {
		return nil, err
	}
	req, err := objects.GetAllKeysRange(span, 0)
	if err != nil {
		return nil, explain(err)
	}
	keys, err := req.Await(ctx)
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if err != nil {
		return nil, explain(err)
	}
	var list []store.Record
	known := knownClasses()
	for _, key := range keys {
		kind, id, ok := known.namesOf(key)
		if !ok {
			continue
		}
		r, err := s.Get(ctx, kind, id)
		switch {
		case ctx.Err() != nil:
			return nil, ctx.Err()
		case errors.Is(err, store.ErrNotFound):
			continue
		case err != nil:
			r, _ = known.decode(kind, id, js.Undefined())
		}
		list = append(list, r)
	}
	return list, nil
}

// objects opens a transaction for reading one of the object stores.
func (s *Store) objects(ctx context.Context, name string) (*idb.ObjectStore, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	tx, err := s.begin(idb.TransactionOptions{Mode: idb.TransactionReadOnly}, name)
	if err != nil {
		return nil, err
	}
	objects, err := tx.ObjectStore(name)
	return objects, explain(err)
}

// begin begins a transaction, or says why there is no beginning any.
func (s *Store) begin(how idb.TransactionOptions, names ...string) (*idb.Transaction, error) {
	tx, err := s.db.TransactionWithOptions(how, names[0], names[1:]...)
	if err != nil && s.lost != nil {
		return nil, fmt.Errorf("%w (%w)", s.lost, err)
	}
	return tx, explain(err)
}

// change runs do in one strict transaction over object stores, and returns when the
// disk has it.
func (s *Store) change(ctx context.Context, do func(in []*idb.ObjectStore) error, names ...string) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	tx, err := s.begin(idb.TransactionOptions{Mode: idb.TransactionReadWrite, Durability: idb.DurabilityStrict}, names...)
	if err != nil {
		return err
	}
	in := make([]*idb.ObjectStore, len(names))
	for i, name := range names {
		if in[i], err = tx.ObjectStore(name); err != nil {
			return explain(err)
		}
	}
	if err := do(in); err != nil {
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
