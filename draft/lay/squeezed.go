package lay

import (
	"cmp"
	"slices"

	"chalkfold/draft/geom"
)

// squeezes reports whether the search goes on by squeezing: once the fixed
// plans are tried, when all is laid on cloth whose length counts, and no stripes
// are to meet.
func (s *Search) squeezes() bool {
	if s.squeeze != nil {
		return true
	}
	if s.trials < len(s.plans) || len(s.kept.out) > 0 || len(s.kept.order) == 0 || len(s.cloth.Outline) > 0 || len(s.groups) > 0 {
		return false
	}
	s.squeeze = s.newSqueeze()
	return true
}

// newSqueeze begins with the lay that is kept.
func (s *Search) newSqueeze() *squeeze {
	t := s.kept
	movers := slices.Clone(t.order)
	slices.Sort(movers)
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
	for _, l := range s.locked {
		fixed[0] = append(fixed[0], l.laid)
	}
	lens := [2]float64{t.main.end, 0}
	if t.rest != nil {
		lens[1] = t.rest.end
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
