package draft

import (
	"errors"
	"slices"

	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/unit"
)

// adviceWork are the steps of each lay of an advice: two thirds of a quick lay's.
// With fewer, what a gift is said to save is owed to the luck of the search; of
// several garments too, of which 600 steps take half the time (see TRIED.md of lay).
const adviceWork = 10_000

// Advising steers Advise. The zero value is as many steps as are worth while.
type Advising struct {
	// Seed and Work are those of every lay on the cloth advised on, so that what
	// one gift saves is not owed to a longer search: see lay.Options.
	Seed uint64
	Work int
	// Longer are the steps of a longer search, made of the job as it stands and of
	// what then promises to fit, from as many seeds as there are Looks; nought is one.
	// When Work is given and Longer is not, there is none.
	Longer, Looks int
	// Found is the best lay known of the job as it stands, in place of the longer
	// search for it.
	Found *lay.Result
	// Cut is what other cloths of its kind cut, where the job has any: that is not
	// laid on the one that is advised on.
	Cut lay.Want
	// Tried, when set, is called with each gift as it is worked out.
	Tried func(Try)
	// Stop, when set, ends the advice with what has been worked out so far.
	Stop func() bool
}

// Try is the job with gifts made, or the garments that are laid together, drafted
// and laid afresh.
type Try struct {
	Gifts []Gift
	Job   job.Job   // of several garments, that of their cloths
	Of    []job.Job // the garments' own, as in Result.Of; none for one garment
	// Laid is the lay. Without one the gifts cannot be made, for the reason in
	// Why, or a piece is too Wide for the cloth.
	Laid *Laid
	Wide *lay.TooWideError
	Why  string
	// Longer is whether the lay is one of the longer search. Takes is the length of
	// the lay, or what it would be if that gained as much here as it did on the job as
	// it stands.
	Longer bool
	Takes  unit.Length
	// Saves is how much shorter the lay is than that of the job as it stands, in as
	// many steps; none when there is no such lay.
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

// ShortBy is the length that is wanting still, and none when it fits or is too wide.
func (t Try) ShortBy() unit.Length {
	switch {
	case t.Laid == nil || t.Laid.Fits:
		return 0
	case t.Laid.Cloth.Length == 0: // a remnant
		return t.Laid.ShortBy
	}
	return t.Takes - t.Laid.Cloth.Length
}

// leastSaved is the least that is worth giving anything for: what the next lay
// may differ by without it. Of several garments that is some hundredth of the lay, by
// which those from one seed and another differ.
func (a *advising) leastSaved() unit.Length {
	if len(a.parts) > 1 {
		return max(unit.Inch/4, a.base.Takes/100)
	}
	return unit.Inch / 4
}

// Harm is what the gifts cost the garment together.
func (t Try) Harm() int {
	sum := 0
	for _, g := range t.Gifts {
		sum += g.Harm
	}
	return sum
}

// Changes reports whether the job of a garment is changed, by its place in
// Result.Of; the one garment of a job is at nought.
func (t Try) Changes(garment int) bool {
	return slices.ContainsFunc(t.Gifts, func(g Gift) bool { return slices.Contains(g.Of, garment) })
}

// better reports whether t makes more of the cloth than o.
func (t Try) better(o Try) bool {
	switch {
	case t.Laid != nil && o.Laid != nil:
		if len(t.Laid.Out) != len(o.Laid.Out) {
			return len(t.Laid.Out) < len(o.Laid.Out)
		}
		const hair = 1e-6
		return t.Takes < o.Takes-hair
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
// laying it afresh, and then gifts together until it fits. Of garments that are laid
// together (see Join) a gift is made of each that has it to give, but for those of
// which a piece is cut already. The same jobs, seed and work give the same advice.
// Errors are those of Spread.
func (m *Maker) Advise(r *Result, cloth int, opt Advising) (*Advice, error) {
	a := &advising{maker: m, from: r, parts: r.Of, cloth: cloth, opt: opt, known: map[string]Try{}, others: map[int]*Laid{}}
	if len(a.parts) == 0 {
		a.parts = []Part{{Result: r}}
	}
	if _, err := SpreadAfter(r, cloth, opt.Cut); err != nil {
		return nil, err
	}
	a.base = a.asItStands()
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

// lookLonger makes sure of a job that does not fit as it stands: where a longer
// search finds room, nothing need give.
func (a *advising) lookLonger(r *Result) {
	t := &a.base
	if a.err != nil || a.opt.Work > 0 && a.opt.Longer == 0 || t.Laid == nil || t.Laid.Fits {
		return
	}
	brief := t.Laid.Length
	if a.opt.Found == nil {
		a.layLonger(t, r)
	} else if a.opt.Found.Better(t.Laid.Result) {
		found := *t.Laid
		found.Result = *a.opt.Found
		t.Laid, t.Takes = &found, found.Length
	}
	t.Longer, a.gain = true, max(0, brief-t.Laid.Length)
}

// layLonger looks for longer for a lay of what is laid already, until it fits.
func (a *advising) layLonger(t *Try, made *Result) {
	best, opt := t.Laid, a.pack()
	opt.Work = a.opt.Longer
	for range max(1, a.opt.Looks) {
		long := *t.Laid
		if a.err = long.pack(made, opt); a.err != nil {
			return
		}
		if long.Better(best.Result) {
			best = &long
		}
		if best.Fits || a.stop() {
			break
		}
		opt.Seed++
	}
	t.Laid, t.Takes, t.Longer = best, best.Length, true
}

// advising is one advice being worked out.
type advising struct {
	maker   *Maker
	from    *Result
	parts   []Part // the garments: those of from, or it by itself
	cloth   int
	opt     Advising
	base    Try
	gain    unit.Length // of the longer search, on the job as it stands
	gifts   []Gift      // least harm first
	known   map[string]Try
	others  map[int]*Laid // the other cloths, as the job stands
	stopped bool
	err     error
}

func (a *advising) stop() bool {
	a.stopped = a.stopped || a.opt.Stop != nil && a.opt.Stop()
	return a.stopped
}

// try makes a set of gifts, drafts the changed job and lays it; false when that
// was not finished.
func (a *advising) try(set string) (Try, bool) {
	if t, ok := a.known[set]; ok {
		return t, true
	}
	if a.stop() || a.err != nil {
		return Try{}, false
	}
	t := a.given(set)
	made, err := a.make(&t)
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

// asItStands are the jobs without a gift.
func (a *advising) asItStands() Try {
	t := Try{Job: a.from.Job.Clone()}
	for _, p := range a.from.Of {
		t.Of = append(t.Of, p.Job.Clone())
	}
	return t
}

// given are the jobs with a set of gifts made.
func (a *advising) given(set string) Try {
	t := a.asItStands()
	t.set = set
	for _, i := range set {
		g := a.gifts[i]
		t.Gifts = append(t.Gifts, g)
		if g.Path == clothFold {
			t.Job.Cloth[a.cloth].Fold = job.Fold(g.To)
			continue
		}
		for _, k := range g.Of {
			j := &t.Job
			if len(t.Of) > 0 {
				j = &t.Of[k]
			}
			step, x := *a.parts[k].Result, g.Mend
			step.Job = *j
			*j, _ = a.maker.change(&step, &x, 0)
		}
	}
	return t
}

// make drafts what gifts have changed.
func (a *advising) make(t *Try) (*Result, error) {
	if len(t.Of) == 0 {
		return a.maker.Make(t.Job)
	}
	parts := slices.Clone(a.parts)
	for i := range parts {
		if !t.Changes(i) {
			continue
		}
		r, err := a.maker.Make(t.Of[i])
		if err != nil {
			return nil, err
		}
		parts[i].Result = r
	}
	return Join(t.Job, parts, a.maker.Words), nil
}

// lay lays a job drafted, within the same budget as every other, and for longer what
// promises to fit.
func (a *advising) lay(t *Try, made *Result) {
	spread, err := SpreadAfter(made, a.cloth, a.opt.Cut)
	var no *job.Bad
	switch base := a.base.Laid; {
	case errors.As(err, &no): // the cloth cannot lie so, or nothing is left to lay on it
		t.Why = a.maker.Words.Err(no)
		return
	case err == nil && base != nil && alike(spread, base):
		t.Laid, t.Takes, t.Longer = base, a.base.Takes, a.base.Longer
	case err == nil:
		if err = spread.pack(made, a.pack()); err == nil {
			t.Laid, t.Takes = spread, spread.Length-a.gain
			if a.base.Longer && !spread.Fits && t.Takes <= spread.Cloth.Length {
				a.layLonger(t, made)
			}
		}
	}
	if err != nil && !errors.As(err, &t.Wide) {
		a.err = err
	}
	if t.Laid != nil && a.base.Laid != nil {
		t.Saves = a.base.Takes - t.Takes
	}
	t.Helps = t.Fits() || t.Laid != nil && (a.base.Laid == nil || t.Saves >= a.leastSaved())
}

// alike reports whether the same is to be laid on the same cloth.
func alike(a, b *Laid) bool {
	return a.Cloth.Fold == b.Cloth.Fold && slices.EqualFunc(a.Items, b.Items, func(x, y lay.Item) bool {
		return x.Double == y.Double && x.OnFold == y.OnFold && x.Match == y.Match && slices.Equal(x.Turns, y.Turns) && slices.Equal(x.Ring, y.Ring)
	})
}
