package main

import (
	"io"
	"slices"

	"chalkfold/draft"
	"chalkfold/draft/chalk"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/dxf"
	"chalkfold/draft/sheet/pdf"
	"chalkfold/draft/sheet/pdf/noto"
)

// A printForm is a way of putting a job on paper, besides the whole pattern.
type printForm struct {
	name  string
	pages func(r *draft.Result, o formOptions) (pages []sheet.Drawing, bound int, err error)
}

type formOptions struct {
	paper  draft.Paper
	client string // named on the handover page
	cards  bool   // strip and text lay curve cards
}

func printForms() []printForm {
	return []printForm{
		{"cards", func(r *draft.Result, o formOptions) ([]sheet.Drawing, int, error) {
			c, err := draft.CardSheets(r, o.paper.Paper)
			return c.Sheets, c.Bound, err
		}},
		{"miniature", func(r *draft.Result, o formOptions) ([]sheet.Drawing, int, error) {
			d, err := draft.Miniature(r, o.paper.Paper)
			return []sheet.Drawing{d}, 1, err
		}},
		{"lesson", func(r *draft.Result, o formOptions) ([]sheet.Drawing, int, error) {
			return draft.Lesson(r, o.paper.Paper), 1, nil
		}},
		{"handover", func(r *draft.Result, o formOptions) ([]sheet.Drawing, int, error) {
			opt := draft.HandoverOptions{Client: o.client}
			if laid, err := draft.Lay(r, 0, lay.Options{}); err == nil { // without a lay, the page has none
				opt.Laid = laid
			}
			d, err := draft.Handover(r, o.paper.Paper, opt)
			return []sheet.Drawing{d}, 1, err
		}},
	}
}

// The forms that are no pages of another: the pattern itself, a strip, a text, and
// the pieces for machines, with layers that have names or ASTM D6673's numbers.
const (
	patternForm = "pattern"
	stripForm   = "strip"
	textForm    = "text"
	dxfForm     = "dxf"
	dxfNumbered = "dxf-numbered"
)

func formNames() []string {
	out := []string{patternForm}
	for _, f := range printForms() {
		out = append(out, f.name)
	}
	return append(out, stripForm, textForm, dxfForm, dxfNumbered)
}

// formKinds are the kinds of file that a form is written as.
func formKinds(form string) []string {
	switch form {
	case patternForm:
		return []string{".pdf", ".svg"}
	case stripForm:
		return []string{".png"}
	case textForm:
		return []string{".txt"}
	case dxfForm, dxfNumbered:
		return []string{".dxf"}
	}
	return []string{".pdf"}
}

// writeForm writes one of the forms.
func writeForm(w io.Writer, r *draft.Result, name string, o formOptions) (printedJSON, error) {
	printed := printedJSON{Form: name}
	sections := draft.Chalk(r)
	if o.cards {
		sections = draft.ChalkOnCards(r, o.paper.Paper)
	}
	pieces, err := o.paper.Pieces(r)
	if err != nil {
		return printed, err
	}
	sections = slices.DeleteFunc(sections, func(s chalk.Section) bool {
		return !slices.ContainsFunc(pieces, func(p piece.Piece) bool { return p.ID == s.Piece })
	})
	opt := sheet.Options{Job: r.Job.Name, Words: r.Format.Words}
	switch name {
	case dxfForm:
		return printed, dxf.Write(w, pieces, dxf.Plain, opt)
	case dxfNumbered:
		return printed, dxf.Write(w, pieces, dxf.Exchange, opt)
	case stripForm:
		return printed, draft.Strip(w, noto.Sans(), r, sections)
	case textForm:
		_, err := io.WriteString(w, draft.Message(r, sections))
		return printed, err
	}
	forms := printForms()
	f := forms[slices.IndexFunc(forms, func(f printForm) bool { return f.name == name })]
	pages, bound, err := f.pages(r, o)
	if err != nil {
		return printed, err
	}
	printed.Paper, printed.Sheets, printed.ByArea = o.paper.Name, len(pages), bound
	printed.Width, printed.Height = round2(pages[0].Bounds.W()), round2(pages[0].Bounds.H())
	return printed, pdf.Write(w, draft.Title(r), pages, pdf.Options{Font: noto.Sans()})
}
