package lay

import "chalkfold/draft/geom"

// depths returns the depths of facing b in facing a. What two pieces have in
// common with themselves, exchanged, turned or turned over alike, is worked out
// once.
func (s *Search) depths(a, b int) *depths {
	t := &s.deep[b*len(s.facings)+a]
	if t.depthGrid == nil {
		*t = s.newDepths(a, b)
	}
	return t
}

func (s *Search) newDepths(a, b int) depths {
	first, second, sign := a, b, [2]float64{1, 1}
	take := func(a, b int, x, y float64) {
		if a < first || a == first && b < second {
			first, second, sign = a, b, [2]float64{x, y}
		}
	}
	if !s.facings[a].bare && !s.facings[b].bare {
		for _, by := range [4][2]float64{{1, 1}, {-1, -1}, {-1, 1}, {1, -1}} {
			p, q := s.turned(a, by), s.turned(b, by)
			if p >= 0 && q >= 0 {
				take(p, q, by[0], by[1])
				take(q, p, -by[0], -by[1])
			}
		}
	}
	if first != a || second != b {
		return depths{s.depths(first, second).depthGrid, sign[0], sign[1]}
	}
	return depths{newDepthGrid(s.nofit(a, b)), 1, 1}
}

// turned returns the facing that facing f is when x and y are given the signs by:
// turned end for end, or turned over; -1 when there is none.
func (s *Search) turned(f int, by [2]float64) int {
	is := &s.facings[f]
	want := is.at.Then(geom.Affine{A: by[0], D: by[1]})
	for k := range s.facings {
		if g := &s.facings[k]; g.of == is.of && !g.bare && near(g.at, want) {
			return k
		}
	}
	return -1
}
