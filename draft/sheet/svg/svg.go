// Package svg writes a sheet.Drawing as SVG.
package svg

import (
	"io"

	"chalkfold/draft/sheet"
)

// Options say what the file is for. The zero value is for print: true
// millimetres.
type Options struct {
	// Screen fills whatever box it is shown in, with lines that keep their
	// width at any size.
	Screen bool
	// Prefix goes before every id, for several drawings on one page.
	Prefix string
	Title  string
}

// Write writes d.
func Write(w io.Writer, d sheet.Drawing, opt Options) error { return nil }
