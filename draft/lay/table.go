package lay

import (
	"math"
	"slices"

	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// Table is a lay under the maker's hand: she takes one piece up, and the others
// stay where they are.
type Table struct {
	s     *Search
	items []Item
	laid  Result
}

// NewTable lays out what was found for the items. Errors as for Pack.
func NewTable(c Cloth, items []Item, r Result) (*Table, error) {
	free := slices.Clone(items)
	for i := range free {
		free[i].Locked = nil
	}
	s := &Search{cloth: c, items: free} // nothing is looked for: neither plans nor chance
	if err := s.prepare(); err != nil {
		return nil, err
	}
	return &Table{s: s, items: items, laid: r}, nil
}

// Lifted is an item in the hand.
type Lifted struct {
	Item int
	Was  Spot // where it lay

	t     *Table
	main  region // without it
	rest  region
	place int // in the lay
}

// Lift takes item i up; false when it is not laid.
func (t *Table) Lift(i int) (*Lifted, bool) {
	place := slices.IndexFunc(t.laid.Placements, func(p Placement) bool { return p.Item == i })
	if place < 0 {
		return nil, false
	}
	l := &Lifted{Item: i, Was: t.laid.Placements[place].Spot, t: t, place: place}
	l.main, l.rest = t.regions(t.laid, i)
	// Past all that lies there is always room.
	b := geom.BoundsOf(t.items[i].Ring)
	own := b.W() + b.H() + t.s.cloth.Gap.MM()
	if len(t.s.cloth.Outline) == 0 {
		l.main.length = max(l.main.length, l.main.end+own)
	}
	l.rest.length = max(l.rest.length, l.rest.end+own)
	return l, true
}

// regions are the parts of the table with all that a lay has on them but one
// item; none is left away below nought.
func (t *Table) regions(r Result, but int) (main, rest region) {
	s, folded := t.s, r.FoldedTo.MM()
	part := func(opened bool) region {
		lo, hi := s.cloth.across(opened)
		return region{s: s, lo: lo, hi: hi, length: s.tall, free: map[int]*freedom{}, opened: opened}
	}
	main, rest = part(false), part(true)
	main.phases = s.newPhases()
	rest.phases, rest.top = main.phases, folded
	if len(s.cloth.Outline) > 0 {
		main.length = geom.BoundsOf(s.cloth.Outline).Max.Y
	}
	for _, f := range s.flaws[0] {
		main.put(f, geom.Vec{})
	}
	for _, f := range s.flaws[1] {
		rest.put(f, geom.Vec{Y: -folded})
	}
	for _, p := range r.Placements {
		f, ok := t.facing(p.Item, p.Spot)
		switch {
		case p.Item == but || !ok:
		case p.Opened:
			rest.put(f, geom.Vec{X: p.At.E, Y: p.At.F - folded})
			rest.take(f, geom.Vec{X: p.At.E, Y: p.At.F - folded})
		default:
			main.put(f, geom.Vec{X: p.At.E, Y: p.At.F})
			main.take(f, geom.Vec{X: p.At.E, Y: p.At.F})
		}
	}
	return main, rest
}

// facing is the way round in which an item lies.
func (t *Table) facing(i int, to Spot) (int, bool) {
	for _, k := range t.s.shapes[i].facings {
		if near(t.s.facings[k].at, to.At) {
			return k, true
		}
	}
	return 0, false
}

// region is the part of the table that a spot is on, and how far down the table
// it begins; nil when the item cannot lie there.
func (l *Lifted) region(to Spot) (*region, float64) {
	s := l.t.s
	if !to.Opened {
		return &l.main, 0
	}
	if s.cloth.Fold == Open || s.items[l.Item].Layers() == 2 {
		return nil, 0
	}
	return &l.rest, l.t.laid.FoldedTo.MM()
}

// handTol is how deep, in mm, a piece may be laid into another by hand: what the
// search may leave, under what Verify lets pass.
const handTol = 0.004

// Free reports whether the item can lie there: on the cloth, clear of flaws and
// of every other piece, its stripes where they must be.
func (l *Lifted) Free(to Spot) bool {
	r, top := l.region(to)
	f, ok := l.t.facing(l.Item, to)
	if r == nil || !ok {
		return false
	}
	face := &l.t.s.facings[f]
	at := geom.Pt{X: to.At.E, Y: to.At.F - top}
	if at.X+face.box.Min.X < r.lo-handTol || at.Y+face.box.Min.Y < -handTol ||
		at.X+face.box.Max.X > r.hi+handTol || at.Y+face.box.Max.Y > r.length+handTol ||
		face.onFold && math.Abs(at.X+face.box.Min.X-r.lo) > handTol || r.astray(face, at) {
		return false
	}
	for _, o := range r.laid {
		if l.t.s.nofit(o.facing, f).holds(at.Add(o.at.Neg()), handTol) {
			return false
		}
	}
	return true
}

// holds reports whether a place is inside by more than tol.
func (f *nofit) holds(at geom.Pt, tol float64) bool {
	if at.X <= f.box.Min.X || at.X >= f.box.Max.X || at.Y <= f.box.Min.Y || at.Y >= f.box.Max.Y {
		return false
	}
	return slices.ContainsFunc(f.hulls, func(h hull) bool {
		return !slices.ContainsFunc(h.edges, func(e half) bool { return e.nx*at.X+e.ny*at.Y-e.d > -tol })
	})
}

// Nearest is the free place nearest to one that is wanted, the same way round;
// false when there is none. What is free already stays.
func (l *Lifted) Nearest(to Spot) (Spot, bool) {
	if l.Free(to) {
		return to, true
	}
	r, top := l.region(to)
	f, ok := l.t.facing(l.Item, to)
	if r == nil || !ok {
		return to, false
	}
	want := geom.Pt{X: to.At.E, Y: to.At.F - top}
	best, far := geom.Pt{}, math.Inf(1)
	lanes, bound := r.lanes(f, math.Inf(1))
	if !bound {
		lanes = slices.Values(r.look(f).rim)
	}
	for sg := range lanes {
		p := sg.nearest(want)
		if d := p.Dist(want); d < far {
			best, far = p, d
		}
	}
	to.At.E, to.At.F = best.X, best.Y+top
	return to, !math.IsInf(far, 1)
}

// nearest is the point of a stretch that is nearest to p.
func (s seg) nearest(p geom.Pt) geom.Pt {
	along := s.b.Sub(s.a)
	if n := along.Dot(along); n > 0 {
		return s.a.Lerp(s.b, math.Max(0, math.Min(1, p.Sub(s.a).Dot(along)/n)))
	}
	return s.a
}

// Turned is a spot after so many of the turns that the item may take, about its
// middle; and, where it may lie on either face, over as well.
func (l *Lifted) Turned(from Spot, turns int, over bool) Spot {
	it, s := l.t.s.items[l.Item], l.t.s
	faces := s.shapes[l.Item].facings
	now, ok := l.t.facing(l.Item, from)
	if !ok {
		return from
	}
	mirrored := from.At.Mirrors() != (over && it.EitherFace)
	at := slices.IndexFunc(it.Turns, func(d Degrees) bool { return near(linear(d, from.At.Mirrors()), s.facings[now].at) })
	turn := it.Turns[((max(at, 0)+turns)%len(it.Turns)+len(it.Turns))%len(it.Turns)]
	for _, k := range faces {
		if !near(s.facings[k].at, linear(turn, mirrored)) {
			continue
		}
		v := middleOf(s.facings[now].box).Sub(middleOf(s.facings[k].box))
		m := s.facings[k].at
		m.E, m.F = from.At.E+v.X, from.At.F+v.Y
		if it.OnFold {
			m.E = -s.facings[k].box.Min.X
		}
		return Spot{At: m, Opened: from.Opened}
	}
	return from
}

// Folded is how far the cloth is folded on the table that the item was taken
// from.
func (l *Lifted) Folded() unit.Length { return l.t.laid.FoldedTo }

// OtherPart is a free spot for the item on the other part of folded cloth, the
// same way round: where it is opened out, past all that is folded, or back under
// the fold. It is false when the item cannot lie there.
func (l *Lifted) OtherPart(from Spot) (Spot, bool) {
	f, ok := l.t.facing(l.Item, from)
	if !ok || l.t.s.cloth.Fold == Open || l.t.s.items[l.Item].Layers() == 2 {
		return from, false
	}
	to := from
	to.Opened = !from.Opened
	if to.Opened {
		to.At.F = l.Folded().MM() - l.t.s.facings[f].box.Min.Y
	}
	return l.Nearest(to)
}

func middleOf(r geom.Rect) geom.Pt { return r.Min.Lerp(r.Max, 0.5) }

// Down is the lay with the item laid there. It holds when the place is free.
func (l *Lifted) Down(to Spot) Result {
	t := l.t
	r := Result{Placements: slices.Clone(t.laid.Placements), Out: t.laid.Out, FoldedTo: t.laid.FoldedTo, Work: t.laid.Work}
	r.Placements[l.place].Spot = to
	main, _ := t.regions(r, -1)
	if t.s.cloth.Fold != Open {
		// The opened rest begins where the folded part ends now.
		for i := range r.Placements {
			if p := &r.Placements[i]; p.Opened {
				p.At.F += main.end - r.FoldedTo.MM()
			}
		}
		r.FoldedTo = mm(main.end)
	}
	done := trial{s: t.s, placed: r.Placements, out: r.Out}
	var rest region
	done.main, rest = t.regions(r, -1)
	if len(rest.laid) > len(t.s.flaws[1]) {
		done.rest = &rest
	}
	work := r.Work
	r = done.result()
	r.Work, r.Left = work, offcuts(t.s, &done)
	return r
}
