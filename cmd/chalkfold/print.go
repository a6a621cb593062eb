package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/say"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/pdf"
	"chalkfold/draft/sheet/pdf/noto"
	"chalkfold/draft/sheet/svg"
	"chalkfold/draft/unit"
)

// runPrint writes the pieces of a job, true to scale: as sheets of paper to be
// joined (PDF), or all beside each other (SVG).
func runPrint(_ context.Context, args []string, out, errs io.Writer) error {
	flags := newFlags("print", "JOB -o FILE [-form FORM] [-paper a4] [-only PIECES | -without PIECES] [-since JOB] [-json] [-language TAG]", "Write a job on paper: its pieces true to scale, or one of the other forms.", errs)
	form := flags.String("form", patternForm, "what to write: "+strings.Join(formNames(), ", "))
	client := flags.String("client", "", "`name` of the client, to stand on the handover page; no form tells it otherwise")
	cards := flags.Bool("cards", false, "have the strip and the text lay curve cards")
	asJSON := flags.Bool("json", false, "print the figures as JSON")
	language := languageFlag(flags)
	since := flags.String("since", "", "print only the sheets that differ from those of this `job`, printed before on the same paper; the others stay good")
	file := flags.String("o", "", "`file` to write: the pattern as .pdf is sheets of paper, as .svg one drawing of every piece; a strip is .png, a text .txt, pieces for machines are .dxf")
	on := newPaperFlags(flags)
	name, err := jobArg(flags, args, errs)
	kind := filepath.Ext(*file)
	switch {
	case errors.Is(err, errHelp):
		return nil
	case err != nil:
		return err
	case *file == "":
		return usageError(flags, errs, "-o is missing: name a file to write, such as alto.pdf")
	case !slices.Contains(formNames(), *form):
		return usageError(flags, errs, "-form %s: take one of %s", *form, strings.Join(formNames(), ", "))
	case *since != "" && (*form != patternForm || kind != ".pdf"):
		return usageError(flags, errs, "-since: it is for the pattern on sheets, -o something.pdf")
	case !slices.Contains(formKinds(*form), kind):
		return usageError(flags, errs, "-o %s: the form %s is written as %s", *file, *form, strings.Join(formKinds(*form), " or "))
	}
	paper, err := on.paper()
	if err != nil {
		return usageError(flags, errs, "%s", err)
	}
	r, err := openJob("print", name, *language, errs)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	var printed printedJSON
	switch {
	case *since != "":
		old, oldErr := openJob("print", *since, *language, errs)
		if oldErr != nil {
			return oldErr
		}
		printed, err = writeChanged(&b, r, old, paper)
	case *form != patternForm:
		printed, err = writeForm(&b, r, *form, formOptions{paper, *client, *cards})
	case kind == ".pdf":
		printed, err = writeSheets(&b, r, paper)
	default:
		printed, err = writePieces(&b, r, paper)
	}
	if err != nil {
		return refusal(errs, "print", errors.New(r.Format.Words.Err(err)))
	}
	printed.File = *file
	if err := writeFile(*file, b.Bytes()); err != nil {
		return err
	}
	if *asJSON {
		err = writeJSON(out, printed)
	} else {
		printed.write(out, r.Format.Words)
	}
	if err != nil {
		return err
	}
	return warnStopped("print", r, errs)
}

// paperFlags say on what is printed, which pieces, and how the printer errs.
type paperFlags struct {
	name, only, without, measured *string
	across, along                 *float64
}

func newPaperFlags(flags *flag.FlagSet) paperFlags {
	return paperFlags{
		name:     flags.String("paper", "a4", "`paper` of the sheets: "+strings.Join(paperNames(), ", ")),
		only:     flags.String("only", "", "print these `pieces` alone, such as front,back"),
		without:  flags.String("without", "", "leave these `pieces` out"),
		across:   flags.Float64("printer-across", 1, "what this printer is to be sent more across the sheet: `1.004` when it prints 100 mm as 99.6"),
		along:    flags.Float64("printer-along", 1, "the same along the sheet, such as `0.998`"),
		measured: flags.String("measured", "", "what the square of 100 mm measured on the last print, across x along: `99.6x100.2`; in inches the one of 4 in: 3.98inx4in"),
	}
}

func (f paperFlags) paper() (draft.Paper, error) {
	p, known := sheet.PaperNamed(*f.name)
	if !known {
		return draft.Paper{}, fmt.Errorf("-paper %s: take one of %s", *f.name, strings.Join(paperNames(), ", "))
	}
	out := draft.Paper{
		Paper: p, Printer: sheet.Correction{Across: *f.across, Along: *f.along},
		Only: namesIn(*f.only), Without: namesIn(*f.without),
	}
	if *f.measured == "" {
		return out, nil
	}
	across, along, both := strings.Cut(*f.measured, "x")
	var sides [2]unit.Quantity
	for i, text := range []string{across, along} {
		q, err := unit.Parse(text, unit.Millimetres)
		if err != nil || !both {
			return out, fmt.Errorf("-measured %s: give the square's two sides, such as 99.6x100.2 in mm", *f.measured)
		}
		sides[i] = q
	}
	next, err := out.Printer.Measured(sides[0], sides[1])
	if err != nil {
		return out, fmt.Errorf("-measured %s: %w", *f.measured, err)
	}
	out.Printer = next
	return out, nil
}

// namesIn reads a list parted by commas.
func namesIn(list string) []string {
	return strings.FieldsFunc(list, func(r rune) bool { return r == ',' || r == ' ' })
}

// writeSheets writes the sheets as PDF.
func writeSheets(w io.Writer, r *draft.Result, on draft.Paper) (printedJSON, error) {
	tiled, err := draft.Sheets(r, on)
	if err != nil {
		return printedJSON{}, err
	}
	return printedOf(tiled, on), pdf.Write(w, draft.Title(r), tiled.Drawings(), pdf.Options{Font: noto.Sans()})
}

// writeChanged writes the sheets that differ from those of an old draft.
func writeChanged(w io.Writer, r, old *draft.Result, on draft.Paper) (printedJSON, error) {
	again, err := draft.SheetsSince(r, []draft.Printed{{Result: old}}, on)
	if err != nil {
		return printedJSON{}, err
	}
	p := printedOf(again.All, on)
	p.Since, p.Void = again.Places(), again.Void
	if len(again.Pages) == 0 {
		return p, say.Errorf("no sheet differs from those of the old job; there is nothing to print")
	}
	if !again.Saves() {
		return p, say.Errorf("so much has changed that as many sheets would be printed as the whole took; print it without -since")
	}
	return p, pdf.Write(w, draft.Title(r), again.Drawings(), pdf.Options{Font: noto.Sans()})
}

// printedOf tells of sheets.
func printedOf(tiled sheet.Tiled, on draft.Paper) printedJSON {
	p := printedJSON{
		Paper: tiled.Paper.Name, Width: mm(tiled.Paper.Width), Height: mm(tiled.Paper.Height),
		Sheets: tiled.Sheets, Rows: tiled.Rows, Columns: tiled.Cols, Plan: tiled.Plan,
		ByArea: tiled.Bound.ByArea, ByReach: tiled.Bound.ByReach, LeastLength: round2(tiled.Bound.Length.MM()),
	}
	if on.Printer != (sheet.Correction{Across: 1, Along: 1}) {
		p.Across, p.Along = on.Printer.Across, on.Printer.Along
	}
	return p
}

// writePieces writes the pieces beside each other.
func writePieces(w io.Writer, r *draft.Result, on draft.Paper) (printedJSON, error) {
	pieces, err := on.Pieces(r)
	if err != nil {
		return printedJSON{}, err
	}
	d := sheet.Draft(pieces, sheet.Options{Job: r.Job.Name, Words: r.Format.Words})
	p := printedJSON{Width: round2(d.Bounds.W()), Height: round2(d.Bounds.H())}
	return p, svg.Write(w, d, svg.Options{Title: draft.Title(r)})
}

func paperNames() []string {
	var out []string
	for _, p := range append(sheet.Papers(), sheet.Rolls()...) {
		out = append(out, strings.ReplaceAll(strings.ToLower(p.Name), " ", "-"))
	}
	return out
}

// printedJSON is what was written. Sizes are of the sheet, or of the drawing.
type printedJSON struct {
	Form    string  `json:"form,omitempty"`
	File    string  `json:"file"`
	Paper   string  `json:"paper,omitempty"`
	Width   float64 `json:"width_mm"`
	Height  float64 `json:"height_mm"`
	Sheets  int     `json:"sheets,omitempty"`
	Rows    int     `json:"rows,omitempty"`
	Columns int     `json:"columns,omitempty"`
	Plan    string  `json:"plan,omitempty"` // names where the pieces lie; it stands on every sheet
	// The places, row/column, of the sheets that differ from those printed before,
	// and of the old ones that hold nothing any more.
	Since []string `json:"changed,omitempty"`
	Void  []string `json:"void,omitempty"`
	// No placing of these pieces takes less.
	ByArea      int     `json:"bound_by_area,omitempty"`
	ByReach     int     `json:"bound_by_reach,omitempty"`
	LeastLength float64 `json:"bound_length_mm,omitempty"`
	// The printer's correction, when it has one.
	Across float64 `json:"printer_across,omitempty"`
	Along  float64 `json:"printer_along,omitempty"`
}

func (p printedJSON) write(out io.Writer, w *say.Words) {
	switch {
	case p.Form != "" && p.Paper == "":
		fmt.Fprintln(out, w.F("%s: written", p.File))
		return
	case p.Form != "":
		fmt.Fprintln(out, w.N(p.Sheets, "%[2]s: %[1]d sheet of %[3]s", "%[2]s: %[1]d sheets of %[3]s", p.File, p.Paper))
		return
	case p.Paper == "":
		fmt.Fprintln(out, w.F("%s: every piece on one drawing of %.0f × %.0f mm, true to scale", p.File, p.Width, p.Height))
		return
	case len(p.Since) > 0:
		fmt.Fprintln(out, w.N(len(p.Since), "%[2]s: %[1]d of %[3]d sheets of %[4]s has changed, at row/column %[5]s", "%[2]s: %[1]d of %[3]d sheets of %[4]s have changed, at row/column %[5]s", p.File, p.Sheets, p.Paper, strings.Join(p.Since, ", ")))
		fmt.Fprintln(out, w.F("The other sheets stay good, if they say plan %s.", p.Plan))
		if len(p.Void) > 0 {
			fmt.Fprintln(out, w.F("Throw away the old sheets at %s: nothing of the pattern lies there any more.", strings.Join(p.Void, ", ")))
		}
	case p.LeastLength > 0:
		fmt.Fprintln(out, w.F("%s: %.0f mm of the %s; by the area of the pieces, less than %.0f mm cannot be", p.File, p.Height, p.Paper, p.LeastLength))
	case p.ByReach > p.ByArea:
		fmt.Fprintln(out, w.F("%s: %d sheets of %s, in %d rows and %d columns; by the longest piece, fewer than %d cannot be", p.File, p.Sheets, p.Paper, p.Rows, p.Columns, p.ByReach))
	default:
		fmt.Fprintln(out, w.F("%s: %d sheets of %s, in %d rows and %d columns; by the area of the pieces, fewer than %d cannot be", p.File, p.Sheets, p.Paper, p.Rows, p.Columns, p.ByArea))
	}
	if p.Across != 0 {
		fmt.Fprintln(out, w.F("Corrected for the printer. Next time: -printer-across %.4f -printer-along %.4f", p.Across, p.Along))
	}
	fmt.Fprintln(out, w.T("Print at true size, then measure a square before you join the sheets."))
}
