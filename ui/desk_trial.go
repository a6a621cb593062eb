package ui

import (
	"math"
	"slices"
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/unit"
	"chalkfold/ui/fitting"
	"chalkfold/ui/kit"
)

// tryOut drafts the garment with the alteration that is tried.
func (d *Desk) tryOut() {
	at := &d.view.fit
	def, ok := d.garment.Alter(at.alter)
	was := d.work.Result
	if !ok || was == nil {
		at.trial = nil
		return
	}
	step := d.amountStep()
	at.trial = &fitting.Trial{By: d.Say(d.amount(at.by)), Less: at.by > step*1.5, More: at.by < def.Most-step/2}
	is, err := d.maker.core.Make(d.altering(at.alter, at.alters, at.by, job.ForJob))
	if err != nil {
		at.trial.Fault = sentenceOf(d.Err(err))
		return
	}
	at.trial.SVG = fitting.BeforeAfter(was.Panels, is.Panels, d.Words)
	at.trial.Changes = d.changesOf(was, is)
	at.trial.Told = d.toldOf(was, is)
	if d.job.Reached[Cut] != "" {
		at.trial.Recut = d.recutView(is)
	}
}

// leastShown is the least change that is shown, a sixteenth, in mm.
const leastShown = 25.4 / 16

// changesOf are the girths and the seams that change.
func (d *Desk) changesOf(was, is *draft.Result) []fitting.Changed {
	f := is.Format
	var out []fitting.Changed
	add := func(what string, a, b unit.Length) {
		if math.Abs((a - b).MM()) >= leastShown*0.9 {
			out = append(out, fitting.Changed{What: kit.Sentence(what), Was: f.Bare(a), Is: f.Bare(b)})
		}
	}
	for _, g := range is.Report.Girths {
		for _, o := range was.Report.Girths {
			if o.Name == g.Name || o.Name == g.Like || o.Like == g.Name {
				add(d.F("round the %s", d.T(g.Name)), o.Draft, g.Draft)
				break
			}
		}
	}
	for _, p := range is.Panels {
		i := slices.IndexFunc(was.Panels, func(o piece.Panel) bool { return o.Name == p.Name })
		if i < 0 { // what was of both sides is of each now
			i = slices.IndexFunc(was.Panels, func(o piece.Panel) bool { return o.Name == p.Like })
		}
		if i < 0 {
			continue
		}
		for _, e := range p.Edges {
			if o, ok := was.Panels[i].Edge(e.Name); ok {
				add(garment.EdgeOf(panelOn(is.Panels, p), e.Name, d.Words), unit.Length(o.Sew.Len()), unit.Length(e.Sew.Len()))
			}
		}
	}
	return out
}

// panelOn is a panel as a piece that knows its side.
func panelOn(all []piece.Panel, p piece.Panel) piece.Piece {
	out := piece.Piece{ID: p.Name}
	switch {
	case p.Like != "":
		out.Hand = piece.RightHand
	case slices.ContainsFunc(all, func(o piece.Panel) bool { return o.Like == p.Name }):
		out.Hand = piece.LeftHand
	}
	return out
}

// toldOf are the findings that were not there before, or less grave.
func (d *Desk) toldOf(was, is *draft.Result) []fitting.Told {
	var out []fitting.Told
	for _, f := range is.Report.Findings {
		if f.Level == proof.Fine || slices.ContainsFunc(was.Report.Findings, func(o proof.Finding) bool {
			return (o.Check == f.Check && o.Panel == f.Panel || strings.HasSuffix(f.Check, ": "+d.T(o.Check))) && o.Level >= f.Level
		}) {
			continue
		}
		out = append(out, fitting.Told{Stops: f.Level == proof.Stops, What: kit.Sentence(f.Name), Mend: sentenceOf(f.Mend)})
	}
	return out
}

// recutView tells what can be done with the cut that there is.
func (d *Desk) recutView(is *draft.Result) *fitting.Recut {
	base := d.job.File.Clone()
	base.Alterations = d.job.CutAs
	cut, err := d.maker.core.Make(base)
	if err != nil {
		return nil
	}
	r := draft.RecutOf(cut, is)
	v := &fitting.Recut{Can: r.Can(), Steps: draft.Resew(r, is.Format)}
	f := is.Format
	for _, p := range r.Panels {
		if p.Lower > 0 {
			v.Lowered = append(v.Lowered, d.F("%s: set it %s lower on its cloth; what was sewn on it stays where it is.", kit.Sentence(d.T(p.Piece.Name)), f.Text(p.Lower)))
		}
		if p.Aside != 0 {
			text := f.Text(max(p.Aside, -p.Aside))
			if p.Aside > 0 {
				text = d.F("%s: set it %s towards the side on its cloth.", kit.Sentence(d.T(p.Piece.Name)), text)
			} else {
				text = d.F("%s: set it %s towards the centre on its cloth.", kit.Sentence(d.T(p.Piece.Name)), text)
			}
			v.Lowered = append(v.Lowered, text)
		}
		for _, e := range p.Edges {
			if e.Can() && e.Most.MM() < leastShown { // it asks for nothing
				continue
			}
			v.Seams = append(v.Seams, fitting.Seam{
				Name: kit.Sentence(garment.EdgeOf(p.Piece, e.Name, d.Words)),
				Asks: f.Bare(e.Most), Has: f.Bare(e.Has), Left: f.Bare(e.Left), Short: !e.Can(),
			})
		}
	}
	for _, a := range r.Anew {
		says := d.F("%s: cut it anew", kit.Sentence(d.T(a.Piece.Name)))
		switch by := a.By.MM(); {
		case by >= leastShown:
			says = d.F("%s: %s longer", kit.Sentence(d.T(a.Piece.Name)), f.Text(a.By))
		case by <= -leastShown:
			says = d.F("%s: %s shorter", kit.Sentence(d.T(a.Piece.Name)), f.Text(-a.By))
		}
		v.Anew = append(v.Anew, says)
	}
	if !r.Can() {
		v.Instead = d.instead(cut, r)
	}
	return v
}

// instead is what can be done where there is not cloth enough: less of it, another
// alteration for the same sign, a piece let in.
func (d *Desk) instead(cut *draft.Result, r draft.Recut) []string {
	at := &d.view.fit
	f := cut.Format
	can := func(kind string, side job.Side, by unit.Length) bool {
		is, err := d.maker.core.Make(d.altering(kind, side, by, job.ForJob))
		return err == nil && !is.Report.Stopped() && draft.RecutOf(cut, is).Can()
	}
	var out []string
	step := d.amountStep()
	none, all := 0, int(at.by/step+0.5) // steps that can be had, and that cannot
	for all-none > 1 {
		if mid := (none + all) / 2; can(at.alter, at.alters, step*unit.Length(mid)) {
			none = mid
		} else {
			all = mid
		}
	}
	if none > 0 {
		out = append(out, d.F("This cut can give %s of it.", f.Text(step*unit.Length(none))))
	}
	for _, s := range d.garment.Signs() {
		if s.ID != at.sign {
			continue
		}
		for _, c := range s.Causes {
			for _, id := range c.Alter {
				if a, ok := d.garment.Alter(id); ok && id != at.alter && (at.alters == "" || a.OneSide != nil) && can(id, at.alters, a.Usual) {
					out = append(out, d.F("This cut lets you %s, by %s.", d.T(a.Name), f.Text(a.Usual)))
				}
			}
		}
	}
	return append(out, draft.LetIn(r, f)...)
}
