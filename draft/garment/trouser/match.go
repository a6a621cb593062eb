package trouser

import (
	"math"
	"slices"

	"chalkfold/draft/garment"
	"chalkfold/draft/garment/dart"
	"chalkfold/draft/piece"
)

// leastMatch is the least that a back fork is let out for, mm: less than a chalk
// line.
const leastMatch = 0.05

// matchOf is by how much the back fork of a half that alone is altered is let out,
// mm, so that its seat seam stays as long as that of the other half, to which it is
// sewn. by are the changes of the balanced method.
func matchOf(in garment.Input, by map[string]float64, forkOnly bool) float64 {
	alone := func(a garment.Altered) bool { return a.Side != piece.BothHands }
	if in.Hand == piece.BothHands || !slices.ContainsFunc(in.Altered, func(a garment.Altered) bool { return alone(a) && a.Side == in.Hand }) {
		return 0
	}
	in.Format.Words = nil // nobody reads what is only tried
	other := in
	other.Altered = slices.DeleteFunc(slices.Clone(in.Altered), alone)
	seam := func(in garment.Input, match float64) (float64, bool) {
		rec, err := tried(in, by, match, forkOnly)
		if err != nil {
			return 0, false
		}
		return rec.Path("back.centre").Len() + rec.Path("back.fork").Len(), true
	}
	want, ok := seam(other, 0)
	if !ok {
		return 0 // the draft itself says why
	}
	match, ok := dart.Solve(0, func(x float64) float64 {
		is, drawn := seam(in, x)
		if !drawn {
			return math.NaN()
		}
		return is - want
	})
	if !ok || math.Abs(match) < leastMatch {
		return 0 // the proof tells how far apart they are
	}
	return match
}

// matchFork lets the back fork out by what the other half asks for.
func (d *drafter) matchFork() {
	if d.match == 0 {
		return
	}
	d.Solved("back.match", d.T("back fork, matched to the other side"), d.match, d.T("found so that the seat seam of both sides is of one length"))
	d.Renew("back.reach_matched", d.T("back fork extension, matched to the other side"), "back.reach", "back.reach + back.match", d.T("both sides are sewn to each other here"))
}
