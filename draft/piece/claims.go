package piece

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// Panel is a whole part of the garment as it goes round the body, before
// pockets are cut out of it: what seams and girths are proved on.
type Panel struct {
	Name  string // "front"
	Edges []Edge // closed, clockwise as seen on the cloth
}

// Edge returns the edge of that name; false when there is none.
func (p Panel) Edge(name string) (Edge, bool) {
	for _, e := range p.Edges {
		if e.Name == name {
			return e, true
		}
	}
	return Edge{}, false
}

// Ring returns the sew line as points within FlattenTol.
func (p Panel) Ring() []geom.Pt { return sewRing(p.Edges) }

// Ref names an edge of a panel, or of a piece by its ID.
type Ref struct{ Panel, Edge string }

// Seam claims that two runs of edges are sewn together.
type Seam struct {
	Name  string
	A, B  []Ref
	LessA unit.Length // taken in along A before it is sewn: darts, tucks
	LessB unit.Length
	// Shorter is how much shorter than A the B side may be: cloth that is
	// stretched on with the iron.
	Shorter unit.Length
	Tol     unit.Length
	Mend    string
}

// Span is one width that goes into a girth: across a panel along the line
// through a mark, or along an edge when Edge is named.
type Span struct {
	Panel   string
	Edge    string
	Through geom.Pt
	Dir     geom.Vec
	// Base, when its points differ, is a line that the width is measured from
	// instead of the outline: the centre line, carried on past the fork curve.
	Base  geom.Curve
	Times int
	Less  unit.Length // taken in once per width: darts, tucks
}

// Girth claims that the finished garment measures body + ease at a level.
type Girth struct {
	Name      string // "hip"
	Body      unit.Length
	Garment   bool // Body was taken of a garment that fits, ease included
	Estimated bool
	Ease      unit.Length // as chosen
	Roomy     bool        // may be larger than body + ease: only too little is a fault
	Spans     []Span
	Mend      string
}

// Angle claims the sum of the inside angles of panels where edges end.
type Angle struct {
	Name    string
	Corners []Ref // the corner at the end of each edge
	Want    float64
	Tol     float64 // degrees
	Mend    string
}

// Dart claims a dart (or a pressed fold) in an edge.
type Dart struct {
	Name        string
	Panel, Edge string
	Point       geom.Pt
	Legs        [2]geom.Pt // on the edge, in its direction
	Sewn        bool
}

// Intake returns how much of the edge's own length lies between the legs.
func (d Dart) Intake(e Edge) unit.Length {
	a, _ := e.Sew.Nearest(d.Legs[0])
	b, _ := e.Sew.Nearest(d.Legs[1])
	return unit.Length(b - a)
}

// Bound claims that a figure lies between two others. A nil bound is open.
type Bound struct {
	Check       string
	Say         string // what the figure is
	Figure      unit.Length
	Least, Most *unit.Length
	Stops       bool // stops the cut when it fails; otherwise to be minded
	Mend        string
	At          *geom.Pt
	Panel       string
}

// Pair claims that notches of one number lie at equal distances along a seam,
// measured from the ends named.
type Pair struct {
	Name string
	A, B NotchAt
}

// NotchAt is a notch on an edge of a panel; From counts from the edge's end
// when Reverse.
type NotchAt struct {
	Ref
	At      geom.Pt
	Reverse bool
	Less    unit.Length // taken in between the end and the notch
}

// Claims is everything that a draft claims of itself, for the proof to test.
type Claims struct {
	Seams  []Seam
	Girths []Girth
	Angles []Angle
	Darts  []Dart
	Bounds []Bound
	Pairs  []Pair
}
