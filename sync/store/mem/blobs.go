package mem

import (
	"bytes"
	"context"
	"fmt"
	"maps"
	"slices"

	"chalkfold/sync/store"
)

// PutBlob implements store.Blobs.
func (s *Store) PutBlob(ctx context.Context, name string, data []byte, records ...store.Record) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	if err := store.CheckBlob(name, data); err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if err := s.put(records); err != nil {
		return err
	}
	if s.blobs == nil {
		s.blobs = map[string][]byte{}
	}
	s.blobs[name] = bytes.Clone(data)
	return nil
}

// Blob implements store.Blobs.
func (s *Store) Blob(ctx context.Context, name string) ([]byte, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	data, ok := s.blobs[name]
	if !ok {
		return nil, fmt.Errorf("blob %q: %w", name, store.ErrNotFound)
	}
	return bytes.Clone(data), nil
}

// BlobNames implements store.Blobs.
func (s *Store) BlobNames(ctx context.Context) ([]string, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	return slices.Sorted(maps.Keys(s.blobs)), nil
}

// DropBlobs implements store.Blobs.
func (s *Store) DropBlobs(ctx context.Context, names ...string) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, name := range names {
		delete(s.blobs, name)
	}
	return nil
}

// Newest implements store.Recent.
func (s *Store) Newest(ctx context.Context, kind string, wanted func(store.Record) bool) (newest store.Record, n int, err error) {
	all, err := s.List(ctx, kind)
	if err != nil {
		return store.Record{}, 0, err
	}
	for _, r := range all {
		if wanted(r) && (newest.Rev == 0 || r.Updated.After(newest.Updated)) {
			newest = r
		}
	}
	if newest.Rev == 0 {
		err = fmt.Errorf("%s: %w", kind, store.ErrNotFound)
	}
	return newest, len(all), err
}
