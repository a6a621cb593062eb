package lay

// Share has searches for one lay, from seeds of their own, all go on from the
// best that any of them has found; the earlier in the list is preferred. Each
// may run in a goroutine of its own between two calls, and what is found hangs
// on the seeds and on the steps between the calls alone. The searches must be of
// the same cloth and the same items.
func Share(all []*Search) {
	if len(all) == 0 {
		return
	}
	best := all[0]
	for _, s := range all[1:] {
		if s.laidAs != nil && (best.laidAs == nil || s.best.Better(best.best)) {
			best = s
		}
	}
	for _, s := range all {
		if best.laidAs != nil && (s.laidAs == nil || best.best.Better(s.best)) {
			s.adopt(best)
		}
	}
}

// adopt takes over the best lay of another search.
func (s *Search) adopt(o *Search) {
	s.best, s.laidAs, s.done = o.best, o.laidAs, true
	s.best.Work = s.work
	if s.squeeze != nil && !s.squeeze.adopt(s.newSqueeze(s.laidAs, -1)) {
		s.squeeze = nil
	}
}

// adopt takes over the lay that another squeeze begins with. An attempt at less
// length than that goes on. It is not taken where other pieces are laid in it.
func (q *squeeze) adopt(o *squeeze) bool {
	if q.adding >= 0 || len(o.items) != len(q.items) {
		return false
	}
	q.best, q.bestLens = o.best, o.bestLens
	if q.total(q.lens) >= q.total(q.bestLens) {
		q.underWay, q.fails, q.pool = false, 0, nil
	}
	return true
}
