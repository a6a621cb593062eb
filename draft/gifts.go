package draft

import (
	"slices"
	"strings"

	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
)

// Gift is a change of the job in words, or the same change of several garments that
// are laid together. Its harm is what it costs these in sum.
type Gift struct {
	garment.Gift
	Say string // "Make the hem allowance 1½ in; it is 2 in"
	// Of are the garments that it is made of, by their places in Result.Of, or nought
	// for the one of a job; none where the cloth gives.
	Of []int
}

// clothFold is the path of a gift that changes how the cloth lies.
const clothFold = "cloth.fold"

// covers reports whether g stands in for another gift of its kind: it changes the
// same, of all garments that the other is made of.
func (g Gift) covers(o Gift) bool {
	return g.Path == o.Path && !slices.ContainsFunc(o.Of, func(i int) bool { return !slices.Contains(g.Of, i) })
}

// isLike reports whether two gifts are the same, but for whose they are.
func (g Gift) isLike(o Gift) bool {
	return g.Mend == o.Mend && g.Say == o.Say && g.Harm == o.Harm && g.Cost == o.Cost && g.Leave == o.Leave
}

// offered are the gifts of the cloth and of the garments, least harm first.
func (a *advising) offered() []Gift {
	var of []Gift
	giving := 0
	for i, p := range a.parts {
		if len(p.Cut) > 0 || p.Garment.Gifts == nil {
			continue // what is cut stays as it was drafted
		}
		giving++
		for _, g := range p.Garment.Gifts(p.Style, p.Rules, p.Format.System.Metric()) {
			is := Gift{g, a.maker.Words.Say(g.Does), []int{i}}
			if g.Does.None() {
				is.Say = a.maker.told(p.Result, g.Mend)
			}
			if k := slices.IndexFunc(of, is.isLike); k >= 0 {
				of[k].Of = append(of[k].Of, i)
				continue
			}
			of = append(of, is)
		}
	}
	for i := range of {
		g := &of[i]
		if g.Harm *= len(g.Of); len(g.Of) < giving {
			g.Say = a.maker.Words.F("%s: %s", a.named(g.Of), g.Say)
		}
	}
	out := append(a.folds(), of...)
	slices.SortStableFunc(out, func(a, b Gift) int { return a.Harm - b.Harm })
	return out
}

// folds are the other ways in which the cloth can lie.
func (a *advising) folds() []Gift {
	var out []Gift
	w := a.maker.Words
	c, _ := clothOf(a.from.Job, a.cloth)
	for _, f := range []struct {
		to        lay.Fold
		fold      job.Fold
		say, cost string
	}{
		{lay.Open, job.Open, w.T("Lay the cloth open"), say.Word("Every piece is chalked and cut by itself, the second of a pair turned over.")},
		{lay.Lengthwise, job.Lengthwise, w.T("Fold the cloth lengthwise, selvedge on selvedge"), ""},
		{lay.Crosswise, job.Crosswise, w.T("Fold the cloth crosswise, end on end"), ""},
	} {
		if f.to != c.Fold {
			out = append(out, Gift{Gift: garment.Gift{Mend: piece.Mend{Path: clothFold, To: string(f.fold)}, Harm: 1, Cost: f.cost}, Say: f.say})
		}
	}
	return out
}

// named are garments by their tickets.
func (a *advising) named(of []int) string {
	var names []string
	for i, name := range partNames(a.parts, a.maker.Words) {
		if slices.Contains(of, i) {
			names = append(names, name)
		}
	}
	return strings.Join(names, ", ")
}
