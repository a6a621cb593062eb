package pdf_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"chalkfold/draft/piece"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/sheettest"
)

// altered are the pieces after an alteration: one longer than its place, one a
// little larger, one gone and one new.
func altered() []piece.Piece {
	var out []piece.Piece
	for _, p := range sheettest.Pieces() {
		switch p.ID {
		case "welt":
			p = sheettest.Oblong("tab", "Tab", 60, 300, 1, false)
		case "waistband":
			p = sheettest.Oblong("waistband", "Waistband", 37*25.4, 5*25.4, 1, false)
		case "fly-facing":
			p = sheettest.Oblong("fly-facing", "Fly facing", 4*25.4, 7.1*25.4, 2, true)
		}
		out = append(out, p)
	}
	return out
}

// The old sheets with those reprinted in their places show, in a rendering, what
// the whole pattern printed anew shows, the squares and join marks apart; and no
// sheet is reprinted that shows the same.
func TestOldSheetsWithTheReprinted(t *testing.T) {
	opt, tile := sheet.Options{Job: "Alto 3"}, sheet.TileOptions{Job: "Alto 3", Work: 1}
	d, err := sheet.OnPaper(sheettest.Pieces(), sheet.A4(), opt, tile)
	if err != nil {
		t.Fatal(err)
	}
	old, err := sheet.Tiles(d, sheet.A4(), tile)
	if err != nil {
		t.Fatal(err)
	}
	again, err := sheet.Since([]sheet.Edition{{Pieces: sheettest.Pieces()}}, altered(), sheet.A4(), opt, tile)
	if err != nil {
		t.Fatal(err)
	}
	if again.Plan != old.Plan || again.All.Plan != old.Plan {
		t.Errorf("plan %s beside old sheets of plan %s", again.Plan, old.Plan)
	}
	if n := len(again.Pages); n == 0 || n > old.Sheets*2/3 {
		t.Errorf("%d of %d sheets are printed again", n, again.All.Sheets)
	}
	was, now := save(t, "old", patternsOf(old)), save(t, "new", patternsOf(again.All))
	blank := render(t, save(t, "blank", []sheet.Drawing{{Bounds: old.Pages[0].Sheet.Bounds}}), 1)
	for i, p := range again.All.Pages {
		place := strconv.Itoa(p.Row) + "/" + strconv.Itoa(p.Col)
		k := slices.IndexFunc(old.Pages, func(o sheet.Page) bool { return o.Row == p.Row && o.Col == p.Col })
		before := blank
		if k >= 0 {
			before = render(t, was, k+1)
		}
		off := differing(before, render(t, now, i+1))
		if printed := slices.Contains(again.Pages, i); printed && off == 0 || !printed && off > 0 {
			t.Errorf("%s: printed again %v, with %d pixels that differ", place, printed, off)
		}
	}
	for _, p := range old.Pages {
		place := strconv.Itoa(p.Row) + "/" + strconv.Itoa(p.Col)
		still := slices.ContainsFunc(again.All.Pages, func(q sheet.Page) bool { return q.Row == p.Row && q.Col == p.Col })
		if still == slices.Contains(again.Void, place) {
			t.Errorf("%s: of the pattern still %v, told as void %v", place, still, again.Void)
		}
	}
}

// differing counts the pixels that are dark on one page and light on the other,
// with no such pixel beside it on the other: a line at the edge of a pixel may
// fall to either side.
func differing(a, b raster) int {
	n := 0
	dark := func(r raster, x, y, reach int) bool {
		for dy := -reach; dy <= reach; dy++ {
			for dx := -reach; dx <= reach; dx++ {
				if r.px[min(max(y+dy, 0), r.h-1)*r.w+min(max(x+dx, 0), r.w-1)] < 160 {
					return true
				}
			}
		}
		return false
	}
	for y := range a.h {
		for x := range a.w {
			if dark(a, x, y, 0) && !dark(b, x, y, 1) || dark(b, x, y, 0) && !dark(a, x, y, 1) {
				n++
			}
		}
	}
	return n
}

// patternsOf are the sheets without squares and join marks.
func patternsOf(of sheet.Tiled) []sheet.Drawing {
	var out []sheet.Drawing
	for _, p := range of.Pages {
		d := sheet.Drawing{Bounds: p.Sheet.Bounds}
		skipped := 0
		for _, it := range p.Sheet.Items {
			switch v := it.(type) {
			case sheet.Group:
				if skipped > 0 || strings.HasPrefix(v.ID, "squares-") {
					skipped++
					continue
				}
			case sheet.Ungroup:
				if skipped > 0 {
					skipped--
					continue
				}
			case sheet.Shape:
				if v.Role == sheet.Frame {
					continue
				}
			case sheet.Text:
				if slices.ContainsFunc(of.Joins, func(j sheet.Join) bool { return j.Code == v.S && v.Role == sheet.Note }) {
					continue
				}
			}
			if skipped == 0 {
				d.Items = append(d.Items, it)
			}
		}
		out = append(out, d)
	}
	return out
}

func TestRollIsPrintedWhole(t *testing.T) {
	roll := sheet.Rolls()[0]
	if _, err := sheet.Since([]sheet.Edition{{Pieces: sheettest.Pieces()}}, altered(), roll, sheet.Options{}, sheet.TileOptions{}); err == nil || !strings.Contains(err.Error(), "printed whole") {
		t.Errorf("a roll: %v", err)
	}
	same, err := sheet.Since([]sheet.Edition{{Pieces: sheettest.Pieces()}}, sheettest.Pieces(), sheet.A4(), sheet.Options{}, sheet.TileOptions{Work: 1})
	if err != nil || len(same.Pages) > 0 || len(same.Void) > 0 {
		t.Errorf("nothing changed: %v, %v, %v", same.Places(), same.Void, err)
	}
}
