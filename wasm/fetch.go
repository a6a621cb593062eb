//go:build js && wasm

package main

import (
	"syscall/js"

	"chalkfold/draft/say"
	"chalkfold/ui/engine"
)

// fontPath is the font of PDFs, a file of the page: see package noto.
const fontPath = "/noto.ttf"

// fetchFont fetches the font, which is kept for use without a network once all
// files of the page are.
func fetchFont() ([]byte, error) {
	buffer, ok := fetch(fontPath, "arrayBuffer")
	if !ok {
		return nil, engine.ErrNoFont
	}
	return bytesOf(js.Global().Get("Uint8Array").New(buffer)), nil
}

// fetchWords fetches the words of a language, which are kept as the font is.
func fetchWords(id string) (*say.Words, error) {
	text, ok := fetch("/words/"+id+".txt", "text")
	if !ok {
		return nil, engine.ErrNoWords
	}
	return say.Read(text.String())
}

// fetch fetches a file of the page in a form; false is that it did not come.
func fetch(path, form string) (js.Value, bool) {
	response, ok := await(js.Global().Call("fetch", path))
	if !ok || !response.Get("ok").Bool() {
		return js.Null(), false
	}
	return await(response.Call(form))
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
