//go:build js && wasm

package idb

import (
	"context"
	"fmt"
	"slices"
	"syscall/js"

	"github.com/hack-pad/go-indexeddb/idb"

	"chalkfold/sync/store"
)

// PutBlob implements store.Blobs.
func (s *Store) PutBlob(ctx context.Context, name string, data []byte, records ...store.Record) error {
	if err := store.CheckBlob(name, data); err != nil {
		return err
	}
	for _, r := range records {
		if err := r.Check(); err != nil {
			return err
		}
	}
	bytes := js.Global().Get("Uint8Array").New(len(data))
	js.CopyBytesToJS(bytes, data)
	return s.change(ctx, func(in []*idb.ObjectStore) error {
		if err := put(ctx, in[0], records); err != nil {
			return err
		}
		_, err := in[1].PutKey(js.ValueOf(name), bytes)
		return err
	}, storeName, blobsName)
}

// Blob implements store.Blobs. One that is no bytes, or that the browser has lost, is
// not found.
func (s *Store) Blob(ctx context.Context, name string) ([]byte, error) {
	blobs, err := s.objects(ctx, blobsName)
	if err != nil {
		return nil, err
	}
	req, err := blobs.Get(js.ValueOf(name))
	if err != nil {
		return nil, explain(err)
	}
	v, err := await(ctx, req)
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if err != nil || !v.InstanceOf(js.Global().Get("Uint8Array")) {
		return nil, fmt.Errorf("blob %q: %w", name, store.ErrNotFound)
	}
	data := make([]byte, v.Length())
	js.CopyBytesToGo(data, v)
	return data, nil
}

// BlobNames implements store.Blobs.
func (s *Store) BlobNames(ctx context.Context) ([]string, error) {
	blobs, err := s.objects(ctx, blobsName)
	if err != nil {
		return nil, err
	}
	req, err := blobs.GetAllKeys()
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
	var names []string
	for _, key := range keys {
		if typeOf(key) == js.TypeString {
			names = append(names, key.String())
		}
	}
	slices.Sort(names) // the browser sorts by UTF-16
	return names, nil
}

// DropBlobs implements store.Blobs.
func (s *Store) DropBlobs(ctx context.Context, names ...string) error {
	return s.change(ctx, func(in []*idb.ObjectStore) error {
		for _, name := range names {
			if _, err := in[0].Delete(js.ValueOf(name)); err != nil {
				return err
			}
		}
		return nil
	}, blobsName)
}
