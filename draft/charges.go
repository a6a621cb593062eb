package draft

import (
	"math"

	"chalkfold/draft/piece"
	"chalkfold/draft/quote"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Charges are the lines of a quote that follow the draft: its cloths by the
// length that a shop sells, its notions, and the maker's labour, whose hours she
// writes herself. laid is the lay on the main cloth; nil when none was made.
func Charges(r *Result, laid *Laid) []quote.Line {
	f := r.Format
	var lines []quote.Line
	cloth := func(id, name string, l unit.Length) {
		line := quote.Line{ID: id, Name: name, Per: quote.Yard}
		step := 36 * unit.Inch
		if f.System.Metric() {
			line.Per, step = quote.Metre, unit.Metre
		}
		line.Count = quote.Quantity(math.Round(float64(unit.UpTo(l, f.SoldBy())) / float64(step) * float64(quote.One)))
		lines = append(lines, line)
	}
	switch {
	case laid != nil:
		cloth(string(piece.Main), say.Word("main cloth"), laid.Length)
	default:
		if _, l, ok := needs(r, piece.Main); ok {
			cloth(string(piece.Main), say.Word("main cloth"), l)
		}
	}
	if _, l, ok := needs(r, piece.Lining); ok {
		cloth(string(piece.Lining), say.Word("lining"), l)
	}
	if _, l, ok := needs(r, piece.Interfacing); ok {
		cloth(string(piece.Interfacing), say.Word("interfacing"), l)
	}
	for _, n := range r.Notions {
		lines = append(lines, quote.Line{ID: "notion " + n.Name, Name: n.Name, Count: quote.Quantity(max(n.Count, 1)) * quote.One, Per: quote.Piece})
	}
	return append(lines,
		quote.Line{ID: "thread", Name: say.Word("sewing thread"), Count: quote.One, Per: quote.Piece},
		quote.Line{ID: quote.Labour, Name: say.Word("labour"), Per: quote.Hour},
	)
}
