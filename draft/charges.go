package draft

import (
	"chalkfold/draft/bench"
	"chalkfold/draft/piece"
	"chalkfold/draft/quote"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Charges are the lines of a quote that follow the draft, sewn with that: its
// cloth by the length that a shop sells, its notions, and the maker's labour, for
// which the order of work is reckoned at so many minutes. laid is the lay on the
// main cloth; nil when none was made. The error is a fault of the garment's tasks.
func Charges(r *Result, laid *Laid, by bench.Setting) (lines []quote.Line, minutes int, err error) {
	var long unit.Length
	needed := laid != nil
	if needed {
		long = laid.Length
	} else {
		_, long, needed = needs(r, piece.Main)
	}
	if needed {
		count, per := sold(r.Format, long)
		lines = append(lines, quote.Line{ID: string(piece.Main), Name: say.Word("main cloth"), Count: count, Per: per})
	}
	notions, err := Notions(r, by)
	if err != nil {
		return nil, 0, err
	}
	for _, n := range notions {
		lines = append(lines, quote.Line{ID: n.ID, Name: n.Name, Count: n.Count, Per: n.Per})
	}
	tasks, err := Order(r, by)
	if err != nil {
		return nil, 0, err
	}
	minutes = bench.Minutes(tasks)
	return append(lines, quote.Line{ID: quote.Labour, Name: say.Word("labour"), Count: quote.Hours(minutes), Per: quote.Hour}), minutes, nil
}
