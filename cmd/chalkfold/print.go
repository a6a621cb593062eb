package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/say"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/pdf"
	"chalkfold/draft/sheet/pdf/noto"
	"chalkfold/draft/sheet/svg"
)

// runPrint writes the pieces of a job, true to scale: as sheets of paper to be
// joined (PDF), or all beside each other (SVG).
func runPrint(_ context.Context, args []string, out, errs io.Writer) error {
	flags := newFlags("print", "JOB -o FILE.pdf|FILE.svg [-paper a4] [-json] [-language TAG]", "Write the pieces of a job, true to scale: as sheets to be joined, or as one drawing.", errs)
	asJSON := flags.Bool("json", false, "print the figures as JSON")
	language := languageFlag(flags)
	file := flags.String("o", "", "`file` to write: .pdf is sheets of paper, .svg one drawing of every piece")
	on := flags.String("paper", "a4", "`paper` of the sheets: "+strings.Join(paperNames(), ", "))
	name, err := jobArg(flags, args, errs)
	paper, known := sheet.PaperNamed(*on)
	kind := filepath.Ext(*file)
	switch {
	case errors.Is(err, errHelp):
		return nil
	case err != nil:
		return err
	case *file == "":
		return usageError(flags, errs, "-o is missing: name a file.pdf or file.svg to write")
	case kind != ".pdf" && kind != ".svg":
		return usageError(flags, errs, "-o %s: only .pdf and .svg are written", *file)
	case !known:
		return usageError(flags, errs, "-paper %s: take one of %s", *on, strings.Join(paperNames(), ", "))
	}
	r, err := openJob("print", name, *language, errs)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	printed := printedJSON{File: *file, Sheets: 1, Bound: 1}
	if kind == ".svg" {
		d := sheet.Draft(r.Pieces, sheet.Options{Job: r.Job.Name, Words: r.Format.Words})
		printed.Width, printed.Height = round2(d.Bounds.W()), round2(d.Bounds.H())
		err = svg.Write(&b, d, svg.Options{Title: draft.Title(r)})
	} else {
		printed, err = writeSheets(&b, r, paper, *file)
	}
	if err != nil {
		return err
	}
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

// writeSheets writes the sheets as PDF.
func writeSheets(w io.Writer, r *draft.Result, paper sheet.Paper, file string) (printedJSON, error) {
	tiled, err := draft.Sheets(r, paper, nil)
	if err != nil {
		return printedJSON{}, err
	}
	return printedJSON{
		File: file, Paper: paper.Name, Width: mm(paper.Width), Height: mm(paper.Height),
		Sheets: tiled.Sheets, Bound: tiled.BoundSheets, Rows: tiled.Rows, Columns: tiled.Cols,
	}, pdf.Write(w, draft.Title(r), tiled.Drawings(), pdf.Options{Font: noto.Sans()})
}

func paperNames() []string {
	var out []string
	for _, p := range sheet.Papers() {
		out = append(out, strings.ToLower(p.Name))
	}
	return out
}

// printedJSON is what was written. Sizes are of the sheet, or of the drawing.
type printedJSON struct {
	File    string  `json:"file"`
	Paper   string  `json:"paper,omitempty"`
	Width   float64 `json:"width_mm"`
	Height  float64 `json:"height_mm"`
	Sheets  int     `json:"sheets"`
	Bound   int     `json:"bound_sheets"` // no placing of these pieces takes fewer
	Rows    int     `json:"rows,omitempty"`
	Columns int     `json:"columns,omitempty"`
}

func (p printedJSON) write(out io.Writer, w *say.Words) {
	if p.Paper == "" {
		fmt.Fprintln(out, w.F("%s: every piece on one drawing of %.0f × %.0f mm, true to scale", p.File, p.Width, p.Height))
		return
	}
	fmt.Fprintln(out, w.F("%s: %d sheets of %s, %d rows of %d; fewer than %d cannot be", p.File, p.Sheets, p.Paper, p.Rows, p.Columns, p.Bound))
	fmt.Fprintln(out, w.T("Print at true size, then measure the 100 mm and 4 in squares before you join the sheets."))
}
