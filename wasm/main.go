//go:build js && wasm

// Wasm is the one program of the browser: the page where there is a document,
// the engine inside Web Workers where there is none. It wires what the page
// works with, and does nothing else.
package main

import (
	"context"
	"syscall/js"
	"time"

	"chalkfold/sync/store"
	"chalkfold/sync/store/idb"
	"chalkfold/ui"
)

func main() {
	if !js.Global().Get("document").Truthy() {
		work()
		return
	}
	ui.Run(ui.Deps{
		Open: func(ctx context.Context, told func(error)) (store.Store, error) {
			return idb.Open(ctx, js.Global().Get("chalkfold").Call("place").String(), told)
		},
		NewID:   newID,
		Now:     time.Now, //nolint:forbidigo // the one clock of the page, handed in here
		Helpers: helpers(),
		Cores:   cores(),
		Font:    fetchFont,
		Words:   fetchWords,
		Line:    line{},
		Listen:  listen,
		Random:  randomBytes,
	})
}
