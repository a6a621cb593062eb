package proof

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// Level is how much a finding matters.
type Level uint8

// The levels, least first.
const (
	Fine  Level = iota // holds
	Mind               // to be known before cutting
	Stops              // cut this and the garment fails
)

// String names the level as shown and stored.
func (l Level) String() string { return [...]string{"fine", "mind", "stops the cut"}[l] }

// Figure is a number with its kind, so that it can be printed in any unit.
type Figure struct {
	V       float64
	Degrees bool // otherwise mm
}

// Text writes the figure in f's units.
func (g Figure) Text(f unit.Format) string {
	if g.Degrees {
		return fmt.Sprintf("%.1f°", g.V)
	}
	return f.Text(unit.Length(g.V))
}

// Finding is the outcome of one check.
type Finding struct {
	Check     string
	Level     Level
	Figure    Figure // what was measured on the outlines
	Want      Figure // what it should be
	Tolerance Figure // how far off it may be
	Say       string // in words, without figures
	Mend      string // what to do; "" when fine
	Panel     string // where to look; "" for the whole
	At        *geom.Pt
}

// Seam is a measured seam.
type Seam struct {
	Name          string
	A, B, Allowed unit.Length // sewn lengths of both sides; how far they may differ
}

// Girth is a measured girth.
type Girth struct {
	Name              string
	Body, Draft, Ease unit.Length // Ease = Draft − Body
	Estimated         bool
}

// Report is the whole proof.
type Report struct {
	Findings []Finding
	Seams    []Seam
	Girths   []Girth
}

// Stopped reports whether any finding stops the cut.
func (r Report) Stopped() bool {
	return slices.ContainsFunc(r.Findings, func(f Finding) bool { return f.Level == Stops })
}

// At returns the findings of one level.
func (r Report) At(l Level) []Finding {
	var out []Finding
	for _, f := range r.Findings {
		if f.Level == l {
			out = append(out, f)
		}
	}
	return out
}

// prover measures edges of panels and pieces.
type prover struct {
	panels map[string]piece.Panel
	rings  map[string][]geom.Pt
	edges  map[piece.Ref]piece.Edge
	rep    Report
}

// Of proves a draft.
func Of(panels []piece.Panel, pieces []piece.Piece, claims piece.Claims) Report {
	p := &prover{panels: map[string]piece.Panel{}, rings: map[string][]geom.Pt{}, edges: map[piece.Ref]piece.Edge{}}
	for _, x := range pieces {
		for _, e := range x.Edges {
			p.edges[piece.Ref{Panel: x.ID, Edge: e.Name}] = e
			p.edges[piece.Ref{Panel: "piece:" + x.ID, Edge: e.Name}] = e
		}
	}
	for _, x := range panels {
		p.panels[x.Name] = x
		p.rings[x.Name] = x.Ring()
		for _, e := range x.Edges {
			p.edges[piece.Ref{Panel: x.Name, Edge: e.Name}] = e
		}
	}
	for _, x := range pieces {
		p.outline(x)
	}
	for _, s := range claims.Seams {
		p.seam(s)
	}
	for _, a := range claims.Angles {
		p.angle(a)
	}
	for _, d := range claims.Darts {
		p.dart(d)
	}
	for _, g := range claims.Girths {
		p.girth(g)
	}
	for _, b := range claims.Bounds {
		p.bound(b)
	}
	for _, n := range claims.Pairs {
		p.pair(n)
	}
	slices.SortStableFunc(p.rep.Findings, func(a, b Finding) int { return cmp.Compare(b.Level, a.Level) })
	return p.rep
}

func (p *prover) add(f Finding) {
	if f.Level == Fine {
		f.Mend = ""
	}
	p.rep.Findings = append(p.rep.Findings, f)
}

func mm(v float64) Figure      { return Figure{V: v} }
func ln(v unit.Length) Figure  { return Figure{V: v.MM()} }
func degrees(v float64) Figure { return Figure{V: v, Degrees: true} }
func judge(ok bool, l Level) Level {
	if ok {
		return Fine
	}
	return l
}

func (p *prover) length(refs []piece.Ref) (sum unit.Length, missing string) {
	for _, r := range refs {
		e, ok := p.edges[r]
		if !ok {
			return 0, r.Panel + " " + r.Edge
		}
		sum += unit.Length(e.Sew.Len())
	}
	return sum, ""
}

func (p *prover) seam(s piece.Seam) {
	a, missA := p.length(s.A)
	b, missB := p.length(s.B)
	if miss := missA + missB; miss != "" {
		p.add(Finding{Check: s.Name, Level: Stops, Say: "no such edge: " + miss, Mend: s.Mend})
		return
	}
	a, b = a-s.LessA, b-s.LessB
	allowed := s.Tol + s.Shorter
	p.rep.Seams = append(p.rep.Seams, Seam{s.Name, a, b, allowed})
	off := (a - b - s.Shorter).MM()
	say := "both sides of the seam agree"
	if math.Abs(off) > s.Tol.MM() {
		say = "the two sides of the seam do not meet"
	}
	p.add(Finding{
		Check: s.Name, Level: judge(math.Abs(off) <= s.Tol.MM(), Stops), Figure: mm(b.MM() - a.MM()), Want: ln(-s.Shorter),
		Tolerance: ln(s.Tol), Say: say, Mend: s.Mend, Panel: s.A[0].Panel,
	})
}

// insideAngle is the angle inside the outline where an edge ends, in degrees.
func (p *prover) insideAngle(r piece.Ref) (deg float64, at geom.Pt, ok bool) {
	panel, ok := p.panels[r.Panel]
	if !ok {
		return 0, at, false
	}
	i := slices.IndexFunc(panel.Edges, func(e piece.Edge) bool { return e.Name == r.Edge })
	if i < 0 {
		return 0, at, false
	}
	a, b := panel.Edges[i].Sew.EndDir(), panel.Edges[(i+1)%len(panel.Edges)].Sew.StartDir()
	turn := math.Atan2(a.Cross(b), a.Dot(b))
	return 180 - turn*180/math.Pi, panel.Edges[i].Sew.End(), true
}

func (p *prover) angle(a piece.Angle) {
	sum := 0.0
	var at geom.Pt
	for _, c := range a.Corners {
		deg, pt, ok := p.insideAngle(c)
		if !ok {
			p.add(Finding{Check: a.Name, Level: Stops, Say: "no such corner: " + c.Panel + " " + c.Edge, Mend: a.Mend})
			return
		}
		sum, at = sum+deg, pt
	}
	ok := math.Abs(sum-a.Want) <= a.Tol
	say := "runs on smoothly"
	if a.Want == 90 {
		say = "square"
	}
	if !ok {
		say = map[bool]string{true: "not square", false: "a corner where it should run on smoothly"}[a.Want == 90]
	}
	p.add(Finding{
		Check: a.Name, Level: judge(ok, Mind), Figure: degrees(sum), Want: degrees(a.Want), Tolerance: degrees(a.Tol),
		Say: say, Mend: a.Mend, Panel: a.Corners[len(a.Corners)-1].Panel, At: &at,
	})
}

// Tolerances of the dart checks: legs within half a millimetre; the waist may
// bend by three degrees at the closed dart before the eye sees it.
const (
	legTol  = 0.5
	bendTol = 3.0
)

func (p *prover) dart(d piece.Dart) {
	e, ok := p.edges[piece.Ref{Panel: d.Panel, Edge: d.Edge}]
	if !ok {
		p.add(Finding{Check: d.Name, Level: Stops, Say: "no such edge: " + d.Panel + " " + d.Edge})
		return
	}
	a, b := d.Point.Dist(d.Legs[0]), d.Point.Dist(d.Legs[1])
	at := d.Point
	p.add(Finding{
		Check: d.Name + " legs", Level: judge(math.Abs(a-b) <= legTol, Stops), Figure: mm(math.Abs(a - b)), Want: mm(0), Tolerance: mm(legTol),
		Say: "one leg against the other", Mend: "make both legs equally long", Panel: d.Panel, At: &at,
	})
	sa, da := e.Sew.Nearest(d.Legs[0])
	sb, db := e.Sew.Nearest(d.Legs[1])
	before, _ := e.Sew.Split(sa)
	_, after := e.Sew.Split(sb)
	if da > legTol || db > legTol || before == nil || after == nil {
		p.add(Finding{
			Check: d.Name + ", waist across it", Level: Stops, Say: "the dart does not lie inside its edge",
			Mend: "set the dart nearer the middle, or make it narrower", Panel: d.Panel, At: &at,
		})
		return
	}
	close1 := d.Legs[1].Sub(d.Point)
	close0 := d.Legs[0].Sub(d.Point)
	turn := math.Atan2(close1.Cross(close0), close1.Dot(close0))
	bend := after.StartDir().Rotate(turn).AngleTo(before.EndDir()) * 180 / math.Pi
	p.add(Finding{
		Check: d.Name + ", waist across it", Level: judge(bend <= bendTol, Mind), Figure: degrees(bend), Want: degrees(0), Tolerance: degrees(bendTol),
		Say: "bend in the waist line with the dart closed", Mend: "fold the dart shut and draw the waist across it in one line, or switch that truing on",
		Panel: d.Panel, At: &at,
	})
}

// pairTol is how far apart two notches of a pair may come to lie.
const pairTol = 1.0

func (p *prover) pair(n piece.Pair) {
	along := func(x piece.NotchAt) (float64, bool) {
		e, ok := p.edges[x.Ref]
		if !ok {
			return 0, false
		}
		s, off := e.Sew.Nearest(x.At)
		if x.Reverse {
			s = e.Sew.Len() - s
		}
		return s - x.Less.MM(), off < pairTol
	}
	a, okA := along(n.A)
	b, okB := along(n.B)
	p.add(Finding{
		Check: "notch: " + n.Name, Level: judge(okA && okB && math.Abs(a-b) <= pairTol, Stops), Figure: mm(math.Abs(a - b)), Want: mm(0), Tolerance: mm(pairTol),
		Say: "notches of the pair along their seam", Mend: "set both notches equally far along the seam", Panel: n.A.Panel, At: &n.A.At,
	})
}

func (p *prover) bound(b piece.Bound) {
	f := Finding{Check: b.Check, Figure: ln(b.Figure), Say: b.Say, Mend: b.Mend, Panel: b.Panel, At: b.At}
	bad := Mind
	if b.Stops {
		bad = Stops
	}
	const slack = 0.05 // mm: rounding
	f.Want = f.Figure
	if b.Least != nil {
		f.Want = ln(*b.Least)
		if b.Most != nil {
			f.Tolerance = ln(*b.Most - *b.Least)
		}
		if b.Figure.MM() < b.Least.MM()-slack {
			f.Level = bad
		}
	} else if b.Most != nil {
		f.Want = mm(0)
		f.Tolerance = ln(*b.Most)
	}
	if b.Most != nil && b.Figure.MM() > b.Most.MM()+slack {
		f.Level = bad
	}
	p.add(f)
}
