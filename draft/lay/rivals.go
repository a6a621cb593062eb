package lay

import (
	"math/bits"

	"chalkfold/draft/geom"
)

// rivals are all that a piece may run into at the places in a box. They are
// gathered once for the many places that are tried there.
type rivals struct {
	list         []rival
	places       geom.Rect
	facing, part int
}

// rival is something that lies on the cloth.
type rival struct {
	*depths
	x, y float64
	heed float64
}

// none forgets them.
func (r *rivals) none() { r.part = -1 }

// about reports whether they are those at a place.
func (r *rivals) about(to place) bool {
	return to.x >= r.places.Min.X && to.x <= r.places.Max.X && to.y >= r.places.Min.Y && to.y <= r.places.Max.Y &&
		to.facing == r.facing && to.part == r.part
}

// gatherRivals gathers what mover i may run into at a place or as far from it as
// dx and dy, and a little further.
func (p *packing) gatherRivals(i int, to place, dx, dy float64) {
	const further = 1.001
	dx, dy = further*dx, further*dy
	r := &p.rivals
	r.list, r.facing, r.part = r.list[:0], to.facing, to.part
	r.places = geom.Rect{Min: geom.Pt{X: to.x - dx, Y: to.y - dy}, Max: geom.Pt{X: to.x + dx, Y: to.y + dy}}
	gap := p.s.cloth.Gap.MM()
	f := &p.s.facings[to.facing].box
	x0, x1 := f.Min.X+r.places.Min.X-gap, f.Max.X+r.places.Max.X+gap
	y0, y1 := f.Min.Y+r.places.Min.Y-gap, f.Max.Y+r.places.Max.Y+gap
	heed := p.row(p.heed, i)
	near := p.finder.near(x0, x1, y0, y1)
	for k := range p.finder.words {
		for set := near.word(k); set != 0; set &= set - 1 {
			j := 64*k + bits.TrailingZeros64(set)
			b, q := &p.box[j], &p.at[j]
			if b.Min.X >= x1 || b.Max.X <= x0 || b.Min.Y >= y1 || b.Max.Y <= y0 || j == i || q.part != to.part {
				continue
			}
			r.list = append(r.list, rival{p.s.depths(q.facing, to.facing), q.x, q.y, heed[j]})
		}
	}
	for k, l := range p.fixed[to.part] {
		at := p.fixedAt(to.part, l)
		r.list = append(r.list, rival{p.s.depths(l.facing, to.facing), at.X, at.Y, heed[len(p.items)+k]})
	}
}

// weigh returns how deep the piece would run into them at a place, weighed;
// anything from most on when it is no less than that. What was in the way then is
// asked earlier the next time.
func (r *rivals) weigh(to place, most float64) float64 {
	sum := 0.0
	for k := range r.list {
		q := &r.list[k]
		if d := q.at(to.x-q.x, to.y-q.y); d > 0 {
			if sum += d * q.heed; sum >= most {
				if k > 0 {
					r.list[k], r.list[k-1] = r.list[k-1], r.list[k]
				}
				return sum
			}
		}
	}
	return sum
}
