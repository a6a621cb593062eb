package lay

import (
	"cmp"
	"math"
	"slices"

	"chalkfold/draft/geom"
)

// trialsBetween is how many trials are made before what is left out is tried
// again.
const trialsBetween = 20

// squeezes reports whether the search goes on by moving what is laid: once the
// fixed plans are tried. Where all is laid it is squeezed; where something is
// left out, each item left out is pressed in between the others once, and then
// some more trials are made.
func (s *Search) squeezes() bool {
	if s.squeeze != nil {
		return true
	}
	if s.laidAs == nil || s.trials < s.triedTo || len(s.plans[0].order) == 0 {
		return false
	}
	if len(s.laidAs.out) == 0 {
		s.squeeze = s.newSqueeze(s.laidAs, -1)
		return true
	}
	if s.pressed == len(s.laidAs.out) || s.laidAs.rest != nil {
		s.pressed, s.triedTo = 0, s.trials+trialsBetween
		return false
	}
	out := slices.Clone(s.laidAs.out)
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(s.items[a].Area(), s.items[b].Area()) })
	s.squeeze = s.newSqueeze(s.laidAs, out[s.pressed])
	s.pressed++
	return true
}

// newSqueeze begins with a lay; adding is an item left out of it that is to be
// pressed in, -1 for none.
func (s *Search) newSqueeze(t *trial, adding int) *squeeze {
	movers := slices.Clone(s.plans[0].order)
	slices.Sort(movers)
	movers = slices.DeleteFunc(movers, func(i int) bool { return i != adding && slices.Contains(t.out, i) })
	from := make([]place, len(movers))
	for k, i := range movers {
		from[k] = t.lies[i]
	}
	var fixed [2][]laid
	for part, flaws := range s.flaws {
		for _, f := range flaws {
			fixed[part] = append(fixed[part], laid{facing: f})
		}
	}
	for part, locked := range s.locked {
		for _, l := range locked {
			fixed[part] = append(fixed[part], l.laid)
		}
	}
	lens := [2]float64{t.main.end, 0}
	if t.rest != nil {
		lens[1] = t.rest.end
	}
	if adding >= 0 {
		lens[0] = s.cloth.most()
	}
	p := newPacking(s, movers, fixed, lens)
	if len(s.groups) > 0 {
		p.stripes = t.main.phases
	}
	q := newSqueeze(p, from, lens)
	q.adding = slices.Index(movers, adding)
	return q
}

// squeezeOn moves one piece; it reports whether that made a better lay.
func (s *Search) squeezeOn() bool {
	q := s.squeeze
	better := q.step() && s.takeSqueezed()
	if q.adding >= 0 && !q.underWay { // it is in, or was given up
		s.squeeze = nil
		if better {
			s.pressed = 0
		}
	}
	return better
}

// takeSqueezed takes the lay that was squeezed as the best one, if it is.
func (s *Search) takeSqueezed() bool {
	q := s.squeeze
	t := s.trialOf(q.items, q.at, q.bestLens[0])
	t.out = slices.DeleteFunc(slices.Clone(s.laidAs.out), func(i int) bool { return q.adding >= 0 && i == q.items[q.adding] })
	return s.keep(t.result(), t)
}

// trialOf is a trial that is over, with items at places; the folded part is
// folded so far at least.
func (s *Search) trialOf(items []int, at []place, folded float64) *trial {
	order := make([]int, len(items))
	far := make([]float64, len(items))
	for k := range order {
		order[k] = k
		far[k] = s.facings[at[k].facing].box.Min.Y + at[k].y
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(at[a].part, at[b].part), cmp.Compare(far[a], far[b]))
	})
	t := s.newTrial()
	t.main.end = math.Max(t.main.end, folded)
	for _, k := range order {
		to, r := at[k], &t.main
		if to.part == 1 {
			if t.rest == nil {
				t.openOut()
			}
			r = t.rest
		}
		t.put(r, items[k], spot{facing: to.facing, at: geom.Vec{X: to.x, Y: to.y}}, to.part == 1)
	}
	t.openForLocked()
	return t
}
