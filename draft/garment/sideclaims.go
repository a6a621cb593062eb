package garment

import (
	"maps"
	"slices"

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
	return piece.Claims{
		Seams:  both(l.Seams, r.Seams, func(s piece.Seam) string { return s.Name }),
		Girths: both(l.Girths, r.Girths, func(g piece.Girth) string { return g.Name }),
		Angles: both(l.Angles, r.Angles, func(a piece.Angle) string { return a.Name }),
		Darts:  both(l.Darts, r.Darts, func(d piece.Dart) string { return d.Name + d.Panel }),
		Bounds: append(both(l.Bounds, r.Bounds, func(b piece.Bound) string { return b.Check + b.Panel }), h.differing()),
		Middle: both(l.Middle, r.Middle, func(m piece.Middle) string { return m.Name }),
		Turns:  both(l.Turns, r.Turns, func(t piece.Turn) string { return t.Name }),
		Mends:  l.Mends,
	}
}

// differing has it minded that the halves are no pair.
func (h *halves) differing() piece.Bound {
	most := unit.Length(0)
	w, by := h.in.Format.Words, h.in.Body[body.LeftSideLength].Length-h.in.Body[body.RightSideLength].Length
	return piece.Bound{
		Check: say.Word("one hip higher"), Say: w.T("by so much the two sides of the figure differ"), Figure: max(by, -by), Most: &most,
		Mend: w.T("left and right are no pair: cut each piece singly, on open cloth with its right side up"),
	}
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
		differs := false
		for k := range g.Spans {
			differs = h.panel(&g.Spans[k].Panel, hand) || differs
		}
		was := g.Name
		g.Name = name(was, differs)
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
