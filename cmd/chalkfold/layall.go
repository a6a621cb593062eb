package main

import (
	"fmt"
	"io"

	"chalkfold/draft"
	"chalkfold/draft/lay"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// runLayAll lays a job over all its cloths.
func runLayAll(name string, r *draft.Result, work int, out, errs io.Writer) error {
	all, err := draft.LayAll(r, lay.Options{Work: work})
	if err != nil {
		return badJob("lay", name, err, r.Format.Words, errs)
	}
	fits := len(all.Homeless) == 0
	for i, l := range all.Cloths {
		if l == nil {
			continue
		}
		writeLay(out, r, l)
		writeLeftover(out, r, i, l)
		fmt.Fprintln(out)
		fits = fits && l.ShortBy == 0
	}
	p := prose{r.Format.Words, out}
	if len(all.Homeless) > 0 {
		p.heading(p.T("No place found"))
	}
	for _, h := range all.Homeless {
		p.line(4, "  %s", p.F("%s, %s cloth: %d to cut", say.Name(h.Name), say.Name(h.Kind), h.Copies))
	}
	if err := warnStopped("lay", r, errs); err != nil || !fits {
		return errStopped
	}
	return nil
}

// writeLeftover says what is left of the end of a cloth.
func writeLeftover(out io.Writer, r *draft.Result, cloth int, l *draft.Laid) {
	if _, rect, ok := draft.Leftover(r, cloth, l); ok {
		p, f := prose{r.Format.Words, out}, r.Format
		p.heading(p.T("Left as a remnant"))
		p.line(2, "  %s", p.F("%s × %s in one, and what lies beside it", f.Text(unit.Length(rect.W())), f.Text(unit.Length(rect.H()))))
	}
}
