package lay

import (
	"math"

	"chalkfold/draft/geom"
)

// region is one part of the table in the course of a trial: the folded part or
// the opened rest. Its own y starts at zero.
type region struct {
	s      *Search
	lo, hi float64 // usable x
	length float64 // usable y
	laid   []laid
	free   map[int]*freedom // by facing
	end    float64          // y of the lowest edge laid so far
	top    float64          // y on the table at which it starts
	opened bool             // it is the opened rest
	phases phases
}

// laid is a facing at a place.
type laid struct {
	facing int
	at     geom.Vec
}

// freedom is where one facing may still go: the edge of the set of its free
// places, brought up to date with the first seen laid pieces.
type freedom struct {
	seen int
	rim  []seg
}

// spot is a place for a facing, and how good it is.
type spot struct {
	facing int
	at     geom.Vec
	end    float64 // y of its far edge
	score  [3]float64
}

func (r *region) put(f int, at geom.Vec) {
	r.laid = append(r.laid, laid{f, at})
	if !r.s.facings[f].bare {
		r.end = math.Max(r.end, r.s.facings[f].box.Max.Y+at.Y)
	}
}

// look brings the free places of facing f up to date.
func (r *region) look(f int) *freedom {
	fr := r.free[f]
	face := &r.s.facings[f]
	if fr == nil {
		fr = &freedom{}
		r.free[f] = fr
		if box, ok := face.room(r.lo, r.hi, r.length); ok {
			a, b := box.Min, geom.Pt{X: box.Max.X, Y: box.Min.Y}
			c, d := box.Max, geom.Pt{X: box.Min.X, Y: box.Max.Y}
			fr.rim = append(fr.rim, seg{a, b}, seg{b, c}, seg{d, a})
			if c.Y < r.s.tall {
				fr.rim = append(fr.rim, seg{c, d})
			}
		}
	}
	box, ok := face.room(r.lo, r.hi, r.length)
	if !ok {
		return fr
	}
	c := &r.s.clip
	for ; fr.seen < len(r.laid); fr.seen++ {
		l := r.laid[fr.seen]
		nf := r.s.nofit(l.facing, f)
		r.s.spare = r.s.spare[:0]
		for _, sg := range fr.rim {
			c.start(sg)
			if !c.cutAway(nf, l.at) {
				r.s.spare = c.rest(r.s.spare)
			}
		}
		for _, sg := range nf.rim {
			sg, in := within(seg{sg.a.Add(l.at), sg.b.Add(l.at)}, box)
			if !in {
				continue
			}
			c.start(sg)
			gone := false
			for _, o := range r.laid[:fr.seen] {
				if gone = c.cutAway(r.s.nofit(o.facing, f), o.at); gone {
					break
				}
			}
			if !gone {
				r.s.spare = c.rest(r.s.spare)
			}
		}
		fr.rim, r.s.spare = r.s.spare, fr.rim
	}
	return fr
}

// within cuts s to the closed box.
func within(s seg, box geom.Rect) (seg, bool) {
	const tol = touchTol
	t0, t1 := 0.0, 1.0
	for _, e := range [4][2]float64{
		{box.Min.X - s.a.X, box.Min.X - s.b.X},
		{s.a.X - box.Max.X, s.b.X - box.Max.X},
		{box.Min.Y - s.a.Y, box.Min.Y - s.b.Y},
		{s.a.Y - box.Max.Y, s.b.Y - box.Max.Y},
	} {
		da, db := e[0], e[1]
		switch {
		case da > tol && db > tol:
			return s, false
		case da > tol:
			t0 = math.Max(t0, da/(da-db))
		case db > tol:
			t1 = math.Min(t1, da/(da-db))
		}
	}
	if t0 > t1 {
		return s, false
	}
	a, b := s.a.Lerp(s.b, t0), s.a.Lerp(s.b, t1)
	return seg{a, b}, true
}

// best returns the best free spot for any of the facings by the rule; false
// when there is none that ends at or before y = until.
func (r *region) best(facings []int, rule rule, until float64) (spot, bool) {
	var best spot
	found := false
	for _, f := range facings {
		face := &r.s.facings[f]
		if lanes, bound := r.lanes(f, until); bound {
			if sp, ok := r.matched(f, rule, lanes); ok && (!found || less(sp.score, best.score)) {
				best, found = sp, true
			}
			continue
		}
		for _, sg := range r.look(f).rim {
			for _, p := range [2]geom.Pt{sg.a, sg.b} {
				end := p.Y + face.box.Max.Y
				if end > until+touchTol {
					continue
				}
				sp := spot{f, geom.Vec(p), end, rule.score(p, face.box, r)}
				if !found || less(sp.score, best.score) {
					best, found = sp, true
				}
			}
		}
	}
	return best, found
}

// scoreTol is how near, in mm, two spots are equally good.
const scoreTol = 1e-4

func less(a, b [3]float64) bool {
	for i := range a {
		if math.Abs(a[i]-b[i]) > scoreTol {
			return a[i] < b[i]
		}
	}
	return false
}

// rule says which of two free spots is the better one.
type rule uint8

const (
	nearEnd   rule = iota // the far edge nearest the cut edge
	nearStart             // the near edge nearest the cut edge
	rules
)

func (u rule) score(p geom.Pt, box geom.Rect, r *region) [3]float64 {
	x, start, end := p.X+box.Min.X-r.lo, p.Y+box.Min.Y, p.Y+box.Max.Y
	if u == nearStart {
		return [3]float64{start, x, end}
	}
	return [3]float64{end, x, start}
}
