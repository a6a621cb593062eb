//go:build !js

package ui

import (
	"bytes"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/sheet"
	"chalkfold/sync/store/mem"
	"chalkfold/ui/engine"
	"chalkfold/ui/share"
)

// prints makes a file and hands it over.
func prints(b tried, what string) {
	b.shareView().OnFile(what, false)
	b.settle()
}

// alters measures anew, and comes back to the stage.
func alters(b tried, id body.ID, text string) {
	b.job.Measure(id, text, "2031-05-17")
	b.changed(string(id))
	b.settle()
	b.stage = stageShare
	b.wants()
	b.settle()
}

func pagesIn(pdf []byte) int { return bytes.Count(pdf, []byte("/MediaBox")) }

// What was printed is known from then on, in the next window too: an altered
// draft has only the sheets printed that have changed, those beside them stay
// good, and both may be at hand until it is said that they are replaced.
func TestReprint(t *testing.T) {
	b, h := sharing(t)
	if b.shareView().Reprint != nil {
		t.Error("something is printed before anything was")
	}
	prints(b, share.Sheets)
	whole := pagesIn(h.file)
	b.shows("No sheet has changed since.", "Last print: ")
	alters(b, body.OutsideLegLength, "40 1/2")
	first := *b.shareView().Reprint
	if !first.May || first.Open {
		t.Fatalf("altered: %+v", first)
	}
	prints(b, share.Reprint)
	some := pagesIn(h.file)
	if some == 0 || some >= whole || h.name != "alto-3-changed.pdf" {
		t.Errorf("%d of %d sheets printed anew as %s", some, whole, h.name)
	}
	// What is made already is sent at once.
	times := h.times
	b.shareView().OnFile(share.Reprint, true)
	if h.times != times+1 || !h.send {
		t.Error("it is made again to be sent")
	}
	// Laid back: both the old and the new sheets may lie there.
	alters(b, body.OutsideLegLength, "40")
	if v := b.shareView().Reprint; !v.May || !v.Open || v.Say != first.Say {
		t.Errorf("laid back: %+v, want %q", v, first.Say)
	}
	alters(b, body.OutsideLegLength, "40 1/2")
	b.shareView().Reprint.OnReplaced()
	b.settle()
	b.shows("No sheet has changed since.")
	next := open(t, b.store.(*mem.Store), nil)
	if !bytes.Equal(next.job.Printed, b.job.Printed) {
		t.Error("the next window does not know what was printed")
	}
	// Undone, the paper is still there.
	b.step(false)
	b.settle()
	if v := b.shareView().Reprint; v == nil || !v.May {
		t.Errorf("undone: %+v", v)
	}
	alters(b, body.HipGirth, "48")
	b.shows("So much has changed")
	if b.shareView().Reprint.May {
		t.Error("it prints as many sheets as the whole takes")
	}
	measures(b, "Stall", "99.6 mm", "4")
	b.shows("print the whole pattern anew")
}

// The sheets that are told are those that the core tells.
func TestReprintIsTheCores(t *testing.T) {
	b, _ := sharing(t)
	old := b.work.Result
	prints(b, share.Sheets)
	alters(b, body.OutsideLegLength, "40 1/2")
	again, err := draft.SheetsSince(b.work.Result, []draft.Printed{{Result: old}}, draft.Paper{Paper: sheet.A4(), Work: someWork})
	if err != nil {
		t.Fatal(err)
	}
	want := strings.Join(again.Places(), ", ")
	if say := b.shareView().Reprint.Say; !strings.Contains(say, want) {
		t.Errorf("%q, want the sheets %s", say, want)
	}
	if p, ok := engine.ReadPrint(b.job.Printed); !ok || p.Plan != again.Plan || !slices.Equal(p.Encode(), b.job.Printed) || len(p.Encode()) > 1500 {
		t.Errorf("kept as plan %s in %d bytes, want %s", p.Plan, len(b.job.Printed), again.Plan)
	}
}

// Of a print that cannot be read, or of one that is drafted otherwise now, no
// sheet is said to be good.
func TestReprintOfAnother(t *testing.T) {
	b, _ := sharing(t)
	prints(b, share.Sheets)
	good := string(b.job.Printed)
	ink := regexp.MustCompile(`",\d+,\[`)
	for _, tt := range []struct{ name, print, want string }{
		{"another paper", strings.Replace(good, `"A4"`, `"A9"`, 1), "what was printed cannot be read"},
		{"other lines", ink.ReplaceAllString(good, `",7,[`), "drafts otherwise"},
		{"a piece less", strings.Replace(good, `"front"`, `"other"`, 1), "print the whole pattern anew"},
		{"a slip cut short", strings.Replace(good, good[strings.Index(good, `,["`)+3:][:8], "", 1), "what was printed cannot be read"},
	} {
		b.job.Printed = []byte(tt.print)
		b.wants()
		b.settle()
		if v := b.shareView().Reprint; v == nil || v.May || !strings.Contains(strings.ToLower(v.Say), tt.want) {
			t.Errorf("%s: %+v", tt.name, v)
		}
	}
	b.job.Printed = []byte("[]")
	if v := b.shareView().Reprint; v != nil {
		t.Errorf("no print at all: %+v", v)
	}
}

// The record of a job that was printed, and printed again in part, opens for ever.
func TestEarlierPrint(t *testing.T) {
	data, err := os.ReadFile("testdata/kept-3-printed.json")
	if err != nil {
		t.Fatal(err)
	}
	j, err := DecodeJob(data)
	if err != nil {
		t.Fatal(err)
	}
	p, ok := engine.ReadPrint(j.Printed)
	if !ok || p.Plan != "4UXL" || p.Sheets != 25 || p.Paper() != "A4" || !p.Open() || p.Last().Open() || !bytes.Equal(p.Encode(), j.Printed) {
		t.Errorf("%v, %+v", ok, p)
	}
	if k := again(t, j); !bytes.Equal(k.Printed, j.Printed) {
		t.Errorf("kept anew it is %s", k.Printed)
	}
}
