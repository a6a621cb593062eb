//go:build js && wasm

package idb

import (
	"context"
	"errors"
	"fmt"
	"syscall/js"

	"github.com/hack-pad/go-indexeddb/idb"

	"chalkfold/sync/store"
)

// pageSize is how many records are read at once: reading one by one takes the browser
// several times as long, and all at once keeps it from anything else meanwhile.
const pageSize = 128

// sweep reads all between two keys, page by page, in one transaction. It asks the
// browser itself, since the library knows no getAll.
func (s *Store) sweep(ctx context.Context, from, to []any) (list []store.Record, err error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	defer s.refused(&err)
	objects := s.raw.Call("transaction", storeName, "readonly").Call("objectStore", storeName)
	ranges := js.Global().Get("IDBKeyRange")
	after, open := js.ValueOf(from), false
	known := knownClasses()
	for {
		span := ranges.Call("bound", after, to, open, true)
		// Of one transaction the second answer comes after the first.
		keys := answer(objects.Call("getAllKeys", span, pageSize))
		values := answer(objects.Call("getAll", span, pageSize))
		var k, v js.Value
		for range 2 {
			select {
			case k = <-keys:
			case v = <-values:
			case <-ctx.Done():
				return nil, ctx.Err()
			}
		}
		if !k.Truthy() || !v.Truthy() {
			return nil, errLost
		}
		n := k.Length()
		for i := range n {
			if kind, id, ok := known.namesOf(k.Index(i)); ok {
				if r, deleted := known.decode(kind, id, v.Index(i)); !deleted {
					list = append(list, r)
				}
			}
		}
		if n < pageSize {
			return list, nil
		}
		after, open = k.Index(n-1), true
	}
}

// refused makes an error of what the browser has thrown.
func (s *Store) refused(err *error) {
	switch thrown := recover().(type) {
	case nil:
	case js.Error:
		if *err = explain(idb.NewDOMException(thrown.Get("name").String())); s.lost != nil {
			*err = fmt.Errorf("%w (%w)", s.lost, *err)
		}
	default:
		panic(thrown)
	}
}

// Newest implements store.Recent.
func (s *Store) Newest(ctx context.Context, kind string, wanted func(store.Record) bool) (r store.Record, n int, err error) {
	if err := ctx.Err(); err != nil {
		return r, 0, err
	}
	defer s.refused(&err)
	index := s.raw.Call("transaction", storeName, "readonly").Call("objectStore", storeName).Call("index", indexName)
	span := js.Global().Get("IDBKeyRange").Call("bound", []any{kind}, []any{kind, []any{}}, false, true)
	steps, known := make(chan js.Value, 1), knownClasses()
	step := js.FuncOf(func(_ js.Value, args []js.Value) any {
		steps <- args[0].Get("target")
		return nil
	})
	defer step.Release()
	hear := func(request js.Value) {
		request.Set("onsuccess", step)
		request.Set("onerror", step)
	}
	hear(index.Call("count", span))
	for counted := false; ; {
		select {
		case request := <-steps:
			if !request.Get("error").IsNull() {
				return r, n, errLost
			}
			at := request.Get("result")
			switch {
			case !counted:
				n, counted = at.Int(), true
				hear(index.Call("openCursor", span, "prev"))
				continue
			case at.IsNull():
				return store.Record{}, n, fmt.Errorf("%s: %w", kind, store.ErrNotFound)
			}
			if kind, id, ok := known.namesOf(at.Get("primaryKey")); ok {
				if r, deleted := known.decode(kind, id, at.Get("value")); !deleted && wanted(r) {
					return r, n, nil
				}
			}
			at.Call("continue")
		case <-ctx.Done():
			return r, n, ctx.Err()
		}
	}
}

// errLost says that the browser could not read something of a page.
var errLost = errors.New("a record could not be read")

// answer hands over what a request comes to; nothing of use where it fails.
func answer(request js.Value) <-chan js.Value {
	came := make(chan js.Value, 1)
	var hear js.Func
	hear = js.FuncOf(func(js.Value, []js.Value) any {
		hear.Release()
		v := js.Undefined()
		if request.Get("error").IsNull() {
			v = request.Get("result")
		}
		came <- v
		return nil
	})
	request.Set("onsuccess", hear)
	request.Set("onerror", hear)
	return came
}
