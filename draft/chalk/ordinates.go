package chalk

import (
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// off is how far a curve is off the straight line between its ends, to the left,
// so far along that line.
func off(c geom.Curve, along float64) (float64, bool) {
	dir := c.D.Sub(c.A).Unit()
	path := geom.Path{c}
	at := path.CrossLine(c.A.Add(dir.Scale(along)), dir.Left())
	if len(at) == 0 {
		return 0, false
	}
	p, _ := path.At(at[0])
	return p.Sub(c.A).Dot(dir.Left()), true
}

// knots are the places by which a curve is chalked: x along the straight line
// between its ends, y off it to the left, both ends among them. They are as few as
// a smooth line through them needs to be the curve, each a whole step of the tape
// along, and never more than one for every inch or so and eight in all.
func knots(c geom.Curve, f unit.Format) []geom.Pt {
	chord := c.A.Dist(c.D)
	most := int(math.Max(3, math.Min(8, math.Round(chord/unit.Inch.MM())-1)))
	for n := 1; ; n++ {
		out := []geom.Pt{{}}
		for i := 1; i <= n; i++ {
			along := f.Round(unit.Length(chord * float64(i) / float64(n+1))).MM()
			if y, ok := off(c, along); ok && along > out[len(out)-1].X && along < chord {
				out = append(out, geom.Pt{X: along, Y: y})
			}
		}
		out = append(out, geom.Pt{X: chord})
		if n == most || len(out) > 2 && strays(out, c) <= smallest.MM() {
			return out
		}
	}
}

// strays is how far a smooth line through knots is from their curve at most.
func strays(knots []geom.Pt, c geom.Curve) float64 {
	const looks = 4 // between two knots
	most := 0.0
	for i, to := range knots[1:] {
		from, w := knots[i], to.X-knots[i].X
		drawn := geom.Curve{
			A: from, B: geom.Pt{X: from.X + w/3, Y: from.Y + slope(knots, i)*w/3},
			C: geom.Pt{X: to.X - w/3, Y: to.Y - slope(knots, i+1)*w/3}, D: to,
		}
		for k := 1; k < looks; k++ {
			t := float64(k) / looks
			if y, ok := off(c, from.X+t*w); ok {
				most = math.Max(most, math.Abs(drawn.At(t).Y-y))
			}
		}
	}
	return most
}

// slope is that of the parabola through a knot and its neighbours, at the knot.
func slope(knots []geom.Pt, i int) float64 {
	mid := min(max(i, 1), len(knots)-2)
	a, b, c := knots[mid-1], knots[mid], knots[mid+1]
	ab, bc := (b.Y-a.Y)/(b.X-a.X), (c.Y-b.Y)/(c.X-b.X)
	return ab + (bc-ab)/(c.X-a.X)*(2*knots[i].X-a.X-b.X)
}
