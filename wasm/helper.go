//go:build js && wasm

package main

import (
	"syscall/js"

	"chalkfold/ui/engine"
)

// helpers returns how the page starts a helper beside it, nil where the browser
// has no workers. The program that runs is lent to it compiled, as soon as both
// of its parts are there.
func helpers() engine.Start {
	if !js.Global().Get("Worker").Truthy() {
		return nil
	}
	return func(hear func(engine.Answer)) engine.Worker {
		h := &helper{worker: js.Global().Get("Worker").New("/engine.js")}
		h.on("message", func(e js.Value) {
			m := e.Get("data")
			a := engine.Answer{ID: uint32(m.Get("id").Int()), Is: engine.Is(m.Get("is").String())}
			if a.Is != engine.Ended {
				a.Now, a.Of, a.Data = m.Get("now").Int(), m.Get("of").Int(), bytesOf(m.Get("data"))
			}
			hear(a)
		})
		h.on("error", func(e js.Value) {
			e.Call("preventDefault") // the pool tells of it
			hear(engine.Answer{Is: engine.Ended})
		})
		js.Global().Get("chalkfold").Call("lend", h.worker)
		return h
	}
}

// helper is a Web Worker.
type helper struct {
	worker js.Value
	heard  []js.Func
}

func (h *helper) on(event string, do func(e js.Value)) {
	f := js.FuncOf(func(_ js.Value, args []js.Value) any {
		do(args[0])
		return nil
	})
	h.heard = append(h.heard, f)
	h.worker.Set("on"+event, f)
}

// Post implements engine.Worker.
func (h *helper) Post(t engine.Task) {
	h.worker.Call("postMessage", map[string]any{"id": t.ID, "do": string(t.Do), "data": arrayOf(t.Data)})
}

// End implements engine.Worker.
func (h *helper) End() {
	h.worker.Set("onmessage", js.Null())
	h.worker.Set("onerror", js.Null())
	h.worker.Call("terminate")
	for _, f := range h.heard {
		f.Release()
	}
}

// cores is how many workers do at most, by the browser's word.
func cores() int {
	const most = 4 // each takes some megabytes of a small phone
	n := js.Global().Get("navigator").Get("hardwareConcurrency")
	if n.Type() != js.TypeNumber {
		return 1
	}
	return min(most, n.Int())
}
