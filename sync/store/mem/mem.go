// Package mem keeps records in memory: for tests, and for a browser that has
// no place to keep them. Nothing survives the program.
package mem

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"sync"

	"chalkfold/sync/store"
)

// Store keeps records in memory. The zero value is empty and ready.
type Store struct {
	mu      sync.Mutex
	records map[key]kept
	blobs   map[string][]byte
}

// kept is a record, or its tombstone.
type kept struct {
	store.Record
	deleted bool
}

var (
	_ store.Store  = (*Store)(nil)
	_ store.Blobs  = (*Store)(nil)
	_ store.Recent = (*Store)(nil)
)

type key struct{ kind, id string }

// Put implements store.Store.
func (s *Store) Put(ctx context.Context, records ...store.Record) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.put(records)
}

// put puts records while s is locked.
func (s *Store) put(records []store.Record) error {
	next := make(map[key]kept, len(records))
	for _, r := range records {
		if err := r.Check(); err != nil {
			return err
		}
		k := key{r.Kind, r.ID}
		old, ok := next[k]
		if !ok {
			old = s.records[k]
		}
		if r.Rev <= old.Rev {
			return store.Stale(old.Record, r.Rev)
		}
		next[k] = kept{Record: r.Normal()}
	}
	if s.records == nil {
		s.records = make(map[key]kept)
	}
	maps.Copy(s.records, next)
	return nil
}

// Get implements store.Store.
func (s *Store) Get(ctx context.Context, kind, id string) (store.Record, error) {
	if err := ctx.Err(); err != nil {
		return store.Record{}, err
	}
	if err := store.CheckKey(kind, id); err != nil {
		return store.Record{}, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	r, ok := s.records[key{kind, id}]
	if !ok || r.deleted {
		return store.Record{Rev: r.Rev}, fmt.Errorf("%s %q: %w", kind, id, store.ErrNotFound)
	}
	return r.Normal(), nil
}

// List implements store.Store.
func (s *Store) List(ctx context.Context, kind string) ([]store.Record, error) {
	return s.list(ctx, func(r store.Record) bool { return r.Kind == kind })
}

// All implements store.Store.
func (s *Store) All(ctx context.Context) ([]store.Record, error) {
	return s.list(ctx, func(store.Record) bool { return true })
}

func (s *Store) list(ctx context.Context, wanted func(store.Record) bool) ([]store.Record, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	var list []store.Record
	for _, r := range s.records {
		if wanted(r.Record) && !r.deleted {
			list = append(list, r.Normal())
		}
	}
	slices.SortStableFunc(list, store.Compare)
	return list, nil
}

// Delete implements store.Store.
func (s *Store) Delete(ctx context.Context, kind, id string, rev uint32) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	if err := store.CheckKey(kind, id); err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	k := key{kind, id}
	left, ok, err := store.Tombstone(s.records[k].Record, s.records[k].deleted, rev)
	if ok {
		s.records[k] = kept{Record: left, deleted: true}
	}
	return err
}
