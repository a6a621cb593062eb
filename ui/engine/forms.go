package engine

import (
	"bytes"
	"fmt"

	"chalkfold/draft"
	"chalkfold/draft/lay"
	"chalkfold/draft/lesson"
	"chalkfold/draft/quote"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/dxf"
)

// The forms of a draft besides the pattern and the diagram.
const (
	Cards     = "cards"     // the curves that a tape cannot draw
	Miniature = "miniature" // the draft small, for a notebook
	Lesson    = "lesson"    // the construction in steps
	Handover  = "handover"  // a page to go with the job; with its lay, when there is one
	Strip     = "strip"     // the chalk guide for a receipt printer, PNG
	Machine   = "machine"   // the pieces, layers by names
	Numbered  = "numbered"  // the pieces, layers by numbers
	Bill      = "quote"     // what it costs, or the receipt; a page
	BillStrip = "receipt"   // the same for a receipt printer, PNG
	Marks     = "marks"     // what a student's lesson came to
	Check     = "check"     // a sheet to check a printer by; of any draft the same
)

// form makes one of the forms.
func (r *run) form(made *draft.Result, o Order) ([]byte, error) {
	var b bytes.Buffer
	r.of = 1
	switch o.Form {
	case Strip:
		font, err := r.fetchFont()
		if err != nil {
			return nil, err
		}
		err = draft.Strip(&b, font, made, draft.Chalk(made))
		return b.Bytes(), err
	case BillStrip:
		bill, err := quote.DecodeBill(o.Bill)
		if err != nil {
			return nil, err
		}
		font, err := r.fetchFont()
		if err != nil {
			return nil, err
		}
		err = draft.BillStrip(&b, font, bill, made.Format.Words)
		return b.Bytes(), err
	case Machine:
		err := dxf.Write(&b, made.Pieces, dxf.Plain, options(made))
		return b.Bytes(), err
	case Numbered:
		err := dxf.Write(&b, made.Pieces, dxf.Exchange, options(made))
		return b.Bytes(), err
	}
	paper, ok := sheet.PaperNamed(o.Paper)
	if !ok {
		return nil, fmt.Errorf("paper %q is not known here", o.Paper)
	}
	pages, err := formPages(made, paper, o)
	if err != nil {
		return nil, err
	}
	return r.pages(made, pages)
}

// formPages are the pages of a form.
func formPages(made *draft.Result, paper sheet.Paper, o Order) ([]sheet.Drawing, error) {
	switch o.Form {
	case Bill:
		bill, err := quote.DecodeBill(o.Bill)
		if err != nil {
			return nil, err
		}
		d, err := draft.BillSheet(bill, paper, made.Format.Words)
		return []sheet.Drawing{d}, err
	case Cards:
		c, err := draft.CardSheets(made, paper)
		return c.Sheets, err
	case Miniature:
		d, err := draft.Miniature(made, paper)
		return []sheet.Drawing{d}, err
	case Lesson:
		return draft.Lesson(made, paper), nil
	case Handover:
		l, err := laidOf(made, o)
		if err != nil {
			return nil, err
		}
		d, err := draft.Handover(made, paper, draft.HandoverOptions{Laid: l, By: o.setting()})
		return []sheet.Drawing{d}, err
	case Marks:
		s, err := lesson.Decode(o.Sitting)
		return draft.MarkSheets(draft.Title(made), s, paper, made.Format), err
	case Check:
		how := printing{printer: o.Printer}
		d, err := sheet.Check(paper, sheet.TileOptions{Words: made.Format.Words, Printer: how.correction()})
		return []sheet.Drawing{d}, err
	}
	return nil, fmt.Errorf("form %q is not known here", o.Form)
}

// laidOf is the lay of an order; nil when it has none.
func laidOf(made *draft.Result, o Order) (*draft.Laid, error) {
	if len(o.Laid) == 0 {
		return nil, nil
	}
	l, err := spread(made, o)
	if err != nil {
		return nil, err
	}
	l.Result, err = lay.Decode(l.Cloth, l.Items, o.Laid)
	return l, err
}

// tally counts the sheets of a form.
func (r *run) tally(made *draft.Result, o Order) ([]byte, error) {
	paper, ok := sheet.PaperNamed(o.Paper)
	if !ok {
		return nil, fmt.Errorf("paper %q is not known here", o.Paper)
	}
	if o.Form == Cards {
		c, err := draft.CardSheets(made, paper)
		return Counts{Sheets: len(c.Sheets), Least: c.Bound}.encode(), err
	}
	pages, err := formPages(made, paper, o)
	return Counts{Sheets: len(pages)}.encode(), err
}
