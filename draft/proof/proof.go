package proof

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
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
func (l Level) String() string {
	return [...]string{say.Word("fine"), say.Word("mind"), say.Word("stops the cut")}[l]
}

// Figure is a number with its kind, so that it can be printed in any unit.
type Figure struct {
	V       float64
	Degrees bool // otherwise mm
}

// Text writes the figure in f's units.
func (g Figure) Text(f unit.Format) string {
	if g.Degrees {
		return f.Words.Decimal(fmt.Sprintf("%.1f°", g.V))
	}
	return f.Text(unit.Length(g.V))
}

// Finding is the outcome of one check.
type Finding struct {
	Check     string // in English: what the check is known by
	Name      string // the check as it is said, like all that follows
	Level     Level
	Figure    Figure // what was measured on the outlines
	Want      Figure // what it should be
	Tolerance Figure // how far off it may be
	// Least and Most are the bounds of a figure that may lie between two
	// others; Want is then the one that is broken or nearer. Nil is open.
	Least, Most *Figure
	Say         string // in words, without figures
	Mend        string // what to do; "" when fine
	Mends       []piece.Mend
	Panel       string // where to look; "" for the whole
	At          *geom.Pt
}

// Seam is a measured seam.
type Seam struct {
	Name          string
	A, B, Allowed unit.Length // sewn lengths of both sides; how far they may differ
}

// Girth is a measured girth.
type Girth struct {
	Name              string
	Like              string      // its name where left and right do not differ; "" is Name
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
	*say.Words
	panels map[string]piece.Panel
	pieces []piece.Piece
	edges  map[piece.Ref]piece.Edge
	paired map[int]bool // numbers of notches that met in a seam
	mends  map[string][]piece.Mend
	rep    Report
}

// Of proves a draft, and tells the findings in w.
func Of(panels []piece.Panel, pieces []piece.Piece, claims piece.Claims, w *say.Words) Report {
	p := &prover{Words: w, panels: map[string]piece.Panel{}, pieces: piece.Halved(pieces), edges: map[piece.Ref]piece.Edge{}, paired: map[int]bool{}, mends: claims.Mends}
	for _, x := range pieces {
		for _, e := range x.Edges {
			p.edges[piece.Ref{Piece: x.ID, Edge: e.Name}] = e
		}
	}
	for _, x := range panels {
		p.panels[x.Name] = x
		for _, e := range x.Edges {
			p.edges[piece.Ref{Panel: x.Name, Edge: e.Name}] = e
		}
	}
	for _, x := range pieces {
		p.outline(x)
	}
	for _, x := range p.pieces {
		p.cutAsProved(x)
	}
	for _, s := range claims.Seams {
		p.seam(s)
	}
	p.fellows()
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
	for _, m := range claims.Middle {
		p.middle(m)
	}
	for _, t := range claims.Turns {
		p.turn(t)
	}
	slices.SortStableFunc(p.rep.Findings, func(a, b Finding) int { return cmp.Compare(b.Level, a.Level) })
	return p.rep
}

// add gives a finding what it is about.
func (p *prover) add(about say.Told, f Finding) {
	f.Check, f.Name = about.In(nil), about.In(p.Words)
	if f.Level == Fine {
		f.Mend = ""
	} else {
		f.Mends = p.mends[f.Check]
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
			return 0, r.In(p.Words)
		}
		sum += unit.Length(e.Sew.Len())
	}
	return sum, ""
}

func (p *prover) seam(s piece.Seam) {
	a, missA := p.length(s.A)
	b, missB := p.length(s.B)
	for _, miss := range []string{missA, missB} {
		if miss != "" {
			p.add(say.Name(s.Name), Finding{Level: Stops, Say: p.F("no such edge: %s", miss), Mend: s.Mend})
			return
		}
	}
	if s.Loose {
		p.notches(s)
		return
	}
	a, b = a-s.LessA, b-s.LessB
	allowed := s.Tol + s.Shorter
	p.rep.Seams = append(p.rep.Seams, Seam{s.Name, a, b, allowed})
	off := (a - b - s.Shorter).MM()
	told := p.T("both sides of the seam agree")
	if math.Abs(off) > s.Tol.MM() {
		told = p.T("the two sides of the seam do not meet")
	}
	p.add(say.Name(s.Name), Finding{
		Level: judge(math.Abs(off) <= s.Tol.MM(), Stops), Figure: mm(b.MM() - a.MM()), Want: ln(-s.Shorter),
		Tolerance: ln(s.Tol), Say: told, Mend: s.Mend, Panel: s.A[0].Panel + s.A[0].Piece,
	})
	p.notches(s)
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
			p.add(say.Name(a.Name), Finding{Level: Stops, Say: p.F("no such corner: %s", c), Mend: a.Mend})
			return
		}
		sum, at = sum+deg, pt
	}
	ok := math.Abs(sum-a.Want) <= a.Tol
	told := p.T("runs on smoothly")
	if a.Want == 90 {
		told = p.T("square")
	}
	if !ok {
		told = map[bool]string{true: p.T("not square"), false: p.T("a corner where it should run on smoothly")}[a.Want == 90]
	}
	p.add(say.Name(a.Name), Finding{
		Level: judge(ok, Mind), Figure: degrees(sum), Want: degrees(a.Want), Tolerance: degrees(a.Tol),
		Say: told, Mend: a.Mend, Panel: a.Corners[len(a.Corners)-1].Panel, At: &at,
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
		p.add(say.Name(d.Name), Finding{Level: Stops, Say: p.F("no such edge: %s", piece.Ref{Panel: d.Panel, Edge: d.Edge})})
		return
	}
	a, b := d.Point.Dist(d.Legs[0]), d.Point.Dist(d.Legs[1])
	at := d.Point
	p.add(say.Of("%s legs", say.Name(d.Name)), Finding{
		Level: judge(math.Abs(a-b) <= legTol, Stops), Figure: mm(math.Abs(a - b)), Want: mm(0), Tolerance: mm(legTol),
		Say: p.T("one leg against the other"), Mend: p.T("make both legs equally long"), Panel: d.Panel, At: &at,
	})
	sa, da := e.Sew.Nearest(d.Legs[0])
	sb, db := e.Sew.Nearest(d.Legs[1])
	before, _ := e.Sew.Split(sa)
	_, after := e.Sew.Split(sb)
	across := say.Of("%s, waist across it", say.Name(d.Name))
	if d.Edge != "waist" {
		across = say.Of("%s, edge across it", say.Name(d.Name))
	}
	if da > legTol || db > legTol || before == nil || after == nil {
		p.add(across, Finding{
			Level: Stops, Say: p.T("the dart does not lie inside its edge"),
			Mend: p.T("set the dart nearer the middle, or make it narrower"), Panel: d.Panel, At: &at,
		})
		return
	}
	close1 := d.Legs[1].Sub(d.Point)
	close0 := d.Legs[0].Sub(d.Point)
	turn := math.Atan2(close1.Cross(close0), close1.Dot(close0))
	bend := after.StartDir().Rotate(turn).AngleTo(before.EndDir()) * 180 / math.Pi
	f := Finding{
		Level: judge(bend <= bendTol, Mind), Figure: degrees(bend), Want: degrees(0), Tolerance: degrees(bendTol),
		Say: p.T("bend in the waist line with the dart closed"), Mend: p.T("fold the dart shut and draw the waist across it in one line, or switch that truing on"),
		Panel: d.Panel, At: &at,
	}
	if d.Edge != "waist" {
		f.Say, f.Mend = p.T("bend in the edge with the dart closed"), p.T("fold the dart shut and draw the edge across it in one line")
	}
	p.add(across, f)
}

func (p *prover) bound(b piece.Bound) {
	about := say.Name(b.Check)
	f := Finding{Say: b.Say, Mend: b.Mend, Panel: b.Panel, At: b.At}
	bad := Mind
	if b.Stops {
		bad = Stops
	}
	figure, missing := p.figure(b)
	if missing != "" {
		f.Level, f.Say = Stops, p.F("cannot be measured: no %s", missing)
		p.add(about, f)
		return
	}
	const slack = 0.05 // mm: rounding
	f.Figure, f.Want = ln(figure), ln(figure)
	if b.Least != nil {
		v := ln(*b.Least)
		f.Least = &v
	}
	if b.Most != nil {
		v := ln(*b.Most)
		f.Most = &v
	}
	// Want is the bound that is broken, or else the nearer one that holds.
	if b.Most != nil {
		f.Want = ln(*b.Most)
	}
	if b.Least != nil && (b.Most == nil || figure-*b.Least < *b.Most-figure) {
		f.Want = ln(*b.Least)
	}
	if b.Least != nil && figure.MM() < b.Least.MM()-slack || b.Most != nil && figure.MM() > b.Most.MM()+slack {
		f.Level = bad
	}
	p.add(about, f)
}

// figure measures what a bound is about.
func (p *prover) figure(b piece.Bound) (v unit.Length, missing string) {
	of := b.Of
	if of.Girth == "" && len(of.Edges) == 0 && of.Times == 0 {
		return b.Figure, ""
	}
	v = of.Plus
	if of.Girth != "" {
		i := slices.IndexFunc(p.rep.Girths, func(g Girth) bool { return g.Name == of.Girth })
		if i < 0 {
			return 0, p.F("%s girth", say.Name(of.Girth))
		}
		v += p.rep.Girths[i].Draft
	}
	sum, missing := p.length(of.Edges)
	if missing != "" {
		return 0, missing
	}
	v += sum
	if of.Times > 0 {
		at, ok := p.notchFrom(of.Notch, of.Named, of.FromStart)
		if !ok {
			return 0, p.F("notch %s on the %s", say.Name(of.Named), of.Notch)
		}
		v += unit.Length(at) * unit.Length(of.Times)
	}
	return v, ""
}
