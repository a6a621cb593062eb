package draft

import (
	"chalkfold/draft/chalk"
	"chalkfold/draft/construct"
	"chalkfold/draft/say"
	"chalkfold/draft/sheet"
)

// Miniature draws the whole draft at 1 : 4 or 1 : 5 on one sheet, that of a very
// tall body on short paper at 1 : 6, every mark
// with its number, its figure and its sum: for a notebook.
func Miniature(r *Result, paper sheet.Paper) (sheet.Drawing, error) {
	d, ok := plate(r).Miniature(paper)
	if !ok {
		return sheet.Drawing{}, say.Errorf("miniature: the draft is more than one sheet of %s holds; take a larger paper", paper.Name)
	}
	return d, nil
}

// Lesson draws the construction in steps on a few sheets: in each the new lines
// heavy, with their sums and rules.
func Lesson(r *Result, paper sheet.Paper) []sheet.Drawing {
	return plate(r).Lesson(paper)
}

// plate is the construction as the chalk guide tells it: the panels alone, since
// only they are drawn from marks.
func plate(r *Result) sheet.Plate {
	w, f := r.Format.Words, r.Format
	p := sheet.Plate{
		Words: w, Title: Title(r), Sub: w.T("Numbers are those of the chalk guide. Lengths are in inches."),
		Rule: func(scale int) string { return w.F("1 : %d", scale) },
	}
	if f.System.Metric() {
		p.Sub = w.T("Numbers are those of the chalk guide. Lengths are in centimetres.")
	}
	panels := map[string]bool{}
	for _, q := range r.Panels {
		panels[q.Name] = true
	}
	for _, s := range Chalk(r) {
		if !panels[s.Piece] {
			continue
		}
		delete(panels, s.Piece) // what is cut last teaches nothing new
		for _, m := range s.Marks {
			if t, ok := taught(r, s.Piece, m); ok {
				p.Taught = append(p.Taught, t)
			}
		}
	}
	return p
}

// taught is a mark of the guide for a plate; notches and cut lines are left out.
func taught(r *Result, part string, m chalk.Mark) (sheet.Taught, bool) {
	w, f := r.Format.Words, r.Format
	t := sheet.Taught{No: m.No, Part: part, What: m.Name, At: m.At, Path: m.Path}
	if m.Kind == chalk.Notch || m.Kind == chalk.Allow {
		return t, false
	}
	if m.Measure != 0 {
		t.What = w.F("%s: %s", m.Name, f.Bare(m.Measure))
	}
	if m.ThenWay != "" {
		t.What = w.F("%s, then %s %s", t.What, f.Bare(m.Then), m.ThenWay)
	}
	st, ok := r.Record.Find(m.Step)
	if ok && st.Why != m.Because {
		t.Sum, t.Rule = m.Because, st.Why
	} else {
		t.Rule = m.Because
	}
	switch m.Kind {
	case chalk.Point:
		from := m.At // measured from the edges of the cloth
		if ok && st.From != "" && r.Record.Has(st.From) {
			from = r.Record.Point(st.From)
		}
		t.From = &from
	case chalk.Move:
		for _, s := range r.Record.Steps() {
			if s.Name == m.Step && s.Kind == construct.KindMove {
				was := s.Was
				t.From = &was
			}
		}
	case chalk.Line, chalk.Curve, chalk.Notch, chalk.Allow:
	}
	return t, true
}
