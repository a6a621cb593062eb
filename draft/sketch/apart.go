package sketch

import (
	"slices"

	"chalkfold/draft/geom"
)

// seenApart is how far two lines must lie apart to be seen as two, mm.
const seenApart = 3

// Difference is where two views differ. The zero value is nowhere that the eye
// could see.
type Difference struct {
	Box    geom.Rect
	Parts  int // how many shapes only one of them has
	Points int // how much differs
}

// Apart returns where two views differ: what only one of them has, or else what
// lies elsewhere.
func Apart(a, b View) Difference {
	var d Difference
	only := map[Role]bool{}
	for r := Within; r <= Fastening; r++ {
		if n := count(a, r) - count(b, r); n != 0 {
			only[r] = true
			d.Parts += max(n, -n)
		}
	}
	var pts []geom.Pt
	for _, of := range [][2]View{{a, b}, {b, a}} {
		for _, s := range of[0] {
			if d.Parts == 0 || only[s.Role] {
				pts = append(pts, stray(s, of[1])...)
			}
		}
	}
	d.Box, d.Points = geom.BoundsOf(pts), len(pts)
	return d
}

func count(v View, r Role) int {
	n := 0
	for _, s := range v {
		if s.Role == r {
			n++
		}
	}
	return n
}

// stray are the points of s that lie on no shape of its role in b.
func stray(s Shape, b View) []geom.Pt {
	var near [][]geom.Pt
	for _, t := range b {
		if t.Role != s.Role {
			continue
		}
		if slices.Equal(t.Path, s.Path) {
			return nil
		}
		near = append(near, t.Path.Flatten(1))
	}
	var out []geom.Pt
	for _, p := range points(s.Path) {
		if !slices.ContainsFunc(near, func(line []geom.Pt) bool { return onLine(line, p) }) {
			out = append(out, p)
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
