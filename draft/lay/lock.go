package lay

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// CanLock reports whether an item can be locked on that part of the table at
// all. Where the opened rest begins moves with the lay, and stripes along it
// would move with it: what must meet them is not locked there, nor is what
// cannot lie there.
func (c Cloth) CanLock(it Item, opened bool) bool {
	along, _ := c.matches(it.Match)
	return !opened || c.Fold != Open && it.Layers() == 1 && !along
}

// OnTable is where a spot that is measured from the beginning of the opened
// rest, as locks are, lies on the table when the cloth is folded so far.
func (s Spot) OnTable(folded unit.Length) Spot {
	if s.Opened {
		s.At.F += folded.MM()
	}
	return s
}

// FromRest undoes OnTable.
func (s Spot) FromRest(folded unit.Length) Spot { return s.OnTable(-folded) }

// lock takes up the locked items.
func (s *Search) lock() error {
	for i, it := range s.items {
		if it.Locked == nil {
			continue
		}
		part, m := 0, it.Locked.At
		if it.Locked.Opened {
			part = 1
			if !s.cloth.CanLock(it, true) {
				return say.Errorf("%s: it cannot be locked on the opened rest, or there is none; lock it elsewhere or unlock it", say.Name(it.Name))
			}
		}
		f := newFacing(it, geom.Affine{A: m.A, B: m.B, C: m.C, D: m.D}, nil)
		for _, k := range s.shapes[i].facings {
			g := s.facings[k]
			if g.at.Mirrors() == m.Mirrors() && near(g.at, f.at) {
				f.parts = g.parts
			}
		}
		if f.parts == nil {
			parts, err := s.partsOf(it.Ring, it.Name)
			if err != nil {
				return err
			}
			f = newFacing(it, f.at, parts)
		}
		f.ties = s.ties(it, f.at)
		s.facings = append(s.facings, f)
		s.locked[part] = append(s.locked[part], spotOf{i, laid{len(s.facings) - 1, geom.Vec{X: m.E, Y: m.F}}})
		end := f.box.Max.Y + m.F
		s.lockedTo[part] = max(s.lockedTo[part], end)
		s.tall += f.box.H() + end
	}
	return nil
}

// checkLocks refuses locks that contradict the cloth or each other: what is
// locked must be a sound lay by itself.
func (s *Search) checkLocks() error {
	if len(s.locked[0])+len(s.locked[1]) == 0 {
		return nil
	}
	c := s.cloth
	c.Length = 0
	r := Result{FoldedTo: mm(s.restFrom(s.lockedTo[0]))}
	for i, it := range s.items {
		if it.Locked == nil {
			r.Out = append(r.Out, i)
		} else {
			r.Placements = append(r.Placements, Placement{i, it.Locked.OnTable(r.FoldedTo)})
		}
	}
	r.Length = mm(c.lengths()*r.FoldedTo.MM() + s.lockedTo[1])
	if err := Verify(c, s.items, r); err != nil {
		return say.Errorf("locked pieces do not go together: %v; move or unlock one", err)
	}
	return nil
}

// restFrom is where the opened rest may begin, at end or as little past it as
// clears the pieces locked there of flaws.
func (s *Search) restFrom(end float64) float64 {
	for moved := true; moved; {
		moved = false
		for _, l := range s.locked[1] {
			for _, f := range s.flaws[1] {
				if clear := s.nofit(f, l.laid.facing).pastBelow(l.laid.at.Plus(geom.Vec{Y: end})); clear > touchTol {
					end, moved = end+clear, true
				}
			}
		}
	}
	return end
}

// pastBelow is how far a place must be moved on along the cloth to be out of
// that part of what it must not be in that it is in; nought when it is free.
func (f *nofit) pastBelow(at geom.Vec) float64 {
	from := geom.Pt(at)
	far := f.box.Max.Y - from.Y
	if far <= 0 {
		return 0
	}
	path := seg{from, from.Add(geom.Vec{Y: far})}
	for k := range f.hulls {
		if t0, t1 := f.hulls[k].span(path, geom.Vec{}); t0 < t1 && t0*far <= touchTol {
			return t1 * far
		}
	}
	return 0
}

// near reports whether two maps turn alike.
func near(m, n geom.Affine) bool {
	const tol = 1e-9
	d := func(a, b float64) bool { return a-b < tol && b-a < tol }
	return d(m.A, n.A) && d(m.B, n.B) && d(m.C, n.C) && d(m.D, n.D)
}
