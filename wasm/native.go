//go:build !js

// Wasm is the one program of the browser. Built for anything else it only says
// so.
package main

import (
	"fmt"
	"os"
)

func main() {
	fmt.Fprintln(os.Stderr, "this program runs in a browser: start it with `make run`")
	os.Exit(2)
}
