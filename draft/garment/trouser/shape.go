package trouser

import (
	"chalkfold/draft/construct"
	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// shape reads panels, pieces and claims from a finished construction.
type shape struct {
	*say.Words
	rec         *construct.Record
	in          garment.Input
	front, back piece.Panel
	by          *balanced // nil by the quarter method
}

func newShape(rec *construct.Record, in garment.Input) *shape {
	s := &shape{Words: in.Format.Words, rec: rec, in: in}
	s.front, s.back = s.panel("front"), s.panel("back")
	return s
}

func (s *shape) rule(id rules.ID) unit.Length { return s.in.Rules.Length(id) }
func (s *shape) mm(name string) unit.Length   { return unit.Length(s.rec.Value(name)) }
func (s *shape) has(option, choice string) bool {
	return s.in.Style[option] == choice
}

func edge(name string, sew geom.Path, allow unit.Length) piece.Edge {
	return piece.NewEdge(name, sew, allow)
}

func (s *shape) panel(part string) piece.Panel {
	seam := s.rule("seam_allowance")
	path := func(n string) geom.Path { return s.rec.Path(part + "." + n) }
	hem := edge(say.Word("hem"), path("hem"), s.rule("hem_allowance"))
	hem.Turned = true
	if s.turnedUp() { // the cloth goes on below
		hem.AllowStart, hem.AllowEnd, hem.Extended = 0, 0, true
	}
	inseam := edge(say.Word("inseam"), path("inseam").Reverse(), seam)
	inseam.Corner = piece.Square
	centre := edge(say.Word("centre"), path("centre"), seam)
	if part == "back" {
		centre.AllowEnd = seam + s.rule("centre_back_inlay")
	}
	p := piece.Panel{Name: part, Behind: part == "back", Seen: s.seen(part), Edges: []piece.Edge{
		edge(say.Word("waist"), path("waist"), s.rule("waist_allowance")),
		edge(say.Word("side"), path("side"), seam),
		hem, inseam,
		edge(say.Word("fork"), path("fork").Reverse(), seam),
		centre,
	}}
	for i, at := range []piece.Place{piece.Top, piece.Side, piece.Foot, piece.BetweenLegs, piece.Fork, piece.Centre} {
		p.Edges[i].Place = at
	}
	return p
}

// numbers of the notches, the same on both pieces of a seam.
const (
	notchHip = iota + 1
	notchKneeOut
	notchKneeIn
	notchThigh
	notchFly
	notchPocketTop
	notchPocketLow
	notchForkJoin
	notchBandJoin
	notchZip
)

func notchAt(e piece.Edge, along float64, name string, number int) piece.Notch {
	return e.NotchAt(along, name, number)
}

func notchNear(e piece.Edge, at geom.Pt, name string, number int) piece.Notch {
	return e.NotchNear(at, name, number)
}

// along is how far along an edge of the front a mark lies: the back's notch is
// set equally far, so that the two meet.
func (s *shape) along(edgeName, mark string) float64 {
	e, _ := s.front.Edge(edgeName)
	a, _ := e.Sew.Nearest(s.rec.Point(mark))
	return a
}
