package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"
	"slices"
	"time"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/prove"
)

// runProve drafts for the bodies of a survey. It stops with status 1 only when
// the program itself fails: a draft that a finding stops, with its reason, is
// a draft well proved.
func runProve(ctx context.Context, args []string, out, errs io.Writer) error {
	flags := newFlags("prove", "-bodies CSV [-garment NAME] [-method M] [-styles N] [-rows N] [-json]",
		"Draft for every body of a survey in several styles, and count what the proofs say.", errs)
	file := flags.String("bodies", "", "`file` of bodies in the columns of ANSUR II, in mm; - is standard input")
	of := flags.String("garment", draft.Garments()[0].ID, "the `garment` to draft")
	most := flags.Int("styles", 0, "how many `styles` to draft; 0 is all of them")
	rows := flags.Int("rows", 0, "how many `bodies` to draft for; 0 is all of them")
	method := flags.String("method", "", "draft by this `method` alone; by each that the garment has when it is left out")
	asJSON := flags.Bool("json", false, "print the counts as JSON")
	rest, err := parse(flags, args)
	if errors.Is(err, errHelp) {
		return nil
	}
	styles, known := stylesOf(*of)
	switch {
	case err != nil:
		return err
	case !known:
		return usageError(flags, errs, "-garment %q is not known", *of)
	case len(rest) > 0:
		return usageError(flags, errs, "takes no arguments, got %q", rest)
	case *file == "":
		return usageError(flags, errs, "-bodies is missing: name a survey")
	case *most < 0 || *most > len(styles):
		return usageError(flags, errs, "-styles %d: there are %d", *most, len(styles))
	case *rows < 0:
		return usageError(flags, errs, "-rows %d: give 0 or more", *rows)
	case *most > 0:
		styles = styles[:*most]
	}
	methods, known := methodsOf(*of, *method)
	if !known {
		return usageError(flags, errs, "-method %q is no way of drafting %s", *method, *of)
	}
	styles = prove.By(styles, methods...)
	in, err := openInput(*file)
	if err != nil {
		return refusal(errs, "prove", err)
	}
	defer in.Close()
	bodies, err := prove.Bodies(in, *rows)
	if err != nil {
		return refusal(errs, "prove", err)
	}
	began := time.Now() //nolint:forbidigo // the time that it took is reported
	rep, err := prove.Run(ctx, bodies, styles, runtime.GOMAXPROCS(0), newDraft)
	if err != nil {
		return err
	}
	took := time.Since(began)
	if *asJSON {
		err = writeJSON(out, proveJSON(rep, took))
	} else {
		writeProof(out, rep, took)
	}
	if err == nil && rep.Failed() {
		return errStopped
	}
	return err
}

// stylesProved is how many styles of a garment are drafted where none are
// chosen for it.
const stylesProved = 24

// stylesOf are the styles that a garment is proved in.
func stylesOf(id string) ([]prove.Style, bool) {
	g, ok := draft.Find(id)
	if all := prove.Styles(); len(all) > 0 && all[0].Job(prove.Body{}).Garment == id {
		return all, ok
	}
	return prove.StylesOf(g, stylesProved), ok
}

// methodsOf are the methods of a garment, or the one that is named.
func methodsOf(id, only string) ([]job.Method, bool) {
	g, _ := draft.Find(id)
	var out []job.Method
	for _, m := range g.Methods {
		if only == "" || only == m.ID {
			out = append(out, job.Method(m.ID))
		}
	}
	return out, len(out) > 0
}

// forkEase is the rule for the room over the crotch length, of a garment that
// has a fork.
const forkEase = "fork_ease"

// newDraft is a maker of drafts of its own for one worker.
func newDraft() prove.Draft {
	m := new(draft.Maker)
	return func(j job.Job) (prove.Drafted, error) {
		r, err := m.Make(j)
		if err != nil {
			return prove.Drafted{}, err
		}
		d := prove.Drafted{Report: r.Report, Pieces: r.Pieces}
		if r.Rules.Has(forkEase) {
			d.Ease = r.Rules.Length(forkEase)
		}
		return d, nil
	}
}

// openInput opens a file, or standard input for "-".
func openInput(name string) (io.ReadCloser, error) {
	if name == "-" {
		return io.NopCloser(os.Stdin), nil
	}
	return os.Open(name)
}

// refusal says what is wrong with an input and turns it into status 2.
func refusal(errs io.Writer, name string, err error) error {
	fmt.Fprintf(errs, "chalkfold %s: %v\n", name, err)
	return errUsage
}

func writeJSON(w io.Writer, v any) error {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(v)
}

type countJSON struct {
	Check  string   `json:"check"`
	Count  int      `json:"count"`
	Bodies int      `json:"bodies"`
	Rows   []string `json:"rows"` // at most prove.MostRows of the bodies
}

type styleJSON struct {
	Style   string `json:"style"`
	Method  string `json:"method"`
	Drafts  int    `json:"drafts"`
	Passed  int    `json:"passed"`
	Stopped int    `json:"stopped"`
}

type forkJSON struct {
	Style  string  `json:"style"` // "" is all together
	Method string  `json:"method"`
	Figure string  `json:"figure"`
	Drafts int     `json:"drafts"`
	Mean   float64 `json:"mean_mm"`
	SD     float64 `json:"sd_mm"`
	Worst  float64 `json:"worst_mm"`
	Within float64 `json:"within_0_50_mm_percent"`
	Near   float64 `json:"within_10_mm_of_ease_percent"`
	Told   float64 `json:"else_told_percent"`
}

type provedJSON struct {
	Bodies  int         `json:"bodies"`
	Styles  int         `json:"styles"`
	Drafts  int         `json:"drafts"`
	Passed  int         `json:"passed"`
	Clear   int         `json:"passed_with_nothing_to_mind"`
	Stopped int         `json:"stopped"`
	Panics  int         `json:"panics"`
	Crossed int         `json:"self_crossing"`
	ByCheck []countJSON `json:"by_check"`
	Mind    []countJSON `json:"to_mind"`
	Fails   []countJSON `json:"failures"`
	ByStyle []styleJSON `json:"by_style"`
	Fork    []forkJSON  `json:"fork_seam_over_crotch_length"`
	Seconds float64     `json:"seconds"`
}

func proveJSON(r prove.Report, took time.Duration) provedJSON {
	counts := func(all []prove.Count) []countJSON {
		out := []countJSON{}
		for _, c := range all {
			out = append(out, countJSON{c.Check, c.Drafts, c.Bodies, c.Rows})
		}
		return out
	}
	p := provedJSON{
		Bodies: r.Bodies, Styles: r.Styles, Drafts: r.Drafts, Passed: r.Passed, Clear: r.Clear, Stopped: r.Stopped,
		Panics: r.Panics, Crossed: r.Crossed,
		ByCheck: counts(r.Stops), Mind: counts(r.Minds), Fails: counts(r.Fails), Seconds: took.Seconds(),
	}
	for _, s := range r.ByStyle {
		p.ByStyle = append(p.ByStyle, styleJSON{s.Style, string(s.Method), s.Drafts, s.Passed, s.Stopped})
	}
	for _, f := range r.Fork {
		p.Fork = append(p.Fork, forkJSON{
			f.Style, string(f.Method), string(f.Figure), f.Drafts, round2(f.Mean), round2(f.SD), round2(f.Worst),
			round2(100 * f.Within), round2(100 * f.Near), round2(100 * f.Told),
		})
	}
	return p
}

// writeProof prints the counts for the eye.
func writeProof(w io.Writer, r prove.Report, took time.Duration) {
	percent := func(n int) float64 { return 100 * float64(n) / float64(max(r.Drafts, 1)) }
	fmt.Fprintf(w, "%d bodies in %d styles: %d drafts in %.1f s\n", r.Bodies, r.Styles, r.Drafts, took.Seconds())
	fmt.Fprintf(w, "  passed   %6d  %6.2f %%   (%d with nothing to mind)\n", r.Passed, percent(r.Passed), r.Clear)
	fmt.Fprintf(w, "  stopped  %6d  %6.2f %%\n", r.Stopped, percent(r.Stopped))
	fmt.Fprintf(w, "  panics   %6d\n  crossing %6d\n", r.Panics, r.Crossed)
	list := func(title string, all []prove.Count) {
		if len(all) == 0 {
			return
		}
		fmt.Fprintf(w, "\n%s\n", title)
		for _, c := range all {
			fmt.Fprintf(w, "  %6d drafts, %5d bodies  %s\n", c.Drafts, c.Bodies, c.Check)
			fmt.Fprintf(w, "%33s", "of")
			for _, id := range c.Rows[:min(len(c.Rows), 6)] {
				fmt.Fprintf(w, " %s", id)
			}
			if c.Bodies > 6 {
				fmt.Fprint(w, " …")
			}
			fmt.Fprintln(w)
		}
	}
	list("The program failed:", r.Fails)
	list("What stops the cut:", r.Stops)
	list("What is to be minded:", r.Minds)
	fmt.Fprintf(w, "\nBy style                                     method    drafts  passed  stopped\n")
	for _, s := range r.ByStyle {
		fmt.Fprintf(w, "  %-42s %-8s %7d %7d  %7d\n", clipped(s.Style, 42), s.Method, s.Drafts, s.Passed, s.Stopped)
	}
	writeForks(w, r.Fork)
}

// writeForks prints how fork seams compare with crotch lengths.
func writeForks(w io.Writer, all []prove.Fork) {
	all = slices.DeleteFunc(slices.Clone(all), func(f prove.Fork) bool { return f.Drafts == 0 })
	if len(all) == 0 {
		return // it has no fork
	}
	fmt.Fprint(w, `
Fork seam less crotch length, mm. The survey's waist is at the navel, and its
crotch lengths and rises are taken from there. "0-50" has 0 to 50 mm of room;
"near" lies within 10 mm of body and chosen ease; "told" is of the others those
whose proof says which rule stopped it.

                                    method   figure drafts    mean      sd   worst   0-50   near   told
`)
	for _, f := range all {
		name := f.Style
		if name == "" {
			name = "all styles"
		}
		fmt.Fprintf(w, "  %-33s %-8s %-6s %6d  %6.1f  %6.1f  %6.1f %5.1f%% %5.1f%% %5.1f%%\n",
			clipped(name, 33), f.Method, f.Figure, f.Drafts, f.Mean, f.SD, f.Worst, 100*f.Within, 100*f.Near, 100*f.Told)
	}
}
