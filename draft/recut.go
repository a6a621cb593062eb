package draft

import (
	"math"
	"slices"

	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// leastLeft is the least cloth that a seam is sewn with again (common practice).
const leastLeft = unit.Inch / 4

// Recut is what becomes of a garment that is cut already when it is sewn by
// another draft.
type Recut struct {
	Panels []RecutPanel // those of which a seam moves
	Anew   []RecutPiece // smaller pieces that come out otherwise
}

// RecutPanel is one whole panel of the garment on the cloth that was cut for it.
type RecutPanel struct {
	Piece piece.Piece // as it was cut
	// Lower and Aside are how far down, and towards the side, it is set on its
	// cloth so that there is enough all round; nought where it stays. Aside is below
	// nought where it goes towards the centre.
	Lower, Aside unit.Length
	Edges        []RecutEdge
}

// RecutEdge is a seam that is sewn elsewhere than before.
type RecutEdge struct {
	Name  string
	Place piece.Place
	// Upper and Under are how far out its line lies at its upper and its lower
	// end, or at the centre's and the side's of one that runs across; Most is where
	// it lies furthest. Below nought it is taken in.
	Upper, Under, Most unit.Length
	Has                unit.Length // cloth beyond the seam as it is sewn ...
	Left               unit.Length // ... and beyond the new line, where it is scarcest
}

// Can reports whether there is cloth to sew it with.
func (e RecutEdge) Can() bool { return e.Left > leastLeft-leftSlack }

// RecutPiece is a smaller piece that comes out longer or shorter.
type RecutPiece struct {
	Piece piece.Piece // as it comes out
	By    unit.Length // of its longest edge; 0 where only its shape differs
}

// Can reports whether there is cloth for all seams of the panels.
func (r Recut) Can() bool {
	return !slices.ContainsFunc(r.Panels, func(p RecutPanel) bool { return !p.can() })
}

func (p RecutPanel) can() bool {
	return !slices.ContainsFunc(p.Edges, func(e RecutEdge) bool { return !e.Can() })
}

// How far a panel may be set down on its cloth or aside, and in which steps.
const (
	mostLower = 1.5 * unit.Inch
	lowerStep = unit.Inch / 8
	mostAside = 0.5 * unit.Inch
)

// RecutOf tells what must become of a garment that was cut by the one draft to be
// sewn by the other.
func RecutOf(cut, is *Result) Recut {
	var out Recut
	for _, p := range garment.Fellows(cut.Pieces, is.Pieces) {
		was, now := p[0], p[1]
		if was.On != was.ID {
			if by, same := longer(was, now); !same {
				out.Anew = append(out.Anew, RecutPiece{now, by})
			}
			continue
		}
		if p, moves := recut(was, now); moves {
			out.Panels = append(out.Panels, p)
		}
	}
	return out
}

// recut lays a panel on the cloth of the one before: as it lay, or so far down,
// or aside, that there is enough all round.
func recut(was, now piece.Piece) (RecutPanel, bool) {
	whole := RecutPanel{Piece: was, Edges: recutEdges(was, now, geom.Identity())}
	if len(whole.Edges) == 0 || whole.can() {
		return whole, len(whole.Edges) > 0
	}
	pairs := pairsOf(was, now)
	set := func(p RecutPanel) (RecutPanel, bool) {
		at := geom.Translate(geom.Vec{X: p.Aside.MM(), Y: p.Lower.MM()})
		for i, e := range pairs {
			if !e.fits(was, at) {
				pairs[0], pairs[i] = pairs[i], pairs[0] // the next place will not fit here either
				return p, false
			}
		}
		p.Edges = recutEdges(was, now, at)
		return p, p.can()
	}
	for by := lowerStep; by <= mostLower; by += lowerStep {
		if p, ok := set(RecutPanel{Piece: was, Lower: by}); ok {
			return p, true
		}
	}
	if slices.ContainsFunc(was.Edges, func(e piece.Edge) bool { return e.Fold }) {
		return whole, true // it cannot leave its fold
	}
	for by := lowerStep; by <= mostAside; by += lowerStep {
		for _, lower := range []unit.Length{0, unit.Inch / 4, unit.Inch / 2} {
			for _, aside := range []unit.Length{by, -by} {
				if p, ok := set(RecutPanel{Piece: was, Lower: lower, Aside: aside}); ok {
					return p, true
				}
			}
		}
	}
	return whole, true
}

// pair is an edge as it was and as it is now.
type pair struct{ was, now piece.Edge }

// pairsOf are the edges that are sewn, of both outlines.
func pairsOf(was, now piece.Piece) []pair {
	var out []pair
	for _, e := range now.Edges {
		i := slices.IndexFunc(was.Edges, func(o piece.Edge) bool { return o.Name == e.Name })
		if i >= 0 && !e.Fold && e.Place != piece.Elsewhere { // a pocket stays where it was sewn
			out = append(out, pair{was.Edges[i], e})
		}
	}
	return out
}

// fits reports whether there is cloth to sew an edge with, moved so.
func (p pair) fits(was piece.Piece, at geom.Affine) bool {
	return p.each(at, func(_, is geom.Pt, out geom.Vec, _ float64) bool {
		return beyond(was.Cut, is, out) > (leastLeft - leftSlack).MM()
	})
}

// leftSlack is how little less than the least is still enough.
const leftSlack = unit.Length(0.5)

// each goes along the edge as it is now, moved by at: from where the old edge lies
// beside it, with the way out there and how far out the new one lies, until do
// says no more.
func (p pair) each(at geom.Affine, do func(was, is geom.Pt, out geom.Vec, off float64) bool) bool {
	sew := p.now.Sew.Map(at)
	for i := range samples + 1 {
		is, _ := sew.At(sew.Len() * float64(i) / samples)
		s, dist := p.was.Sew.Nearest(is)
		was, dir := p.was.Sew.At(s)
		out := dir.Left()
		off := is.Sub(was).Dot(out)
		if s < 1e-6 || s > p.was.Sew.Len()-1e-6 { // past the end of the old edge
			if along := math.Sqrt(math.Max(0, dist*dist-off*off)); along > math.Abs(off) && along > leastMove {
				continue
			}
		}
		if !do(was, is, out, off) {
			return false
		}
	}
	return true
}

// leastMove is the least that a seam is sewn anew for: less than a tape shows.
const leastMove = 1.0 // mm

// samples is at how many places an edge is compared.
const samples = 48

// recutEdges are the edges that move by more than a hair, for the new outline
// moved by at.
func recutEdges(was, now piece.Piece, at geom.Affine) []RecutEdge {
	var out []RecutEdge
	for _, p := range pairsOf(was, now) {
		if r, moves := p.recut(was, at); moves {
			out = append(out, r)
		}
	}
	return out
}

func (p pair) recut(was piece.Piece, at geom.Affine) (RecutEdge, bool) {
	r := RecutEdge{Name: p.was.Name, Place: p.was.Place, Left: unit.Length(math.Inf(1))}
	first, last, far := math.NaN(), 0.0, 0.0
	p.each(at, func(on, is geom.Pt, out geom.Vec, off float64) bool {
		if math.IsNaN(first) {
			first = off
		}
		last = off
		if math.Abs(off) > math.Abs(far) {
			far = off
		}
		if left := beyond(was.Cut, is, out); left < r.Left.MM() {
			r.Left, r.Has = unit.Length(left), unit.Length(beyond(was.Cut, on, out))
		}
		return true
	})
	if math.Abs(far) < leastMove {
		return RecutEdge{}, false
	}
	r.Most, r.Upper, r.Under = unit.Length(far), unit.Length(first), unit.Length(last)
	a, b := p.now.Sew.Start(), p.now.Sew.End()
	turned := a.Y > b.Y
	if math.Abs(b.X-a.X) > math.Abs(b.Y-a.Y) {
		turned = math.Abs(a.X) > math.Abs(b.X)
	}
	if turned {
		r.Upper, r.Under = r.Under, r.Upper
	}
	return r, true
}

// beyond is how much cloth lies beyond a point, along a way out of the ring; what
// is lacking is below nought.
func beyond(ring []geom.Pt, at geom.Pt, out geom.Vec) float64 {
	if !geom.Contains(ring, at) {
		return -geom.RingDist(ring, at)
	}
	const far = 1e4
	end, least := at.Add(out.Scale(far)), math.Inf(1)
	for i, a := range ring {
		if x, ok := geom.SegCross(at, end, a, ring[(i+1)%len(ring)]); ok {
			least = math.Min(least, x.Dist(at))
		}
	}
	return least
}

// longer tells by how much the longest edge of a piece grows, and whether it is cut
// as before.
func longer(was, now piece.Piece) (by unit.Length, same bool) {
	same = len(was.Edges) == len(now.Edges)
	longest := 0.0
	for i := range min(len(was.Edges), len(now.Edges)) {
		a, b := was.Edges[i].Sew.Len(), now.Edges[i].Sew.Len()
		same = same && math.Abs(a-b) < 2*leastMove
		if b > longest {
			longest, by = b, unit.Length(b-a)
		}
	}
	return by, same
}
