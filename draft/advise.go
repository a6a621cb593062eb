package draft

import (
	"errors"
	"slices"

	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// adviceWork are the steps of each lay of an advice: two thirds of a quick lay's.
// With fewer, what a gift is said to save is owed to the luck of the search.
const adviceWork = 10_000

// Advising steers Advise. The zero value is as many steps as are worth while.
type Advising struct {
	// Seed and Work are those of every lay on the cloth advised on, so that what
	// one gift saves is not owed to a longer search: see lay.Options.
	Seed uint64
	Work int
	// Cut is what other cloths of its kind cut, where the job has any: that is not
	// laid on the one that is advised on.
	Cut lay.Want
	// Tried, when set, is called with each gift as it is worked out.
	Tried func(Try)
	// Stop, when set, ends the advice with what has been worked out so far.
	Stop func() bool
}

// Gift is a change of the job in words.
type Gift struct {
	garment.Gift
	Say string // "Make the hem allowance 1½ in; it is 2 in"
}

// Try is the job with gifts made, drafted and laid afresh.
type Try struct {
	Gifts []Gift
	Job   job.Job
	// Laid is the lay. Without one the gifts cannot be made, for the reason in
	// Why, or a piece is too Wide for the cloth.
	Laid *Laid
	Wide *lay.TooWideError
	Why  string
	// Saves is how much shorter the lay is than that of the job as it stands;
	// none when there is no such lay.
	Saves unit.Length
	// Helps is whether the gifts are worth making: it fits, or goes on the cloth
	// at all, or they save more than chance may.
	Helps bool
	// Costs is what the changed draft lost, in the maker's figures.
	Costs []string

	set string // the gifts, each by its place in the order of harm
}

// Fits reports whether everything lies on the cloth at hand.
func (t Try) Fits() bool { return t.Laid != nil && t.Laid.Fits }

// leastSaved is the least that is worth giving anything for: what the next lay
// may differ by without it.
const leastSaved = unit.Inch / 4

// Harm is what the gifts cost the garment together.
func (t Try) Harm() int {
	sum := 0
	for _, g := range t.Gifts {
		sum += g.Harm
	}
	return sum
}

// better reports whether t makes more of the cloth than o.
func (t Try) better(o Try) bool {
	switch {
	case t.Laid != nil && o.Laid != nil:
		return t.Laid.Better(o.Laid.Result)
	case t.Wide != nil && o.Wide != nil:
		return t.Wide.ShortBy() < o.Wide.ShortBy()
	}
	return t.Laid != nil
}

// Advice is what can be done about a cloth that is too short or too narrow.
type Advice struct {
	Base Try // the job as it stands; when it fits there is nothing to advise
	// Each is every gift that can be made, by itself, least harm first.
	Each []Try
	// Together is the least harmful set of gifts found that fits, or else the
	// one that takes least cloth. Without a gift there is nothing to give.
	Together Try
	Stopped  bool // before all was worked out
}

// Advise works out what can give when the pieces do not fit on a cloth of the
// job, counted from nought: each gift by changing the job, drafting it and
// laying it afresh, and then gifts together until it fits. The same job, seed
// and work give the same advice. Errors are those of Spread.
func (m *Maker) Advise(r *Result, cloth int, opt Advising) (*Advice, error) {
	a := &advising{maker: m, from: r, cloth: cloth, opt: opt, known: map[string]Try{}, others: map[int]*Laid{}}
	if _, err := SpreadAfter(r, cloth, opt.Cut); err != nil {
		return nil, err
	}
	a.base = Try{Job: r.Job}
	a.lay(&a.base, r)
	a.lookLonger(r)
	out := &Advice{Base: a.base, Together: a.base}
	if a.err == nil && !a.base.Fits() {
		a.known[""] = a.base
		a.gifts = a.offered()
		for i := range a.gifts {
			if t, ok := a.try(string(rune(i))); ok && t.Why == "" {
				out.Each = append(out.Each, t)
				if opt.Tried != nil {
					opt.Tried(t)
				}
			}
		}
		out.Together = a.together(out.Each)
	}
	out.Stopped = a.stopped
	return out, a.err
}

// lookLonger makes sure of a job that does not fit as it stands: where a quick
// lay finds room, nothing need give.
func (a *advising) lookLonger(r *Result) {
	if a.err != nil || a.opt.Work > 0 || a.base.Laid == nil || a.base.Laid.Fits {
		return
	}
	l, err := LayAfter(r, a.cloth, a.opt.Cut, lay.Options{Seed: a.opt.Seed, Stop: a.opt.Stop})
	if a.err = err; err == nil && l.Fits {
		a.base.Laid = l
	}
}

// advising is one advice being worked out.
type advising struct {
	maker   *Maker
	from    *Result
	cloth   int
	opt     Advising
	base    Try
	gifts   []Gift // least harm first
	known   map[string]Try
	others  map[int]*Laid // the other cloths, as the job stands
	stopped bool
	err     error
}

func (a *advising) stop() bool {
	a.stopped = a.stopped || a.opt.Stop != nil && a.opt.Stop()
	return a.stopped
}

// offered are the gifts of the cloth, and then those of the garment.
func (a *advising) offered() []Gift {
	var out []Gift
	w, r := a.maker.Words, a.from
	c, _ := clothOf(r.Job, a.cloth)
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
			out = append(out, Gift{garment.Gift{Mend: piece.Mend{Path: clothFold, To: string(f.fold)}, Harm: 1, Cost: f.cost}, f.say})
		}
	}
	if r.Garment.Gifts == nil {
		return out
	}
	for _, g := range r.Garment.Gifts(r.Style, r.Rules, r.Format.System.Metric()) {
		does := w.Say(g.Does)
		if g.Does.None() {
			does = a.maker.told(r, g.Mend)
		}
		out = append(out, Gift{g, does})
	}
	slices.SortStableFunc(out, func(a, b Gift) int { return a.Harm - b.Harm })
	return out
}

// clothFold is the path of a gift that changes how the cloth lies.
const clothFold = "cloth.fold"

// try makes a set of gifts, drafts the changed job and lays it; false when that
// was not finished.
func (a *advising) try(set string) (Try, bool) {
	if t, ok := a.known[set]; ok {
		return t, true
	}
	if a.stop() || a.err != nil {
		return Try{}, false
	}
	t := Try{set: set}
	step := *a.from
	for _, i := range set {
		g := a.gifts[i]
		t.Gifts = append(t.Gifts, g)
		if g.Path == clothFold {
			step.Job = step.Job.Clone()
			step.Job.Cloth[a.cloth].Fold = job.Fold(g.To)
			continue
		}
		x := g.Mend
		step.Job, _ = a.maker.change(&step, &x, 0)
	}
	t.Job = step.Job
	made, err := a.maker.Make(t.Job)
	var no *garment.Impossible
	switch {
	case errors.As(err, &no):
		t.Why = no.Error()
	case err != nil:
		a.err = err
		return t, false
	default:
		if a.costs(&t, made); t.Why == "" {
			a.lay(&t, made)
		}
	}
	if a.err != nil || a.stop() {
		return t, false
	}
	a.known[set] = t
	return t, true
}

// lay lays a job drafted, within the same budget as every other.
func (a *advising) lay(t *Try, made *Result) {
	spread, err := SpreadAfter(made, a.cloth, a.opt.Cut)
	var no *job.Bad
	switch {
	case errors.As(err, &no): // the cloth cannot lie so, or nothing is left to lay on it
		t.Why = a.maker.Words.Err(no)
		return
	case err == nil && a.base.Laid != nil && alike(spread, a.base.Laid):
		t.Laid = a.base.Laid
	case err == nil:
		if err = spread.pack(made, a.pack()); err == nil {
			t.Laid = spread
		}
	}
	if err != nil && !errors.As(err, &t.Wide) {
		a.err = err
	}
	if t.Laid != nil && a.base.Laid != nil {
		t.Saves = a.base.Laid.Length - t.Laid.Length
	}
	t.Helps = t.Fits() || t.Laid != nil && (a.base.Laid == nil || t.Saves >= leastSaved)
}

// alike reports whether the same is to be laid on the same cloth.
func alike(a, b *Laid) bool {
	return a.Cloth.Fold == b.Cloth.Fold && slices.EqualFunc(a.Items, b.Items, func(x, y lay.Item) bool {
		return x.Double == y.Double && x.OnFold == y.OnFold && x.Match == y.Match && slices.Equal(x.Turns, y.Turns) && slices.Equal(x.Ring, y.Ring)
	})
}
