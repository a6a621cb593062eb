package main

import (
	"fmt"
	"io"

	"chalkfold/draft"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
)

// runWidths says how much to buy of the cloth of a job, or of main cloth when
// it names none, at each width on sale.
func runWidths(name string, r *draft.Result, cloth, work int, asJSON bool, out, errs io.Writer) error {
	kind := piece.Main
	if cloth < len(r.Job.Cloth) && r.Job.Cloth[cloth].Kind != "" {
		kind = r.Job.Cloth[cloth].Kind
	}
	cut, err := draft.CutBefore(r, cloth, lay.Options{Work: work})
	if err != nil {
		return badJob("lay", name, err, r.Format.Words, errs)
	}
	all, err := draft.Buy(r, kind, cut, draft.Widths(r.Format), lay.Options{Work: work})
	if err != nil {
		return badJob("lay", name, err, r.Format.Words, errs)
	}
	if asJSON {
		err = writeJSON(out, widthsJSON(kind, all))
	} else {
		writeWidths(out, r, kind, all)
	}
	if err != nil {
		return err
	}
	return warnStopped("lay", r, errs)
}

type widthJSON struct {
	Width   float64 `json:"width_mm"`
	Fold    string  `json:"fold"`
	OneWay  bool    `json:"one_way"`
	Length  float64 `json:"length_mm"`
	Buy     float64 `json:"buy_mm"`
	TooWide string  `json:"too_wide,omitempty"` // the piece that does not go across
}

func widthsJSON(kind piece.Cloth, all []draft.Purchase) any {
	rows := []widthJSON{}
	for _, p := range all {
		row := widthJSON{Width: mm(p.Width), Fold: p.Fold.String(), OneWay: p.OneWay, Length: mm(p.Length), Buy: mm(p.Bought)}
		if p.Wide != nil {
			row.TooWide = p.Wide.Piece
		}
		rows = append(rows, row)
	}
	return map[string]any{"kind": kind, "widths": rows}
}

// writeWidths prints a row for each width: folded and open, without nap and
// with it.
func writeWidths(out io.Writer, r *draft.Result, kind piece.Cloth, all []draft.Purchase) {
	p, f := prose{r.Format.Words, out}, r.Format
	p.line(0, "%s", p.F("%s: how much %s cloth to buy", draft.Title(r), say.Name(kind)))
	row := func(cells ...string) {
		text := "  "
		for i, c := range cells {
			if i < len(cells)-1 {
				c = fmt.Sprintf("%-16s", c)
			}
			text += c
		}
		fmt.Fprintln(out, text)
	}
	row(p.T("width"), p.T("folded"), p.T("folded, nap"), p.T("open"), p.T("open, nap"))
	var cells []string
	for _, one := range all {
		if len(cells) == 0 {
			cells = append(cells, f.Text(one.Width))
		}
		cell := f.Sold().Text(one.Bought)
		if one.Wide != nil {
			cell = p.T("too narrow")
		}
		cells = append(cells, cell)
		if len(cells) == 5 {
			row(cells...)
			cells = nil
		}
	}
	p.line(2, "  %s", p.F("rounded up to what the shop cuts off, %s", f.Sold().Text(all[0].SoldBy)))
}
