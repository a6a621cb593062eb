package lay

import (
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
)

// matchTol is how far, in mm, stripes may stand off each other where they are
// to meet: half a chalk line.
const matchTol = 0.5

// matches reports whether the stripes of c must lie on p as they lie on other
// pieces: cross stripes, lengthwise stripes.
func (c Cloth) matches(m piece.Match) (along, across bool) {
	return c.RepeatAlong > 0 && m.Along != "", c.RepeatAcross > 0 && m.Across != ""
}

// axis returns the x, on the table, about which lengthwise stripes are the same
// to the left and to the right.
func (c Cloth) axis(opened bool) float64 {
	if len(c.Outline) > 0 || c.Fold == Lengthwise && !opened {
		return 0
	}
	return c.Width.MM() / 2
}

// tie binds a facing, in one direction, to others whose stripes must be like
// its own. Of a bound facing at place v the phase is sign·(v + off), up to
// whole repeats.
type tie struct {
	group     int // from 1; 0 is not bound
	sign, off float64
}

// ties returns what binds item it as m turns it: along, then across.
func (s *Search) ties(it Item, m geom.Affine) [2]tie {
	along, across := s.cloth.matches(it.Match)
	at := m.Pt(it.Match.At)
	var t [2]tie
	if along {
		t[0] = tie{s.group("along " + it.Match.Along), math.Copysign(1, m.D), at.Y}
	}
	if across {
		sign := math.Copysign(1, m.A)
		t[1] = tie{s.group("across " + it.Match.Across), sign, at.X}
	}
	return t
}

// group returns the number of a group of items that match.
func (s *Search) group(name string) int {
	if s.groups == nil {
		s.groups = map[string]int{}
	}
	if s.groups[name] == 0 {
		s.groups[name] = len(s.groups) + 1
	}
	return s.groups[name]
}

// phases are where in the repeat the groups lie in one trial: not a number for
// a group of which nothing is laid yet. The first item laid sets it.
type phases []float64

func (s *Search) newPhases() phases {
	p := make(phases, len(s.groups)+1)
	for i := range p {
		p[i] = math.NaN()
	}
	return p
}

// bound returns the coordinates, in the region, that a tie lets a facing have:
// from, and every repeat on. It is not ok when any will do.
func (r *region) bound(t tie, origin float64) (from float64, ok bool) {
	if t.group == 0 || math.IsNaN(r.phases[t.group]) {
		return 0, false
	}
	return t.sign*r.phases[t.group] - t.off + origin, true
}

// origins are where the stripes are measured from, in the region's own y and x.
func (r *region) origins() (y, x float64) { return -r.top, r.s.cloth.axis(r.opened) }

// take sets the phases that the facing at a place is the first to have.
func (r *region) take(f int, at geom.Vec) {
	y, x := r.origins()
	for i, v := range [2]float64{at.Y - y, at.X - x} {
		if t := r.s.facings[f].ties[i]; t.group > 0 && math.IsNaN(r.phases[t.group]) {
			r.phases[t.group] = t.sign * (v + t.off)
		}
	}
}

// matched reports whether facing f is bound in any direction by now, and the
// best free spot that it may have then; the spot is false when there is none.
func (r *region) matched(f int, rule rule, until float64) (sp spot, found, bound bool) {
	face := &r.s.facings[f]
	if face.ties == [2]tie{} {
		return sp, false, false
	}
	oy, ox := r.origins()
	y0, rows := r.bound(face.ties[0], oy)
	x0, columns := r.bound(face.ties[1], ox)
	if !rows && !columns {
		return sp, false, false
	}
	box, ok := r.room(face)
	if !ok {
		return sp, false, true
	}
	box.Max.Y = math.Min(box.Max.Y, until+touchTol-face.box.Max.Y)
	along, across := r.s.cloth.RepeatAlong.MM(), r.s.cloth.RepeatAcross.MM()
	keep := func(p geom.Pt) {
		one := spot{f, geom.Vec(p), p.Y + face.box.Max.Y, rule.score(p, face.box, r)}
		if !found || less(one.score, sp.score) {
			sp, found = one, true
		}
	}
	if rows {
		// Of the rows the first with room is the best, by every rule.
		for y := next(box.Min.Y, y0, along); y <= box.Max.Y && !found; y += along {
			for _, free := range r.clear(f, seg{geom.Pt{X: box.Min.X, Y: y}, geom.Pt{X: box.Max.X, Y: y}}) {
				x := free.a.X
				if columns {
					x = next(x, x0, across)
				}
				if x <= free.b.X+touchTol {
					keep(geom.Pt{X: x, Y: y})
					break
				}
			}
		}
		return sp, found, true
	}
	for x := next(box.Min.X, x0, across); x <= box.Max.X; x += across {
		if free := r.clear(f, seg{geom.Pt{X: x, Y: box.Min.Y}, geom.Pt{X: x, Y: box.Max.Y}}); len(free) > 0 {
			keep(free[0].a)
		}
	}
	return sp, found, true
}

// next returns the first of the coordinates from, from ± step, ... that is not
// below v.
func next(v, from, step float64) float64 {
	return from + step*math.Ceil((v-from-touchTol)/step)
}

// clear returns the stretches of sg that are free places of facing f, in
// order.
func (r *region) clear(f int, sg seg) []seg {
	if sg.b.X < sg.a.X || sg.b.Y < sg.a.Y {
		return nil
	}
	c := &r.s.clip
	c.start(sg)
	for _, l := range r.laid {
		if c.cutAway(r.s.nofit(l.facing, f), l.at) {
			return nil
		}
	}
	r.s.spare = c.rest(r.s.spare[:0])
	return r.s.spare
}
