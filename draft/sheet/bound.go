package sheet

import (
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// Bound is what no placing of the pieces on the paper can beat; see the package
// comment.
type Bound struct {
	ByArea  int // their whole area over what is printed of a sheet
	ByReach int // the rows and columns of sheets that the longest piece runs over
	// Length is that of a roll: the whole area over the width that is printed.
	Length unit.Length
}

// Sheets is the larger of the bounds on the sheets.
func (b Bound) Sheets() int { return max(b.ByArea, b.ByReach) }

// bound returns the lower bounds for the outlines.
func (g grid) bound(outlines []Outline) Bound {
	area, reach := 0.0, 1
	for _, o := range outlines {
		area += math.Abs(geom.Area(o.Ring))
		reach = max(reach, g.leastRun(o.Ring))
	}
	b := Bound{ByArea: count(area, g.step.X*g.step.Y), ByReach: reach}
	if g.roll {
		b.Length = unit.Length(area / g.step.X)
	}
	return b
}

// boundTurns is how many turns, over half a round, are looked at for a bound.
const boundTurns = 360

// leastRun is how many sheets a ring touches at least, however it is turned: as
// many as the rows and the columns that it runs over, less one.
func (g grid) leastRun(ring []geom.Pt) int {
	far := 0.0
	for i, p := range ring {
		for _, q := range ring[i+1:] {
			far = math.Max(far, p.Dist(q))
		}
	}
	const apart = math.Pi / boundTurns
	within := far * apart / 2 // as far as a breadth can differ half way to the next turn
	least := math.MaxInt
	for k := range boundTurns {
		across := geom.Vec{X: 1}.Rotate(apart * (float64(k) + 0.5))
		w, h := breadth(ring, across), breadth(ring, across.Left())
		least = min(least, count(w-within, g.step.X)+count(h-within, g.step.Y)-1)
	}
	return least
}

// breadth is how far a ring reaches along a direction.
func breadth(ring []geom.Pt, dir geom.Vec) float64 {
	from, to := math.Inf(1), math.Inf(-1)
	for _, p := range ring {
		at := p.Sub(geom.Pt{}).Dot(dir)
		from, to = min(from, at), max(to, at)
	}
	return to - from
}
