package construct

import (
	"fmt"
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/say"
)

// Builder lays steps down. After the first mistake it lays nothing more and
// Record returns that mistake. Labels, ways and reasons are kept as they are
// given, so give them in the reader's language; its Words are at hand for that.
type Builder struct {
	*say.Words
	rec    *Record
	part   string
	truing string
	err    error
	cache  *Formulas
}

// Formulas keeps parsed formulas between drafts, so that a re-draft parses
// nothing. It is not for use by two goroutines at once; the zero value works.
type Formulas struct{ byText map[string]Formula }

func (f *Formulas) parse(src string) (Formula, error) {
	if got, ok := f.byText[src]; ok {
		return got, nil
	}
	got, err := Parse(src)
	if err == nil {
		if f.byText == nil {
			f.byText = map[string]Formula{}
		}
		f.byText[src] = got
	}
	return got, err
}

// New starts a construction over the named quantities, told in w. formulas may
// be nil.
func New(quantities []Quantity, formulas *Formulas, w *say.Words) *Builder {
	if formulas == nil {
		formulas = &Formulas{}
	}
	q := make(map[string]Quantity, len(quantities))
	for _, x := range quantities {
		q[x.Name] = x
	}
	return &Builder{Words: w, cache: formulas, rec: &Record{
		quants: q, index: make(map[string]int, 128), points: make(map[string]geom.Pt, 64),
	}}
}

// Record returns the construction, or the first mistake made in it.
func (b *Builder) Record() (*Record, error) { return b.rec, b.err }

// Err returns the first mistake so far.
func (b *Builder) Err() error { return b.err }

// Part names the piece that the next steps belong to.
func (b *Builder) Part(name string) { b.part = name }

// Truing lays the steps that body lays under the name of a truing.
func (b *Builder) Truing(name string, body func()) {
	old := b.truing
	b.truing = name
	body()
	b.truing = old
}

func (b *Builder) failf(name, format string, args ...any) {
	if b.err == nil {
		b.err = fmt.Errorf("step %q: %w", name, fmt.Errorf(format, args...))
	}
}

func (b *Builder) get(name string) (Amount, error) {
	if i, ok := b.rec.index[name]; ok {
		s := b.rec.steps[i]
		if s.Length {
			return Amount{s.Value, 1}, nil
		}
		return Amount{s.Value, 0}, nil
	}
	if q, ok := b.rec.quants[name]; ok {
		if q.Length {
			return Amount{q.Value, 1}, nil
		}
		return Amount{q.Value, 0}, nil
	}
	return Amount{}, fmt.Errorf("nothing is called %q", name)
}

func (b *Builder) lay(s Step) {
	if b.err != nil {
		return
	}
	if _, dup := b.rec.index[s.Name]; dup {
		b.failf(s.Name, "this name is taken")
		return
	}
	if _, taken := b.rec.quants[s.Name]; taken {
		b.failf(s.Name, "this name is a measurement's or a rule's; formulas could not tell them apart")
		return
	}
	if !s.finite() {
		b.failf(s.Name, "it comes to no number: measure again, or change the rules it is made of")
		return
	}
	s.Part, s.Truing = b.part, b.truing
	s.at = len(b.rec.steps)
	b.rec.index[s.Name] = s.at
	b.rec.steps = append(b.rec.steps, s)
	if s.Truing != "" {
		b.rec.trues = append(b.rec.trues, s.Name)
	}
	switch s.Kind {
	case KindPoint:
		b.rec.points[s.Name] = s.At
	case KindMove:
		b.rec.points[s.Moves] = s.At
	case KindValue, KindCurve:
	}
}

// eval works out a formula that must give a length (dim 1) or, when plain is
// allowed, a number.
func (b *Builder) eval(name, src string, plain bool) (Formula, Amount) {
	if b.err != nil {
		return Formula{}, Amount{}
	}
	f, err := b.cache.parse(src)
	if err != nil {
		b.failf(name, "%w", err)
		return f, Amount{}
	}
	a, err := f.eval(b.get)
	switch {
	case err != nil:
		b.failf(name, "%w", err)
	case a.Dim == 1, a.Dim == 0 && plain:
	case a.Dim == 0:
		b.failf(name, "formula %q gives a plain number where a length is due", src)
	default:
		b.failf(name, "formula %q gives neither a length nor a number", src)
	}
	return f, a
}

// Value keeps a sum under a name and returns it: mm, or a plain number.
func (b *Builder) Value(name, label, formula, why string) float64 {
	f, a := b.eval(name, formula, true)
	b.lay(Step{
		Name: name, Label: label, Kind: KindValue, Formula: f,
		Value: a.V, Length: a.Dim == 1, Why: why,
	})
	return a.V
}

// Renew gives a sum already kept another value, under a step of its own: from
// here on formulas that use the old name get the new value. Both steps stay.
func (b *Builder) Renew(name, label, old, formula, why string) {
	f, a := b.eval(name, formula, true)
	if b.err != nil {
		return
	}
	i, ok := b.rec.index[old]
	if !ok || b.rec.steps[i].Kind != KindValue {
		b.failf(name, "no sum %q to renew", old)
		return
	}
	if b.rec.steps[i].Length != (a.Dim == 1) {
		b.failf(name, "%q and its new value are not of one kind", old)
		return
	}
	b.lay(Step{
		Name: name, Label: label, Kind: KindValue, Formula: f, Value: a.V, Length: a.Dim == 1,
		Why: why, Moves: old, Before: b.rec.steps[i].Value,
	})
	if b.err == nil {
		b.rec.index[old] = b.rec.index[name]
	}
}

// Edge keeps the distance from an edge of the cloth, named in words, at which
// a line of the draft must lie, and returns it in mm.
func (b *Builder) Edge(name, label, edge, formula, why string) float64 {
	f, a := b.eval(name, formula, false)
	b.lay(Step{
		Name: name, Label: label, Kind: KindValue, Formula: f, Value: a.V, Length: true,
		From: edge, Way: b.T("measured square"), Why: why,
	})
	return a.V
}

// Solved keeps a length that no sum gives: it was found so that what why says
// comes true.
func (b *Builder) Solved(name, label string, mm float64, why string, uses ...string) {
	b.lay(Step{Name: name, Label: label, Kind: KindValue, Value: mm, Length: true, Why: why, Uses: uses})
}

// Ratio keeps a plain number that was found on the drawing, such as a slope.
func (b *Builder) Ratio(name, label string, v float64, why string, uses ...string) {
	b.lay(Step{Name: name, Label: label, Kind: KindValue, Value: v, Why: why, Uses: uses})
}

// Point returns where a mark stands now; the zero point after a mistake.
func (b *Builder) Point(name string) geom.Pt {
	if b.err != nil {
		return geom.Pt{}
	}
	p, ok := b.rec.points[name]
	if !ok {
		b.failf(name, "no such mark yet")
	}
	return p
}

// Get returns the value of an earlier step or quantity; 0 after a mistake.
func (b *Builder) Get(name string) float64 {
	if b.err != nil {
		return 0
	}
	a, err := b.get(name)
	if err != nil {
		b.failf(name, "%w", err)
	}
	return a.V
}

// Origin lays a mark that is measured from the edges of the cloth.
func (b *Builder) Origin(name, label string, at geom.Pt, why string) {
	b.lay(Step{Name: name, Label: label, Kind: KindPoint, At: at, Why: why})
}

// Measure lays a mark a formula's length from another along way.
func (b *Builder) Measure(name, label, from string, way Way, formula, why string) {
	f, a := b.eval(name, formula, false)
	if b.err != nil {
		return
	}
	p := b.Point(from)
	b.lay(Step{
		Name: name, Label: label, Kind: KindPoint, Formula: f, Value: a.V, Length: true,
		From: from, Way: way.Words, Why: why, At: p.Add(way.dir(b, p).Scale(a.V)),
	})
}

// Swing lays a mark where the tape, held at from and a formula's length long,
// meets the level line through level on the side of towards (a sign: +1 right,
// -1 left).
func (b *Builder) Swing(name, label, from, level string, side float64, words, formula, why string) {
	f, a := b.eval(name, formula, false)
	if b.err != nil {
		return
	}
	p, y := b.Point(from), b.Point(level).Y
	d := a.V*a.V - (y-p.Y)*(y-p.Y)
	if d < 0 {
		b.failf(name, "a tape of %.1f mm does not reach the line", a.V)
		return
	}
	b.lay(Step{
		Name: name, Label: label, Kind: KindPoint, Formula: f, Value: a.V, Length: true,
		From: from, Way: words, Why: why, At: geom.Pt{X: p.X + side*math.Sqrt(d), Y: y},
	})
}

// Mid lays a mark half way between two others.
func (b *Builder) Mid(name, label, p, q, why string) {
	if b.err != nil {
		return
	}
	at := b.Point(p).Lerp(b.Point(q), 0.5)
	b.lay(Step{
		Name: name, Label: label, Kind: KindPoint, From: p, Way: b.F("half way to %s", b.label(q)),
		Value: b.Point(p).Dist(at), Length: true, Why: why, At: at,
	})
}

// Place lays a mark at a place found on the drawing; from, way and the
// distance tell the hand how to reach it.
func (b *Builder) Place(name, label, from, way string, at geom.Pt, why string, uses ...string) {
	if b.err != nil {
		return
	}
	b.lay(Step{
		Name: name, Label: label, Kind: KindPoint, From: from, Way: way,
		Value: b.Point(from).Dist(at), Length: true, Why: why, At: at, Uses: uses,
	})
}

// Offset lays a mark found on the drawing, told by how far it lies along the
// straight line from one mark to another, and how far square off that line.
func (b *Builder) Offset(name, label, from, to string, at geom.Pt, why string, uses ...string) {
	if b.err != nil {
		return
	}
	p, dir := b.Point(from), b.Point(to).Sub(b.Point(from)).Unit()
	v := at.Sub(p)
	b.lay(Step{
		Name: name, Label: label, Kind: KindPoint, From: from, To: to, Way: b.F("along the straight line to %s", b.label(to)),
		Value: v.Dot(dir), Length: true, Off: v.Dot(dir.Left()), HasOff: true, Why: why, At: at, Uses: uses,
	})
}

// Move moves a mark already laid to another place, under a step of its own.
func (b *Builder) Move(name, label, point, way string, to geom.Pt, why string) {
	if b.err != nil {
		return
	}
	was := b.Point(point)
	b.lay(Step{
		Name: name, Label: label, Kind: KindMove, Moves: point, From: point, Way: way,
		Value: was.Dist(to), Length: true, Why: why, At: to, Was: was,
	})
}

// Shift moves a mark by a formula's length along way.
func (b *Builder) Shift(name, label, point string, way Way, formula, why string) {
	f, a := b.eval(name, formula, false)
	if b.err != nil {
		return
	}
	was := b.Point(point)
	b.lay(Step{
		Name: name, Label: label, Kind: KindMove, Moves: point, From: point, Way: way.Words, Formula: f,
		Value: a.V, Length: true, Why: why, At: was.Add(way.dir(b, was).Scale(a.V)), Was: was,
	})
}

// Along lays a mark a formula's length along a line already drawn, from its
// start, or back from its end; from is the mark at that end.
func (b *Builder) Along(name, label, line, from string, back bool, formula, why string) {
	f, a := b.eval(name, formula, false)
	if b.err != nil {
		return
	}
	i, ok := b.rec.index[line]
	if !ok || b.rec.steps[i].Kind != KindCurve {
		b.failf(name, "no line %q yet", line)
		return
	}
	path, s := b.rec.steps[i].Path, a.V
	if back {
		s = path.Len() - s
	}
	at, _ := path.At(s)
	b.lay(Step{
		Name: name, Label: label, Kind: KindPoint, Formula: f, Value: a.V, Length: true,
		From: from, Way: b.F("along the %s", b.label(line)), Why: why, At: at,
	})
}

// Into lays a curve that is drawn into a corner, named by its mark.
func (b *Builder) Into(name, label string, path geom.Path, corner, why string, uses ...string) {
	b.Point(corner)
	b.Curve(name, label, path, why, uses...)
	if b.err == nil {
		b.rec.steps[len(b.rec.steps)-1].Corner = corner
	}
}

// Curve lays a line or curve; its value is its length. uses names rules and
// sums that shaped it.
func (b *Builder) Curve(name, label string, path geom.Path, why string, uses ...string) {
	if b.err != nil {
		return
	}
	if len(path) == 0 {
		b.failf(name, "an empty line")
		return
	}
	b.lay(Step{
		Name: name, Label: label, Kind: KindCurve, Path: path, Value: path.Len(), Length: true, Why: why, Uses: uses,
	})
}

// Straight lays straight lines through marks.
func (b *Builder) Straight(name, label, why string, points ...string) {
	pts := make([]geom.Pt, len(points))
	for i, p := range points {
		pts[i] = b.Point(p)
	}
	b.Curve(name, label, geom.Polyline(pts...), why)
}

func (b *Builder) label(name string) string {
	if i, ok := b.rec.index[name]; ok {
		return b.rec.steps[i].Label
	}
	return name
}
