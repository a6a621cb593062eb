//go:build js && wasm

package idb

import (
	"syscall/js"
	"time"

	"chalkfold/sync/store"
)

func keyOf(kind, id string) js.Value { return js.ValueOf([]any{kind, id}) }

// classes are those that what is read is compared with. They are asked for once for all
// that is read at a time: there may be thousands of records.
type classes struct{ array, bytes js.Value }

func knownClasses() classes {
	return classes{js.Global().Get("Array"), js.Global().Get("Uint8Array")}
}

// namesOf returns what a key names. One that is not of ours is not ok.
func (c classes) namesOf(key js.Value) (kind, id string, ok bool) {
	if !key.InstanceOf(c.array) || key.Length() != 2 {
		return "", "", false
	}
	k, i := key.Index(0), key.Index(1)
	if typeOf(k) != js.TypeString || typeOf(i) != js.TypeString {
		return "", "", false
	}
	return k.String(), i.String(), true
}

func encode(r store.Record) js.Value {
	data := js.Global().Get("Uint8Array").New(len(r.Data))
	js.CopyBytesToJS(data, r.Data)
	return js.ValueOf(map[string]any{
		"kind": r.Kind, "id": r.ID, "rev": float64(r.Rev),
		"updated": float64(r.Updated.UnixMilli()), "data": data,
	})
}

func tombstone(r store.Record) js.Value {
	return js.ValueOf(map[string]any{"kind": r.Kind, "id": r.ID, "rev": float64(r.Rev), "deleted": true})
}

// decode reads what is kept under the key of that kind and id. What is no
// record there is read as far as it goes, and never taken for a tombstone.
func (c classes) decode(kind, id string, v js.Value) (r store.Record, deleted bool) {
	r = store.Record{Kind: kind, ID: id, Rev: 1, Updated: time.UnixMilli(0).UTC(), Damaged: true}
	if typeOf(v) != js.TypeObject {
		r.Data = written(v)
		return r, false
	}
	rev, okRev := number(v.Get("rev"), 1, store.LastRev)
	if okRev {
		r.Rev = uint32(rev)
	}
	if deleted := v.Get("deleted"); okRev && typeOf(deleted) == js.TypeBoolean && deleted.Bool() {
		return store.Record{Kind: kind, ID: id, Rev: r.Rev}, true
	}
	const farthest = 8.64e15 // ms: the last time that a browser knows (ECMA-262, 21.4.1.1)
	updated, okUpdated := number(v.Get("updated"), -farthest, farthest)
	if okUpdated {
		r.Updated = time.UnixMilli(int64(updated)).UTC()
	}
	data := v.Get("data")
	if !data.InstanceOf(c.bytes) {
		r.Data = written(v)
		return r, false
	}
	r.Data = make([]byte, data.Length())
	js.CopyBytesToGo(r.Data, data)
	r.Damaged = !okRev || !okUpdated
	return r, false
}

// typeOf is the type of a value, undefined for one that syscall/js does not
// know (a BigInt).
func typeOf(v js.Value) (t js.Type) {
	defer func() { _ = recover() }()
	return v.Type()
}

// number returns a number between two others.
func number(v js.Value, least, most float64) (f float64, ok bool) {
	if typeOf(v) != js.TypeNumber {
		return 0, false
	}
	f = v.Float()
	return f, f >= least && f <= most
}

// written is a value of any kind as text, empty where there is none for it.
func written(v js.Value) (text []byte) {
	defer func() {
		if _, ok := recover().(js.Error); ok {
			text = []byte{}
		}
	}()
	s := js.Global().Get("JSON").Call("stringify", v)
	if s.Type() != js.TypeString {
		return []byte{}
	}
	return []byte(s.String())
}
