package draft

import (
	"fmt"
	"slices"
	"strings"

	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/sheet"
)

// Paper says how the pieces are printed: on what, and which of them.
type Paper struct {
	sheet.Paper
	Printer sheet.Correction
	Only    []string // IDs of the pieces wanted; empty means all
	Without []string // and of those left out
	// Work, Step and Found are those of sheet.TileOptions; they may be left out.
	Work  int
	Step  func() bool
	Found func(sheets int)
}

// Sheets lays the pieces on sheets of paper, true to scale.
func Sheets(r *Result, on Paper) (sheet.Tiled, error) {
	pieces, err := on.Pieces(r)
	if err != nil {
		return sheet.Tiled{}, err
	}
	tile := on.tiles(r)
	d, err := sheet.OnPaper(pieces, on.Paper, paperOptions(r), tile)
	if err != nil {
		return sheet.Tiled{}, fmt.Errorf("sheets: %w", err)
	}
	tiled, err := sheet.Tiles(d, on.Paper, tile)
	if err != nil {
		return sheet.Tiled{}, fmt.Errorf("sheets: %w", err)
	}
	return tiled, nil
}

func (on Paper) tiles(r *Result) sheet.TileOptions {
	return sheet.TileOptions{Job: r.Job.Name, Words: r.Format.Words, Printer: on.Printer, Work: on.Work, Step: on.Step, Found: on.Found}
}

func paperOptions(r *Result) sheet.Options {
	return sheet.Options{Job: r.Job.Name, Words: r.Format.Words}
}

// SheetsSince are the sheets on which r differs from old, which was printed on
// the same paper, of pieces chosen alike. What old and r share lies where it lay.
func SheetsSince(r, old *Result, on Paper) (sheet.Reprint, error) {
	pieces, err := on.Pieces(r)
	if err != nil {
		return sheet.Reprint{}, err
	}
	out, err := sheet.Since(on.of(old.Pieces), pieces, on.Paper, paperOptions(r), on.tiles(r))
	if err != nil {
		return sheet.Reprint{}, fmt.Errorf("sheets: %w", err)
	}
	return out, nil
}

// of returns those of the pieces that are wanted.
func (on Paper) of(pieces []piece.Piece) []piece.Piece {
	var out []piece.Piece
	for _, p := range pieces {
		if (len(on.Only) == 0 || slices.Contains(on.Only, p.ID)) && !slices.Contains(on.Without, p.ID) {
			out = append(out, p)
		}
	}
	return out
}

// Pieces returns the pieces that are to be printed.
func (on Paper) Pieces(r *Result) ([]piece.Piece, error) {
	var all []string
	for _, p := range r.Pieces {
		all = append(all, p.ID)
	}
	for _, id := range slices.Concat(on.Only, on.Without) {
		if !slices.Contains(all, id) {
			return nil, say.Errorf("piece %q is not in this draft; take one of %s", id, strings.Join(all, ", "))
		}
	}
	out := on.of(r.Pieces)
	if len(out) == 0 {
		return nil, say.Errorf("no piece is left to print; leave fewer out")
	}
	return out, nil
}
