package draft

import (
	"cmp"
	"slices"
	"strings"

	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// costs tells what gifts cost, from the changed drafts themselves; or why they
// cannot be made. What they cost all garments alike is told once.
func (a *advising) costs(t *Try, made *Result) {
	w := a.maker.Words
	for _, g := range t.Gifts {
		if cost := w.T(g.Cost); g.Cost != "" && !slices.Contains(t.Costs, cost) {
			t.Costs = append(t.Costs, cost)
		}
	}
	type lost struct {
		what string
		of   []int
	}
	var all []lost
	changed := 0
	for i, was := range a.parts {
		if !t.Changes(i) {
			continue
		}
		changed++
		is := made
		if len(made.Of) > 0 {
			is = made.Of[i].Result
		}
		for _, f := range worse(was.Report, is.Report, proof.Stops) {
			t.Why = w.F("%s: %s", f.Name, f.Say)
			return
		}
		for _, what := range a.lost(t, i, is) {
			if k := slices.IndexFunc(all, func(l lost) bool { return l.what == what }); k >= 0 {
				all[k].of = append(all[k].of, i)
				continue
			}
			all = append(all, lost{what, []int{i}})
		}
	}
	for _, l := range all {
		if len(l.of) < changed {
			l.what = w.F("%s: %s", a.named(l.of), l.what)
		}
		t.Costs = append(t.Costs, l.what)
	}
	a.elsewhere(t, made)
}

// lost is what one garment loses by gifts that are made of it.
func (a *advising) lost(t *Try, garment int, is *Result) []string {
	w, was := a.maker.Words, a.parts[garment]
	var out, tells []string
	for _, g := range t.Gifts {
		if slices.Contains(g.Of, garment) {
			tells = append(tells, g.Tells...)
		}
	}
	for i, name := range tells {
		about, before, _ := figure(was.Report, name)
		_, after, ok := figure(is.Report, name)
		if ok && !slices.Contains(tells[:i], name) {
			out = append(out, a.differs(about, before, after))
		}
	}
	for _, f := range worse(was.Report, is.Report, proof.Mind) {
		out = append(out, w.F("to mind: %s, %s", f.Name, f.Say))
	}
	moved := map[piece.Cloth][]string{}
	for _, p := range is.Pieces {
		if slices.ContainsFunc(was.Pieces, func(o piece.Piece) bool { return o.ID == p.ID && o.Cloth != p.Cloth }) {
			moved[p.Cloth] = append(moved[p.Cloth], w.T(p.Name))
		}
	}
	for _, k := range []piece.Cloth{piece.Main, piece.Lining, piece.Interfacing} {
		if len(moved[k]) > 0 {
			out = append(out, w.F("cut from the %s: %s", say.Name(string(k)), strings.Join(moved[k], ", ")))
		}
	}
	return out
}

// differs tells a figure of a changed draft: of several garments by how much it is
// another, which is commonly the same for all of them.
func (a *advising) differs(about say.Told, before, after unit.Length) string {
	w, f := a.maker.Words, a.from.Format
	now, then := f.Text(after), f.Text(before)
	by := f.Round(after) - f.Round(before)
	switch several := len(a.parts) > 1; {
	case several && now == then:
		return w.F("%s: as before", about)
	case several && by < 0:
		return w.F("%s: %s less than before", about, f.Text(-by))
	case several:
		return w.F("%s: %s more than before", about, f.Text(by))
	case now == then:
		return w.F("%s: %s, as before", about, now)
	}
	return w.F("%s: %s, before %s", about, now, then)
}

// worse are the findings of a level, of checks that were not as grave before.
func worse(was, is proof.Report, level proof.Level) []proof.Finding {
	return slices.DeleteFunc(is.At(level), func(f proof.Finding) bool {
		before, ok := same(was, f)
		return ok && before.Level >= level
	})
}

// figure is a finished girth, or what a check measured, with what it is called.
func figure(r proof.Report, name string) (about say.Told, is unit.Length, ok bool) {
	for _, g := range r.Girths {
		if g.Name == name {
			return say.Of("%s girth", say.Name(name)), g.Draft, true
		}
	}
	for _, f := range r.Findings {
		if f.Check == name && !f.Figure.Degrees {
			return say.Name(name), unit.Length(f.Figure.V), true
		}
	}
	return nil, 0, false
}

// elsewhere tells how much other cloths have to give for pieces that are cut from
// them; they must find room there.
func (a *advising) elsewhere(t *Try, made *Result) {
	w, f := a.maker.Words, a.from.Format
	for i := range made.Job.Cloth {
		l, err := Spread(made, i)
		was := a.other(i)
		if i == a.cloth || SameKind(made.Job.Cloth[i], made.Job.Cloth[a.cloth]) || err != nil || was != nil && alike(l, was) {
			continue
		}
		name := l.Cloth.Name
		if name == "" {
			name = w.F("%s cloth", say.Name(l.Cloth.Kind))
		}
		l, err = a.beside(made, i)
		switch {
		case err != nil:
			t.Why = w.F("%s: %s", name, w.Err(err))
			return
		case !l.Fits && (was == nil || was.Fits):
			t.Why = w.F("%s would then be short by %s", name, f.Text(l.ShortBy))
			return
		case was == nil:
			t.Costs = append(t.Costs, w.F("%s: %s used", name, f.Text(l.Length)))
		case f.Text(l.Length) != f.Text(was.Length):
			t.Costs = append(t.Costs, w.F("%s: %s used, before %s", name, f.Text(l.Length), f.Text(was.Length)))
		}
	}
}

// other is the lay on another cloth as the job stands; nil when there is none.
func (a *advising) other(i int) *Laid {
	l, ok := a.others[i]
	if !ok && i != a.cloth {
		l, _ = a.beside(a.from, i)
		a.others[i] = l
	}
	return l
}

// besideWork are the steps of a lay on another cloth, where few pieces lie,
// unless they find no room in so many.
const besideWork = 500

// beside lays on another cloth than the one that is advised on.
func (a *advising) beside(made *Result, i int) (*Laid, error) {
	opt := a.pack()
	opt.Work = min(opt.Work, besideWork)
	l, err := Lay(made, i, opt)
	if err == nil && !l.Fits {
		return Lay(made, i, a.pack())
	}
	return l, err
}

func (a *advising) pack() lay.Options {
	return lay.Options{Seed: a.opt.Seed, Work: cmp.Or(a.opt.Work, adviceWork), Stop: a.opt.Stop}
}
