package draft

import (
	"cmp"
	"math"
	"slices"

	"chalkfold/draft/lay"
	"chalkfold/draft/say"
	"chalkfold/draft/sheet"
	"chalkfold/draft/unit"
)

// Guide is where one laid piece is chalked: its grain line first, then the piece
// about it. The texts are in the reader's language.
type Guide struct {
	Placement int    // of the lay
	Name      string // of the piece
	How       string // through both layers, on the fold, on the cloth opened out; or empty
	// Across and Along are where the grain line begins, at the end that is
	// nearer to the cut edge: from the fold, or the left selvedge, and from the
	// cut edge.
	Across, Along unit.Length
	Length        unit.Length // of the grain line
	Where         string      // these figures, said
	Way           string      // which end comes first
	FootFirst     bool        // it is the foot that is nearer to the cut edge
	Face          string      // turned over; or empty
}

// LayGuide is the lay as it is chalked, piece by piece.
func LayGuide(l *Laid, f unit.Format) []Guide {
	w := f.Words
	var all []Guide
	for i, p := range l.Placements {
		it := l.Items[p.Item]
		from, to := p.At.Pt(it.Grain[0]), p.At.Pt(it.Grain[1])
		g := Guide{Placement: i, Name: w.T(it.Name), Length: unit.Length(from.Dist(to))}
		switch run := to.Sub(from); {
		case math.Abs(run.X) > math.Abs(run.Y) && run.X > 0:
			g.Way = w.T("across the cloth, its top to the left")
		case math.Abs(run.X) > math.Abs(run.Y):
			g.Way = w.T("across the cloth, its top to the right")
		case run.Y >= 0:
			g.Way = w.T("its top first")
		default:
			g.Way = w.T("its foot first")
		}
		if g.FootFirst = to.Y < from.Y; g.FootFirst {
			from, to = to, from
		}
		g.Across, g.Along = unit.Length(from.X), unit.Length(from.Y)
		switch {
		case it.OnFold:
			g.How = w.T("on the fold")
		case it.Double:
			g.How = w.T("through both layers")
		case p.Opened:
			g.How = w.T("on the cloth opened out")
		}
		if !it.EitherFace && p.At.Mirrors() {
			g.Face = w.T("turned over")
		}
		g.Where = l.where(p, g, unit.Length(to.X), f)
		all = append(all, g)
	}
	return all
}

// where says where a grain line begins and, when it is aslant, where it ends.
func (l *Laid) where(p lay.Placement, g Guide, end unit.Length, f unit.Format) string {
	w, x, y, long := f.Words, f.Text(g.Across), f.Text(g.Along), f.Text(g.Length)
	said := ""
	switch {
	case len(l.Cloth.Outline) > 0:
		said = w.F("grain line begins %s from the left side of the remnant and %s from its near edge, %s long", x, y, long)
	case l.Cloth.Fold == lay.Lengthwise && !p.Opened:
		said = w.F("grain line begins %s from the fold and %s from the cut edge, %s long", x, y, long)
	case l.Cloth.Fold == lay.Crosswise:
		said = w.F("grain line begins %s from the left selvedge and %s from the fold, %s long", x, y, long)
	default:
		said = w.F("grain line begins %s from the left selvedge and %s from the cut edge, %s long", x, y, long)
	}
	if f.Round(end) != f.Round(g.Across) {
		said = w.F("%s; it ends %s across", said, f.Text(end))
	}
	return said
}

// Shrinks says how much larger to chalk on cloth that is still to shrink; empty
// on cloth that is not.
func (l *Laid) Shrinks(f unit.Format) string {
	along, across := l.Cloth.ShrinksAlong, l.Cloth.ShrinksAcross
	if along == 0 && across == 0 {
		return ""
	}
	yard := unit.Yard
	if f.System.Metric() {
		yard = unit.Metre
	}
	larger := func(percent float64) string { return f.Text(yard / unit.Length(1-percent/100)) }
	return f.Words.F("The cloth is not washed before it is cut and will shrink: chalk %s along the grain as %s, and %s across it as %s.",
		f.Text(yard), larger(along), f.Text(yard), larger(across))
}

// Diagram is the lay on one page to cut by: its drawing, and under it where each
// piece is chalked.
func (l *Laid) Diagram(f unit.Format, opt sheet.Options) sheet.Drawing {
	var notes []string
	if s := l.Shrinks(f); s != "" {
		notes = append(notes, s)
	}
	for _, g := range LayGuide(l, f) {
		notes = append(notes, f.Words.F("%s: %s", g.Name, g.Where))
	}
	return l.drawing(f, opt, notes, nil)
}

// mostOnPage is how many pieces are named on the page with their drawing.
const mostOnPage = 30

// Pages are the lay on paper to cut by: the one page of Diagram or, where the pieces of
// several garments are too many for it, the drawing with numbers, along the cloth, and
// what they stand for on the sheets after it.
func (l *Laid) Pages(f unit.Format, opt sheet.Options, paper sheet.Paper) []sheet.Drawing {
	if len(l.Placements) <= mostOnPage {
		return []sheet.Drawing{sheet.Fit(l.Diagram(f, opt), paper)}
	}
	w, guide := f.Words, LayGuide(l, f)
	slices.SortStableFunc(guide, func(a, b Guide) int { return cmp.Compare(a.Along, b.Along) })
	no, texts := map[int]int{}, []string(nil)
	for i, g := range guide {
		no[g.Placement] = i + 1
		text := w.F("%s: %s", g.Name, g.Where)
		for _, more := range []string{g.How, g.Way, g.Face} {
			if more != "" {
				text = w.F("%s, %s", text, more)
			}
		}
		texts = append(texts, text)
	}
	title := l.Cloth.Name
	if title == "" {
		title = w.F("%s cloth", say.Name(l.Cloth.Kind))
	}
	if s := l.Shrinks(f); s != "" {
		title = w.F("%s: %s", title, s)
	}
	drawing := sheet.FitLegibly(func(text unit.Length) sheet.Drawing {
		opt.Text = text
		return l.drawing(f, opt, nil, no)
	}, paper)
	return append([]sheet.Drawing{drawing}, sheet.Items(paper, title, texts)...)
}
