package lay

import (
	"math"
	"math/rand/v2"

	"chalkfold/draft/unit"
)

// evenPasses is how many passes a lay is given to come onto round figures, and
// evenGrown in how much more length, in steps of them.
const evenPasses = 100

// evenNear is how far about a piece a place is sought, in steps.
const evenNear = 12

// evenOffcut is what must be left of the offcut: so little less is no loss.
const evenOffcut = 0.95

func evenGrown() []float64 { return []float64{0, 1, 2, 4, 8, 16} }

// Even returns the best lay with its pieces moved a little, so that every grain
// line begins on round figures: whole multiples of round across and along the
// table. They can then be chalked as they are told, and fit. Where that cannot be
// had for the same length bought, or on the cloth at hand, it is the best lay as
// it is. Pieces that lie against the fold or on stripes keep to those.
func (s *Search) Even(round unit.Length) Result {
	best := s.Best()
	if round <= 0 || s.laidAs == nil {
		return best
	}
	was, step := MeritOf(s.cloth, s.items, best, round), round.MM()
	if was.Odd == 0 {
		return best
	}
	// The search itself goes on as if this had not been asked.
	rng := s.rng
	s.rng = rand.New(rand.NewPCG(0, uint64(len(s.items))))
	defer func() { s.rng = rng }()

	for _, steps := range evenGrown() {
		q := s.newSqueeze(s.laidAs, -1)
		q.even = step
		grown, folded := steps*step, 0.0
		if q.lens[1] > 0 { // the rest begins where the folded part ends
			folded = step * math.Ceil(q.lens[0]/step-touchTol)
			if s.restFrom(folded) > folded {
				continue
			}
			q.lens = [2]float64{folded, q.lens[1] + grown}
		} else {
			q.lens[0] += grown
		}
		if !q.evenOut() {
			continue
		}
		t := s.trialOf(q.items, q.at, folded)
		t.out = s.laidAs.out
		r := t.result()
		r.Work, r.Left = best.Work, offcuts(s, t)
		if m := MeritOf(s.cloth, s.items, r, round); m.Out == was.Out && m.Short <= was.Short && m.Bought <= was.Bought &&
			m.Offcut >= evenOffcut*was.Offcut && m.Cuts <= was.Cuts && m.Odd < was.Odd {
			return r
		}
	}
	return best
}

// evenOut lays the pieces on round figures and pulls apart what runs into each
// other then. It reports whether nothing does in the end.
func (q *squeeze) evenOut() bool {
	copy(q.heed, q.least)
	if !q.load(q.best) {
		return false
	}
	for range evenPasses {
		if q.gather(); len(q.todo) == 0 {
			return true
		}
		for len(q.todo) > 0 {
			q.move()
		}
		q.heedMore()
	}
	return false
}
