package ui

import (
	"strings"

	"chalkfold/ui/engine"
	"chalkfold/ui/share"
)

// The kinds of the other files.
const svgKind, pdfKind, pngKind, dxfKind = "image/svg+xml", "application/pdf", "image/png", "image/vnd.dxf"

// formKind is the kind of file of one of the other forms.
func formKind(what string) (kind string, ok bool) {
	switch what {
	case engine.Cards, engine.Miniature, engine.Lesson, engine.Handover, engine.Bill:
		return pdfKind, true
	case engine.Strip, engine.BillStrip:
		return pngKind, true
	case engine.Machine, engine.Numbered:
		return dxfKind, true
	}
	return "", false
}

// jsonKind is the kind of job files and backup files.
const jsonKind = "application/json"

// fileName is what a file is called, and of which kind it is.
func (d *Desk) fileName(what string) (name, kind string) {
	base := plainName(d.job.File.Name)
	if kind, form := formKind(what); form {
		ending := map[string]string{pdfKind: ".pdf", pngKind: ".png", dxfKind: ".dxf"}[kind]
		return base + "-" + what + ending, kind
	}
	switch what {
	case share.Sheets:
		return base + "-" + strings.ReplaceAll(strings.ToLower(d.paper()), " ", "-") + ".pdf", pdfKind
	case share.Reprint:
		return base + "-changed.pdf", pdfKind
	case share.Pieces:
		return base + "-pieces.svg", svgKind
	case share.Diagram:
		return base + "-cloth.pdf", pdfKind
	case share.DiagramSVG:
		return base + "-cloth.svg", svgKind
	case share.CodeFile:
		return d.codeName(), svgKind
	default:
		return base + ".json", jsonKind
	}
}
