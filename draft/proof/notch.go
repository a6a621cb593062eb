package proof

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"chalkfold/draft/piece"
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

// notchFromEnd is how far the notch of that name lies from the end of its edge.
func (p *prover) notchFromEnd(r piece.Ref, name string) (float64, bool) {
	for _, m := range p.marks(r) {
		if m.name == name {
			return p.edges[r].Sew.Len() - m.along, true
		}
	}
	return 0, false
}

// notches checks the pairs of a seam: notches of one number lie equally far
// along both sides; where runs meet there is a notch.
func (p *prover) notches(s piece.Seam) {
	f := Finding{Check: "notches: " + s.Name, Tolerance: mm(notchTol), Say: "each notch meets its fellow", Mend: "set the two notches of each number equally far along the seam", Panel: s.A[0].Panel + s.A[0].Piece}
	worst := func(off float64, say string) {
		f.Figure.V = math.Max(f.Figure.V, off)
		if off > notchTol && f.Level == Fine {
			f.Level, f.Say = Stops, say
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
			worst(math.Abs(from-to), "the notches "+strconv.Itoa(m.number)+" do not meet")
		}
	default:
		return
	}
	p.add(f)
}

// fellows checks that every numbered notch has been met in some seam.
func (p *prover) fellows() {
	f := Finding{Check: "notches in pairs", Want: mm(0), Tolerance: mm(notchTol), Say: "every numbered notch has its fellow", Mend: "report this: a notch is marked on one side of its seam alone"}
	for _, x := range p.pieces {
		for _, n := range x.Notches {
			if at := n.At; n.Number > 0 && !p.paired[n.Number] && f.Level == Fine {
				f.Level, f.Panel, f.At = Stops, x.ID, &at
				f.Say = "notch " + strconv.Itoa(n.Number) + ", " + n.Name + ", has no fellow"
			}
		}
	}
	p.add(f)
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
		worst(off, "no notch where the "+strings.TrimSpace(r.Panel+r.Piece)+" ends")
	}
}

// cutAsProved checks that the edges of a piece which is cut for a panel lie on
// the panel's own, so that what is proved is what is cut.
func (p *prover) cutAsProved(x piece.Piece) {
	panel, ok := p.panels[x.ID]
	if !ok {
		return
	}
	f := Finding{Check: "cut as proved: " + x.Name, Tolerance: mm(onTol), Say: "the piece lies on the panel that was proved", Mend: "report this: piece and panel differ", Panel: x.ID}
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
					f.Level, f.Say, f.At = Stops, "the "+e.Name+" of the piece is not the one that was proved", &at
				}
			}
		}
		if e.AllowStart < 0 || e.AllowEnd < 0 {
			f.Level, f.Say = Stops, "the "+e.Name+" has less than no allowance"
		}
	}
	for _, e := range panel.Edges {
		if !slices.ContainsFunc(x.Edges, func(o piece.Edge) bool { return o.Name == e.Name }) {
			f.Level, f.Say = Stops, "the piece lacks the "+e.Name
		}
	}
	p.add(f)
}

// middle checks that a line halves its panel.
func (p *prover) middle(m piece.Middle) {
	at := m.Through
	f := Finding{Check: m.Name, Tolerance: ln(m.Tol), Say: "how far the crease lies from the middle", Mend: m.Mend, Panel: m.Panel, At: &at}
	before, after, ok := p.sides(piece.Span{Panel: m.Panel, Through: m.Through, Dir: m.Dir})
	f.Figure = mm(math.Abs(before+after) / 2)
	f.Level = judge(ok && f.Figure.V <= m.Tol.MM(), Stops)
	p.add(f)
}

// turnTol is how closely an edge is followed, mm, when its turns are measured.
const turnTol = 0.1

// turn checks how sharply an edge turns.
func (p *prover) turn(t piece.Turn) {
	e, ok := p.edges[t.Edge]
	f := Finding{Check: t.Name, Want: degrees(0), Tolerance: degrees(t.Most), Say: "the sharpest turn within a hand's breadth", Mend: t.Mend, Panel: t.Edge.Panel}
	if !ok {
		f.Level, f.Say = Stops, "no such edge: "+t.Edge.String()
		p.add(f)
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
	p.add(f)
}
