package garment

import (
	"maps"
	"slices"
	"strings"

	"chalkfold/draft/body"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// claims are those of both halves; one that hangs on nothing that differs is
// made once.
func (h *halves) claims() piece.Claims {
	l, r := h.of(h.left, piece.LeftHand), h.of(h.right, piece.RightHand)
	maps.Copy(l.Mends, r.Mends)
	for i := range l.Girths {
		g := &l.Girths[i]
		for _, o := range r.Girths {
			if o.Name == g.Name && h.halfRound(*g, o) {
				g.Spans, g.Ease = append(g.Spans, o.Spans...), (g.Ease+o.Ease)/2
			}
		}
	}
	return piece.Claims{
		Seams:  append(both(l.Seams, r.Seams, func(s piece.Seam) string { return s.Name }), h.middles()...),
		Girths: both(l.Girths, r.Girths, func(g piece.Girth) string { return g.Name }),
		Angles: both(l.Angles, r.Angles, func(a piece.Angle) string { return a.Name }),
		Darts:  both(l.Darts, r.Darts, func(d piece.Dart) string { return d.Name + d.Panel }),
		Bounds: append(both(l.Bounds, r.Bounds, func(b piece.Bound) string { return b.Check + b.Panel }), h.differing()...),
		Middle: both(l.Middle, r.Middle, func(m piece.Middle) string { return m.Name }),
		Turns:  both(l.Turns, r.Turns, func(t piece.Turn) string { return t.Name }),
		Mends:  l.Mends,
	}
}

// halfRound reports whether two claims go half round the body each, and differ.
func (h *halves) halfRound(l, r piece.Girth) bool {
	differs := func(s piece.Span) bool { return slices.Contains(h.panels, strings.TrimSuffix(s.Panel, otherHand)) }
	return slices.ContainsFunc(append(slices.Clone(l.Spans), r.Spans...), differs)
}

// middles claims that the halves, where they differ, can be sewn to each other in
// the middle of the body.
func (h *halves) middles() []piece.Seam {
	var out []piece.Seam
	for _, p := range h.left.Panels {
		if !slices.Contains(h.panels, p.Name) {
			continue
		}
		s := piece.Seam{
			Name: say.Word("centre front, left to right"), Tol: middleTol,
			Mend: h.in.Format.Words.T("alter both sides: left and right are sewn together here"),
		}
		if p.Behind {
			s.Name = say.Word("centre back, left to right")
		}
		for _, e := range p.Edges {
			if (e.Place == piece.Centre || e.Place == piece.Fork) && !e.Fold {
				s.A, s.B = append(s.A, piece.OnPanel(p.Name, e.Name)), append(s.B, piece.OnPanel(other(p.Name), e.Name))
			}
		}
		if len(s.A) > 0 {
			out = append(out, s)
		}
	}
	return out
}

// middleTol is how far the halves may differ in the middle of the body: less than
// a tape shows.
const middleTol = unit.Length(1.5)

// differing has it minded that the halves are no pair.
func (h *halves) differing() []piece.Bound {
	if len(h.panels)+len(h.pieces)+len(h.joined) == 0 {
		return nil
	}
	w, most := h.in.Format.Words, unit.Length(0)
	b := piece.Bound{
		Check: say.Word("left and right differ"), Say: w.T("by so much one side alone was altered"), Most: &most,
		Mend: w.T("left and right are no pair: cut each piece singly, on open cloth with its right side up"),
	}
	if h.in.Uneven() {
		by := h.in.Body[body.LeftSideLength].Length - h.in.Body[body.RightSideLength].Length
		b.Check, b.Say, b.Figure = say.Word("one hip higher"), w.T("by so much the two sides of the figure differ"), max(by, -by)
		return []piece.Bound{b}
	}
	for _, a := range h.in.Altered {
		if a.Side != piece.BothHands {
			b.Figure = max(b.Figure, a.By)
		}
	}
	return []piece.Bound{b}
}

// claimed is the name of a claim of one side.
func (h *halves) claimed(name string, on piece.Hand) string {
	w := h.in.Format.Words
	if on == piece.LeftHand {
		return w.F("left side: %s", w.T(name))
	}
	return w.F("right side: %s", w.T(name))
}

// both are the claims of the left, and those of the right that it does not make.
func both[T any](l, r []T, name func(T) string) []T {
	known := map[string]bool{}
	for _, c := range l {
		known[name(c)] = true
	}
	for _, c := range r {
		if !known[name(c)] {
			l = append(l, c)
		}
	}
	return l
}

// of are the claims of one half, with the panels and pieces that it has, and
// named for it where it hangs on one that differs.
func (h *halves) of(d *Draft, hand piece.Hand) piece.Claims {
	c := d.Claims
	mends := maps.Clone(c.Mends)
	name := func(n string, differs bool) string {
		if !differs {
			return n
		}
		named := h.claimed(n, hand)
		for _, check := range []string{"", " girth", " legs", ", waist across it"} {
			if m := c.Mends[n+check]; m != nil {
				mends[named+check] = m
			}
		}
		return named
	}
	c.Seams = slices.Clone(c.Seams)
	for i := range c.Seams {
		s := &c.Seams[i]
		a, inA := h.refs(s.A, hand)
		b, inB := h.refs(s.B, hand)
		s.A, s.B, s.Name = a, b, name(s.Name, inA || inB)
	}
	girths := map[string]string{}
	c.Girths = slices.Clone(c.Girths)
	for i := range c.Girths {
		g := &c.Girths[i]
		g.Spans = slices.Clone(g.Spans)
		differs, round := false, true
		for k := range g.Spans {
			differs = h.panel(&g.Spans[k].Panel, hand) || differs
			round = round && g.Spans[k].Times%2 == 0
		}
		was := g.Name
		for k := range g.Spans {
			if differs && round { // the other half of the way lies on the other side
				g.Spans[k].Times /= 2
			}
		}
		g.Name, g.Like = name(was, differs && !round), was
		girths[was] = g.Name
	}
	c.Angles = slices.Clone(c.Angles)
	for i := range c.Angles {
		a := &c.Angles[i]
		corners, differs := h.refs(a.Corners, hand)
		a.Corners, a.Name = corners, name(a.Name, differs)
	}
	c.Darts = slices.Clone(c.Darts)
	for i := range c.Darts {
		x := &c.Darts[i]
		differs := h.panel(&x.Panel, hand)
		x.Name = name(x.Name, differs)
	}
	c.Bounds = slices.Clone(c.Bounds)
	for i := range c.Bounds {
		b := &c.Bounds[i]
		edges, differs := h.refs(b.Of.Edges, hand)
		notch, inNotch := h.refs([]piece.Ref{b.Of.Notch}, hand)
		inPanel := h.panel(&b.Panel, hand)
		if g := girths[b.Of.Girth]; g != "" {
			differs = differs || g != b.Of.Girth
			b.Of.Girth = g
		}
		b.Of.Edges, b.Of.Notch, b.Check = edges, notch[0], name(b.Check, differs || inNotch || inPanel)
	}
	c.Middle = slices.Clone(c.Middle)
	for i := range c.Middle {
		m := &c.Middle[i]
		differs := h.panel(&m.Panel, hand)
		m.Name = name(m.Name, differs)
	}
	c.Turns = slices.Clone(c.Turns)
	for i := range c.Turns {
		t := &c.Turns[i]
		edge, differs := h.refs([]piece.Ref{t.Edge}, hand)
		t.Edge, t.Name = edge[0], name(t.Name, differs)
	}
	c.Mends = mends
	return c
}

// panel gives a panel its name on that hand, and reports whether it differs.
func (h *halves) panel(name *string, hand piece.Hand) bool {
	if !slices.Contains(h.panels, *name) {
		return false
	}
	if hand == piece.RightHand {
		*name = other(*name)
	}
	return true
}

// refs are edges on that hand; it reports whether any of them differs.
func (h *halves) refs(all []piece.Ref, hand piece.Hand) ([]piece.Ref, bool) {
	out, differs := slices.Clone(all), false
	for i := range out {
		differs = h.panel(&out[i].Panel, hand) || differs
		if slices.Contains(h.pieces, out[i].Piece) {
			differs = true
			if hand == piece.RightHand {
				out[i].Piece = other(out[i].Piece)
			}
		}
	}
	return out, differs
}
