package draft

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"chalkfold/draft/geom"
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

// Printed is a draft as it was printed.
type Printed struct {
	*Result
	Lies []sheet.Lie // see sheet.Edition
}

// SheetsSince are the sheets on which r differs from what was printed of it
// before, the first time whole, on the same paper, of pieces chosen alike. What
// the last one and r share lies where it lay.
func SheetsSince(r *Result, before []Printed, on Paper) (sheet.Reprint, error) {
	pieces, err := on.Pieces(r)
	if err != nil {
		return sheet.Reprint{}, err
	}
	var editions []sheet.Edition
	for _, p := range before {
		editions = append(editions, sheet.Edition{Pieces: on.of(p.Pieces), Lies: p.Lies})
	}
	out, err := sheet.Since(editions, pieces, on.Paper, paperOptions(r), on.tiles(r))
	if err != nil {
		return sheet.Reprint{}, fmt.Errorf("sheets: %w", err)
	}
	return out, nil
}

// Ink tells drafts apart by the lines that are cut and sewn along: a draft that
// was printed and is drafted again has the same.
func (on Paper) Ink(r *Result) uint32 {
	h := uint32(2166136261) // FNV-1a
	add := func(pts []geom.Pt) {
		for _, p := range pts {
			for _, v := range [2]float64{p.X, p.Y} {
				n := uint32(int64(math.Round(v * 100)))
				for shift := 0; shift < 32; shift += 8 {
					h = (h ^ n>>shift&0xff) * 16777619
				}
			}
		}
	}
	for _, p := range on.of(r.Pieces) {
		add(p.Cut)
		for _, e := range p.Edges {
			add([]geom.Pt{e.Sew.Start(), e.Sew.End()})
		}
	}
	return h
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
