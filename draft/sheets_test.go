//go:build !js

package draft_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/prove"
	"chalkfold/draft/prove/provetest"
	"chalkfold/draft/sheet"
)

const sheetTable = "../testdata/sheets.md"

// mostCardSheets is what the curve cards of plain trousers may take.
const mostCardSheets = 3

// The forms of a pattern of trousers for surveyed bodies, in sheets: the whole never
// under its bound and a fifth fewer than on a plain grid, the curve cards on three at
// most, the miniature on one, and all as the table in the repository says, which is
// what a reader may expect. The plain grid has the pieces upright beside each other,
// its blank sheets left out.
func TestSheetsOfBodies(t *testing.T) {
	natively(t)
	style := prove.Styles()[0]
	var b strings.Builder
	fmt.Fprintf(&b, "Sheets for the whole pattern of trousers (style %q), each piece once, for surveyed\nbodies (testdata/body). The plain grid has the pieces upright beside each other, its\nblank sheets left out; the bound is the area of the pieces over what is printed of a\nsheet. Behind stand the curve cards, with their own bound, and the miniature. Written by\ngo test ./draft -run TestSheetsOfBodies -update.\n\n", style.Name)
	fmt.Fprintln(&b, "| body | hip, cm | paper | plain grid | sheets | bound | over the bound | fewer than plain | cards | bound | miniature |")
	fmt.Fprintln(&b, "| --- | ---: | --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |")
	plainSum, sum, bounds, cardSum, cardBounds := 0, 0, 0, 0, 0
	for _, body := range provetest.Bodies(t, 800)[:6] {
		r, err := draft.Make(style.Job(body))
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range []string{"A4", "Letter"} {
			paper, _ := sheet.PaperNamed(name)
			plain, err := sheet.Tiles(sheet.Draft(r.Pieces, sheet.Options{}), paper, sheet.TileOptions{})
			if err != nil {
				t.Fatal(err)
			}
			few, err := draft.Sheets(r, draft.Paper{Paper: paper})
			if err != nil {
				t.Fatal(err)
			}
			bound := few.Bound.Sheets()
			if few.Sheets < bound {
				t.Errorf("%s on %s: %d sheets, under the bound of %d", body.ID, name, few.Sheets, bound)
			}
			plainSum, sum, bounds = plainSum+plain.Sheets, sum+few.Sheets, bounds+bound
			cards, err := draft.CardSheets(r, paper)
			if err != nil {
				t.Fatal(err)
			}
			if n := len(cards.Sheets); n < cards.Bound || n > mostCardSheets {
				t.Errorf("%s on %s: the cards take %d sheets, want %d to %d", body.ID, name, n, cards.Bound, mostCardSheets)
			}
			if _, err := draft.Miniature(r, paper); err != nil {
				t.Errorf("%s on %s: no miniature on one sheet: %v", body.ID, name, err)
			}
			cardSum, cardBounds = cardSum+len(cards.Sheets), cardBounds+cards.Bound
			hip := body.Taken["hip_girth"].Value.Length().MM() / 10
			fmt.Fprintf(&b, "| %s | %.1f | %s | %d | %d | %d | %.2f | %.0f %% | %d | %d | 1 |\n", body.ID, hip, name, plain.Sheets, few.Sheets, bound,
				float64(few.Sheets)/float64(bound), 100*(1-float64(few.Sheets)/float64(plain.Sheets)), len(cards.Sheets), cards.Bound)
		}
	}
	fmt.Fprintf(&b, "| all | | | %d | %d | %d | %.2f | %.0f %% | %d | %d | |\n", plainSum, sum, bounds,
		float64(sum)/float64(bounds), 100*(1-float64(sum)/float64(plainSum)), cardSum, cardBounds)
	if float64(sum) > 0.8*float64(plainSum) {
		t.Errorf("%d sheets in all, want a fifth fewer than %d", sum, plainSum)
	}
	if *update {
		if err := os.WriteFile(sheetTable, []byte(b.String()), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(sheetTable)
	if err != nil || string(want) != b.String() {
		t.Errorf("the table is another one now; read it and write it anew with -update (%v):\n%s", err, b.String())
	}
}
