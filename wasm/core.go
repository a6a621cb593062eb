//go:build js && wasm

package main

import (
	"chalkfold/draft/garment/trouser"
	"chalkfold/ui"
)

// core is the drafting core as the page uses it.
func core() ui.Core {
	return ui.Core{Garment: trouser.Garment()}
}
