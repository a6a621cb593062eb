package lay

import (
	"cmp"
	"math"
	"slices"

	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// mm takes a number of the engine back to a length.
func mm(v float64) unit.Length { return unit.Length(v) }

// plan is what a trial follows. Plans are not changed once made.
type plan struct {
	order []int // the items that are not locked
	rule  rule
	// under holds the singles on folded cloth that are laid on the folded part
	// in their turn, though it may grow for them.
	under []bool
	// face holds, by item, one more than the place in its facings of the only
	// way round allowed; 0 allows all.
	face []int
}

// trial lays the items one by one as a plan says.
type trial struct {
	s *Search
	plan
	todo   []int
	later  []int // singles on folded cloth: they wait for the folded part
	main   region
	rest   *region // the opened rest, once the folded part is done
	placed []Placement
	lies   []place // by item
	out    []int
}

// fixedPlans returns the plans that are tried first: largest first by some
// measure or other, by each rule; singles on folded cloth all left for the
// opened rest, and all laid on the folded part.
func (s *Search) fixedPlans() []plan {
	var free []int
	for i := range s.items {
		if s.items[i].Locked == nil {
			free = append(free, i)
		}
	}
	box := func(i int) geom.Rect { return s.facings[s.shapes[i].facings[0]].box }
	measures := []func(i int) float64{
		func(i int) float64 { return math.Abs(geom.Area(s.items[i].Ring)) },
		func(i int) float64 { return box(i).H() },
		func(i int) float64 { return box(i).W() },
		func(i int) float64 { return box(i).W() * box(i).H() },
		func(i int) float64 { return box(i).W() + box(i).H() },
	}
	singles := make([]bool, len(s.items))
	some := false
	for _, i := range free {
		singles[i] = s.cloth.Fold != Open && s.items[i].Layers() == 1
		some = some || singles[i]
	}
	none, allWays := make([]bool, len(s.items)), make([]int, len(s.items))
	var plans []plan
	for _, m := range measures {
		o := slices.Clone(free)
		slices.SortStableFunc(o, func(a, b int) int { return cmp.Compare(m(b), m(a)) })
		for u := range rules {
			plans = append(plans, plan{o, u, none, allWays})
			if some {
				plans = append(plans, plan{o, u, singles, allWays})
			}
		}
	}
	return plans
}

// begin starts the next trial: each fixed plan, then small changes to the plan
// of the best lay so far.
func (s *Search) begin() *trial {
	t := s.newTrial()
	if s.trials < len(s.plans) {
		t.plan = s.plans[s.trials]
	} else {
		t.plan = s.changed(s.kept.plan)
	}
	s.trials++
	t.todo = t.order
	return t
}

// newTrial returns a trial with nothing laid but what is locked.
func (s *Search) newTrial() *trial {
	t := &trial{s: s, lies: make([]place, len(s.items))}
	lo, hi := s.cloth.across(false)
	t.main = region{s: s, lo: lo, hi: hi, length: s.tall, free: map[int]*freedom{}, phases: s.newPhases()}
	if most := s.cloth.most(); !math.IsInf(most, 1) {
		t.main.length = most - s.lockedTo[1]/s.cloth.lengths()
	}
	for _, f := range s.flaws[0] {
		t.main.put(f, geom.Vec{})
	}
	t.putLocked(&t.main, 0)
	return t
}

// putLocked lays what is locked on a part of the table.
func (t *trial) putLocked(r *region, part int) {
	for _, l := range t.s.locked[part] {
		r.put(l.laid.facing, l.laid.at)
		r.take(l.laid.facing, l.laid.at)
		t.placed = append(t.placed, Placement{l.item, t.s.items[l.item].Locked.OnTable(mm(t.main.end))})
	}
}

// changed returns p with one to three small changes.
func (s *Search) changed(p plan) plan {
	p.order, p.under, p.face = slices.Clone(p.order), slices.Clone(p.under), slices.Clone(p.face)
	n := len(p.order)
	for range 1 + s.rng.IntN(3) {
		i, j := s.rng.IntN(n), s.rng.IntN(n)
		item := p.order[i]
		switch s.rng.IntN(4) {
		case 0:
			p.order[i], p.order[j] = p.order[j], p.order[i]
		case 1:
			p.order = slices.Insert(slices.Delete(p.order, i, i+1), j, item)
		case 2:
			p.face[item] = s.rng.IntN(1 + len(s.shapes[item].facings))
		default:
			switch {
			case s.cloth.Fold != Open && s.items[item].Layers() == 1:
				p.under[item] = !p.under[item]
			case s.rng.IntN(n) == 0:
				p.rule = rule(s.rng.IntN(int(rules)))
			default:
				p.order[i], p.order[j] = p.order[j], p.order[i]
			}
		}
	}
	return p
}

// faces returns the ways round in which the plan lets item i lie.
func (t *trial) faces(i int) []int {
	f := t.s.shapes[i].facings
	if k := t.face[i]; k > 0 {
		return f[k-1 : k]
	}
	return f
}

// step lays one item; it reports whether the trial is over.
func (t *trial) step() bool {
	if len(t.todo) > 0 {
		i := t.todo[0]
		t.todo = t.todo[1:]
		switch {
		case t.s.cloth.Fold == Open || t.s.items[i].Layers() == 2:
			t.lay(&t.main, i, false)
		case !t.under[i] || !t.try(&t.main, i, false):
			t.later = append(t.later, i)
		}
	}
	if len(t.todo) > 0 {
		return t.length() > t.s.keptLen+touchTol
	}
	t.openForLocked()
	for _, i := range t.later {
		t.single(i)
	}
	return true
}

// openForLocked opens the cloth out, past all that is folded, where something
// is locked there.
func (t *trial) openForLocked() {
	if t.rest == nil && len(t.s.locked[1]) > 0 {
		t.openOut()
	}
}

// single lays an item that is cut once on folded cloth: in the gaps of the
// folded part when that costs no length, else on the opened rest.
func (t *trial) single(i int) {
	if sp, ok := t.main.best(t.faces(i), t.rule, t.main.end); ok {
		t.put(&t.main, i, sp, false)
		return
	}
	if t.rest == nil {
		t.openOut()
	}
	t.lay(t.rest, i, true)
}

// openOut opens the cloth out past the folded part.
func (t *trial) openOut() {
	lo, hi := t.s.cloth.across(true)
	t.main.end = t.s.restFrom(t.main.end)
	t.rest = &region{
		s: t.s, lo: lo, hi: hi, length: t.s.tall, free: map[int]*freedom{},
		top: t.main.end, opened: true, phases: t.main.phases,
	}
	if c := t.s.cloth; c.LeaveOut && c.Length > 0 {
		t.rest.length = c.Length.MM() - t.length()
	}
	for _, f := range t.s.flaws[1] {
		t.rest.put(f, geom.Vec{Y: -t.main.end})
	}
	t.putLocked(t.rest, 1)
}

func (t *trial) lay(r *region, i int, opened bool) {
	if !t.try(r, i, opened) {
		t.out = append(t.out, i)
	}
}

// try lays item i in r; it reports whether there is a place.
func (t *trial) try(r *region, i int, opened bool) bool {
	sp, ok := r.best(t.faces(i), t.rule, math.Inf(1))
	if !ok && t.face[i] > 0 {
		sp, ok = r.best(t.s.shapes[i].facings, t.rule, math.Inf(1))
	}
	if ok {
		t.put(r, i, sp, opened)
	}
	return ok
}

// spotGrid is the grid, per mm, that places are rounded to, so that whole
// millimetres stay whole.
const spotGrid = 1e5

func (t *trial) put(r *region, i int, sp spot, opened bool) {
	sp.at.X, sp.at.Y = math.Round(sp.at.X*spotGrid)/spotGrid, math.Round(sp.at.Y*spotGrid)/spotGrid
	r.put(sp.facing, sp.at)
	r.take(sp.facing, sp.at)
	at := t.s.facings[sp.facing].at
	at.E, at.F = sp.at.X, sp.at.Y
	t.lies[i] = place{facing: sp.facing, x: sp.at.X, y: sp.at.Y}
	if opened {
		at.F += t.main.end
		t.lies[i].part = 1
	}
	t.placed = append(t.placed, Placement{i, Spot{At: at, Opened: opened}})
}

// length returns the cloth used so far, unfolded, in mm.
func (t *trial) length() float64 {
	l := t.main.end
	if t.s.cloth.Fold == Crosswise {
		l *= 2
	}
	if t.rest != nil {
		l += t.rest.end
	}
	return l
}

// take keeps the order of a trial that is over when its lay is no worse than
// the best, and its lay when it is better.
func (s *Search) take(t *trial) bool {
	if len(t.todo) > 0 {
		return false // given up half way
	}
	r := t.result()
	if s.kept != nil && s.keptAs.Better(r) {
		return false
	}
	s.kept, s.keptAs = t, r
	if len(r.Out) == 0 {
		s.keptLen = t.length()
	}
	return s.keep(r, t)
}

// keep keeps the result of a trial when it is the best so far.
func (s *Search) keep(r Result, t *trial) bool {
	if s.done && !r.Better(s.best) {
		return false
	}
	s.done = true
	s.best, s.laidAs = r, t
	return true
}

func (t *trial) result() Result {
	r := Result{Placements: t.placed, Out: t.out, Length: mm(t.length()), Work: t.s.work}
	if t.s.cloth.Fold != Open {
		r.FoldedTo = mm(t.main.end)
	}
	return r.weighed(t.s.cloth, t.s.items)
}

// weighed returns r with what follows from its placements and length: whether
// it fits, what is wanting, how dense it is.
func (r Result) weighed(c Cloth, items []Item) Result {
	area := 0.0
	for _, p := range r.Placements {
		area += items[p.Item].Area()
	}
	r.Fits = len(r.Out) == 0
	if len(c.Outline) > 0 {
		return r.dense(area, math.Abs(geom.Area(c.Outline)))
	}
	if c.Length > 0 && r.Length > c.Length {
		r.ShortBy = r.Length - c.Length
		r.Fits = micron(r.ShortBy.MM()) == 0 && len(r.Out) == 0
		if micron(r.ShortBy.MM()) == 0 {
			r.ShortBy = 0
		}
	}
	return r.dense(area, c.Width.MM()*r.Length.MM())
}

func (r Result) dense(area, whole float64) Result {
	if whole > 0 {
		r.Density = 100 * area / whole
	}
	return r
}
