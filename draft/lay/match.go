package lay

import (
	"iter"
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

// bound returns the coordinates that a tie lets a facing have where stripes are
// measured from origin: from, and every repeat on. It is not ok when any will do.
func (p phases) bound(t tie, origin float64) (from float64, ok bool) {
	if t.group == 0 || len(p) == 0 || math.IsNaN(p[t.group]) {
		return 0, false
	}
	return t.sign*p[t.group] - t.off + origin, true
}

// nearest returns that of the coordinates from, from ± step, ... which is nearest
// to v and lies from lo to hi; false when none does.
func nearest(v, lo, hi, from, step float64) (float64, bool) {
	v = from + step*math.Round((v-from)/step)
	if v > hi+touchTol {
		v -= step
	}
	if v < lo-touchTol {
		v += step
	}
	return v, v <= hi+touchTol
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

// lanes are the stretches of free places that end by until and that facing f
// may have where it is bound: rows from the cut edge on, columns from the left,
// or single places where rows and columns cross. It is not bound when stripes
// let it lie anywhere.
func (r *region) lanes(f int, until float64) (free iter.Seq[seg], bound bool) {
	face := &r.s.facings[f]
	oy, ox := r.origins()
	y0, rows := r.phases.bound(face.ties[0], oy)
	x0, columns := r.phases.bound(face.ties[1], ox)
	box, ok := face.room(r.lo, r.hi, r.length)
	box.Max.Y = math.Min(box.Max.Y, until+touchTol-face.box.Max.Y)
	along, across := r.s.cloth.RepeatAlong.MM(), r.s.cloth.RepeatAcross.MM()
	return func(yield func(seg) bool) {
		switch {
		case !ok:
		case rows:
			for y := next(box.Min.Y, y0, along); y <= box.Max.Y; y += along {
				for _, sg := range r.clear(f, seg{geom.Pt{X: box.Min.X, Y: y}, geom.Pt{X: box.Max.X, Y: y}}) {
					if !columns && !yield(sg) {
						return
					}
					for x := next(sg.a.X, x0, across); columns && x <= sg.b.X+touchTol; x += across {
						if p := (geom.Pt{X: x, Y: y}); !yield(seg{p, p}) {
							return
						}
					}
				}
			}
		case columns:
			for x := next(box.Min.X, x0, across); x <= box.Max.X; x += across {
				for _, sg := range r.clear(f, seg{geom.Pt{X: x, Y: box.Min.Y}, geom.Pt{X: x, Y: box.Max.Y}}) {
					if !yield(sg) {
						return
					}
				}
			}
		}
	}, rows || columns
}

// matched is the best free spot by the rule for a facing that is bound.
func (r *region) matched(f int, rule rule, lanes iter.Seq[seg]) (best spot, found bool) {
	face := &r.s.facings[f]
	_, rows := r.phases.bound(face.ties[0], 0)
	for sg := range lanes {
		sp := spot{f, geom.Vec(sg.a), sg.a.Y + face.box.Max.Y, rule.score(sg.a, face.box, r)}
		if !found || less(sp.score, best.score) {
			best, found = sp, true
		}
		if rows && sp.at.Y > best.at.Y {
			break // further rows are never better
		}
	}
	return best, found
}

// astray reports whether a facing at a place lies off the stripes that bind it.
func (r *region) astray(face *facing, at geom.Pt) bool {
	oy, ox := r.origins()
	off := func(t tie, v, origin, repeat float64) bool {
		from, ok := r.phases.bound(t, origin)
		return ok && math.Abs(math.Remainder(v-from, repeat)) > matchTol/2
	}
	return off(face.ties[0], at.Y, oy, r.s.cloth.RepeatAlong.MM()) || off(face.ties[1], at.X, ox, r.s.cloth.RepeatAcross.MM())
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
