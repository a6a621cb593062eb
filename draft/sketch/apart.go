package sketch

import (
	"slices"

	"chalkfold/draft/geom"
)

// seenApart is how far two lines must lie apart to be seen as two, mm.
const seenApart = 3

// Apart returns the box around what of two views differs; false when nothing
// does that the eye could see.
func Apart(a, b View) (geom.Rect, bool) {
	pts := append(stray(a, b), stray(b, a)...)
	return geom.BoundsOf(pts), len(pts) > 0
}

// stray are the points of a that lie on no shape of the same role of b.
func stray(a, b View) []geom.Pt {
	var out []geom.Pt
	for _, s := range a {
		if slices.ContainsFunc(b, func(t Shape) bool { return t.Role == s.Role && slices.Equal(t.Path, s.Path) }) {
			continue
		}
		var near [][]geom.Pt
		for _, t := range b {
			if t.Role == s.Role {
				near = append(near, t.Path.Flatten(1))
			}
		}
		for _, p := range points(s.Path) {
			if !slices.ContainsFunc(near, func(line []geom.Pt) bool { return onLine(line, p) }) {
				out = append(out, p)
			}
		}
	}
	return out
}

// points are the ends and the middles of the curves of a path.
func points(p geom.Path) []geom.Pt {
	var out []geom.Pt
	for _, c := range p {
		out = append(out, c.A, c.At(1.0/3), c.At(2.0/3), c.D)
	}
	return out
}

func onLine(line []geom.Pt, p geom.Pt) bool {
	for i := 1; i < len(line); i++ {
		if geom.SegDist(line[i-1], line[i], p) < seenApart {
			return true
		}
	}
	return false
}
