package piece

import (
	"fmt"
	"math"

	"chalkfold/draft/geom"
)

// MitreLimit is how far a mitred corner may stand off the sewn corner, as a
// multiple of the wider allowance.
const MitreLimit = 3.0

// joinTol is how far apart, mm, the ends of neighbouring edges may lie.
const joinTol = 0.01

// smoothTurn is the turn, in radians, below which two edges run on smoothly.
const smoothTurn = 2 * math.Pi / 180

// Outline returns p with its Sew and Cut rings drawn from its edges. The error
// names two edges that do not meet, or an edge that is empty.
func Outline(p Piece) (Piece, error) {
	n := len(p.Edges)
	if n < 2 {
		return p, fmt.Errorf("piece %q has %d edges; an outline needs two or more", p.ID, n)
	}
	for i, e := range p.Edges {
		if len(e.Sew) == 0 {
			return p, fmt.Errorf("piece %q: edge %q is empty", p.ID, e.Name)
		}
		next := p.Edges[(i+1)%n]
		if len(next.Sew) > 0 && e.Sew.End().Dist(next.Sew.Start()) > joinTol {
			return p, fmt.Errorf("piece %q: edge %q ends %.3f mm from where %q begins",
				p.ID, e.Name, e.Sew.End().Dist(next.Sew.Start()), next.Name)
		}
	}
	p.Sew = sewRing(p.Edges)
	p.Cut = cutRing(p.Edges)
	return p, nil
}

func sewRing(edges []Edge) []geom.Pt {
	var ring []geom.Pt
	for _, e := range edges {
		ring = append(ring, e.Sew.Flatten(FlattenTol)...)
	}
	return geom.Tidy(ring, joinTol)
}

// margin is the cut line along one edge, and what is needed to turn its ends.
type margin struct {
	pts        []geom.Pt
	from, to   geom.Pt  // ends of the sew line
	dir0, dir1 geom.Vec // ways of the sew line at its ends
	a0, a1     float64
}

func newMargin(e Edge) margin {
	m := margin{
		from: e.Sew.Start(), to: e.Sew.End(), dir0: e.Sew.StartDir(), dir1: e.Sew.EndDir(),
		a0: e.AllowStart.MM(), a1: e.AllowEnd.MM(),
	}
	// Square off the line itself: off the chords, where a long one meets a short
	// one, the cut line would turn back on itself.
	stops := e.Sew.Stops(FlattenTol)
	total := 0.0
	for i := 1; i < len(stops); i++ {
		total += stops[i-1].At.Dist(stops[i].At)
	}
	run := 0.0
	last := len(stops) - 1
	var off []geom.Pt // where on the sew line each point of m stands
	for i, s := range stops {
		if i > 0 {
			run += stops[i-1].At.Dist(s.At)
		}
		allow := m.a0 + (m.a1-m.a0)*run/total
		n := s.In.Left().Plus(s.Out.Left()).Unit()
		scale := 1 / math.Max(1/MitreLimit, n.Dot(s.In.Left()))
		at := s.At.Add(n.Scale(allow * scale))
		// In a bend inwards the cut line is ahead of the sew line: it waits for
		// it, and comes back only to end.
		k := len(m.pts)
		ahead := func() bool { return k > 0 && at.Sub(m.pts[k-1]).Dot(s.At.Sub(off[k-1])) < 0 }
		for i == last && k > 1 && ahead() {
			k--
		}
		if i == last || !ahead() {
			m.pts, off = append(m.pts[:k], at), append(off[:k], s.At)
		}
	}
	return m
}

func cutRing(edges []Edge) []geom.Pt {
	n := len(edges)
	ms := make([]margin, n)
	for i, e := range edges {
		ms[i] = newMargin(e)
	}
	for i := range n {
		j := (i + 1) % n
		switch {
		case edges[i].Turned && edges[j].Turned: // one hem in two edges
			turnCorner(&ms[i], &ms[j], edges[i].Corner)
		case edges[i].Turned:
			rest := reversed(ms[j].pts)
			turned := turnUp(rest, ms[i].to, ms[i].dir1, ms[i].a1)
			ms[j].pts = reversed(rest[:turned.keep])
			ms[j].pts = append(reversed(turned.pts), ms[j].pts...)
			ms[i].upTo(turned.pts[len(turned.pts)-1])
		case edges[j].Turned:
			turned := turnUp(ms[i].pts, ms[j].from, ms[j].dir0, ms[j].a0)
			ms[i].pts = append(ms[i].pts[:turned.keep:turned.keep], turned.pts...)
			ms[j].beyond(turned.pts[len(turned.pts)-1])
		default:
			turnCorner(&ms[i], &ms[j], edges[i].Corner)
		}
	}
	var ring []geom.Pt
	for _, m := range ms {
		ring = append(ring, m.pts...)
	}
	return geom.Tidy(ring, joinTol)
}

func reversed(pts []geom.Pt) []geom.Pt {
	out := make([]geom.Pt, len(pts))
	for i, p := range pts {
		out[len(pts)-1-i] = p
	}
	return out
}

// turnCorner joins the cut lines of a and of b, which follows it.
func turnCorner(a, b *margin, corner Corner) {
	turn := math.Atan2(a.dir1.Cross(b.dir0), a.dir1.Dot(b.dir0))
	end, start := a.pts[len(a.pts)-1], b.pts[0]
	if math.Abs(turn) < smoothTurn {
		if len(b.pts) > 1 && end.Dist(start) <= 2*math.Sin(smoothTurn/2)*math.Max(a.a1, b.a0) {
			a.pts[len(a.pts)-1] = end.Lerp(start, 0.5)
			b.pts = b.pts[1:]
		}
		return
	}
	if turn < 0 {
		trimInside(a, b)
		return
	}
	if corner == Square {
		if y, ok := geom.CrossLines(a.to, a.dir1, start, b.dir0); ok && y.Sub(a.to).Dot(a.dir1) > 0 &&
			y.Dist(a.to) < MitreLimit*math.Max(a.a1, b.a0) {
			b.leadFrom(y)
			a.leadTo(y)
			a.pts[len(a.pts)-1] = y.Add(a.dir1.Left().Scale(a.a1))
			return
		}
	}
	x, ok := geom.CrossLines(end, a.dir1, start, b.dir0)
	limit := MitreLimit * math.Max(a.a1, b.a0)
	if !ok {
		return
	}
	if x.Dist(a.to) <= limit || limit == 0 {
		a.leadTo(x)
		b.leadFrom(x)
		return
	}
	// Cut the spike off square to its middle.
	mid := x.Sub(a.to).Unit()
	cut := a.to.Add(mid.Scale(limit))
	if p, ok := geom.CrossLines(end, a.dir1, cut, mid.Left()); ok {
		a.leadTo(p)
	}
	if p, ok := geom.CrossLines(start, b.dir0, cut, mid.Left()); ok {
		b.leadFrom(p)
	}
}

// upTo leaves out the end of the cut line along a turned edge, and of a curved
// one what lies further along than q, where its turned end stands.
func (m *margin) upTo(q geom.Pt) {
	n := len(m.pts) - 1
	for n > 0 && m.pts[n-1].Sub(q).Dot(m.dir1) > 0 {
		n--
	}
	m.pts = m.pts[:n]
}

// beyond is upTo for the start of the cut line.
func (m *margin) beyond(q geom.Pt) {
	i := 1
	for i < len(m.pts) && m.pts[i].Sub(q).Dot(m.dir0) < 0 {
		i++
	}
	m.pts = m.pts[min(i, len(m.pts)):]
}

// leadTo runs the cut line on, or back, to end at x on the way that it ends.
func (m *margin) leadTo(x geom.Pt) {
	n := len(m.pts)
	for n > 1 && m.pts[n-1].Sub(x).Dot(m.dir1) > -joinTol {
		n--
	}
	m.pts = append(m.pts[:n:n], x)
}

// leadFrom makes the cut line begin at x on the way that it begins.
func (m *margin) leadFrom(x geom.Pt) {
	i := 0
	for i < len(m.pts)-1 && m.pts[i].Sub(x).Dot(m.dir0) < joinTol {
		i++
	}
	m.pts = append([]geom.Pt{x}, m.pts[i:]...)
}

// trimInside cuts both lines off where they cross, at a corner that turns
// inwards.
func trimInside(a, b *margin) {
	for i := len(a.pts) - 1; i > 0; i-- {
		for j := 1; j < len(b.pts); j++ {
			if x, ok := geom.SegCross(a.pts[i-1], a.pts[i], b.pts[j-1], b.pts[j]); ok {
				a.pts = append(a.pts[:i:i], x)
				b.pts = b.pts[j:]
				return
			}
		}
	}
}

type turned struct {
	keep int       // how many points of the neighbour's cut line stay
	pts  []geom.Pt // from the turning line to the end of the allowance
}

// turnUp runs the neighbour's cut line, which ends near the turned edge, up to
// the line of that edge and on into its own mirror image, allow deep.
func turnUp(line []geom.Pt, on geom.Pt, dir geom.Vec, allow float64) turned {
	n := dir.Unit().Left() // outwards; the neighbour comes from the other side
	if len(line) > 1 && line[0].Sub(on).Dot(n) > line[len(line)-1].Sub(on).Dot(n) {
		n = n.Neg()
	}
	depth := func(p geom.Pt) float64 { return p.Sub(on).Dot(n) } // below 0 on the piece
	keep := len(line)
	for keep > 1 && depth(line[keep-1]) >= 0 {
		keep--
	}
	last := line[keep-1]
	var c geom.Pt
	if keep < len(line) {
		c = last.Lerp(line[keep], depth(last)/(depth(last)-depth(line[keep])))
	} else {
		d := last.Sub(line[max(0, keep-2)]).Unit()
		c = last.Add(d.Scale(-depth(last) / math.Max(d.Dot(n), 1e-6)))
	}
	t := turned{keep: keep, pts: []geom.Pt{c}}
	prev := c
	for i := keep - 1; i >= 0; i-- {
		p := line[i]
		mirrored := p.Add(n.Scale(-2 * depth(p)))
		if d := depth(mirrored); d >= allow {
			t.pts = append(t.pts, prev.Lerp(mirrored, (allow-depth(prev))/(d-depth(prev))))
			return t
		}
		t.pts = append(t.pts, mirrored)
		prev = mirrored
	}
	return t
}
