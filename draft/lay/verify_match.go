package lay

import (
	"math"

	"chalkfold/draft/geom"
)

// stripes checks that stripes meet: of every two items of one name, the points
// that match lie whole repeats apart, or, when one of them is turned end for
// end or over, whole repeats apart after a reflection in the cut edge or in
// the middle of the cloth.
func (v *verifier) stripes() {
	c := v.cloth
	half := c.Width.MM() / 2
	for i, p := range v.placed() {
		for _, q := range v.placed()[:i] {
			a, b := v.items[p.Item], v.items[q.Item]
			at, on := p.At.Pt(a.Match.At), q.At.Pt(b.Match.At)
			if r := c.RepeatAlong.MM(); r > 0 && a.Match.Along != "" && a.Match.Along == b.Match.Along {
				y := on.Y
				if p.At.D*q.At.D < 0 {
					y = -y
				}
				if off := math.Abs(math.Remainder(at.Y-y, r)); off > matchTol {
					v.fault("%s and %s: cross stripes stand %.2f mm off each other", v.title(q), v.title(p), off)
				}
			}
			if r := c.RepeatAcross.MM(); r > 0 && a.Match.Across != "" && a.Match.Across == b.Match.Across {
				x := fromMiddle(c, half, at, p.Opened)
				on := fromMiddle(c, half, on, q.Opened)
				if p.At.A*q.At.A < 0 {
					on = -on
				}
				if off := math.Abs(math.Remainder(x-on, r)); off > matchTol {
					v.fault("%s and %s: lengthwise stripes stand %.2f mm off each other", v.title(q), v.title(p), off)
				}
			}
		}
	}
}

// fromMiddle is how far across a point of the table lies from the middle of
// the cloth, or from the left edge of a remnant's measure.
func fromMiddle(c Cloth, half float64, p geom.Pt, opened bool) float64 {
	if len(c.Outline) > 0 || c.Fold == Lengthwise && !opened {
		return p.X
	}
	return p.X - half
}
