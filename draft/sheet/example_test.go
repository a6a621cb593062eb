package sheet_test

import (
	"fmt"

	"chalkfold/draft/piece"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/sheettest"
)

// Pieces are placed on paper and cut into sheets with the same paper and
// options; sheet/pdf writes the Drawings of the result.
func Example() {
	pieces := []piece.Piece{sheettest.Oblong("band", "Band", 500, 60, 1, false)}
	opt := sheet.TileOptions{Job: "Alto 3"}
	d, err := sheet.OnPaper(pieces, sheet.A4(), sheet.Options{Job: "Alto 3"}, opt)
	if err != nil {
		fmt.Println(err)
		return
	}
	out, err := sheet.Tiles(d, sheet.A4(), opt)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(out.Sheets, "sheets, never under", out.Bound.Sheets())
	for _, p := range out.Pages {
		fmt.Printf("row %d / column %d\n", p.Row, p.Col)
	}
	// Output:
	// 2 sheets, never under 2
	// row 1 / column 1
	// row 2 / column 1
}
