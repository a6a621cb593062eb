package lay

import "chalkfold/draft/unit"

// QuickWork are the steps of a quick lay beyond the fixed plans: about a fifth
// of a second for a pair of trousers, natively.
const QuickWork = 15000

// Options steer Pack. The zero value is the quick lay.
type Options struct {
	// Seed picks the run of trials; the same seed, cloth, items and work give
	// the same lay.
	Seed uint64
	// Work is the budget in steps, one step being one item laid or moved once. Zero
	// means one trial of each fixed plan and QuickWork steps more. One whole
	// trial is always made.
	Work int
	// Round, when set, is what is a round figure to chalk: the lay is moved onto
	// such at the end, where that costs nothing; see Search.Even.
	Round unit.Length
	// Best, when set, is called with each lay better than all before it.
	Best func(Result)
	// Stop, when set, is asked between steps; true ends the search with the
	// best lay so far. Before the first whole trial it is not asked.
	Stop func() bool
}

// Pack lays the items on the cloth and returns the best lay found. A lay
// longer than the cloth at hand is a result (Fits, ShortBy), not an error; an
// item that cannot lie on the cloth at all is a *TooWideError. To go on later
// from where a search stopped, use NewSearch.
func Pack(c Cloth, items []Item, opt Options) (Result, error) {
	s, err := NewSearch(c, items, opt.Seed)
	if err != nil {
		return Result{}, err
	}
	work := opt.Work
	if work <= 0 {
		work = s.FixedWork() + QuickWork
	}
	s.Run(work, opt.Stop, opt.Best)
	return s.Even(opt.Round), nil
}
