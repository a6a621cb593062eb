package ui

import (
	"strings"

	"chalkfold/draft/sheet"
	"chalkfold/ui/engine"
	"chalkfold/ui/share"
)

// The kinds of the other files.
const svgKind, pdfKind, pngKind, dxfKind = "image/svg+xml", "application/pdf", "image/png", "image/vnd.dxf"

// formKind is the kind of file of one of the other forms.
func formKind(what string) (kind string, ok bool) {
	switch what {
	case engine.Cards, engine.Miniature, engine.Lesson, engine.Handover, engine.Bill, engine.Marks, engine.Check:
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
	if what == engine.Check { // of no job
		return "test-sheet.pdf", pdfKind
	}
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

// tallied is how many sheets a form takes.
type tallied struct {
	id uint32 // of the task
	of source
	engine.Counts
}

// wantTally has the sheets counted of the forms that are looked at, unless they are.
func (d *Desk) wantTally() {
	s := &d.view.share
	for _, form := range []string{engine.Cards, engine.Lesson} {
		t, of := s.tally[form], d.source(form)
		if s.group != share.GroupOf(form) || t != nil && t.of == of {
			continue
		}
		if t != nil {
			d.helpers.Stop(t.id)
		}
		t = &tallied{of: of}
		if s.tally == nil {
			s.tally = map[string]*tallied{}
		}
		s.tally[form] = t
		o := d.paperOrder(of)
		o.Form = form
		t.id = d.ask(d.work.Result, engine.Count, o, true, func(a engine.Answer) {
			if a.Is == engine.Done {
				t.Counts = engine.Counted(a.Data)
			}
		})
	}
}

// tallies tell how many sheets the forms take, by form.
func (d *Desk) tallies() map[string]string {
	said := map[string]string{}
	p, _ := sheet.PaperNamed(d.paper())
	say := func(form string, n, least int) {
		said[form] = d.N(n, "%d sheet of %s", "%d sheets of %s", p.Name)
		if p.Roll() {
			said[form] = d.N(n, "%d page cut off the roll", "%d pages cut off the roll")
		}
		if 0 < least && least < n {
			said[form] = d.F("%s; fewer than %d cannot be", said[form], least)
		}
	}
	for form, t := range d.view.share.tally {
		if t.Sheets > 0 && t.of == d.source(form) {
			say(form, t.Sheets, t.Least)
		}
	}
	say(engine.Miniature, 1, 1)
	say(engine.Handover, 1, 1)
	return said
}
