package sheet

import (
	"math"

	"chalkfold/draft/geom"
)

// Fit returns d on one sheet of paper, as large as it goes within the margin,
// upright or on its side: a picture to work from, not true to scale.
func Fit(d Drawing, paper Paper) Drawing {
	scale := func(p Paper) float64 {
		room := grow(p.box(), -minMargin.MM())
		return math.Min(room.W()/d.Bounds.W(), room.H()/d.Bounds.H())
	}
	if t := paper.Turned(); scale(t) > scale(paper) {
		paper = t
	}
	k := scale(paper)
	out := Drawing{Bounds: paper.box()}
	middle := paper.box().Min.Lerp(paper.box().Max, 0.5)
	from := d.Bounds.Min.Lerp(d.Bounds.Max, 0.5)
	out.place(d, geom.Affine{A: k, D: k, E: middle.X - k*from.X, F: middle.Y - k*from.Y})
	return out
}
