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
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// writeLesson prints a draft as it is told at the table: what was measured,
// the sums one after the other, what truing mended, the pieces, what goes
// round the body, and what the proof found, worst first.
func writeLesson(w io.Writer, r *draft.Result) error {
	var b strings.Builder
	l := lesson{prose{r.Format.Words, &b}, r}
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
	name := l.T(l.r.Garment.Name)
	if l.r.Job.Name != "" {
		name = l.F("%s: %s", l.r.Job.Name, say.Within(l.r.Garment.Name))
	}
	how := l.T("trued")
	switch {
	case l.r.Job.Drafting == job.Spoken:
		how = l.T("as it is spoken, with no truing")
	case len(l.r.Job.Untrued) > 0:
		how = l.F("trued, all but %s", strings.Join(l.r.Job.Untrued, ", "))
	}
	l.line(0, "%s", l.F("%s by the %s, %s", name, l.method(), how))
	if l.r.Format.System.Metric() {
		l.line(0, "%s", l.T("Lengths are in centimetres."))
	} else {
		l.line(0, "%s", l.T("Lengths are in inches."))
	}
}

// method names the way of drafting: "quarter method".
func (l lesson) method() say.Name {
	for _, m := range l.r.Garment.Methods {
		if m.ID == string(l.r.Job.Method) {
			return say.Name(m.Name)
		}
	}
	return say.Name(l.r.Garment.Methods[0].Name)
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
	l.heading(l.T("Measured"))
	const name = 24
	for _, m := range bodyLines(l.r) {
		at := "  " + pad(l.T(m.def.Name), name)
		switch {
		case m.value.Estimated:
			l.line(name+4, "%s %s", at, l.F("about %s, not taken: %s", l.r.Format.Text(m.value.Length), m.value.How))
		case m.value.Of == body.OfGarment:
			l.line(name+4, "%s %s", at, l.F("%s, of a garment that fits", m.value.Given))
		default:
			l.line(name+4, "%s %s", at, l.Say(m.value.Given))
		}
	}
	for _, d := range l.r.Doubts {
		l.line(4, "  ? %s", l.Say(d.Text))
	}
}

func (l lesson) style() {
	l.heading(l.T("Style and rules"))
	var said []string
	for _, o := range l.r.Garment.Options {
		for _, c := range o.Choices {
			if c.ID == l.r.Style[o.ID] {
				said = append(said, l.F("%s: %s", say.Name(o.Name), say.Name(c.Name)))
			}
		}
	}
	l.line(2, "  %s.", l.list(said))
	for _, d := range l.r.Rules.Defs() {
		if at := l.r.Rules.Level(d.ID); at != rules.Built {
			l.line(4, "  %s", l.F("%s %s (%s rule)", say.Name(d.Name), l.r.Rules.Told(d.ID), say.Name(at.String())))
		}
	}
}

// sums are the steps that are sums, gathered by the part they belong to.
func (l lesson) sums() {
	l.heading(l.T("Sums"))
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
		l.line(2, " %s", l.T(part))
		for _, s := range of[part] {
			sum, mark := l.r.Record.SumOf(s, l.r.Format), " "
			if s.Truing != "" {
				mark = "*"
			}
			if s.Formula.String() == "" {
				sum += ", " + s.Why
			}
			l.sum(fmt.Sprintf(" %s %s", mark, l.F("%s: %s", s.Label, sum)))
		}
	}
	if len(l.r.Record.Trues()) > 0 {
		l.line(2, "  * %s", l.T("belongs to a truing."))
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
	l.heading(l.T("From spoken to trued"))
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
		l.line(2, " %s (%s)", l.T(t.Name), t.ID)
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
	r, err := (&draft.Maker{Words: l.Words}).Make(j)
	if err != nil {
		return // it cannot be drawn as it is spoken
	}
	stops := r.Report.At(proof.Stops)
	if len(stops) == 0 {
		return
	}
	l.line(2, " %s", l.T("as it is spoken, without these"))
	for _, f := range stops {
		l.line(6, "    %s", l.F("%s: %s, %s", f.Name, f.Say, l.figures(f)))
	}
}

func (l lesson) pieces() {
	l.heading(l.T("Pieces, as cut"))
	name := 22
	for _, p := range l.r.Pieces {
		name = max(name, width(l.T(p.Name)))
	}
	for _, p := range l.r.Pieces {
		b := p.Bounds()
		size := fmt.Sprintf("%s × %s", l.r.Format.Bare(unit.Length(b.W())), l.r.Format.Bare(unit.Length(b.H())))
		cloth := ""
		if p.Cloth != piece.Main {
			cloth = l.T(string(p.Cloth))
		}
		at := fmt.Sprintf("  %2d %s %s %s", p.Count, pad(l.T(p.Name), name), pad(size, 15), pad(cloth, 12))
		fmt.Fprintln(l.w, strings.TrimRight(at, " "))
		if p.Note != "" {
			l.line(5, "     %s", p.Note)
		}
	}
}

func (l lesson) girths() {
	l.heading(l.T("Round the body"))
	f := l.r.Format
	fmt.Fprintf(l.w, "  %s%s%s%s\n", pad("", 12), figure(l.T("body")), figure(l.T("draft")), figure(l.T("room")))
	for _, g := range l.r.Report.Girths {
		note := ""
		if g.Estimated {
			note = "  " + l.T("body estimated")
		}
		fmt.Fprintf(l.w, "  %s%s%s%s%s\n", pad(l.T(g.Name), 12), figure(f.Bare(g.Body)), figure(f.Bare(g.Draft)), figure(f.Bare(g.Ease)), note)
	}
}

func (l lesson) findings() {
	l.heading(l.T("Proof"))
	stops, minds, fine := l.r.Report.At(proof.Stops), l.r.Report.At(proof.Mind), l.r.Report.At(proof.Fine)
	for _, f := range append(append([]proof.Finding{}, stops...), minds...) {
		level := map[proof.Level]string{proof.Stops: l.T("STOP"), proof.Mind: l.T("mind")}[f.Level]
		l.line(4, "  %s", l.F("%s: %s: %s: %s", level, f.Name, f.Say, l.figures(f)))
		if f.Mend != "" {
			l.line(8, "      → %s", f.Mend)
		}
	}
	if held := groups(fine); len(held) > 0 {
		l.line(4, "  %s", l.F("Holds: %s.", l.list(held)))
	}
	for _, e := range l.r.Estimates {
		l.line(4, "  %s", l.F("The draft rests on an estimate of the %s.", say.Name(e.Name)))
	}
	verdict := l.T("Nothing stops the cut")
	if len(stops) > 0 {
		verdict = l.N(len(stops), "Do not cut: %d finding stops the cut", "Do not cut: %d findings stop the cut")
	}
	mind := l.T("no things to mind")
	if len(minds) > 0 {
		mind = l.N(len(minds), "%d thing to mind", "%d things to mind")
	}
	holds := l.T("no checks hold")
	if len(fine) > 0 {
		holds = l.N(len(fine), "%d check holds", "%d checks hold")
	}
	fmt.Fprintln(l.w)
	l.line(0, "%s.", l.list([]string{verdict, mind, holds}))
}

// groups names the checks, each once; those of one kind ("outline: Front") are
// named by the kind and counted.
func groups(all []proof.Finding) []string {
	var names []string
	count := map[string]int{}
	for _, f := range all {
		kind, _, _ := strings.Cut(f.Name, ": ")
		kind = strings.TrimSpace(kind)
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
		fine := unit.Format{System: unit.Millimetres, Words: l.Words}
		return l.F("%s, off by %s", got, fine.Text(unit.Length(f.Figure.V-f.Want.V)))
	}
	return l.F("%s, wanted %s", got, want)
}
