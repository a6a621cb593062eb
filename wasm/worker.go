//go:build js && wasm

package main

import "syscall/js"

// work answers for the engine inside a Web Worker: it says that it is up, so
// that the page can tell a worker that has started from one that never will.
func work() {
	js.Global().Call("postMessage", map[string]any{"engine": "up"})
}
