package draft

import (
	"io"

	"chalkfold/draft/quote"
	"chalkfold/draft/say"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/strip"
)

// BillSheet is a quote or a receipt as a page of that paper.
func BillSheet(b quote.Bill, paper sheet.Paper, w *say.Words) (sheet.Drawing, error) {
	page := sheet.Bill{Head: b.Head(w)}
	for _, r := range b.Rows(w) {
		page.Rows = append(page.Rows, sheet.BillRow{Name: r.Name, Sum: r.Sum, Amount: r.Amount, Strong: r.Weight == quote.Strong, Break: r.Weight == quote.Break})
	}
	d, ok := page.Draw(paper)
	if !ok {
		return sheet.Drawing{}, say.Errorf("quote: it is more than one sheet of %s holds; take a larger paper", paper.Name)
	}
	return d, nil
}

// BillStrip writes a quote or a receipt as a picture for a receipt printer, or
// to send. font is the font of PDFs.
func BillStrip(out io.Writer, font []byte, b quote.Bill, w *say.Words) error {
	var lines []strip.Line
	for i, s := range b.Head(w) {
		weight := strip.Text
		if i == 0 {
			weight = strip.Heading
		}
		lines = append(lines, strip.Line{Weight: weight, S: s})
	}
	lines = append(lines, strip.Line{Weight: strip.Rule})
	for _, r := range b.Rows(w) {
		switch r.Weight {
		case quote.Break:
			lines = append(lines, strip.Line{Weight: strip.Rule})
			continue
		case quote.Strong:
			lines = append(lines, strip.Line{Weight: strip.Text, S: r.Name})
			if r.Amount != "" {
				lines = append(lines, strip.Line{Weight: strip.Figure, S: r.Amount})
			}
			continue
		case quote.Plain:
		}
		lines = append(lines, strip.Line{Weight: strip.Text, S: r.Name})
		if how := r.Reckoned(); how != "" {
			lines = append(lines, strip.Line{Weight: strip.Small, S: how})
		}
	}
	return strip.Write(out, font, lines)
}
