package chalk

import (
	"math"
	"strconv"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// stretch gives one curve by ordinates from the straight line between its ends.
func stretch(name string, c geom.Curve) Mark {
	m := Mark{Kind: Line, Name: name, At: c.A, Path: geom.Path{c}, Length: unit.Length(c.Len()), Measure: unit.Length(c.A.Dist(c.D))}
	chord := c.D.Sub(c.A)
	if chord.Len() == 0 {
		return m
	}
	dir := chord.Unit()
	path := geom.Path{c}
	bow := unit.Length(0)
	// A mark for every inch or so, at least three, at most eight.
	n := int(math.Max(3, math.Min(8, math.Round(chord.Len()/25.4)-1)))
	for i := 1; i <= n; i++ {
		along := chord.Len() * float64(i) / float64(n+1)
		at := path.CrossLine(c.A.Add(dir.Scale(along)), dir.Left())
		if len(at) == 0 {
			continue
		}
		p, _ := path.At(at[0])
		off := p.Sub(c.A).Dot(dir.Left())
		o := Ordinate{Along: unit.Length(along), Off: unit.Length(math.Abs(off))}
		if o.Off >= smallest {
			o.Side = heading(dir.Left().Scale(off))
		}
		bow = max(bow, o.Off)
		m.Ordinates = append(m.Ordinates, o)
	}
	if bow < leastBow {
		m.Ordinates = nil
		return m
	}
	m.Kind = Curve
	return m
}

// allowMarks chalk the cut line outside each edge.
func allowMarks(edges []piece.Edge) []Mark {
	var out []Mark
	for _, e := range edges {
		if e.Fold || e.AllowStart == 0 && e.AllowEnd == 0 {
			continue
		}
		m := Mark{
			Kind: Allow, Name: "cut line of the " + e.Name, From: "the sew line", Measure: e.AllowStart, Way: "outside it",
			Because: e.Name + " allowance", At: e.Sew.Start(), Path: e.Sew,
		}
		if e.AllowStart != e.AllowEnd {
			m.Way = "outside it where the " + e.Name + " begins, running evenly to, at its end,"
			m.Then, m.ThenWay = e.AllowEnd, "outside"
		}
		if e.Turned {
			m.Way = "below it, the ends slanting back as the leg does, so that it lies flat when turned up"
		}
		out = append(out, m)
	}
	return out
}

// pieceSection chalks a small piece in a box drawn on what is left of the
// cloth: corners of the sew line by how far across and down from the box's own
// corner, curves by ordinates, then the cut line.
func pieceSection(pc piece.Piece) Section {
	s := Section{Title: pc.Name, Piece: pc.ID, Note: pc.Note}
	box := pc.Bounds()
	s.Marks = append(s.Marks,
		Mark{Kind: Line, Name: "box, width", From: "a straight edge of what is left", Measure: unit.Length(box.W()), Way: "across the grain", Because: "the piece with its allowances", At: box.Min},
		Mark{Kind: Line, Name: "box, length", From: "the same corner", Measure: unit.Length(box.H()), Way: "along the grain", Because: "the piece with its allowances", At: box.Min})
	place := func(name string, p geom.Pt, why string) {
		s.Marks = append(s.Marks, Mark{
			Kind: Point, Name: name, From: "the top left corner of the box", Measure: unit.Length(p.X - box.Min.X), Way: "across",
			Then: unit.Length(p.Y - box.Min.Y), ThenWay: "down", Because: why, At: p,
		})
	}
	begins := func(e piece.Edge) string { return "where the " + e.Name + " begins" }
	for _, e := range pc.Edges {
		place(begins(e), e.Sew.Start(), "a corner of the sew line")
		for j, c := range e.Sew[1:] {
			place(e.Name+", joint "+strconv.Itoa(j+1), c.A, "the edge changes its bend here")
		}
	}
	if !isBox(pc) {
		for i, e := range pc.Edges {
			for j, c := range e.Sew {
				m := stretch(e.Name, c)
				m.From, m.To, m.Because = begins(e), begins(pc.Edges[(i+1)%len(pc.Edges)]), "the sew line of this edge"
				if j > 0 {
					m.From = e.Name + ", joint " + strconv.Itoa(j)
				}
				if j < len(e.Sew)-1 {
					m.To = e.Name + ", joint " + strconv.Itoa(j+1)
				}
				s.Marks = append(s.Marks, m)
			}
		}
	}
	for _, l := range pc.Lines {
		place(l.Name+", one end", l.Path.Start(), "the "+l.Name)
		place(l.Name+", other end", l.Path.End(), "the "+l.Name)
	}
	s.Marks = append(s.Marks, notchMarks(pc.Edges, pc.Notches)...)
	s.Marks = append(s.Marks, allowMarks(pc.Edges)...)
	return s
}

func isBox(pc piece.Piece) bool {
	b := pc.Bounds()
	return math.Abs(geom.Area(pc.Cut)-b.W()*b.H()) < 1
}
