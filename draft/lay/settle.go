package lay

import (
	"cmp"
	"math"
	"slices"

	"chalkfold/draft/geom"
)

// leastSlide is how far, in mm, a piece must have room for it to be slid.
const leastSlide = 0.01

// settle slides the pieces towards the beginning of their part, and then to the
// side, as far as each goes by itself: what floats in a gap comes to lie against
// something. It is for a packing in which nothing runs into anything.
func (p *packing) settle() {
	order := make([]int, len(p.items))
	for i := range order {
		order[i] = i
	}
	const rounds = 3
	for range rounds {
		slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(p.box[a].Min.Y, p.box[b].Min.Y) })
		slid := false
		for _, i := range order {
			slid = p.slide(i, geom.Vec{Y: -1}) || slid
			slid = p.slide(i, geom.Vec{X: -1}) || slid
		}
		if !slid {
			return
		}
	}
}

// slide moves mover i as far as it goes one way; false when it does not.
func (p *packing) slide(i int, way geom.Vec) bool {
	at := p.at[i]
	room := p.room(at.part, at.facing)
	ties := &p.s.facings[at.facing].ties
	if !room.some || way.Y != 0 && ties[0].group > 0 || way.X != 0 && ties[1].group > 0 {
		return false
	}
	path := seg{geom.Pt{X: at.x, Y: at.y}, geom.Pt{X: at.x, Y: at.y}}
	if way.Y != 0 {
		path.b.Y = room.Min.Y
	} else {
		path.b.X = room.Min.X
	}
	far := path.a.Dist(path.b)
	free := 1.0
	swept := geom.Rect{Min: path.b, Max: path.a}
	against := func(facing int, v geom.Vec) {
		f := p.s.nofit(facing, at.facing)
		if !meets(swept, f.box, v) {
			return
		}
		for k := range f.hulls {
			if !meets(swept, f.hulls[k].box, v) {
				continue
			}
			if t0, t1 := f.hulls[k].span(path, v); t0 < t1 {
				free = math.Min(free, t0)
			}
		}
	}
	for j := range p.items {
		if j != i && p.at[j].part == at.part {
			against(p.at[j].facing, geom.Vec{X: p.at[j].x, Y: p.at[j].y})
		}
	}
	for _, l := range p.fixed[at.part] {
		against(l.facing, p.fixedAt(at.part, l))
	}
	if free*far < leastSlide {
		return false
	}
	to := at
	to.x, to.y = at.x+way.X*free*far, at.y+way.Y*free*far
	p.put(i, to)
	if p.deepest(i) > 0 {
		p.put(i, at)
		return false
	}
	return true
}
