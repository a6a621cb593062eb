//go:build js && wasm

// Edge serves the page and the second copies of workshops on a Workers runtime,
// where no machine has to be looked after and many workshops are spread over many.
//
// Each workshop has an object of its own (a Durable Object with SQLite), in which an
// instance of this program stays: the same handler, the same statements, one writer.
// The front is another instance, for each request, which finds the object and passes
// the message on. The files of the page are answered before any Go runs.
//
//	front.mjs   answers files; passes listeners to their object; else this program
//	front.go    finds the object of a message, or answers by itself on D1
//	object.mjs  hosts the program in an object
//	object.go   answers messages within one
//
// With the variable STORE set to "d1" all workshops share one database, behind the
// same statements: for few workshops, or to look at them with other tools.
//
// `make edge` packs all that is deployed into .build/edge; the README says how.
package main

import (
	"syscall/js"

	"github.com/syumai/workers"
)

func main() {
	if role := js.Global().Get("context").Get("role"); role.Truthy() && role.String() == "object" {
		serveObject()
		return
	}
	workers.Serve(front())
}
