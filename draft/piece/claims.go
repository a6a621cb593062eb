package piece

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Panel is a whole part of the garment as it goes round the body, before
// pockets are cut out of it: what seams and girths are proved on.
type Panel struct {
	Name   string // "front"
	Edges  []Edge // closed, clockwise as seen on the cloth
	Behind bool   // goes round the back of the body
	Like   string // the panel of the left side that this one of the right differs from; "" for others
	Seen   []Seen // on the finished garment
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

// At returns the edge that lies there in the garment as it is worn; false when
// there is none.
func (p Panel) At(place Place) (Edge, bool) {
	for _, e := range p.Edges {
		if e.Place == place {
			return e, true
		}
	}
	return Edge{}, false
}

// Ring returns the sew line as points within FlattenTol.
func (p Panel) Ring() []geom.Pt { return sewRing(p.Edges) }

// Ref names an edge of a panel or of a piece: one of Panel and Piece is given,
// Piece by its ID.
type Ref struct{ Panel, Piece, Edge string }

// String names the edge as "front side".
func (r Ref) String() string { return r.In(nil) }

// In names the edge in the language of w.
func (r Ref) In(w *say.Words) string {
	return w.F("%[1]s %[2]s", say.Name(r.Panel+r.Piece), say.Name(r.Edge))
}

// Seam claims that two runs of edges are sewn together, and so that the
// numbered notches on them lie equally far along.
type Seam struct {
	Name  string
	A, B  []Ref
	LessA unit.Length // taken in along A before it is sewn: darts, tucks
	LessB unit.Length
	// Each, when given, is what is taken in along each run of A: then B must
	// carry a notch wherever two runs of A meet, counted from the end of B.
	Each []unit.Length
	// From is how far from the end of B the first run of A begins.
	From unit.Length
	// Shorter is how much shorter than A the B side may be: cloth that is
	// stretched on with the iron.
	Shorter unit.Length
	// Loose: the edges differ in length by design; only their notches are
	// proved, counted from the ends of both.
	Loose bool
	Tol   unit.Length
	Mend  string
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
	Base geom.Curve
	// Over is where the tape may leave the panel between its ends.
	Over  Over
	Times int
	Less  unit.Length // taken in once per width: darts, tucks
}

// Over is an edge that a tape across a panel may run out over, as a waist that
// dips below a high hip. The tape is then laid through another mark, another way,
// where there is cloth from end to end, and of that width what lies along the
// span's own way counts. Without an edge there is none.
type Over struct {
	Edge    string
	Through geom.Pt
	Dir     geom.Vec
}

// Girth claims that the finished garment measures body + ease at a level.
type Girth struct {
	Name      string // "hip"
	Like      string // its name where left and right do not differ; "" is Name
	Body      unit.Length
	Garment   bool // Body was taken of a garment that fits, ease included
	Estimated bool
	Ease      unit.Length // as chosen
	Roomy     bool        // may be larger than body + ease: only too little is a fault
	Told      bool        // measured and told, not judged: another claim judges it
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

// Bound claims that a figure lies between two others. A nil bound is open; with
// none the figure is only told.
type Bound struct {
	Check       string
	Say         string      // what the figure is
	Figure      unit.Length // when Of measures nothing
	Of          Measured
	Least, Most *unit.Length
	Stops       bool // stops the cut when it fails; otherwise to be minded
	Mend        string
	At          *geom.Pt
	Panel       string
}

// Measured is a figure that the proof takes from the finished outlines: the sum
// of what is given. The zero value measures nothing.
type Measured struct {
	Girth string // a claimed girth, as it was measured
	Edges []Ref  // their lengths
	Notch Ref    // how far a notch lies from the end of its edge ...
	Named string // ... the notch of this name
	// FromStart: that distance is measured from the start of the edge.
	FromStart bool
	Times     int // how often that distance counts
	Plus      unit.Length
}

// Middle claims that a line halves the panel at a level.
type Middle struct {
	Name    string
	Panel   string
	Through geom.Pt // on the line
	Dir     geom.Vec
	Tol     unit.Length
	Mend    string
}

// Turn claims that an edge does not turn by more than Most degrees over any
// stretch of the length Within.
type Turn struct {
	Name   string
	Edge   Ref
	Within unit.Length
	Most   float64
	Mend   string
}

// Claims is everything that a draft claims of itself, for the proof to test.
// Names of claims, and the names of checks, are English and said by whoever
// shows them; what a bound says and every mend are in the reader's language.
type Claims struct {
	Seams  []Seam
	Girths []Girth
	Angles []Angle
	Darts  []Dart
	Bounds []Bound
	Middle []Middle
	Turns  []Turn
	// Mends are the changes that may cure a check, by what it is known by.
	Mends map[string][]Mend
}

// Mend is one change of the job that may cure what a check has found. It is
// only a proposal: whoever offers it sees first whether it does.
type Mend struct {
	// Path is what is changed: "rules.fly_length", "style.front_dart", "drafting",
	// "method", "untrued.hip"; "measurements.body_rise" is to be taken again.
	Path string
	// To is what it is changed to. It is empty for a measurement, and for a rule
	// that is found by Per.
	To string
	// Per is how far the rule goes, in its own numbers, for each millimetre or
	// degree that the figure lacks.
	Per float64
}
