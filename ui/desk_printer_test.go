//go:build !js

package ui

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/pdf"
	"chalkfold/draft/sheet/pdf/noto"
	"chalkfold/sync/store/mem"
	"chalkfold/ui/share"
)

// printed is the pattern as it is to be printed.
func printed(t *testing.T, b tried, on draft.Paper) []byte {
	t.Helper()
	on.Paper = sheet.A4()
	on.Work = someWork
	tiled, err := draft.Sheets(b.work.Result, on)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := pdf.Write(&out, draft.Title(b.work.Result), tiled.Drawings(), pdf.Options{Font: noto.Sans()}); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// measures writes down what was measured, and has the printer corrected.
func measures(b tried, name, across, along string) {
	v := b.shareView().Printer
	v.OnType(share.PrinterName, name)
	v.OnType(share.PrinterAcross, across)
	v.OnType(share.PrinterAlong, along)
	v.OnCheck()
	b.settle()
}

// A printer is measured by the square that it printed, corrected from then on,
// and measured again on top of that; this device keeps it by its name.
func TestPrinterIsChecked(t *testing.T) {
	b, h := sharing(t)
	for _, tt := range []struct{ name, across, along, want string }{
		{"", "99.6 mm", "100 mm", "Give the printer a name"},
		{"Stall", "wide", "100 mm", "no figure"},
		{"Stall", "94 mm", "94 mm", "not fitted to the page"},
	} {
		measures(b, tt.name, tt.across, tt.along)
		if bad := b.shareView().Printer.Bad; !strings.Contains(bad, tt.want) || len(b.settings.Printers) > 0 {
			t.Errorf("%+v: %q, %v", tt, bad, b.settings.Printers)
		}
	}
	near := func(got int, want float64) bool { return math.Abs(float64(got)-want*million) <= 1 }
	measures(b, "Stall", "99.6 mm", "10 cm")
	if p := b.settings.printer(); p.Name != "Stall" || !near(p.Across, 100/99.6) || !near(p.Along, 1) {
		t.Fatalf("corrected as %+v", p)
	}
	b.shows("It is sent 100.4 % of the length across the sheet, and 100.0 % along it.")
	b.shareView().OnFile(share.Sheets, false)
	b.settle()
	if !bytes.Equal(h.file, printed(t, b, draft.Paper{Printer: b.settings.printer().correction()})) {
		t.Error("it is not printed as it is corrected")
	}
	measures(b, "Stall", "100.2 mm", "4")
	if p := b.settings.printer(); len(b.settings.Printers) != 1 || !near(p.Across, 100/99.6*100/100.2) {
		t.Errorf("measured again it is %+v", b.settings.Printers)
	}
	b.shareView().Printer.OnUse("")
	measures(b, "School", "4", "101 mm")
	next := open(t, b.store.(*mem.Store), nil)
	if next.settings.Printer != "School" || len(next.settings.Printers) != 2 {
		t.Errorf("the next window has %+v", next.settings)
	}
	b.shareView().Printer.OnForget()
	if len(b.settings.Printers) != 1 || b.settings.printer() != (Printer{}) {
		t.Errorf("forgotten, there are %+v", b.settings)
	}
}

// What is left out is not printed, and fewer sheets are counted.
func TestPiecesAreLeftOut(t *testing.T) {
	b, h := sharing(t)
	all := b.view.share.count.Counts
	b.shareView().OnPiece("front")
	b.shareView().OnPiece("back")
	b.shareView().OnPiece("front")
	b.shareView().OnPiece("front")
	b.settle()
	if n := b.view.share.count.Counts; n.Sheets == 0 || n.Sheets >= all.Sheets || n.Least >= all.Least {
		t.Errorf("%+v without the largest pieces, %+v with them", n, all)
	}
	b.shareView().OnFile(share.Sheets, false)
	b.settle()
	if !bytes.Equal(h.file, printed(t, b, draft.Paper{Without: []string{"back", "front"}})) {
		t.Error("something else is printed")
	}
	b.shareView().OnPaper("24 in roll")
	b.settle()
	b.shows(" of the roll", "Roll of 24 in")
}
