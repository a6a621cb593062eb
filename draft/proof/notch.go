package proof

import (
	"math"
	"slices"

	"chalkfold/draft/piece"
	"chalkfold/draft/say"
)

// notchTol is how far apart two notches of a pair may come to lie, mm; onTol
// how far off its edge a notch may be drawn.
const (
	notchTol = 1.0
	onTol    = 0.3
)

// mark is a notch on an edge, by how far along it lies.
type mark struct {
	number int
	name   string
	along  float64
}

// marks finds the notches on an edge, of every piece that lies on the panel or
// of the piece itself. A point marked on several pieces counts once.
func (p *prover) marks(r piece.Ref) []mark {
	e, ok := p.edges[r]
	if !ok {
		return nil
	}
	var out []mark
	for _, x := range p.pieces {
		if x.ID != r.Piece && (r.Panel == "" || x.On != r.Panel) {
			continue
		}
		for _, n := range x.Notches {
			if !e.Sew.Within(n.At, onTol*2) {
				continue
			}
			along, off := e.Sew.Nearest(n.At)
			m := mark{n.Number, n.Name, along}
			if off <= onTol && !slices.ContainsFunc(out, func(o mark) bool {
				return o.number == m.number && o.name == m.name && math.Abs(o.along-m.along) < onTol
			}) {
				out = append(out, m)
			}
		}
	}
	return out
}

// notchFrom is how far the notch of that name lies from the end of its edge, or
// from its start.
func (p *prover) notchFrom(r piece.Ref, name string, start bool) (float64, bool) {
	for _, m := range p.marks(r) {
		if m.name == name {
			if start {
				return m.along, true
			}
			return p.edges[r].Sew.Len() - m.along, true
		}
	}
	return 0, false
}

// notches checks the pairs of a seam: notches of one number lie equally far
// along both sides; where runs meet there is a notch.
func (p *prover) notches(s piece.Seam) {
	about := say.Of("notches: %s", say.Name(s.Name))
	f := Finding{Tolerance: mm(notchTol), Say: p.T("each notch meets its fellow"), Mend: p.T("set the two notches of each number equally far along the seam"), Panel: s.A[0].Panel + s.A[0].Piece}
	worst := func(off float64, told string) {
		if !math.IsInf(off, 0) {
			f.Figure.V = math.Max(f.Figure.V, off)
		}
		if off > notchTol && f.Level == Fine {
			f.Level, f.Say = Stops, told
		}
	}
	switch {
	case len(s.Each) == len(s.A) && len(s.B) == 1:
		p.joints(s, worst)
	case len(s.A) == 1 && len(s.B) == 1:
		a, b := p.marks(s.A[0]), p.marks(s.B[0])
		if len(a)+len(b) == 0 {
			return
		}
		for _, m := range a {
			i := slices.IndexFunc(b, func(o mark) bool { return o.number == m.number && m.number > 0 })
			if i < 0 {
				continue // it may have its fellow in another seam: see fellows
			}
			p.paired[m.number] = true
			from, to := m.along, b[i].along
			if s.Loose {
				from, to = p.edges[s.A[0]].Sew.Len()-from, p.edges[s.B[0]].Sew.Len()-to
			}
			worst(math.Abs(from-to), p.F("the notches %d do not meet", m.number))
		}
	default:
		return
	}
	p.add(about, f)
}

// fellows checks that every numbered notch has been met in some seam.
func (p *prover) fellows() {
	about := say.Of("notches in pairs")
	f := Finding{Want: mm(0), Tolerance: mm(notchTol), Say: p.T("every numbered notch has its fellow"), Mend: p.T("report this: a notch is marked on one side of its seam alone")}
	for _, x := range p.pieces {
		for _, n := range x.Notches {
			if at := n.At; n.Number > 0 && !p.paired[n.Number] && f.Level == Fine {
				f.Level, f.Panel, f.At = Stops, x.ID, &at
				f.Say = p.F("notch %d, %s, has no fellow", n.Number, say.Name(n.Name))
			}
		}
	}
	p.add(about, f)
}

// joints looks for a notch on B wherever two runs of A meet.
func (p *prover) joints(s piece.Seam, worst func(float64, string)) {
	b, ok := p.edges[s.B[0]]
	if !ok {
		return
	}
	total, run := b.Sew.Len(), s.From.MM()
	on := p.marks(s.B[0])
	for i, r := range s.A[:len(s.A)-1] {
		l, _ := p.length([]piece.Ref{r})
		run += (l - s.Each[i]).MM()
		off := math.Inf(1)
		for _, m := range on {
			off = math.Min(off, math.Abs(total-m.along-run))
		}
		worst(off, p.F("no notch where the %s ends", say.Name(r.Panel+r.Piece)))
	}
}

// cutAsProved checks that the edges of a piece which is cut for a panel lie on
// the panel's own, so that what is proved is what is cut.
func (p *prover) cutAsProved(x piece.Piece) {
	panel, ok := p.panels[x.ID]
	if !ok {
		return
	}
	about := say.Of("cut as proved: %s", say.Name(x.Name))
	f := Finding{Tolerance: mm(onTol), Say: p.T("the piece lies on the panel that was proved"), Mend: p.T("report this: piece and panel differ"), Panel: x.ID}
	for _, e := range x.Edges {
		whole, ok := panel.Edge(e.Name)
		if !ok {
			continue // cut into the panel: a pocket mouth
		}
		places := 5 // looked at along an edge that is not the very same
		if slices.Equal(e.Sew, whole.Sew) {
			places = 0
		}
		l := e.Sew.Len()
		for i := range places {
			at, _ := e.Sew.At(l * float64(i) / 4)
			if _, off := whole.Sew.Nearest(at); off > f.Figure.V {
				f.Figure.V = off
				if off > onTol && f.Level == Fine {
					f.Level, f.Say, f.At = Stops, p.F("the %s of the piece is not the one that was proved", say.Name(e.Name)), &at
				}
			}
		}
		if e.AllowStart < 0 || e.AllowEnd < 0 {
			f.Level, f.Say = Stops, p.F("the %s has less than no allowance", say.Name(e.Name))
		}
	}
	for _, e := range panel.Edges {
		if !e.Extended && !slices.ContainsFunc(x.Edges, func(o piece.Edge) bool { return o.Name == e.Name }) {
			f.Level, f.Say = Stops, p.F("the piece lacks the %s", say.Name(e.Name))
		}
	}
	p.add(about, f)
}

// middle checks that a line halves its panel.
func (p *prover) middle(m piece.Middle) {
	at := m.Through
	about := say.Name(m.Name)
	f := Finding{Tolerance: ln(m.Tol), Say: p.T("how far the crease lies from the middle"), Mend: m.Mend, Panel: m.Panel, At: &at}
	before, after, ok := p.sides(piece.Span{Panel: m.Panel, Through: m.Through, Dir: m.Dir})
	if !ok {
		f.Level, f.Say = Stops, p.F("cannot be measured on the %s", say.Name(m.Panel))
		p.add(about, f)
		return
	}
	f.Figure = mm(math.Abs(before+after) / 2)
	f.Level = judge(f.Figure.V <= m.Tol.MM(), Stops)
	p.add(about, f)
}

// turnTol is how closely an edge is followed, mm, when its turns are measured.
const turnTol = 0.1

// turn checks how sharply an edge turns.
func (p *prover) turn(t piece.Turn) {
	e, ok := p.edges[t.Edge]
	about := say.Name(t.Name)
	f := Finding{Want: degrees(0), Tolerance: degrees(t.Most), Say: p.T("the sharpest turn within a hand's breadth"), Mend: t.Mend, Panel: t.Edge.Panel}
	if !ok {
		f.Level, f.Say = Stops, p.F("no such edge: %s", t.Edge)
		p.add(about, f)
		return
	}
	f.Figure = degrees(0)
	pts := e.Sew.Flatten(turnTol)
	for i, run, j := 1, 0.0, 1; i < len(pts); i++ {
		// j runs on to the last side that begins within the stretch from i.
		for ; j < len(pts) && run <= t.Within.MM(); j++ {
			deg := pts[i].Sub(pts[i-1]).AngleTo(pts[j].Sub(pts[j-1])) * 180 / math.Pi
			if at := pts[j-1]; deg > f.Figure.V {
				f.Figure.V, f.At = deg, &at
			}
			run += pts[j-1].Dist(pts[j])
		}
		run -= pts[i-1].Dist(pts[i])
	}
	f.Level = judge(f.Figure.V <= t.Most, Mind)
	p.add(about, f)
}
