//go:build js && wasm

package main

import (
	"context"
	"errors"
	"syscall/js"
)

// persist asks the browser not to clear what is kept when the phone is full,
// and returns its answer.
func persist(ctx context.Context) (bool, error) {
	storage := js.Global().Get("navigator").Get("storage")
	if !storage.Truthy() || !storage.Get("persist").Truthy() {
		return false, errors.New("this browser makes no promise to keep anything")
	}
	answer := make(chan bool, 1)
	failed := make(chan struct{}, 1)
	yes := js.FuncOf(func(_ js.Value, args []js.Value) any {
		answer <- args[0].Truthy()
		return nil
	})
	defer yes.Release()
	no := js.FuncOf(func(js.Value, []js.Value) any {
		failed <- struct{}{}
		return nil
	})
	defer no.Release()
	storage.Call("persist").Call("then", yes, no)
	select {
	case granted := <-answer:
		return granted, nil
	case <-failed:
		return false, errors.New("the browser gave no answer about keeping the jobs")
	case <-ctx.Done():
		return false, ctx.Err()
	}
}
