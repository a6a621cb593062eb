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

// costs tells what gifts cost, from the changed draft itself; or why they
// cannot be made.
func (a *advising) costs(t *Try, made *Result) {
	w, was, f := a.maker.Words, a.from, a.from.Format
	for _, g := range worse(was.Report, made.Report, proof.Stops) {
		t.Why = w.F("%s: %s", g.Name, g.Say)
		return
	}
	var tells []string
	for _, g := range t.Gifts {
		if g.Cost != "" {
			t.Costs = append(t.Costs, w.T(g.Cost))
		}
		tells = append(tells, g.Tells...)
	}
	for i, name := range tells {
		about, before, _ := figure(was.Report, name)
		_, after, ok := figure(made.Report, name)
		now, then := f.Text(after), f.Text(before)
		switch {
		case !ok || slices.Contains(tells[:i], name):
		case now == then:
			t.Costs = append(t.Costs, w.F("%s: %s, as before", about, now))
		default:
			t.Costs = append(t.Costs, w.F("%s: %s, before %s", about, now, then))
		}
	}
	for _, g := range worse(was.Report, made.Report, proof.Mind) {
		t.Costs = append(t.Costs, w.F("to mind: %s, %s", g.Name, g.Say))
	}
	a.elsewhere(t, made)
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

// elsewhere tells which pieces are cut from another cloth, and how much it has
// to give for them; they must find room there.
func (a *advising) elsewhere(t *Try, made *Result) {
	w, f := a.maker.Words, a.from.Format
	moved := map[piece.Cloth][]string{}
	for _, p := range made.Pieces {
		if slices.ContainsFunc(a.from.Pieces, func(o piece.Piece) bool { return o.ID == p.ID && o.Cloth != p.Cloth }) {
			moved[p.Cloth] = append(moved[p.Cloth], w.T(p.Name))
		}
	}
	for _, k := range []piece.Cloth{piece.Main, piece.Lining, piece.Interfacing} {
		if len(moved[k]) > 0 {
			t.Costs = append(t.Costs, w.F("cut from the %s: %s", say.Name(string(k)), strings.Join(moved[k], ", ")))
		}
	}
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
