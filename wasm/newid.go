//go:build js && wasm

package main

import (
	"encoding/hex"
	"syscall/js"
)

// newID returns a new id of 128 random bits.
func newID() string {
	id := make([]byte, 16)
	randomBytes(id)
	return hex.EncodeToString(id)
}

// randomBytes fills bytes with the browser's own random ones: crypto/rand would add
// 44 kB to the first load.
func randomBytes(b []byte) {
	bits := js.Global().Get("Uint8Array").New(len(b))
	js.Global().Get("crypto").Call("getRandomValues", bits)
	js.CopyBytesToGo(b, bits)
}
