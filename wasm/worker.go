//go:build js && wasm

package main

import (
	"sync/atomic"
	"syscall/js"
	"time"

	"chalkfold/ui/engine"
)

// workerSlice is how long a helper works before it looks for messages.
const workerSlice = 50 * time.Millisecond

// work is a helper inside a Web Worker: it does one task after the other. See
// package engine for what passes.
func work() {
	tasks := make(chan engine.Task, 16)
	var stopped atomic.Uint32
	js.Global().Set("onmessage", js.FuncOf(func(_ js.Value, args []js.Value) any {
		m := args[0].Get("data")
		t := engine.Task{ID: uint32(m.Get("id").Int()), Do: engine.Do(m.Get("do").String())}
		if t.Do == engine.Stop {
			stopped.Store(t.ID)
			return nil
		}
		t.Data = bytesOf(m.Get("data"))
		tasks <- t
		return nil
	}))
	bench := &engine.Bench{
		Now:   time.Now, //nolint:forbidigo // the one clock of a helper
		Font:  fetchFont,
		Words: fetchWords,
		Slice: workerSlice,
		Rest:  func() { time.Sleep(time.Millisecond) },
	}
	answer(engine.Answer{Is: engine.Up})
	for t := range tasks {
		bench.Do(t, func() bool { return stopped.Load() == t.ID }, answer)
	}
}

// answer sends an answer to the page. Its bytes are handed over, not copied.
func answer(a engine.Answer) {
	data := arrayOf(a.Data)
	m := map[string]any{"id": a.ID, "is": string(a.Is), "now": a.Now, "of": a.Of, "data": data}
	js.Global().Call("postMessage", m, []any{data.Get("buffer")})
}

func bytesOf(array js.Value) []byte {
	b := make([]byte, array.Length())
	js.CopyBytesToGo(b, array)
	return b
}

func arrayOf(b []byte) js.Value {
	array := js.Global().Get("Uint8Array").New(len(b))
	js.CopyBytesToJS(array, b)
	return array
}
