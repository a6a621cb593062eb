package main

import (
	"fmt"
	"io"
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/construct"
	"chalkfold/draft/job"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
)

// writeLesson prints a draft as it is told at the table: what was measured,
// the sums one after the other, what truing mended, the pieces, what goes
// round the body, and what the proof found, worst first.
func writeLesson(w io.Writer, r *draft.Result) error {
	var b strings.Builder
	l := lesson{prose{&b}, r}
	l.title()
	l.measured()
	l.style()
	l.sums()
	l.changes()
	l.pieces()
	l.girths()
	l.findings()
	_, err := io.WriteString(w, b.String())
	return err
}

type lesson struct {
	prose
	r *draft.Result
}

func (l lesson) title() {
	name := l.r.Garment.Name
	if l.r.Job.Name != "" {
		name = l.r.Job.Name + ": " + strings.ToLower(name)
	}
	how := "trued"
	switch {
	case l.r.Job.Drafting == job.Spoken:
		how = "as it is spoken, with no truing"
	case len(l.r.Job.Untrued) > 0:
		how = "trued, all but " + strings.Join(l.r.Job.Untrued, ", ")
	}
	l.line(0, "%s by the %s method, %s", name, l.r.Job.Method, how)
	if l.r.Format.System.Metric() {
		l.line(0, "Lengths are in centimetres.")
	} else {
		l.line(0, "Lengths are in inches.")
	}
}

// bodyLine is one measurement of the draft.
type bodyLine struct {
	def   body.Def
	value body.Value
}

// bodyLines are the measurements in the order in which they are taken.
func bodyLines(r *draft.Result) []bodyLine {
	var out []bodyLine
	for _, d := range body.Defs() {
		if v, ok := r.Body[d.ID]; ok {
			out = append(out, bodyLine{d, v})
		}
	}
	return out
}

func (l lesson) measured() {
	l.heading("Measured")
	const name = 24
	for _, m := range bodyLines(l.r) {
		at := "  " + pad(m.def.Name, name)
		switch {
		case m.value.Estimated:
			l.line(name+4, "%s about %s, not taken: %s", at, l.r.Format.Text(m.value.Length), m.value.How)
		case m.value.Of == body.OfGarment:
			l.line(name+4, "%s %s, of a garment that fits", at, m.value.Given)
		default:
			l.line(name+4, "%s %s", at, m.value.Given)
		}
	}
	for _, d := range l.r.Doubts {
		l.line(4, "  ? %s", d.Text)
	}
}

func (l lesson) style() {
	l.heading("Style and rules")
	var said []string
	for _, o := range l.r.Garment.Options {
		for _, c := range o.Choices {
			if c.ID == l.r.Style[o.ID] {
				said = append(said, o.Name+": "+c.Name)
			}
		}
	}
	l.line(2, "  %s.", strings.Join(said, "; "))
	for _, d := range l.r.Rules.Defs() {
		if at := l.r.Rules.Level(d.ID); at != rules.Built {
			l.line(4, "  %s %s (%s rule)", d.Name, l.r.Rules.Text(d.ID), at)
		}
	}
}

// sums are the steps that are sums, gathered by the part they belong to.
func (l lesson) sums() {
	l.heading("Sums")
	var parts []string
	of := map[string][]construct.Step{}
	for _, s := range l.r.Record.Steps() {
		if s.Kind != construct.KindValue {
			continue
		}
		if len(of[s.Part]) == 0 {
			parts = append(parts, s.Part)
		}
		of[s.Part] = append(of[s.Part], s)
	}
	for _, part := range parts {
		l.line(2, " %s", part)
		for _, s := range of[part] {
			sum, mark := l.r.Record.SumOf(s, l.r.Format), " "
			if s.Truing != "" {
				mark = "*"
			}
			if s.Formula.String() == "" {
				sum += ", " + s.Why
			}
			l.sum(fmt.Sprintf(" %s %s: %s", mark, s.Label, sum))
		}
	}
	if len(l.r.Record.Trues()) > 0 {
		l.line(2, "  * belongs to a truing.")
	}
}

// sum prints a sum; one that is longer than a line is broken before its equals
// signs.
func (l lesson) sum(s string) {
	const hang = 6
	if width(s) <= columns {
		fmt.Fprintln(l.w, s)
		return
	}
	broken := strings.NewReplacer(" = ", "\n= ", " ≈ ", "\n≈ ").Replace(s)
	for i, part := range strings.Split(broken, "\n") {
		if i > 0 {
			part = strings.Repeat(" ", hang) + part
		}
		l.line(hang+2, "%s", part)
	}
}

// changes tell what each truing did to the draft as it is spoken.
func (l lesson) changes() {
	all := l.r.Record.Tell(l.r.Format)
	if len(all) == 0 {
		return
	}
	l.heading("From spoken to trued")
	l.untrued()
	for _, t := range l.r.Garment.Truings {
		var lines []string
		for _, c := range all {
			if c.Truing == t.ID {
				lines = append(lines, c.What+", "+c.Why)
			}
		}
		if len(lines) == 0 {
			continue
		}
		l.line(2, " %s (%s)", t.Name, t.ID)
		for _, s := range lines {
			l.line(6, "    %s", s)
		}
	}
}

// untrued tells what the draft would be as it is spoken: the lesson in the
// difference.
func (l lesson) untrued() {
	j := l.r.Job
	if j.Drafting == job.Spoken {
		return
	}
	j.Drafting, j.Untrued = job.Spoken, nil
	r, err := draft.Make(j)
	if err != nil {
		return // it cannot be drawn as it is spoken
	}
	stops := r.Report.At(proof.Stops)
	if len(stops) == 0 {
		return
	}
	l.line(2, " as it is spoken, without these")
	for _, f := range stops {
		l.line(6, "    %s: %s, %s", f.Check, f.Say, l.figures(f))
	}
}

func (l lesson) pieces() {
	l.heading("Pieces, as cut")
	for _, p := range l.r.Pieces {
		b := p.Bounds()
		size := fmt.Sprintf("%s × %s", l.r.Format.Bare(unit.Length(b.W())), l.r.Format.Bare(unit.Length(b.H())))
		cloth := string(p.Cloth)
		if p.Cloth == piece.Main {
			cloth = ""
		}
		at := fmt.Sprintf("  %2d %s %s %s", p.Count, pad(p.Name, 22), pad(size, 15), pad(cloth, 12))
		fmt.Fprintln(l.w, strings.TrimRight(at, " "))
		if p.Note != "" {
			l.line(5, "     %s", p.Note)
		}
	}
}

func (l lesson) girths() {
	l.heading("Round the body")
	f := l.r.Format
	fmt.Fprintf(l.w, "  %s%s%s%s\n", pad("", 12), figure("body"), figure("draft"), figure("room"))
	for _, g := range l.r.Report.Girths {
		note := ""
		if g.Estimated {
			note = "  body estimated"
		}
		fmt.Fprintf(l.w, "  %s%s%s%s%s\n", pad(g.Name, 12), figure(f.Bare(g.Body)), figure(f.Bare(g.Draft)), figure(f.Bare(g.Ease)), note)
	}
}

func (l lesson) findings() {
	l.heading("Proof")
	stops, minds, fine := l.r.Report.At(proof.Stops), l.r.Report.At(proof.Mind), l.r.Report.At(proof.Fine)
	for _, f := range append(append([]proof.Finding{}, stops...), minds...) {
		l.line(4, "  %s: %s: %s: %s", map[proof.Level]string{proof.Stops: "STOP", proof.Mind: "mind"}[f.Level], f.Check, f.Say, l.figures(f))
		if f.Mend != "" {
			l.line(8, "      → %s", f.Mend)
		}
	}
	if held := groups(fine); len(held) > 0 {
		l.line(4, "  Holds: %s.", strings.Join(held, "; "))
	}
	for _, e := range l.r.Estimates {
		l.line(4, "  The draft rests on an estimate of the %s.", e.Name)
	}
	verdict := "Nothing stops the cut"
	if len(stops) > 0 {
		verdict = fmt.Sprintf("Do not cut: %s", counted(len(stops), "finding stops", "findings stop")+" the cut")
	}
	fmt.Fprintln(l.w)
	l.line(0, "%s; %s; %s.", verdict, counted(len(minds), "thing to mind", "things to mind"), counted(len(fine), "check holds", "checks hold"))
}

// groups names the checks, each once; those of one kind ("outline: Front") are
// named by the kind and counted.
func groups(all []proof.Finding) []string {
	var names []string
	count := map[string]int{}
	for _, f := range all {
		kind, _, _ := strings.Cut(f.Check, ": ")
		if count[kind] == 0 {
			names = append(names, kind)
		}
		count[kind]++
	}
	for i, n := range names {
		if count[n] > 1 {
			names[i] = fmt.Sprintf("%s (%d)", n, count[n])
		}
	}
	return names
}

// figures is what was found and what was wanted.
func (l lesson) figures(f proof.Finding) string {
	got, want := f.Figure.Text(l.r.Format), f.Want.Text(l.r.Format)
	if got == want && !f.Figure.Degrees { // too close for the tape to show
		fine := unit.Format{System: unit.Millimetres}
		return fmt.Sprintf("%s, off by %s", got, fine.Text(unit.Length(f.Figure.V-f.Want.V)))
	}
	return fmt.Sprintf("%s, wanted %s", got, want)
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	if n == 0 {
		return "no " + many
	}
	return fmt.Sprintf("%d %s", n, many)
}
