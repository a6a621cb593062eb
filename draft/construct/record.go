package construct

import (
	"fmt"

	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// Quantity is a named value that formulas may use: a measurement or a rule.
type Quantity struct {
	Name   string // in formulas: "hip_girth"
	Label  string // in words: "hip"
	Value  float64
	Length bool   // Value is in mm; otherwise a plain number
	Source string // "measured", "estimated ...", "house rule", "job rule" ...
}

// Kind says what a step lays down.
type Kind uint8

// The kinds of step.
const (
	KindValue Kind = iota // a sum that is kept: "a quarter of the hip"
	KindPoint             // a mark
	KindMove              // a mark moved from where an earlier step put it
	KindCurve             // a line or curve between marks
)

// String names the kind.
func (k Kind) String() string {
	return [...]string{"value", "point", "move", "line"}[k]
}

// Step is one named act of the construction. Steps are not changed once laid.
type Step struct {
	Name    string // unique: "front.fork_tip"
	Label   string // in words: "front fork tip"
	Part    string // the piece being drafted: "front", "back"; "" for sums
	Kind    Kind
	Formula Formula // zero when the step follows from marks alone
	Length  bool    // Value is a length in mm
	Value   float64
	From    string  // the step that it is measured from, or an edge of the cloth in words; "" for an origin
	Way     string  // in words: "down the centre front", "square to ..."
	Why     string  // the rule of thumb in a sentence
	Truing  string  // the truing it belongs to; "" for what is spoken
	At      geom.Pt // KindPoint, KindMove: where the mark is
	To      string  // with Off: the mark that the tape is laid towards
	Off     float64 // mm square off that line, positive to the left of the tape
	HasOff  bool
	Corner  string   // of a curve: the mark of the corner that it is drawn into
	Uses    []string // rules and sums that shaped it without being in its formula
	Was     geom.Pt  // KindMove: where it was
	Moves   string   // KindMove: the point step that it moves; a renewed sum: the sum it takes the place of
	Before  float64  // a renewed sum: the value before
	Path    geom.Path
	at      int // its place in the record
}

// Mm returns the value as a length; 0 when it is a plain number.
func (s Step) Mm() unit.Length {
	if !s.Length {
		return 0
	}
	return unit.Length(s.Value)
}

// Record is a finished construction.
type Record struct {
	steps  []Step
	index  map[string]int // value, point and curve steps by name
	points map[string]geom.Pt
	quants map[string]Quantity
	trues  []string
}

// Steps returns the steps in order. The slice is the record's own: read only.
func (r *Record) Steps() []Step { return r.steps }

// Find returns the step of that name.
func (r *Record) Find(name string) (Step, bool) {
	i, ok := r.index[name]
	if !ok {
		return Step{}, false
	}
	return r.steps[i], true
}

// asOf returns the value step that a name stood for before place at: a sum may
// have been renewed since.
func (r *Record) asOf(name string, at int) (Step, bool) {
	s, ok := r.Find(name)
	for i := min(at, len(r.steps)) - 1; ok && s.at >= at && i >= 0; i-- {
		if o := r.steps[i]; o.Name == name || o.Kind == KindValue && o.Moves == name {
			s = o
		}
	}
	return s, ok
}

// Quantity returns the measurement or rule of that name.
func (r *Record) Quantity(name string) (Quantity, bool) {
	q, ok := r.quants[name]
	return q, ok
}

// Has reports whether a step of that name was laid.
func (r *Record) Has(name string) bool { _, ok := r.index[name]; return ok }

// Point returns where the mark of that name came to stand, moves included. It
// panics when there is none: the name is the programmer's.
func (r *Record) Point(name string) geom.Pt {
	p, ok := r.points[name]
	if !ok {
		panic(fmt.Sprintf("construct: no point %q", name))
	}
	return p
}

// Path returns the line or curve of that name. It panics when there is none.
func (r *Record) Path(name string) geom.Path {
	i, ok := r.index[name]
	if !ok || r.steps[i].Kind != KindCurve {
		panic(fmt.Sprintf("construct: no line %q", name))
	}
	return r.steps[i].Path
}

// Value returns the value of a step, or of a measurement or rule; mm when it
// is a length. It panics when there is none.
func (r *Record) Value(name string) float64 {
	if i, ok := r.index[name]; ok {
		return r.steps[i].Value
	}
	if q, ok := r.quants[name]; ok {
		return q.Value
	}
	panic(fmt.Sprintf("construct: no value %q", name))
}

// Trues returns the names of the trued steps in the order they were laid.
func (r *Record) Trues() []string { return r.trues }
