//go:build js && wasm

package main

import (
	"encoding/hex"
	"syscall/js"
)

// newID returns a new id of 128 random bits. The bits are the browser's own:
// crypto/rand would add 44 kB to the first load.
func newID() string {
	bits := js.Global().Get("Uint8Array").New(16)
	js.Global().Get("crypto").Call("getRandomValues", bits)
	id := make([]byte, 16)
	js.CopyBytesToGo(id, bits)
	return hex.EncodeToString(id)
}
