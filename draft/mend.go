package draft

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
)

// Cure is one change of a job, with what it is in words.
type Cure struct {
	piece.Mend
	Say string  // "Make the fly length 6¾ in; it is 6 in"
	Job job.Job // with the change made; without one where the field must be filled by hand
	// ByHand: a measurement is to be taken again; nothing can be changed for it.
	ByHand bool
}

// mostTries is how often a rule is set anew until the finding is gone.
const mostTries = 5

// Cures are the mends of a finding that, made, take it away and put nothing as
// grave in its place: each is tried on the whole draft. Measurements to be
// taken again come last.
func (m *Maker) Cures(r *Result, f proof.Finding) []Cure {
	var out, again []Cure
	for _, x := range f.Mends {
		what, id, _ := strings.Cut(x.Path, ".")
		if what == "measurements" {
			if def, ok := body.Find(body.ID(id)); ok {
				again = append(again, Cure{Mend: x, Say: m.Words.F("Take the %s again", say.Within(def.Name)), ByHand: true})
			}
			continue
		}
		if c, ok := m.cure(r, f, x); ok && !slices.ContainsFunc(out, func(o Cure) bool { return o.Path == c.Path }) {
			out = append(out, c)
		}
	}
	return append(out, again...)
}

// WaysOut are the mends of a job that cannot be drafted by which it can, with
// nothing that stops the cut.
func (m *Maker) WaysOut(j job.Job, no *garment.Impossible) []Cure {
	g, ok := m.kept.garment(j.Garment)
	if !ok {
		return nil
	}
	r := &Result{Job: j, Garment: g, Format: j.Units.Format()}
	r.Format.Words = m.Words
	var err error
	if r.Style, err = g.Complete(j.Style); err != nil {
		return nil
	}
	if r.Rules, err = m.kept.rules(g, j.Rules, j.Units.System.Metric()); err != nil {
		return nil
	}
	var out []Cure
	for _, x := range no.Mends {
		next, ok := m.change(r, &x, 0)
		if !ok || slices.ContainsFunc(out, func(o Cure) bool { return o.Path == x.Path }) {
			continue
		}
		if made, err := m.Make(next); err == nil && !made.Report.Stopped() {
			out = append(out, Cure{Mend: x, Say: m.told(r, x), Job: next})
		}
	}
	return out
}

// cure tries one mend: once where it says what to change to, else with the rule
// a little further each time.
func (m *Maker) cure(r *Result, f proof.Finding, x piece.Mend) (Cure, bool) {
	lacks := f.Want.V - f.Figure.V
	if f.Figure.Degrees {
		lacks = min(f.Tolerance.V-f.Figure.V, 0)
	}
	per := x.Per
	for range mostTries {
		next, ok := m.change(r, &x, lacks*per)
		if !ok {
			return Cure{}, false
		}
		made, err := m.Make(next)
		if err != nil {
			return Cure{}, false
		}
		left, found := same(made.Report, f)
		if !found || left.Level == proof.Fine {
			return Cure{Mend: x, Say: m.told(r, x), Job: next}, better(r.Report, made.Report)
		}
		if per == 0 {
			return Cure{}, false
		}
		more := left.Want.V - left.Figure.V
		if left.Figure.Degrees {
			more = min(left.Tolerance.V-left.Figure.V, 0)
		}
		if more*lacks <= 0 { // from too little to too much
			return Cure{}, false
		}
		lacks += more
	}
	return Cure{}, false
}

// change makes the mend in a copy of the job, with a rule set by further than it
// is, and writes into x what it was set to.
func (m *Maker) change(r *Result, x *piece.Mend, by float64) (job.Job, bool) {
	j := r.Job.Clone()
	what, id, _ := strings.Cut(x.Path, ".")
	switch what {
	case "drafting":
		j.Drafting = job.Drafting(x.To)
	case "method":
		if j.Method == job.Method(x.To) {
			return j, false
		}
		j.Method = job.Method(x.To)
	case "untrued":
		j.Untrued = slices.DeleteFunc(j.Untrued, func(t string) bool { return t == id })
	case "style":
		if r.Style[id] == x.To {
			return j, false
		}
		if j.Style == nil {
			j.Style = map[string]string{}
		}
		j.Style[id] = x.To
		given := r.givenUp(*x)
		if len(given) > 1 {
			return j, false
		}
		for _, c := range given {
			j.Style[c.option.ID] = c.choice.ID
		}
	case "rules":
		rule := rules.ID(id)
		if !r.Rules.Has(rule) {
			return j, false
		}
		if x.Per != 0 {
			text, ok := r.Rules.Def(rule).Beyond(r.Rules.Text(rule), by, r.Format.System.Metric())
			if !ok {
				return j, false
			}
			x.To = text
		}
		if j.Rules.Job == nil {
			j.Rules.Job = rules.Values{}
		}
		j.Rules.Job[rule] = x.To
	default:
		return j, false
	}
	return j, true
}

// chosen is an answer to a question of style.
type chosen struct {
	option garment.Option
	choice garment.Choice
}

// choice is the answer of that ID to the option of that ID.
func (r *Result) choice(option, id string) (chosen, bool) {
	for _, o := range r.Garment.Options {
		for _, c := range o.Choices {
			if o.ID == option && c.ID == id {
				return chosen{o, c}, true
			}
		}
	}
	return chosen{}, false
}

// givenUp are the answers that other questions get, since theirs do not go
// together with that of a mend.
func (r *Result) givenUp(x piece.Mend) []chosen {
	option := strings.TrimPrefix(x.Path, "style.")
	s := maps.Clone(r.Style)
	s[option] = x.To
	var out []chosen
	for o, to := range r.Garment.Together(s, option) {
		if c, ok := r.choice(o, to); ok && s[o] != to {
			out = append(out, c)
		}
	}
	return out
}

// told puts a mend in words.
func (m *Maker) told(r *Result, x piece.Mend) string {
	what, id, _ := strings.Cut(x.Path, ".")
	switch what {
	case "drafting":
		return m.Words.T("Draft it trued, not as it is spoken")
	case "method":
		for _, c := range r.Garment.Methods {
			if c.ID == x.To {
				return m.Words.F("Draft it by the %s", say.Within(c.Name))
			}
		}
	case "untrued":
		for _, t := range r.Garment.Truings {
			if t.ID == id {
				return m.Words.F("Switch on: %s", say.Name(t.Name))
			}
		}
	case "style":
		c, _ := r.choice(id, x.To)
		if given := r.givenUp(x); len(given) > 0 {
			return m.Words.F("Choose for the %s: %s, and for the %s: %s", say.Name(c.option.Name), say.Name(c.choice.Name), say.Name(given[0].option.Name), say.Name(given[0].choice.Name))
		}
		return m.Words.F("Choose for the %s: %s", say.Name(c.option.Name), say.Name(c.choice.Name))
	}
	rule := rules.ID(id)
	return m.Words.F("Make the %s %s; it is %s", say.Name(r.Rules.Def(rule).Name), r.shown(rule, x.To), r.shown(rule, r.Rules.Text(rule)))
}

// shown is the value of a rule as it is read.
func (r *Result) shown(id rules.ID, text string) string {
	if s, err := r.Rules.With(id, text, rules.Job); err == nil && r.Rules.Def(id).Kind == rules.Length {
		return s.Quantity(id).In(r.Format.Words)
	}
	return r.Rules.Def(id).Told(text).In(r.Format.Words)
}

// same is the finding of the same check at the same part.
func same(rep proof.Report, f proof.Finding) (proof.Finding, bool) {
	i := slices.IndexFunc(rep.Findings, func(o proof.Finding) bool { return o.Check == f.Check && o.Panel == f.Panel })
	if i < 0 {
		return proof.Finding{}, false
	}
	return rep.Findings[i], true
}

// better reports whether less stops the cut than before, or as much and there is
// less to mend, and nothing stops it which did not.
func better(was, is proof.Report) bool {
	for _, f := range is.At(proof.Stops) {
		if before, ok := same(was, f); !ok || before.Level != proof.Stops {
			return false
		}
	}
	if stops := cmp.Compare(len(is.At(proof.Stops)), len(was.At(proof.Stops))); stops != 0 {
		return stops < 0
	}
	return len(is.At(proof.Mind)) < len(was.At(proof.Mind))
}
