package main

import (
	"io"

	"chalkfold/draft"
	"chalkfold/draft/lay"
)

// runChalkLay prints where each piece is chalked on one cloth of a job.
func runChalkLay(name string, r *draft.Result, cloth int, asJSON bool, out, errs io.Writer) error {
	l, err := draft.Lay(r, cloth, lay.Options{})
	if err != nil {
		return badJob("chalk", name, err, r.Format.Words, errs)
	}
	guide := draft.LayGuide(l, r.Format)
	if asJSON {
		return writeJSON(out, guideJSON(l, guide))
	}
	p := prose{r.Format.Words, out}
	p.line(0, "%s", p.F("%s: where each piece is chalked", draft.Title(r)))
	if s := l.Shrinks(r.Format); s != "" {
		p.line(2, "  %s", s)
	}
	for _, g := range guide {
		p.heading(g.Name)
		for _, s := range []string{g.Where, g.How, g.Way, g.Face} {
			if s != "" {
				p.line(2, "  %s", s)
			}
		}
	}
	return nil
}

type guidedJSON struct {
	ID     string  `json:"id"`
	Name   string  `json:"name"`
	Across float64 `json:"across_mm"`
	Along  float64 `json:"along_mm"`
	Grain  float64 `json:"grain_mm"`
	Way    string  `json:"way"`
	How    string  `json:"how,omitempty"`
	Face   string  `json:"face,omitempty"`
}

func guideJSON(l *draft.Laid, guide []draft.Guide) any {
	pieces := []guidedJSON{}
	for _, g := range guide {
		it := l.Items[l.Placements[g.Placement].Item]
		pieces = append(pieces, guidedJSON{it.Piece, g.Name, mm(g.Across), mm(g.Along), mm(g.Length), g.Way, g.How, g.Face})
	}
	return map[string]any{"pieces": pieces}
}
