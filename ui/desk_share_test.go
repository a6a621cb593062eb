//go:build !js

package ui

import (
	"bytes"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/pdf"
	"chalkfold/draft/sheet/pdf/noto"
	"chalkfold/sync/store/mem"
	"chalkfold/testdata/jobs"
	"chalkfold/ui/share"
)

// shared is what was handed over last.
type shared struct {
	name, kind string
	file       []byte
	send       bool
	times      int
}

// sharing is a desk with the sample at the stage Share.
func sharing(t *testing.T) (tried, *shared) {
	t.Helper()
	b := open(t, &mem.Store{}, nil)
	b.openSample()
	b.settle()
	h := &shared{}
	b.hand = func(name, kind string, file []byte, send bool, done func(bool)) {
		*h = shared{name, kind, file, send, h.times + 1}
		done(true)
	}
	b.stage = stageShare
	b.wantCount()
	b.settle()
	return b, h
}

func TestShareSheets(t *testing.T) {
	b, h := sharing(t)
	papers := []sheet.Paper{sheet.A4(), sheet.Papers()[2]}
	for _, paper := range papers {
		b.shareView().OnPaper(paper.Name)
		b.settle()
		tiled, err := draft.Sheets(b.work.Result, draft.Paper{Paper: paper, Work: someWork})
		if err != nil {
			t.Fatal(err)
		}
		var want bytes.Buffer
		if err := pdf.Write(&want, draft.Title(b.work.Result), tiled.Drawings(), pdf.Options{Font: noto.Sans()}); err != nil {
			t.Fatal(err)
		}
		b.shows(b.N(tiled.Sheets, "%d sheet of %s", "%d sheets of %s", paper.Name))
		b.shareView().OnFile(share.Sheets, false)
		b.settle()
		if h.name != "alto-3-"+strings.ToLower(paper.Name)+".pdf" || h.kind != "application/pdf" || !bytes.Equal(h.file, want.Bytes()) {
			t.Errorf("%s: handed over %s of %d bytes, want %d", paper.Name, h.name, len(h.file), want.Len())
		}
	}
	b.shows("Handed over as alto-3-letter.pdf.")
	made := len(papers)
	// What is made already is sent at once.
	b.shareView().OnFile(share.Sheets, true)
	if h.times != made+1 || !h.send {
		t.Errorf("handed over %d times, sent %t", h.times, h.send)
	}
	// Stopped: nothing comes.
	b.shareView().OnPaper("A4")
	b.shareView().OnFile(share.Sheets, false)
	if b.shareView().Making != share.Sheets {
		t.Error("it does not say that it makes the file")
	}
	b.shareView().OnStop()
	b.settle()
	if v := b.shareView(); h.times != made+1 || v.Making != "" || v.Told != "" {
		t.Errorf("after Stop: handed over %d times, %q, %q", h.times, v.Making, v.Told)
	}
}

func TestShareDiagram(t *testing.T) {
	b, h := sharing(t)
	b.shows("Lay the pieces on the cloth first.")
	b.stage = stageCloth
	b.wantLay()
	b.settle()
	b.stage = stageShare
	b.shareView().OnFile(share.DiagramSVG, false)
	b.settle()
	best, _, _ := b.laying.best.Lay()
	used := b.work.Result.Format.Text(best.Length) + " used"
	if h.name != "alto-3-cloth.svg" || !bytes.Contains(h.file, []byte(used)) {
		t.Errorf("handed over %s; %q is not in it", h.name, used)
	}
	b.shareView().OnFile(share.Diagram, false)
	b.settle()
	if h.name != "alto-3-cloth.pdf" || !bytes.HasPrefix(h.file, []byte("%PDF")) || bytes.Count(h.file, []byte("/MediaBox")) != 1 {
		t.Errorf("handed over %s: %.20q", h.name, h.file)
	}
	b.shareView().OnFile(share.Pieces, false)
	b.settle()
	if h.name != "alto-3-pieces.svg" || !bytes.Contains(h.file, []byte(`mm" viewBox`)) {
		t.Errorf("handed over %s: %.90q", h.name, h.file)
	}
}

func TestShareGuide(t *testing.T) {
	b, _ := sharing(t)
	text := b.guideText()
	marks := b.work.Marks()
	if n := strings.Count(text, "\n"); n < len(marks.Marks) {
		t.Errorf("%d lines for %d marks", n, len(marks.Marks))
	}
	for _, want := range []string{"Alto 3, trousers\nChalk guide\n", "\nFRONT\n", "1. "} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in %.300s", want, text)
		}
	}
}

func TestJobFile(t *testing.T) {
	b, h := sharing(t)
	b.shareView().OnFile(share.JobFile, false)
	want := jobs.File(t, "alto-3.json")
	if h.name != "alto-3.json" || !bytes.Equal(h.file, want) {
		t.Errorf("handed over %s:\n%s", h.name, h.file)
	}
	before := b.keeper.id
	tests := []struct{ name, text, want string }{
		{"nothing", "", "This is no job file"},
		{"no job", "{}", "This is no job file"},
		{"half a job", string(want[:200]), "This is no job file"},
		{"another garment", strings.Replace(string(want), "trousers", "sail", 1), "does not draft"},
	}
	for _, tt := range tests {
		b.shareView().OnOpen(tt.text)
		if l := b.shareView().Looking; l == nil || !strings.Contains(l.Fault, tt.want) {
			t.Errorf("%s: %+v", tt.name, l)
		}
		b.shareView().OnKeep()
	}
	b.shareView().OnOpen(strings.Replace(string(want), "Alto 3", "Bass 1", 1))
	b.shows("A draft to look at: Bass 1", "5 measurements are in it.")
	b.shareView().OnLeave()
	b.shareView().OnKeep()
	if b.job.File.Name != "Alto 3" {
		t.Error("kept what was left")
	}
	b.shareView().OnOpen(strings.Replace(string(want), "Alto 3", "Bass 1", 1))
	b.shareView().OnKeep()
	b.settle()
	if b.job.File.Name != "Bass 1" || b.keeper.id == before || b.stage != stageTape {
		t.Errorf("%q under %q at %s", b.job.File.Name, b.keeper.id, b.stage)
	}
	b.listJobs()
	b.settle()
	if n := len(b.records); n != 2 {
		t.Errorf("%d jobs, want both", n)
	}
}

// TestPlainName: a file name that every system takes.
func TestPlainName(t *testing.T) {
	for ticket, want := range map[string]string{
		"Alto 3": "alto-3", "": "chalkfold-job", "///": "chalkfold-job", "a/b\\c:d": "a-b-c-d", "Ọlá": "Ọlá",
	} {
		if got := plainName(ticket); got != want {
			t.Errorf("%q is %q, want %q", ticket, got, want)
		}
	}
}

// TestCloths adds a cloth, describes it, and takes one out from before it.
func TestCloths(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	b.openSample()
	b.settle()
	b.stage = stageCloth
	b.clothView().OnAdd()
	b.clothView().OnName("grey twill")
	b.clothView().OnLength("width", "54")
	b.clothView().OnLength("margin", "3/4")
	b.clothView().OnLength("gap", "1/8")
	b.clothView().OnKind("interfacing")
	b.settle()
	c := b.job.File.Cloth
	if len(c) != 3 || c[2].Name != "grey twill" || c[2].Width.String() != "54 in" || c[2].Margin.String() != "¾ in" ||
		c[2].Gap.String() != "⅛ in" || c[2].Kind != "interfacing" {
		t.Fatalf("the cloths are %+v", c)
	}
	b.shows("Grey twill", "off the bolt")
	b.clothView().OnLength("width", "wide")
	b.settle()
	b.clothView().OnAt(0)
	b.clothView().OnRemove()
	b.settle()
	if c := b.job.File.Cloth; len(c) != 2 || c[0].Name != "pocketing" {
		t.Fatalf("the cloths are %+v", c)
	}
	b.clothView().OnAt(1)
	if v := b.clothView(); v.Name != "grey twill" || v.Fields[0].Text != "wide" || v.Fields[0].Bad == "" || v.Fields[2].Text != "3/4" {
		t.Errorf("what was typed for it is %+v", v.Fields)
	}
	b.step(false)
	b.settle()
	if c := b.job.File.Cloth; len(c) != 3 || c[0].Name != "navy suiting" {
		t.Errorf("taken back, the cloths are %+v", c)
	}
}
