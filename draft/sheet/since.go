package sheet

import (
	"cmp"
	"math"
	"slices"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
)

// Reprint is what is to be printed of a pattern that was printed before and has
// been altered since. All is the whole pattern, each piece where its old one lay
// if it can lie there, so that the old sheets that show the same stay good.
type Reprint struct {
	All   Tiled
	Pages []int    // of All, those that differ from the old sheets
	Void  []string // the places, row/column, of old sheets that show nothing any more
	Plan  string   // that of the old sheets, which is written on the new ones too
	Old   int      // how many old sheets there are
}

// Saves reports whether fewer sheets are printed than the whole took.
func (r Reprint) Saves() bool { return len(r.Pages) < r.Old }

// Drawings returns the sheets that are to be printed, in order.
func (r Reprint) Drawings() []Drawing {
	var out []Drawing
	for _, i := range r.Pages {
		out = append(out, r.All.Pages[i].Sheet)
	}
	return out
}

// Places are where the sheets that are to be printed go, as row/column.
func (r Reprint) Places() []string {
	var out []string
	for _, i := range r.Pages {
		out = append(out, placeName(r.All.Pages[i]))
	}
	return out
}

// Edition is a pattern as it was printed.
type Edition struct {
	Pieces []piece.Piece
	Lies   []Lie // where they lay; none: as OnPaper places them
}

// Since compares pieces with what was printed of them before, on the same paper
// with the same options: the first time whole, and after that the sheets alone
// that had changed. Of each place, the sheet of any edition may be at hand, so
// that one is good only if it differs from none of them.
func Since(editions []Edition, pieces []piece.Piece, paper Paper, opt Options, tile TileOptions) (Reprint, error) {
	if paper.Roll() {
		return Reprint{}, say.Errorf("a roll is printed whole; take sheets of paper to print only what changed")
	}
	g, err := newGrid(paper, tile)
	if err != nil {
		return Reprint{}, err
	}
	var before []Drawing
	var at []geom.Affine // of the last edition
	for _, e := range editions {
		if at, err = g.lay(e, tile); err != nil {
			return Reprint{}, err
		}
		before = append(before, g.placed(e.Pieces, at, opt))
	}
	last := editions[len(editions)-1]
	if at, err = g.held(last.Pieces, at, pieces, tile); err != nil {
		return Reprint{}, err
	}
	now := g.placed(pieces, settled(pieces, at), opt)
	now.Plan = before[0].Plan
	for _, b := range before { // all are cut into the same rows and columns
		now.Bounds = now.Bounds.Union(b.Bounds)
	}
	out := Reprint{Plan: now.Plan}
	if out.All, err = Tiles(now, paper, tile); err != nil {
		return Reprint{}, err
	}
	for i, p := range out.All.Pages {
		if err := tile.step(); err != nil {
			return Reprint{}, err
		}
		if slices.ContainsFunc(before, func(b Drawing) bool { return !sameInk(b, now, p.Window) }) {
			out.Pages = append(out.Pages, i)
		}
	}
	out.Void = g.void(before, out.All)
	out.Old = g.sheetsOf(before[0])
	return out, nil
}

// sheetsOf counts the sheets that a placed drawing reaches.
func (g grid) sheetsOf(d Drawing) int {
	n, reach := 0, newReaches(d)
	for row := range count(d.Bounds.H(), g.step.Y) {
		for col := range count(d.Bounds.W(), g.step.X) {
			if reach.meet(g.cell(geom.Pt{}, row, col)) {
				n++
			}
		}
	}
	return n
}

// void returns the places of old sheets that the new pattern has no sheet at.
func (g grid) void(before []Drawing, now Tiled) []string {
	var out []string
	var was []reaches
	for _, b := range before {
		was = append(was, newReaches(b))
	}
	for row := range now.Rows {
		for col := range now.Cols {
			p := Page{Row: row + 1, Col: col + 1}
			still := slices.ContainsFunc(now.Pages, func(q Page) bool { return q.Row == p.Row && q.Col == p.Col })
			if !still && slices.ContainsFunc(was, func(r reaches) bool { return r.meet(g.cell(geom.Pt{}, row, col)) }) {
				out = append(out, placeName(p))
			}
		}
	}
	return out
}

// held returns where each piece goes: where the old one of its ID lay, or as
// near to there as it can lie, or else on sheets of its own below.
func (g grid) held(old []piece.Piece, oldAt []geom.Affine, pieces []piece.Piece, opt TileOptions) ([]geom.Affine, error) {
	at := make([]geom.Affine, len(pieces))
	var laid [][]geom.Pt
	var foot float64
	for i, p := range old {
		foot = math.Max(foot, geom.BoundsOf(geom.MapPts(p.Cut, oldAt[i])).Max.Y)
	}
	end := float64(count(foot, g.step.Y)) * g.step.Y
	// What stayed as it was keeps its place before anything that has changed.
	var changed, rest []int
	for i, p := range pieces {
		k := slices.IndexFunc(old, func(o piece.Piece) bool { return o.ID == p.ID })
		switch {
		case k < 0:
			rest = append(rest, i)
			continue
		case slices.Equal(old[k].Cut, p.Cut):
			laid = append(laid, geom.MapPts(p.Cut, oldAt[k]))
		default:
			changed = append(changed, i)
		}
		at[i] = oldAt[k]
	}
	for _, i := range changed {
		ring := geom.MapPts(pieces[i].Cut, at[i])
		by, ok := nearby(ring, laid, end)
		if !ok {
			rest = append(rest, i)
			continue
		}
		at[i] = at[i].Then(geom.Translate(by))
		laid = append(laid, geom.MapPts(ring, geom.Translate(by)))
	}
	slices.Sort(rest)
	var alone []piece.Piece
	for _, i := range rest {
		alone = append(alone, pieces[i])
	}
	more, err := g.arrange(alone, opt)
	if err != nil {
		return nil, err
	}
	for k, i := range rest {
		at[i] = more[k].Then(geom.Translate(geom.Vec{Y: end}))
	}
	return at, nil
}

// A changed piece is looked a place for no further from its old one, in steps, mm.
const (
	nearbyMost = 30.0
	nearbyStep = 3.0
)

// nearby returns the shortest way that a ring is to be moved, if at all, to lie
// clear of the others, within the rows of sheets that end at a height.
func nearby(ring []geom.Pt, laid [][]geom.Pt, end float64) (geom.Vec, bool) {
	ways := []geom.Vec{{}}
	for x := -nearbyMost; x <= nearbyMost; x += nearbyStep {
		for y := -nearbyMost; y <= nearbyMost; y += nearbyStep {
			ways = append(ways, geom.Vec{X: x, Y: y})
		}
	}
	slices.SortStableFunc(ways, func(v, w geom.Vec) int { return cmp.Compare(v.Len(), w.Len()) })
	i := slices.IndexFunc(ways, func(by geom.Vec) bool {
		moved := geom.MapPts(ring, geom.Translate(by))
		b := geom.BoundsOf(moved)
		return b.Min.X >= 0 && b.Min.Y >= 0 && b.Max.Y <= end &&
			!slices.ContainsFunc(laid, func(r []geom.Pt) bool { return overlap(r, moved) })
	})
	if i < 0 {
		return geom.Vec{}, false
	}
	return ways[i], true
}

// overlap reports whether two rings share any area; a nil ring shares none.
func overlap(a, b []geom.Pt) bool {
	if len(a) == 0 || len(b) == 0 || !geom.BoundsOf(a).Overlaps(geom.BoundsOf(b)) {
		return false
	}
	box := geom.BoundsOf(b)
	if geom.Contains(a, b[0]) || geom.Contains(b, a[0]) {
		return true
	}
	for i, p := range a {
		q := a[(i+1)%len(a)]
		if segIn([2]geom.Pt{p, q}, box) == 0 {
			continue
		}
		for k, r := range b {
			s := b[(k+1)%len(b)]
			if _, ok := geom.SegCross(p, q, r, s); ok {
				return true
			}
		}
	}
	return false
}

// Two lines within inkTol of each other are the same in print, mm; they are
// compared at places so far apart.
const (
	inkTol  = 0.1
	inkStep = 1.0
)

// sameInk reports whether two drawings show the same in the window.
func sameInk(a, b Drawing, window geom.Rect) bool {
	one, two := inkIn(a, window), inkIn(b, window)
	return one.within(two) && two.within(one)
}

// ink is what a drawing shows in a window.
type ink struct {
	lines map[Role][][2]geom.Pt
	texts []Text
}

func inkIn(d Drawing, window geom.Rect) ink {
	out := ink{lines: map[Role][][2]geom.Pt{}}
	mid := window.Min.Lerp(window.Max, 0.5)
	for _, it := range within(d.Items, window) {
		switch v := it.(type) {
		case Text:
			out.texts = append(out.texts, v)
		case Shape:
			pts := v.Path.Flatten(inkTol / 4)
			for i := 1; i < len(pts); i++ {
				p, q := pts[i-1].Sub(mid), pts[i].Sub(mid)
				if t0, t1, ok := clipToBox(p.X, p.Y, q.X, q.Y, window.W()/2, window.H()/2); ok {
					out.lines[v.Role] = append(out.lines[v.Role], [2]geom.Pt{pts[i-1].Lerp(pts[i], t0), pts[i-1].Lerp(pts[i], t1)})
				}
			}
		}
	}
	return out
}

// within reports whether all of k is in o too.
func (k ink) within(o ink) bool {
	for _, t := range k.texts {
		if !slices.ContainsFunc(o.texts, func(u Text) bool {
			return t.S == u.S && t.Size == u.Size && t.At.Dist(u.At) < inkTol && t.Reads().Dot(u.Reads()) > 0.9999
		}) {
			return false
		}
	}
	for role, segs := range k.lines {
		if slices.Equal(segs, o.lines[role]) {
			continue
		}
		if slices.ContainsFunc(segs, func(s [2]geom.Pt) bool { return !covered(s, o.lines[role]) }) {
			return false
		}
	}
	return true
}

// covered reports whether every place of s lies on one of the others.
func covered(s [2]geom.Pt, others [][2]geom.Pt) bool {
	n := int(s[0].Dist(s[1])/inkStep) + 1
	for i := range n + 1 {
		at := s[0].Lerp(s[1], float64(i)/float64(n))
		if !slices.ContainsFunc(others, func(o [2]geom.Pt) bool { return geom.SegDist(o[0], o[1], at) < inkTol }) {
			return false
		}
	}
	return true
}
