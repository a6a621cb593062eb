package main

import (
	"bytes"
	"context"
	"io"
	"os"
	"path/filepath"
	"testing"

	"chalkfold/wasm/browser"
)

// TestFormsOffline makes every other form with the server stopped. Each is byte for
// byte what the command line writes; the page that goes with the job has no lay
// here, and the test sheet is of no job, so those are only begun alike.
func TestFormsOffline(t *testing.T) {
	t.Parallel()
	s := openStall(t)
	tab := helped(t, browser.Open(t, ""), s)
	tab.Until(readyOffline)
	s.shut()
	turnTo(tab, "share")
	dir := t.TempDir()
	allowDownloads(tab, dir)
	for _, group := range []struct {
		opens string
		forms [][3]string // id, file, form of the command line
	}{
		{"#printer", [][3]string{{"check", "test-sheet.pdf", ""}}},
		{"#forms-table", [][3]string{{"cards", "alto-3-cards.pdf", "cards"}, {"strip", "alto-3-strip.png", "strip"}}},
		{"#forms-keep", [][3]string{{"miniature", "alto-3-miniature.pdf", "miniature"}, {"lesson", "alto-3-lesson.pdf", "lesson"}, {"handover", "alto-3-handover.pdf", ""}}},
		{"#forms-machine", [][3]string{{"machine", "alto-3-machine.dxf", "dxf"}, {"numbered", "alto-3-numbered.dxf", "dxf-numbered"}}},
	} {
		tap(tab, group.opens)
		for _, f := range group.forms {
			id, name, form := f[0], f[1], f[2]
			tap(tab, "#"+id+"-save")
			tab.Until(`document.querySelector("#` + id + `-told:not([hidden])")?.textContent.startsWith("Handed over")`)
			got := fileCame(t, filepath.Join(dir, name))
			if form == "" {
				if !bytes.HasPrefix(got, []byte("%PDF-1.7")) {
					t.Errorf("%s begins with %.20q", id, got)
				}
				continue
			}
			want := filepath.Join(t.TempDir(), name)
			if err := runPrint(context.Background(), []string{"-o", want, "-form", form, "../../testdata/jobs/alto-3.json"}, io.Discard, os.Stderr); err != nil {
				t.Fatal(err)
			}
			if printed, err := os.ReadFile(want); err != nil || !bytes.Equal(got, printed) {
				t.Errorf("%s: %d bytes from the page, %d from the command line, and not the same (%v)", id, len(got), len(printed), err)
			}
		}
	}
	shot(t, tab, "forms-offline")
	noProblems(t, tab)
}
