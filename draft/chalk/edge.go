package chalk

import (
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// stretch gives one curve by ordinates from the straight line between its ends.
func (g guide) stretch(name string, c geom.Curve) Mark {
	m := Mark{Kind: Line, Name: name, At: c.A, Path: geom.Path{c}, Length: unit.Length(c.Len()), Measure: unit.Length(c.A.Dist(c.D))}
	if bow(m.Path) < leastBow {
		return m
	}
	m.Kind = Curve
	at := knots(c, g.f)
	for _, k := range at[1 : len(at)-1] {
		o := Ordinate{Along: unit.Length(k.X), Off: unit.Length(math.Abs(k.Y))}
		if o.Off >= smallest {
			o.Side = g.heading(c.D.Sub(c.A).Unit().Left().Scale(k.Y))
		}
		m.Ordinates = append(m.Ordinates, o)
	}
	return m
}

// allowMarks chalk the cut line outside each edge.
func (g guide) allowMarks(edges []piece.Edge) []Mark {
	var out []Mark
	for _, e := range edges {
		if e.Fold || e.AllowStart == 0 && e.AllowEnd == 0 {
			continue
		}
		m := Mark{
			Kind: Allow, Name: g.F("cut line of the %s", say.Name(e.Name)), From: g.T("the sew line"), Measure: e.AllowStart, Way: g.T("outside it"),
			Because: g.F("%s allowance", say.Name(e.Name)), Of: e.Name, At: e.Sew.Start(), Path: e.Sew,
		}
		if e.AllowStart != e.AllowEnd {
			m.Way = g.F("outside it where the %s begins", say.Name(e.Name))
			m.Then, m.ThenWay = e.AllowEnd, g.T("outside it where it ends, evenly wider or narrower between")
		}
		if e.Turned {
			m.Way = g.T("below it, the ends slanting back as the sides do, so that it lies flat when turned up")
		}
		out = append(out, m)
	}
	return out
}

// pieceSection chalks a small piece in a box drawn on what is left of the
// cloth: corners of the sew line by how far across and down from the box's own
// corner, curves by ordinates, then the cut line.
func (g guide) pieceSection(pc piece.Piece) Section {
	s := Section{Title: g.T(pc.Name), Piece: pc.ID, Note: pc.Note}
	box := pc.Bounds()
	across, along := g.T("across the grain"), g.T("along the grain")
	if v := pc.Grain.D.Sub(pc.Grain.A); math.Abs(v.X) > math.Abs(v.Y) {
		across, along = along, across
	}
	s.Marks = append(s.Marks,
		Mark{Kind: Line, Name: g.T("box, width"), From: g.T("a straight edge of what is left"), Measure: unit.Length(box.W()), Way: across, Because: g.T("the piece with its allowances"), Of: "width", At: box.Min},
		Mark{Kind: Line, Name: g.T("box, length"), From: g.T("the same corner"), Measure: unit.Length(box.H()), Way: along, Because: g.T("the piece with its allowances"), Of: "length", At: box.Min})
	place := func(of, name string, p geom.Pt, why string) {
		s.Marks = append(s.Marks, Mark{
			Kind: Point, Name: name, From: g.T("the top left corner of the box"), Measure: unit.Length(p.X - box.Min.X), Way: g.T("across"),
			Then: unit.Length(p.Y - box.Min.Y), ThenWay: g.T("down"), Because: why, Of: of, At: p,
		})
	}
	begins := func(e piece.Edge) string { return g.F("where the %s begins", say.Name(e.Name)) }
	joint := func(e piece.Edge, no int) string { return g.F("%s, joint %d", say.Name(e.Name), no) }
	for _, e := range pc.Edges {
		place(e.Name, begins(e), e.Sew.Start(), g.T("a corner of the sew line"))
		for j, c := range e.Sew[1:] {
			place(e.Name, joint(e, j+1), c.A, g.T("the edge changes its bend here"))
		}
	}
	if !isBox(pc) {
		for i, e := range pc.Edges {
			for j, c := range e.Sew {
				m := g.stretch(g.T(e.Name), c)
				m.Of = e.Name
				m.From, m.To, m.Because = begins(e), begins(pc.Edges[(i+1)%len(pc.Edges)]), g.T("the sew line of this edge")
				if j > 0 {
					m.From = joint(e, j)
				}
				if j < len(e.Sew)-1 {
					m.To = joint(e, j+1)
				}
				s.Marks = append(s.Marks, m)
			}
		}
	}
	for _, l := range pc.Lines {
		place(l.Name, g.F("%s, one end", say.Name(l.Name)), l.Path.Start(), g.F("the %s", say.Name(l.Name)))
		place(l.Name, g.F("%s, other end", say.Name(l.Name)), l.Path.End(), g.F("the %s", say.Name(l.Name)))
	}
	s.Marks = append(s.Marks, g.notchMarks(pc.Edges, pc.Notches, func(i int) (start, end string) {
		return begins(pc.Edges[i]), begins(pc.Edges[(i+1)%len(pc.Edges)])
	})...)
	s.Marks = append(s.Marks, g.allowMarks(pc.Edges)...)
	return s
}

func isBox(pc piece.Piece) bool {
	b := pc.Bounds()
	return math.Abs(geom.Area(pc.Cut)-b.W()*b.H()) < 1
}
