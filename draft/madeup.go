package draft

import (
	"slices"
	"strings"

	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// MadeUp is the band of a draft as it is cut to the waist that was sewn.
type MadeUp struct {
	Drafted, Sewn unit.Length // the waist, without the lap
	Bands         []MadeUpBand
	// Far: they differ by more than is told by the tape and the needle; Tight: it
	// does not go round the body.
	Far, Tight bool
	// Each is by how much every seam and dart that meets the waist was sewn off,
	// when they all share the difference; Places is how many these are.
	Each   unit.Length
	Places int
}

// MadeUpBand is one piece of the band.
type MadeUpBand struct {
	Name  string // English
	Cut   unit.Length
	Marks []MadeUpMark // from the end that is drawn on top, in order
}

// MadeUpMark is where a seam comes to lie on the band, measured along its waist
// seam from the sewn end.
type MadeUpMark struct {
	Name string // English
	At   unit.Length
}

// MostOff is how far a sewn waist may be from its draft: what buyers of clothes
// commonly allow (common practice).
const MostOff = unit.Inch / 2

// BandFor is the band for a sewn waist: each stretch of the waist has its share
// of the difference, the lap stays as it is. It is not ok when the draft has no
// band, or there is no such waist.
func BandFor(r *Result, sewn unit.Length) (m MadeUp, ok bool) {
	var seams []piece.Seam
	for _, s := range r.Seams {
		if len(s.B) == 1 && strings.HasPrefix(s.B[0].Piece, "waistband") && s.B[0].Edge == "waist" {
			seams = append(seams, s)
			m.Drafted += stretches(r, s, nil)
		}
	}
	if m.Drafted <= 0 || sewn <= 0 {
		return m, false
	}
	m.Sewn = sewn
	share := sewn / m.Drafted
	for _, s := range seams {
		m.Bands = append(m.Bands, bandFor(r, s, share))
	}
	m.Places = places(r)
	m.Each = (sewn - m.Drafted) / unit.Length(max(m.Places, 1))
	const read = 1 // mm: finer than that no tape is read
	m.Far = sewn-m.Drafted > MostOff+read || m.Drafted-sewn > MostOff+read
	for _, g := range r.Report.Girths {
		m.Tight = m.Tight || g.Name == "waist" && sewn < g.Body
	}
	return m, true
}

// stretches goes along the waist that a band is sewn to: what each part of it
// measures when its darts are closed, and of all of them the sum.
func stretches(r *Result, s piece.Seam, each func(unit.Length)) (sum unit.Length) {
	for i, ref := range s.A {
		for _, p := range r.Panels {
			if e, ok := p.Edge(ref.Edge); ok && p.Name == ref.Panel {
				l := unit.Length(e.Sew.Len()) - s.Each[i]
				sum += l
				if each != nil {
					each(l)
				}
			}
		}
	}
	return sum
}

func bandFor(r *Result, s piece.Seam, share unit.Length) MadeUpBand {
	var out MadeUpBand
	for _, p := range r.Pieces {
		if p.ID != s.B[0].Piece {
			continue
		}
		out.Name = p.Name
		for i, e := range p.Edges {
			if e.Name != "waist" {
				continue
			}
			top := unit.Length(e.Sew.Len())
			was, is := s.From, s.From
			name := func() string { return markAt(p, e, top-was) }
			out.Marks = append(out.Marks, MadeUpMark{name(), is})
			stretches(r, s, func(l unit.Length) {
				was, is = was+l, is+l*share
				out.Marks = append(out.Marks, MadeUpMark{name(), is})
			})
			ends := p.Edges[(i+1)%len(p.Edges)].AllowStart + p.Edges[(i+len(p.Edges)-1)%len(p.Edges)].AllowEnd
			out.Cut = is + top - was + ends
		}
	}
	return out
}

// markAt is the name of the notch there, or that of the end of the band.
func markAt(p piece.Piece, e piece.Edge, along unit.Length) string {
	const near = 2 // mm
	for _, n := range p.Notches {
		if at, off := e.Sew.Nearest(n.At); off < near && n.Name != "" && unit.Length(at)-along < near && along-unit.Length(at) < near {
			return n.Name
		}
	}
	for _, end := range p.Edges {
		if end.Name == e.Name {
			continue
		}
		if along < near && end.Sew.End().Dist(e.Sew.Start()) < near || along > near && end.Sew.Start().Dist(e.Sew.End()) < near {
			return end.Name
		}
	}
	return e.Name
}

// places is how many seams and darts take in the waist, all round.
func places(r *Result) int {
	n := 0
	for _, p := range r.Panels {
		if p.Like != "" {
			continue // counted with the one that it is like
		}
		e, _ := p.Edge("waist")
		for _, other := range p.Edges {
			if other.Fold || e.Sew == nil || other.Name == e.Name {
				continue
			}
			if other.Sew.Start().Dist(e.Sew.End()) < 1 || other.Sew.End().Dist(e.Sew.Start()) < 1 {
				n++ // half a seam, on each hand
			}
		}
	}
	for _, d := range r.Darts {
		if d.Edge == "waist" && slices.ContainsFunc(r.Panels, func(p piece.Panel) bool { return p.Name == d.Panel && p.Like == "" }) {
			n += 2
		}
	}
	return n
}
