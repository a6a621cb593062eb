package lay

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/say"
)

// lock takes up the locked items and refuses locks that contradict the cloth
// or each other.
func (s *Search) lock() error {
	c := s.cloth
	c.Length = 0
	var r Result
	for i, it := range s.items {
		if it.Locked == nil {
			continue
		}
		if it.Locked.Opened {
			return say.Errorf("%s: locked on the opened rest, whose start moves with the lay; lock it on the folded part, or lay the cloth open", say.Name(it.Name))
		}
		m := it.Locked.At
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
		s.locked = append(s.locked, spotOf{i, laid{len(s.facings) - 1, geom.Vec{X: m.E, Y: m.F}}})
		r.Placements = append(r.Placements, Placement{i, *it.Locked})
		end := mm(f.box.Max.Y + m.F)
		r.Length = max(r.Length, end)
		s.tall += f.box.H() + end.MM()
	}
	if len(s.locked) == 0 {
		return nil
	}
	// The locked items alone must be a sound lay.
	r.FoldedTo = r.Length
	if c.Fold == Crosswise {
		r.Length *= 2
	}
	for i, it := range s.items {
		if it.Locked == nil {
			r.Out = append(r.Out, i)
		}
	}
	if err := Verify(c, s.items, r); err != nil {
		return say.Errorf("locked pieces do not go together: %v; move or unlock one", err)
	}
	return nil
}

// near reports whether two maps turn alike.
func near(m, n geom.Affine) bool {
	const tol = 1e-9
	d := func(a, b float64) bool { return a-b < tol && b-a < tol }
	return d(m.A, n.A) && d(m.B, n.B) && d(m.C, n.C) && d(m.D, n.D)
}
