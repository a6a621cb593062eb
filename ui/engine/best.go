package engine

import "chalkfold/draft/lay"

// Seeds is how many searches make one lay.
const Seeds = 4

// Best keeps the best lay of several searches. The zero value is ready.
type Best struct {
	// Better, when it is set, decides between what two searches have found.
	Better func(r, than lay.Result) bool

	found [Seeds]lay.Result
	some  [Seeds]bool
}

// Take takes the best lay so far of one search. What the same search has found
// before, on a smaller budget, stays if it is better; the last lay of a search is
// its best one brought onto round figures, and takes the place of that.
func (b *Best) Take(seed int, r lay.Result) {
	if old := b.found[seed]; !b.some[seed] || !old.Better(r) || old.Work == r.Work {
		b.found[seed], b.some[seed] = r, true
	}
}

// Of is what one search has found; false when that is nothing yet.
func (b *Best) Of(seed int) (lay.Result, bool) { return b.found[seed], b.some[seed] }

// Lay is the best of all and the seed that led to it, the lower seed being
// preferred; false when there is none yet.
func (b *Best) Lay() (best lay.Result, seed int, ok bool) {
	better := b.Better
	if better == nil {
		better = lay.Result.Better
	}
	for i, r := range b.found {
		if b.some[i] && (!ok || better(r, best)) {
			best, seed, ok = r, i, true
		}
	}
	return best, seed, ok
}
