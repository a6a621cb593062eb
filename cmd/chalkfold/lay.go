package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"

	"chalkfold/draft"
	"chalkfold/draft/lay"
	"chalkfold/draft/say"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/pdf"
	"chalkfold/draft/sheet/pdf/noto"
	"chalkfold/draft/sheet/svg"
	"chalkfold/draft/unit"
)

// runLay lays the pieces of a job on one of its cloths, or a published packing
// problem.
func runLay(ctx context.Context, args []string, out, errs io.Writer) error {
	flags := newFlags("lay", "JOB... [-cloth N] [-o FILE.svg|FILE.pdf] [-all] [-widths] [-advice] [-json] [-language TAG]\n   or: chalkfold lay -instance FILE [-seconds N | -work N] [-seed S] [-cores N] [-json]",
		"Lay the pieces of a job on its cloth and say how much they take, those of several jobs together on the cloth of the first; or lay a published packing problem.", errs)
	asJSON := flags.Bool("json", false, "print the figures as JSON")
	language := languageFlag(flags)
	cloth := flags.Int("cloth", 1, "which `cloth` of the job, from 1")
	advice := flags.Bool("advice", false, "say what can give when the pieces do not fit, and what each gift saves and costs")
	file := flags.String("o", "", "`file` to write the lay to: .svg is its drawing, .pdf one page to cut by")
	everything := flags.Bool("all", false, "lay over all cloths of the job, each piece once: what finds no room on one goes to the next of its kind")
	widths := flags.Bool("widths", false, "say how much to buy of cloth of each width on sale")
	work := flags.Int("work", 0, "how many `steps` to look for a better lay; 0 is the quick lay")
	instance := flags.String("instance", "", "`file` of a packing problem, to lay in place of a job")
	var task layTask
	flags.Float64Var(&task.seconds, "seconds", 10, "how many `seconds` to lay a packing problem")
	flags.Uint64Var(&task.seed, "seed", 1, "`number` that chance begins from, for a packing problem")
	flags.IntVar(&task.cores, "cores", runtime.GOMAXPROCS(0), "how many searches lay a packing problem side by `side`")
	rest, err := parse(flags, args)
	switch {
	case errors.Is(err, errHelp):
		return nil
	case err != nil:
		return err
	case *instance != "" && len(rest) > 0:
		return usageError(flags, errs, "-instance: a packing problem is laid in place of a job, got %q besides", rest)
	case !(task.seconds > 0):
		return usageError(flags, errs, "-seconds %g: give more than 0", task.seconds)
	case *work < 0:
		return usageError(flags, errs, "-work %d: give 0 or more", *work)
	case task.cores < 1:
		return usageError(flags, errs, "-cores %d: give 1 or more", task.cores)
	case *instance != "":
		task.work = *work
		return runInstance(ctx, *instance, task, *asJSON, out, errs)
	}
	switch {
	case len(rest) == 0:
		return noJob(flags, errs)
	case *file != "" && filepath.Ext(*file) != ".svg" && filepath.Ext(*file) != ".pdf":
		return usageError(flags, errs, "-o %s: a lay is written as .svg or .pdf", *file)
	case *cloth < 1:
		return usageError(flags, errs, "-cloth %d: the cloths of a job are counted from 1", *cloth)
	}
	name := rest[0]
	r, err := openJobs("lay", rest, *language, errs)
	if err != nil {
		return err
	}
	if *everything {
		return runLayAll(name, r, *work, out, errs)
	}
	if *widths {
		return runWidths(name, r, *cloth-1, *work, *asJSON, out, errs)
	}
	if *advice {
		return runAdvice(name, r, *cloth-1, *work, *asJSON, out, errs)
	}
	laid, err := draft.Lay(r, *cloth-1, lay.Options{Work: *work})
	var wide *lay.TooWideError
	if errors.As(err, &wide) {
		return tooWide(wide, r.Format, *asJSON, out, errs)
	}
	if err != nil {
		return badJob("lay", name, err, r.Format.Words, errs)
	}
	if *file != "" {
		if err := writeLayFile(*file, r, laid); err != nil {
			return err
		}
	}
	if *asJSON {
		err = writeJSON(out, layJSON(laid))
	} else {
		writeLay(out, r, laid)
	}
	if err != nil {
		return err
	}
	if err := warnStopped("lay", r, errs); err != nil || !laid.Fits {
		return errStopped
	}
	return nil
}

// writeLayFile writes a lay as a drawing, or as one page to cut by.
func writeLayFile(file string, r *draft.Result, l *draft.Laid) error {
	var b bytes.Buffer
	opt := sheet.Options{Job: r.Job.Name, Words: r.Format.Words}
	title := r.Format.Words.F("%s, lay", draft.Title(r))
	var err error
	if filepath.Ext(file) == ".svg" {
		err = svg.Write(&b, l.Drawing(r.Format, opt), svg.Options{Title: title})
	} else {
		err = pdf.Write(&b, title, l.Pages(r.Format, opt, sheet.A4()), pdf.Options{Font: noto.Sans()})
	}
	if err != nil {
		return err
	}
	return writeFile(file, b.Bytes())
}

// writeFile writes a whole file, or says why not.
func writeFile(name string, data []byte) error {
	if err := os.WriteFile(name, data, 0o644); err != nil {
		return fmt.Errorf("nothing written: %w", err)
	}
	return nil
}

// tooWide reports a piece that lies on the cloth in no way.
func tooWide(e *lay.TooWideError, f unit.Format, asJSON bool, out, errs io.Writer) error {
	if asJSON {
		err := writeJSON(out, laidJSON{
			ShortBy: mm(e.ShortBy()), Pieces: []spotJSON{}, Left: []offcutJSON{},
			TooWide: &wideJSON{e.Piece, mm(e.Across), mm(e.Room), e.OpenFits},
		})
		if err != nil {
			return err
		}
	}
	fmt.Fprintln(errs, "chalkfold lay:", wideWords(e, f))
	return errStopped
}

type laidJSON struct {
	Cloth   string       `json:"cloth"`
	Kind    string       `json:"kind"`
	Fold    string       `json:"fold"`
	Width   float64      `json:"width_mm"`
	AtHand  float64      `json:"at_hand_mm"` // 0 is the bolt
	Length  float64      `json:"length_mm"`
	Density float64      `json:"density_percent"`
	Fits    bool         `json:"fits"`
	ShortBy float64      `json:"short_by_mm"`
	Pieces  []spotJSON   `json:"pieces"`
	Left    []offcutJSON `json:"left_over"`
	TooWide *wideJSON    `json:"too_wide,omitempty"`
}

type spotJSON struct {
	ID     string       `json:"id"`
	Name   string       `json:"name"`
	Layers int          `json:"layers"`
	Opened bool         `json:"opened"` // lies past the folded part, on the cloth opened out
	Cut    [][2]float64 `json:"cut_line_mm"`
}

type offcutJSON struct {
	X      float64 `json:"x_mm"`
	Y      float64 `json:"y_mm"`
	Width  float64 `json:"width_mm"`
	Length float64 `json:"length_mm"`
	Layers int     `json:"layers"`
	Opened bool    `json:"opened"`
}

type wideJSON struct {
	Piece    string  `json:"piece"`
	Across   float64 `json:"across_mm"`
	Room     float64 `json:"room_mm"`
	OpenFits bool    `json:"fits_open"`
}

func layJSON(l *draft.Laid) laidJSON {
	j := laidJSON{
		Cloth: l.Cloth.Name, Kind: string(l.Cloth.Kind), Fold: l.Cloth.Fold.String(), Width: mm(l.Cloth.Width), AtHand: mm(l.Cloth.Length),
		Length: mm(l.Length), Density: round2(l.Density), Fits: l.Fits, ShortBy: mm(l.ShortBy),
		Pieces: spots(l.Result, l.Items), Left: []offcutJSON{},
	}
	for _, o := range l.Left {
		j.Left = append(j.Left, offcutJSON{
			round3(o.Rect.Min.X), round3(o.Rect.Min.Y), round3(o.Rect.W()), round3(o.Rect.H()), o.Layers, o.Opened,
		})
	}
	return j
}

// spots lists where each item lies.
func spots(r lay.Result, items []lay.Item) []spotJSON {
	out := []spotJSON{}
	for _, p := range r.Placements {
		it := items[p.Item]
		out = append(out, spotJSON{it.Piece, it.Name, it.Layers(), p.Opened, ring(p.Ring(items))})
	}
	return out
}

// writeTaken says how much cloth the pieces take, and whether it is enough.
func writeTaken(p prose, r *draft.Result, l *draft.Laid) {
	f := r.Format
	name := l.Cloth.Name
	if name == "" {
		name = p.F("%s cloth", say.Name(l.Cloth.Kind))
	}
	p.line(0, "%s", p.F("%s on %s, %s wide, %s", draft.Title(r), name, f.Text(l.Cloth.Width), say.Name(l.Cloth.Fold.String())))
	p.line(2, "  %s", p.F("takes %s (buy %s), covered to %.1f %%", f.Text(l.Length), f.Sold().Text(l.Cloth.Bought(l.Length)), l.Density))
	switch {
	case l.Cloth.Length == 0:
		p.line(2, "  %s", p.T("cut from the bolt"))
	case l.Fits:
		p.line(2, "  %s", p.F("fits on the %s at hand; %s left at the end", f.Sold().Text(l.Cloth.Length), f.Text(l.Cloth.Length-l.Length)))
	default:
		p.line(2, "  %s", p.F("DOES NOT FIT on the %s at hand: short by %s", f.Sold().Text(l.Cloth.Length), f.Text(l.ShortBy)))
	}
}

func writeLay(w io.Writer, r *draft.Result, l *draft.Laid) {
	p, f := prose{r.Format.Words, w}, r.Format
	writeTaken(p, r, l)
	if s := l.Shrinks(f); s != "" {
		p.line(2, "  %s", s)
	}
	p.heading(p.T("Laid, in order"))
	for _, pl := range l.Placements {
		it := l.Items[pl.Item]
		one := p.T(it.Name)
		switch {
		case it.OnFold:
			one = p.F("%s, on the fold", one)
		case it.Double:
			one = p.F("%s, through both layers", one)
		case pl.Opened:
			one = p.F("%s, on the cloth opened out", one)
		}
		p.line(4, "  %s", one)
	}
	if len(l.Left) > 0 {
		p.heading(p.T("Left over"))
		const most = 5
		for i, o := range l.Left {
			if i == most {
				p.line(2, "  %s", p.F("and %d smaller", len(l.Left)-most))
				break
			}
			size := p.F("%s × %s", f.Text(unit.Length(o.Rect.W())), f.Text(unit.Length(o.Rect.H())))
			if o.Layers > 1 {
				size = p.F("%s, twice", size)
			}
			p.line(2, "  %s", size)
		}
	}
}
