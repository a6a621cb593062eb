package lay

import (
	"slices"

	"chalkfold/draft/geom"
	"chalkfold/draft/say"
)

// Resume prepares a search that goes on from a lay of the same items on the
// same cloth, however it was found: by another search, in another program, or
// by hand. Best is that lay from the beginning, and only what is better takes
// its place. A lay goes from one program to another by Encode and Decode, so it
// is all that need be kept of a search; another seed looks elsewhere around it.
// Errors are as for Pack, and that the lay is not sound.
func Resume(c Cloth, items []Item, seed uint64, from Result) (*Search, error) {
	s, err := NewSearch(c, items, seed)
	if err != nil {
		return nil, err
	}
	if err := Verify(c, items, from); err != nil {
		return nil, say.Errorf("the lay to go on from does not hold: %v; lay the pieces anew", err)
	}
	from.Work = 0
	s.best, s.done, s.triedTo = from, true, 0
	s.laidAs, err = s.trialAs(from)
	return s, err
}

// trialAs is a trial that is over and has come to a lay.
func (s *Search) trialAs(r Result) (*trial, error) {
	var items []int
	var at []place
	for _, p := range r.Placements {
		if s.items[p.Item].Locked != nil {
			continue
		}
		to, ok := s.placeOf(p)
		if !ok {
			return nil, say.Errorf("%s: it does not lie in the lay to go on from as it may lie; lay the pieces anew", say.Name(s.items[p.Item].Name))
		}
		if to.part == 1 {
			to.y -= r.FoldedTo.MM()
		}
		items, at = append(items, p.Item), append(at, to)
	}
	t := s.trialOf(items, at, r.FoldedTo.MM())
	t.out = r.Out
	return t, nil
}

// placeOf returns the place of an item: in the same turn, or in another in which
// it is the same.
func (s *Search) placeOf(p Placement) (place, bool) {
	to := place{x: p.At.E, y: p.At.F}
	if p.Opened {
		to.part = 1
	}
	ways := s.shapes[p.Item].facings
	if k := slices.IndexFunc(ways, func(k int) bool { return near(s.facings[k].at, p.At) }); k >= 0 {
		to.facing = ways[k]
		return to, true
	}
	it := s.items[p.Item]
	parts, err := s.partsOf(it.Ring, it.Name)
	if err != nil {
		return to, false
	}
	f := newFacing(it, geom.Affine{A: p.At.A, B: p.At.B, C: p.At.C, D: p.At.D}, parts)
	k := slices.IndexFunc(ways, func(k int) bool { return sameParts(s.facings[k], f) })
	if k < 0 {
		return to, false
	}
	v := f.box.Min.Sub(s.facings[ways[k]].box.Min)
	to.facing, to.x, to.y = ways[k], to.x+v.X, to.y+v.Y
	return to, true
}
