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

// trial lays the items one by one in one order by one rule.
type trial struct {
	s      *Search
	order  []int
	rule   rule
	todo   []int
	later  []int // singles on folded cloth: they wait for the folded part
	main   region
	rest   *region // the opened rest, once the folded part is done
	placed []Placement
	out    []int
}

// fixedOrders returns the orders that are tried first, largest first by some
// measure or other.
func (s *Search) fixedOrders() [][]int {
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
	var orders [][]int
	for _, m := range measures {
		o := slices.Clone(free)
		slices.SortStableFunc(o, func(a, b int) int { return cmp.Compare(m(b), m(a)) })
		orders = append(orders, o)
	}
	return orders
}

// begin starts the next trial: each fixed order by each rule, then small
// changes to the order of the best lay so far.
func (s *Search) begin() *trial {
	n := len(s.orders) * int(rules)
	t := &trial{s: s}
	if s.trials < n {
		t.order, t.rule = s.orders[s.trials/int(rules)], rule(s.trials%int(rules))
	} else {
		t.order, t.rule = s.shuffled(), s.keptBy
	}
	s.trials++
	t.todo = t.order
	lo, hi := s.cloth.across(false)
	t.main = region{s: s, lo: lo, hi: hi, length: s.tall, free: map[int]*freedom{}}
	if len(s.cloth.Outline) > 0 {
		t.main.length = geom.BoundsOf(s.cloth.Outline).Max.Y
	}
	for _, f := range s.flaws[0] {
		t.main.put(f, geom.Vec{})
	}
	for _, l := range s.locked {
		t.main.put(l.laid.facing, l.laid.at)
		t.placed = append(t.placed, Placement{l.item, Spot{At: s.items[l.item].Locked.At}})
	}
	return t
}

// shuffled returns the kept order with one to three items moved.
func (s *Search) shuffled() []int {
	o := slices.Clone(s.kept)
	if len(o) < 2 {
		return o
	}
	for range 1 + s.rng.IntN(3) {
		i, j := s.rng.IntN(len(o)), s.rng.IntN(len(o))
		if s.rng.IntN(2) == 0 {
			o[i], o[j] = o[j], o[i]
			continue
		}
		v := o[i]
		o = slices.Insert(slices.Delete(o, i, i+1), j, v)
	}
	return o
}

// step lays one item; it reports whether the trial is over.
func (t *trial) step() bool {
	if len(t.todo) > 0 {
		i := t.todo[0]
		t.todo = t.todo[1:]
		if t.s.cloth.Fold != Open && t.s.items[i].Layers() == 1 {
			t.later = append(t.later, i)
		} else {
			t.lay(&t.main, i, false)
		}
	}
	if len(t.todo) > 0 {
		return t.length() > t.s.keptLen+touchTol
	}
	for _, i := range t.later {
		t.single(i)
	}
	return true
}

// single lays an item that is cut once on folded cloth: in the gaps of the
// folded part when that costs no length, else on the opened rest.
func (t *trial) single(i int) {
	if sp, ok := t.main.best(t.s.shapes[i].facings, t.rule, t.main.end); ok {
		t.put(&t.main, i, sp, false)
		return
	}
	if t.rest == nil {
		lo, hi := t.s.cloth.across(true)
		t.rest = &region{s: t.s, lo: lo, hi: hi, length: t.s.tall, free: map[int]*freedom{}}
		for _, f := range t.s.flaws[1] {
			t.rest.put(f, geom.Vec{Y: -t.main.end})
		}
	}
	t.lay(t.rest, i, true)
}

func (t *trial) lay(r *region, i int, opened bool) {
	if sp, ok := r.best(t.s.shapes[i].facings, t.rule, math.Inf(1)); ok {
		t.put(r, i, sp, opened)
		return
	}
	t.out = append(t.out, i)
}

func (t *trial) put(r *region, i int, sp spot, opened bool) {
	r.put(sp.facing, sp.at)
	at := t.s.facings[sp.facing].at
	at.E, at.F = sp.at.X, sp.at.Y
	if opened {
		at.F += t.main.end
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
	if s.done && s.best.better(r) {
		return false
	}
	s.kept, s.keptBy = t.order, t.rule
	if len(r.Out) == 0 {
		s.keptLen = t.length()
	}
	if s.done && !r.better(s.best) {
		return false
	}
	s.done = true
	r.Left = offcuts(s, t)
	s.best = r
	return true
}

func (t *trial) result() Result {
	c := t.s.cloth
	r := Result{Placements: t.placed, Out: t.out, Length: mm(t.length()), Fits: len(t.out) == 0, Work: t.s.work}
	if c.Fold != Open {
		r.FoldedTo = mm(t.main.end)
	}
	area := 0.0
	for _, p := range t.placed {
		area += t.s.items[p.Item].Area()
	}
	whole := c.Width.MM() * r.Length.MM()
	if len(c.Outline) > 0 {
		whole = math.Abs(geom.Area(c.Outline))
		return r.dense(area, whole)
	}
	if c.Length > 0 && r.Length > c.Length {
		r.ShortBy = r.Length - c.Length
		r.Fits = r.ShortBy.MM() <= touchTol
		if r.Fits {
			r.ShortBy = 0
		}
	}
	return r.dense(area, whole)
}

func (r Result) dense(area, whole float64) Result {
	if whole > 0 {
		r.Density = 100 * area / whole
	}
	return r
}
