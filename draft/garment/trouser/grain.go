package trouser

import (
	"slices"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
)

// grainWithin is a grain line for a piece of any shape: the middle of the
// longest stretch of the warp that lies on it, that nearest to the middle of the
// piece being preferred.
func grainWithin(edges []piece.Edge) geom.Curve {
	var ring geom.Path
	for _, e := range edges {
		ring = append(ring, e.Sew...)
	}
	const fine = 0.01 // mm
	corners := ring.Flatten(fine)
	box := geom.BoundsOf(corners)
	const lines, more = 40, 1.02 // by which a line further off must be longer
	var top, foot geom.Pt
	for i := range lines {
		off := float64((i+1)/2) / lines
		if i%2 == 1 {
			off = -off
		}
		x := box.Min.X + (0.5+off)*box.W()
		var at []float64
		from := corners[len(corners)-1]
		for _, to := range corners {
			if (from.X > x) != (to.X > x) {
				at = append(at, from.Y+(x-from.X)/(to.X-from.X)*(to.Y-from.Y))
			}
			from = to
		}
		slices.Sort(at)
		for k := 1; k < len(at); k += 2 {
			if at[k]-at[k-1] > more*top.Dist(foot) {
				top, foot = geom.Pt{X: x, Y: at[k-1]}, geom.Pt{X: x, Y: at[k]}
			}
		}
	}
	return geom.Line(top.Lerp(foot, 0.2), top.Lerp(foot, 0.8))
}
