//go:build !js

package ui

import (
	"bytes"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/sheet"
	"chalkfold/ui/engine"
)

// Every form is made beside the page and handed over as what it is; the page that
// goes with the job has its lay once there is one.
func TestShareForms(t *testing.T) {
	b, h := sharing(t)
	for _, tt := range []struct{ form, name, kind, begins string }{
		{engine.Cards, "alto-3-cards.pdf", pdfKind, "%PDF-"},
		{engine.Strip, "alto-3-strip.png", pngKind, "\x89PNG"},
		{engine.Miniature, "alto-3-miniature.pdf", pdfKind, "%PDF-"},
		{engine.Lesson, "alto-3-lesson.pdf", pdfKind, "%PDF-"},
		{engine.Handover, "alto-3-handover.pdf", pdfKind, "%PDF-"},
		{engine.Machine, "alto-3-machine.dxf", dxfKind, "999\n"},
		{engine.Numbered, "alto-3-numbered.dxf", dxfKind, "999\n"},
		{engine.Check, "test-sheet.pdf", pdfKind, "%PDF-"},
	} {
		b.shareView().OnFile(tt.form, false)
		b.settle()
		if h.name != tt.name || h.kind != tt.kind || !bytes.HasPrefix(bytes.ReplaceAll(h.file, []byte("\r"), nil), []byte(tt.begins)) {
			t.Errorf("%s: handed over %s, %s, beginning %.8q", tt.form, h.name, h.kind, h.file)
		}
		if v := b.shareView(); v.Making != "" || !strings.Contains(v.Told, tt.name) {
			t.Errorf("%s: making %q, told %q", tt.form, v.Making, v.Told)
		}
	}
	b.shareView().OnGroup("keep")
	b.settle()
	b.shows("Miniature", "Handover page")
	lesson, cards := draft.Lesson(b.work.Result, sheet.A4()), "2 sheets of A4; fewer than 1 cannot be"
	if told := b.shareView().Tally; told[engine.Miniature] != "1 sheet of A4" || told[engine.Lesson] != b.N(len(lesson), "%d sheet of %s", "%d sheets of %s", "A4") || told[engine.Cards] != "" {
		t.Errorf("the forms take %v", told)
	}
	b.shareView().OnGroup("table")
	b.settle()
	b.shows(cards)
	b.shareView().OnPaper("24 in roll")
	b.settle()
	b.shows("1 page cut off the roll")
	b.shareView().OnGroup("keep")
	if b.shareView().OnGroup("keep"); b.shareView().Group != "" {
		t.Error("a second tap does not close the group")
	}
}
