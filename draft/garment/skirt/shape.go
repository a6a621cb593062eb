package skirt

import (
	"chalkfold/draft/construct"
	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

func up(words string) construct.Way       { return construct.Up(words) }
func toCentre(words string) construct.Way { return construct.ToCentre(words) }

// shape reads panels, pieces and claims from a finished construction.
type shape struct {
	*say.Words
	rec         *construct.Record
	in          garment.Input
	front, back piece.Panel
}

func newShape(rec *construct.Record, in garment.Input) *shape {
	s := &shape{Words: in.Format.Words, rec: rec, in: in}
	s.front, s.back = s.panel("front"), s.panel("back")
	return s
}

func (s *shape) rule(id rules.ID) unit.Length     { return s.in.Rules.Length(id) }
func (s *shape) mm(name string) unit.Length       { return unit.Length(s.rec.Value(name)) }
func (s *shape) has(option, choice string) bool   { return s.in.Style[option] == choice }
func (s *shape) path(part, line string) geom.Path { return s.rec.Path(part + "." + line) }
func (s *shape) point(part, mark string) geom.Pt  { return s.rec.Point(part + "." + mark) }
func (s *shape) of(part string) piece.Panel {
	return map[string]piece.Panel{"front": s.front, "back": s.back}[part]
}
func (s *shape) edge(part, name string) piece.Edge      { e, _ := s.of(part).Edge(name); return e }
func (s *shape) along(e piece.Edge, at geom.Pt) float64 { a, _ := e.Sew.Nearest(at); return a }

// backSeam reports whether the back has a seam at its centre.
func (s *shape) backSeam() bool {
	return s.has("closure", "zip_back") || s.has("opening", "vent") || s.has("opening", "slit")
}

func (s *shape) hemAllowance() unit.Length {
	if s.has("shape", "a_line") {
		return s.rule("flared_hem_allowance")
	}
	return s.rule("skirt_hem_allowance")
}

func (s *shape) panel(part string) piece.Panel {
	seam := s.rule("seam_allowance")
	waist := piece.NewEdge(say.Word("waist"), s.path(part, "waist"), s.rule("waist_allowance"))
	side := piece.NewEdge(say.Word("side"), s.path(part, "side"), seam)
	hem := piece.NewEdge(say.Word("hem"), s.path(part, "hem"), s.hemAllowance())
	hem.Turned = true
	centre := piece.NewEdge(say.Word("centre"), s.path(part, "centre"), seam)
	if part == "front" || !s.backSeam() {
		centre.AllowStart, centre.AllowEnd, centre.Fold = 0, 0, true
	}
	waist.Place, side.Place, hem.Place, centre.Place = piece.Top, piece.Side, piece.Foot, piece.Centre
	return piece.Panel{Name: part, Behind: part == "back", Seen: s.seen(part), Edges: []piece.Edge{waist, side, hem, centre}}
}

// numbers of the notches, the same on both pieces of a seam.
const (
	notchHip = iota + 1
	notchZip
	notchSlit
)

// darts lists the darts of a part by their number in the names of steps.
func (s *shape) dartCount(part string) int {
	n := 0
	for s.rec.Has(dartStep(part, n+1, "point")) {
		n++
	}
	return n
}

// dartNames are what the darts of a part are claimed as.
func dartNames(part string, n int) []string {
	switch {
	case part == "front" && n == 1:
		return []string{say.Word("front dart")}
	case part == "front":
		return []string{say.Word("front dart 1"), say.Word("front dart 2")}[:n]
	case n == 1:
		return []string{say.Word("back dart")}
	}
	return []string{say.Word("back dart 1"), say.Word("back dart 2")}[:n]
}

func (s *shape) darts() []piece.Dart {
	var out []piece.Dart
	for _, part := range parts() {
		for i, name := range dartNames(part, s.dartCount(part)) {
			at := func(what string) geom.Pt { return s.rec.Point(dartStep(part, i+1, what)) }
			out = append(out, piece.Dart{Name: name, Panel: part, Edge: "waist", Point: at("point"), Legs: [2]geom.Pt{at("in"), at("out")}, Sewn: true})
		}
	}
	return out
}

// taken is what the darts take in along a part's waist.
func (s *shape) taken(part string) unit.Length {
	var sum unit.Length
	for _, d := range s.darts() {
		if d.Panel == part {
			sum += d.Intake(s.edge(part, "waist"))
		}
	}
	return sum
}
