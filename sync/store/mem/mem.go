// Package mem keeps records in memory: for tests, and for a browser that has
// no place to keep them. Nothing survives the program.
package mem

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"sync"

	"chalkfold/sync/store"
)

// Store keeps records in memory. The zero value is empty and ready.
type Store struct {
	mu      sync.Mutex
	records map[key]store.Record
}

var _ store.Store = (*Store)(nil)

type key struct{ kind, id string }

// Put implements store.Store.
func (s *Store) Put(ctx context.Context, records ...store.Record) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	next := make(map[key]store.Record, len(records))
	for _, r := range records {
		if err := r.Check(); err != nil {
			return err
		}
		k := key{r.Kind, r.ID}
		kept, ok := next[k]
		if !ok {
			kept = s.records[k]
		}
		if r.Rev <= kept.Rev {
			return fmt.Errorf("%s %q: rev %d, kept is %d: %w", r.Kind, r.ID, r.Rev, kept.Rev, store.ErrStale)
		}
		next[k] = r.Normal()
	}
	if s.records == nil {
		s.records = make(map[key]store.Record)
	}
	for k, r := range next {
		s.records[k] = r
	}
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
	if !ok {
		return store.Record{}, fmt.Errorf("%s %q: %w", kind, id, store.ErrNotFound)
	}
	return r.Normal(), nil
}

// List implements store.Store.
func (s *Store) List(ctx context.Context, kind string) ([]store.Record, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	var list []store.Record
	for k, r := range s.records {
		if k.kind == kind {
			list = append(list, r.Normal())
		}
	}
	slices.SortFunc(list, func(a, b store.Record) int { return cmp.Compare(a.ID, b.ID) })
	return list, nil
}

// Delete implements store.Store.
func (s *Store) Delete(ctx context.Context, kind, id string) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	if err := store.CheckKey(kind, id); err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	delete(s.records, key{kind, id})
	return nil
}
