//go:build js && wasm

package main

import (
	"errors"
	"syscall/js"
)

// fontPath is the font of PDFs, a file of the page: see package noto.
const fontPath = "/noto.ttf"

// errNoFont is why no PDF can be made.
var errNoFont = errors.New("the letters for PDFs could not be fetched: try again when there is a network")

// fetchFont fetches the font, which is kept for use without a network once all
// files of the page are.
func fetchFont() ([]byte, error) {
	response, ok := await(js.Global().Call("fetch", fontPath))
	if !ok || !response.Get("ok").Bool() {
		return nil, errNoFont
	}
	buffer, ok := await(response.Call("arrayBuffer"))
	if !ok {
		return nil, errNoFont
	}
	return bytesOf(js.Global().Get("Uint8Array").New(buffer)), nil
}

// await waits for a promise; false is that it was refused.
func await(promise js.Value) (js.Value, bool) {
	type settled struct {
		value js.Value
		kept  bool
	}
	answer := make(chan settled, 1)
	then := func(kept bool) js.Func {
		return js.FuncOf(func(_ js.Value, args []js.Value) any {
			answer <- settled{args[0], kept}
			return nil
		})
	}
	yes, no := then(true), then(false)
	defer yes.Release()
	defer no.Release()
	promise.Call("then", yes, no)
	s := <-answer
	return s.value, s.kept
}
