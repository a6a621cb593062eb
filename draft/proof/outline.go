package proof

import (
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// girthTol is how far a finished girth may be off what was asked for.
const girthTol = 3.0

// underTol is the rounding allowed before a girth counts as less than the body.
const underTol = 0.3

func (p *prover) girth(g piece.Girth) {
	sum := 0.0
	for _, s := range g.Spans {
		w, ok := p.span(s)
		if !ok {
			p.add(say.Of("%s girth", say.Name(g.Name)), Finding{Level: Stops, Say: p.F("cannot be measured on the %s", say.Name(s.Panel)), Mend: g.Mend, Panel: s.Panel})
			return
		}
		sum += float64(s.Times) * (w - s.Less.MM())
	}
	p.rep.Girths = append(p.rep.Girths, Girth{Name: g.Name, Like: g.Like, Body: g.Body, Draft: unit.Length(sum), Ease: unit.Length(sum) - g.Body, Estimated: g.Estimated})
	want := (g.Body + g.Ease).MM()
	about := say.Of("%s girth", say.Name(g.Name))
	f := Finding{
		Figure: mm(sum), Want: mm(want), Tolerance: mm(girthTol), Mend: g.Mend,
		Say: p.T("finished girth against body and ease"),
	}
	if g.Garment {
		f.Say = p.T("finished girth against the garment that fits")
	}
	if g.Estimated {
		f.Say = p.F("%s, the body estimated", f.Say)
	}
	if g.Told {
		return
	}
	if len(g.Spans) > 0 && g.Spans[0].Edge == "" {
		f.Panel, f.At = g.Spans[0].Panel, &g.Spans[0].Through
	}
	switch {
	case sum < g.Body.MM()-underTol:
		f.Level, f.Say = Stops, p.T("finished girth is less than the body")
		if g.Garment {
			f.Say = p.T("finished girth is less than the garment that fits")
		}
		if g.Estimated {
			f.Level, f.Say = Mind, p.F("%s, which is estimated: measure it", f.Say)
		}
	case !g.Roomy && math.Abs(sum-want) > girthTol:
		f.Level = Mind
	case g.Roomy && sum < want-girthTol:
		f.Level = Mind
	}
	p.add(about, f)
}

// span measures across a panel along a line, on the stretch that holds the
// mark, or along an edge.
func (p *prover) span(s piece.Span) (float64, bool) {
	if s.Edge != "" {
		e, ok := p.edges[piece.Ref{Panel: s.Panel, Edge: s.Edge}]
		return e.Sew.Len(), ok
	}
	before, after, ok := p.sides(s)
	share := 1.0
	if ok && p.runsOut(s, before, after) {
		share = math.Abs(s.Dir.Unit().Dot(s.Over.Dir.Unit()))
		s.Through, s.Dir = s.Over.Through, s.Over.Dir
		before, after, ok = p.sides(s)
	}
	return share * (after - before), ok
}

// runsOut reports whether the tape of s leaves the panel over the edge that it
// may, from before to after the mark: it ends there, passes over it, or the mark
// itself lies beyond.
func (p *prover) runsOut(s piece.Span, before, after float64) bool {
	dir := s.Dir.Unit()
	over := p.edges[piece.Ref{Panel: s.Panel, Edge: s.Over.Edge}]
	for _, at := range over.Sew.CrossLine(s.Through, dir) {
		pt, _ := over.Sew.At(at)
		if t := pt.Sub(s.Through).Dot(dir); t >= before && t <= after {
			return true
		}
	}
	return false
}

// sides is how far the outline, or the span's base line, lies from the mark on
// either side: before at most 0, after more than 0.
func (p *prover) sides(s piece.Span) (before, after float64, ok bool) {
	panel, ok := p.panels[s.Panel]
	if !ok {
		return 0, 0, false
	}
	dir := s.Dir.Unit()
	before, after = math.Inf(-1), math.Inf(1)
	for _, e := range panel.Edges {
		for _, at := range e.Sew.CrossLine(s.Through, dir) {
			pt, _ := e.Sew.At(at)
			t := pt.Sub(s.Through).Dot(dir)
			if t <= 0 {
				before = math.Max(before, t)
			} else {
				after = math.Min(after, t)
			}
		}
	}
	if s.Base.A != s.Base.D {
		foot, ok := geom.CrossLines(s.Base.A, s.Base.D.Sub(s.Base.A), s.Through, dir)
		if !ok {
			return 0, 0, false
		}
		if t := foot.Sub(s.Through).Dot(dir); t <= 0 {
			before = t
		} else {
			after = t
		}
	}
	return before, after, !math.IsInf(before, 0) && !math.IsInf(after, 0)
}

// outline checks one piece: neither line crosses itself, the cut line lies
// outside the sew line by no less than the thinnest allowance, the area is
// real, and no curve is tighter than its allowance can follow.
func (p *prover) outline(x piece.Piece) {
	about := say.Of("outline: %s", say.Name(x.Name))
	f := Finding{Say: p.T("sew line and cut line are sound"), Panel: x.ID}
	bad := func(at geom.Pt, told, mend string) {
		if f.Level == Fine {
			f.Level, f.Say, f.Mend, f.At = Stops, told, mend, &at
		}
	}
	if len(x.Sew) < 3 || len(x.Cut) < 3 {
		bad(geom.Pt{}, p.T("has no outline"), p.T("report this: the piece was not drawn"))
		p.add(about, f)
		return
	}
	for _, e := range x.Edges {
		off, at, met := marginOff(e, x.Cut)
		if met {
			f.Figure = mm(math.Max(f.Figure.V, off))
		}
		if !met || off > marginTol {
			bad(at, p.F("the cut line does not stand its allowance off the %s", say.Name(e.Name)), p.F("take another allowance on the %s", say.Name(e.Name)))
		}
	}
	f.Want, f.Tolerance = mm(0), mm(marginTol)
	if geom.Area(x.Sew) <= 0 || geom.Area(x.Cut) <= 0 {
		bad(x.Sew[0], p.T("encloses no cloth"), p.T("measure again: two lines have changed sides"))
	}
	if at, yes := geom.SelfCross(x.Sew); yes {
		bad(at, p.T("the sew line crosses itself"), p.T("measure again, or change the rule that draws this line"))
	}
	if at, yes := geom.SelfCross(x.Cut); yes {
		bad(at, p.T("the cut line crosses itself"), p.T("take a smaller allowance here"))
	}
	allow := false
	for _, e := range x.Edges {
		allow = allow || e.AllowStart > 0 || e.AllowEnd > 0
	}
	if allow {
		// A straight has points only at its ends, so both lines are looked at.
		at, yes := strays(x.Sew, x.Cut, false)
		if !yes {
			at, yes = strays(x.Cut, x.Sew, true)
		}
		if yes {
			bad(at, p.T("the cut line runs inside the sew line"), p.T("take a smaller allowance here"))
		}
	}
	p.hems(x)
	for _, e := range x.Edges {
		if at, yes := tooTight(e); yes {
			bad(at, p.F("the %s curves tighter than its allowance can follow", say.Name(e.Name)), p.F("take a smaller allowance on the %s", say.Name(e.Name)))
		}
	}
	p.add(about, f)
}

// marginTol is how far the cut line may stand off its allowance, mm, in the
// middle of an edge.
const marginTol = 0.5

// cornerTurn is the turn, in radians, from which an edge has a corner within, as
// at the mouth of a dart: there the cut line does not stand square off the sew line.
const cornerTurn = 5 * math.Pi / 180

// middle is how far along an edge the middle of its longest stretch without a
// corner lies.
func middle(edge geom.Path) float64 {
	at, longest, run := 0.0, 0.0, 0.0
	for i, c := range edge {
		run += c.Len()
		if i+1 < len(edge) && c.Tangent(1).AngleTo(edge[i+1].Tangent(0)) < cornerTurn {
			continue
		}
		if run > longest {
			longest, at = run, edge[:i+1].Len()-run/2
		}
		run = 0
	}
	return at
}

// marginOff measures, square out from the middle of an edge, how far the cut
// line stands off the allowance there; not met where no cut line lies that way.
func marginOff(e piece.Edge, cut []geom.Pt) (off float64, at geom.Pt, met bool) {
	s := middle(e.Sew)
	at, dir := e.Sew.At(s)
	want := e.AllowStart.MM() + (e.AllowEnd-e.AllowStart).MM()*s/e.Sew.Len()
	out := dir.Left()
	from := at.Add(out.Scale(-marginTol / 2))
	best := math.Inf(1)
	for i, a := range cut {
		b := cut[(i+1)%len(cut)]
		da, db := a.Sub(from).Cross(out), b.Sub(from).Cross(out)
		if da*db > 0 || da == db {
			continue
		}
		t := a.Lerp(b, da/(da-db)).Sub(from).Dot(out)
		if t >= 0 {
			best = math.Min(best, t-marginTol/2)
		}
	}
	return math.Abs(best - want), at, !math.IsInf(best, 0)
}

// strays returns a point of pts that lies inside the ring, or outside it when
// inside is false, by more than the flattening of curves explains.
func strays(pts, ring []geom.Pt, inside bool) (geom.Pt, bool) {
	box := geom.BoundsOf(ring)
	for _, q := range pts {
		holds := q.X >= box.Min.X && q.X <= box.Max.X && q.Y >= box.Min.Y && q.Y <= box.Max.Y && geom.Contains(ring, q)
		if holds == inside && geom.RingDist(ring, q) > piece.FlattenTol*2 {
			return q, true
		}
	}
	return geom.Pt{}, false
}

// tooTight looks for a hollow whose radius is less than the allowance on it.
func tooTight(e piece.Edge) (geom.Pt, bool) {
	allow := math.Max(e.AllowStart.MM(), e.AllowEnd.MM())
	for _, c := range e.Sew {
		if c.IsLine() {
			continue
		}
		for i := range 17 {
			t := float64(i) / 16
			// The outline runs clockwise, so a hollow turns anticlockwise.
			if k := -c.Curvature(t); k*allow > 1 {
				return c.At(t), true
			}
		}
	}
	return geom.Pt{}, false
}
