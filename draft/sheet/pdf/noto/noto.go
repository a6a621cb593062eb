// Package noto holds the typeface of the project's PDFs: Noto Sans Regular
// (licence beside it, OFL.txt), without hints, kerning or layout tables, cut
// down to the letters listed in FONT.md, which also says how it was made.
//
// The page's program is built without it, since it is 11 kB of the first load
// and only a PDF wants it: there it is a file of the page, fetched by whoever
// makes the first PDF.
package noto

import _ "embed"

//go:embed notosans-subset.ttf
var sans []byte

// Sans returns the font, a TrueType file. It must not be changed.
func Sans() []byte { return sans }
