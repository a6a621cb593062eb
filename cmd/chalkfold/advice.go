package main

import (
	"io"

	"chalkfold/draft"
	"chalkfold/draft/lay"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// runAdvice says what can give when a job, or jobs laid together, do not fit on one of
// the cloths.
func runAdvice(name string, r *draft.Result, cloth, work int, asJSON bool, out, errs io.Writer) error {
	m := draft.Maker{Words: r.Format.Words}
	cut, err := draft.CutBefore(r, cloth, lay.Options{Work: work})
	if err != nil {
		return badJob("lay", name, err, r.Format.Words, errs)
	}
	a, err := m.Advise(r, cloth, draft.Advising{Work: work, Cut: cut})
	if err != nil {
		return badJob("lay", name, err, r.Format.Words, errs)
	}
	if asJSON {
		err = writeJSON(out, newAdviceJSON(a, len(r.Of) > 1))
	} else {
		writeAdvice(out, r, a)
	}
	if err == nil && !a.Base.Fits() {
		return errStopped
	}
	return err
}

func writeAdvice(w io.Writer, r *draft.Result, a *draft.Advice) {
	p, f := prose{r.Format.Words, w}, r.Format
	if a.Base.Laid != nil {
		writeTaken(p, r, a.Base.Laid)
	} else {
		p.line(2, "%s", wideWords(a.Base.Wide, f))
	}
	if a.Base.Fits() {
		p.line(2, "  %s", p.T("nothing need give"))
		return
	}
	var vain []string
	p.heading(p.T("What can give, least harm first"))
	for _, t := range a.Each {
		if !t.Helps {
			vain = append(vain, t.Gifts[0].Say)
			continue
		}
		p.line(4, "  %s", t.Gifts[0].Say)
		p.line(6, "      %s", gain(p, f, a.Base, t))
		for _, c := range t.Costs {
			p.line(6, "      %s", c)
		}
		if t.Gifts[0].Leave {
			p.line(6, "      %s", p.T("ask the client first"))
		}
	}
	if len(vain) > 0 {
		p.line(4, "  %s", p.F("By itself saves nothing to speak of: %s", p.list(vain)))
	}
	best := a.Together
	if best.Fits() {
		p.heading(p.T("Least harm that makes it fit"))
	} else {
		p.heading(p.T("Nothing makes it fit; the most that can give"))
	}
	for _, g := range best.Gifts {
		p.line(4, "  %s", g.Say)
	}
	if best.Laid == nil {
		p.line(2, "  %s", p.T("no gift makes it lie on this cloth: take a wider one"))
		return
	}
	p.line(6, "      %s", gain(p, f, a.Base, best))
	for _, c := range best.Costs {
		p.line(6, "      %s", c)
	}
	if a.Base.Laid != nil || !best.Fits() {
		p.heading(p.T("Or buy"))
	}
	switch {
	case a.Base.Laid != nil && len(r.Of) > 0:
		p.line(2, "  %s", p.F("%s as the jobs stand", f.Bought(a.Base.Laid.Length)))
	case a.Base.Laid != nil:
		p.line(2, "  %s", p.F("%s as the job stands", f.Bought(a.Base.Laid.Length)))
	}
	if !best.Fits() {
		p.line(2, "  %s", p.F("%s with all that can give", f.Bought(best.Takes)))
	}
}

// gain says what gifts save, and whether that is enough.
func gain(p prose, f unit.Format, base, t draft.Try) string {
	switch l := t.Laid; {
	case len(l.Out) > 0:
		return p.N(len(l.Out), "%d piece finds no place", "%d pieces find no place")
	case base.Laid == nil && l.Fits:
		return p.F("takes %s: fits", f.Text(l.Length))
	case base.Laid == nil:
		return p.F("takes %s: still short by %s", f.Text(t.Takes), f.Text(t.ShortBy()))
	case l.Fits && f.Round(l.Cloth.Length-l.Length) == 0:
		return p.F("saves %s: fits, with nothing to spare", f.Text(t.Saves))
	case l.Fits:
		return p.F("saves %s: fits, %s left at the end", f.Text(t.Saves), f.Text(l.Cloth.Length-l.Length))
	default:
		return p.F("saves %s: still short by %s", f.Text(t.Saves), f.Text(t.ShortBy()))
	}
}

// wideWords says which piece does not go across the cloth.
func wideWords(e *lay.TooWideError, f unit.Format) string {
	why := f.Words.F("%s does not go across the cloth (%s): it needs %s and there is %s, short by %s",
		say.Name(e.Name), say.Name(e.Fold.String()), f.Text(e.Across), f.Text(e.Room), f.Text(e.ShortBy()))
	if e.OpenFits {
		why = f.Words.F("%s; it would fit with the cloth laid open", why)
	}
	return why
}

type adviceJSON struct {
	Base     tryJSON   `json:"as_it_stands"`
	Each     []tryJSON `json:"gifts"`
	Together tryJSON   `json:"together"`
}

type tryJSON struct {
	Gifts   []giftJSON `json:"gifts"`
	Lies    bool       `json:"lies_on_the_cloth"` // no piece is too wide for it
	Length  float64    `json:"length_mm"`
	Saves   float64    `json:"saves_mm"`
	Fits    bool       `json:"fits"`
	ShortBy float64    `json:"short_by_mm"`
	Costs   []string   `json:"costs"`
}

type giftJSON struct {
	Path  string `json:"path"`
	To    string `json:"to"`
	Say   string `json:"say"`
	Harm  int    `json:"harm"`
	Leave bool   `json:"ask_the_client"`
	Jobs  []int  `json:"jobs,omitempty"` // of several, those that it changes, from 1
}

func newAdviceJSON(a *draft.Advice, several bool) adviceJSON {
	out := adviceJSON{Base: newTryJSON(a.Base, several), Each: []tryJSON{}, Together: newTryJSON(a.Together, several)}
	for _, t := range a.Each {
		out.Each = append(out.Each, newTryJSON(t, several))
	}
	return out
}

func newTryJSON(t draft.Try, several bool) tryJSON {
	j := tryJSON{Gifts: []giftJSON{}, Fits: t.Fits(), Saves: mm(t.Saves), Costs: append([]string{}, t.Costs...)}
	for _, g := range t.Gifts {
		one := giftJSON{Path: g.Path, To: g.To, Say: g.Say, Harm: g.Harm, Leave: g.Leave}
		for _, i := range g.Of {
			if several {
				one.Jobs = append(one.Jobs, i+1)
			}
		}
		j.Gifts = append(j.Gifts, one)
	}
	switch {
	case t.Laid != nil:
		j.Lies, j.Length, j.ShortBy = true, mm(t.Takes), mm(t.ShortBy())
	case t.Wide != nil:
		j.ShortBy = mm(t.Wide.ShortBy())
	}
	return j
}
