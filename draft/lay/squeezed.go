package lay

import (
	"cmp"
	"slices"

	"chalkfold/draft/geom"
)

// squeezes reports whether the search goes on by squeezing: once the fixed
// plans are tried and all is laid.
func (s *Search) squeezes() bool {
	if s.squeeze != nil {
		return true
	}
	if s.trials < len(s.plans) || len(s.kept.out) > 0 || !s.canSqueeze() {
		return false
	}
	lens := [2]float64{s.kept.main.end, 0}
	if s.kept.rest != nil {
		lens[1] = s.kept.rest.end
	}
	s.squeeze = s.newSqueeze(s.kept.lies, lens)
	return true
}

// canSqueeze reports whether there is length to be won: something moves, on
// cloth whose length counts, and no stripes are to meet.
func (s *Search) canSqueeze() bool {
	return len(s.plans[0].order) > 0 && len(s.cloth.Outline) == 0 && len(s.groups) == 0
}

// newSqueeze begins with the items lying at the places given.
func (s *Search) newSqueeze(at []place, lens [2]float64) *squeeze {
	movers := slices.Clone(s.plans[0].order)
	slices.Sort(movers)
	from := make([]place, len(movers))
	for k, i := range movers {
		from[k] = at[i]
	}
	var fixed [2][]laid
	for part, flaws := range s.flaws {
		for _, f := range flaws {
			fixed[part] = append(fixed[part], laid{facing: f})
		}
	}
	for _, l := range s.locked {
		fixed[0] = append(fixed[0], l.laid)
	}
	return newSqueeze(newPacking(s, movers, fixed, lens), from, lens)
}

// takeSqueezed takes the lay that was squeezed as the best one, if it is.
func (s *Search) takeSqueezed() bool {
	q := s.squeeze
	order := make([]int, len(q.items))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(q.at[a].part, q.at[b].part), cmp.Compare(q.box[a].Min.Y, q.box[b].Min.Y))
	})
	t := s.newTrial()
	t.main.end = q.bestLens[0]
	for _, i := range order {
		to, r := q.at[i], &t.main
		if to.part == 1 {
			if t.rest == nil {
				t.openOut()
			}
			r = t.rest
		}
		t.put(r, q.items[i], spot{facing: to.facing, at: geom.Vec{X: to.x, Y: to.y}}, to.part == 1)
	}
	return s.keep(t.result(), t)
}
