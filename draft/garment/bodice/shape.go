package bodice

import (
	"math"

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
}

func newShape(rec *construct.Record, in garment.Input) *shape {
	s := &shape{Words: in.Format.Words, rec: rec, in: in}
	s.front, s.back = s.panel("front"), s.panel("back")
	return s
}

func (s *shape) rule(id rules.ID) unit.Length     { return s.in.Rules.Length(id) }
func (s *shape) mm(name string) unit.Length       { return unit.Length(s.rec.Value(name)) }
func (s *shape) has(option, choice string) bool   { return s.in.Style[option] == choice }
func (s *shape) point(part, mark string) geom.Pt  { return s.rec.Point(part + "." + mark) }
func (s *shape) path(part, line string) geom.Path { return s.rec.Path(part + "." + line) }

func (s *shape) edge(part, name string) piece.Edge {
	p := s.front
	if part == "back" {
		p = s.back
	}
	e, _ := p.Edge(name)
	return e
}

// onFold reports whether a part is cut on the fold.
func (s *shape) onFold(part string) bool { return part == "front" || !s.has("closure", "zip_back") }

func (s *shape) panel(part string) piece.Panel {
	seam, curve := s.rule("seam_allowance"), s.rule("curve_allowance")
	p := piece.Panel{Name: part, Behind: part == "back", Edges: []piece.Edge{
		piece.NewEdge(say.Word("neck"), s.path(part, "neck"), curve),
		piece.NewEdge(say.Word("shoulder"), s.path(part, "shoulder"), seam),
		piece.NewEdge(say.Word("armhole"), s.path(part, "armhole"), curve),
		piece.NewEdge(say.Word("side"), s.path(part, "side"), seam),
		piece.NewEdge(say.Word("waist"), s.path(part, "waist"), s.rule("bodice_foot_allowance")),
		piece.NewEdge(say.Word("centre"), s.path(part, "centre"), seam),
	}}
	for i, at := range []piece.Place{piece.Neck, piece.Shoulder, piece.Armhole, piece.Side, piece.Foot, piece.Centre} {
		p.Edges[i].Place = at
	}
	if s.onFold(part) {
		c := &p.Edges[5]
		c.AllowStart, c.AllowEnd, c.Fold = 0, 0, true
	}
	return p
}

// numbers of the notches, the same on both pieces of a seam.
const notchSide = 1

// darts are those of both parts.
func (s *shape) darts() []piece.Dart {
	var out []piece.Dart
	add := func(name, part, id, edge string) {
		at := func(what string) geom.Pt { return s.point(part, id+"_"+what) }
		if s.rec.Has(part + "." + id + "_point") {
			out = append(out, piece.Dart{Name: name, Panel: part, Edge: edge, Point: at("point"), Legs: [2]geom.Pt{at("leg1"), at("leg2")}, Sewn: true})
		}
	}
	edge := "side"
	if s.has("bust_dart", "from_shoulder") {
		edge = "shoulder"
	}
	add(say.Word("bust dart"), "front", "bustdart", edge)
	add(say.Word("front waist dart"), "front", "waistdart", "waist")
	add(say.Word("back waist dart"), "back", "waistdart", "waist")
	return out
}

// taken is what darts take in along an edge of a part.
func (s *shape) taken(part, edge string) unit.Length {
	var sum unit.Length
	for _, d := range s.darts() {
		if d.Panel == part && d.Edge == edge {
			sum += d.Intake(s.edge(part, edge))
		}
	}
	return sum
}

// sideNotch is how far below the underarm the notch of the side lies: above the
// bust dart.
func (s *shape) sideNotch() float64 {
	at := math.Min(2*25.4, s.edge("back", "side").Sew.Len()/3)
	if s.rec.Has("front.bustdart_leg1") && s.has("bust_dart", "from_side") {
		leg, _ := s.edge("front", "side").Sew.Nearest(s.point("front", "bustdart_leg1"))
		at = math.Min(at, leg*0.6)
	}
	return at
}

func (s *shape) pieces() ([]piece.Piece, error) {
	list := []piece.Piece{s.panelPiece("front", say.Word("Front"), piece.Main), s.panelPiece("back", say.Word("Back"), piece.Main)}
	if s.has("finish", "lined") {
		list = append(list, s.panelPiece("front", say.Word("Front lining"), piece.Lining), s.panelPiece("back", say.Word("Back lining"), piece.Lining))
	} else {
		list = append(list, s.facing("front", say.Word("Front facing")), s.facing("back", say.Word("Back facing")))
	}
	for i, p := range list {
		var err error
		if list[i], err = piece.Outline(p); err != nil {
			return nil, err
		}
	}
	return list, nil
}

// halves sets how often a piece is cut: once on the fold, or as a pair.
func (s *shape) halves(part string, p piece.Piece) piece.Piece {
	p.Count, p.On = 1, part
	if !s.onFold(part) {
		p.Count, p.Pairs = 2, true
	}
	return p
}

func (s *shape) panelPiece(part, name string, cloth piece.Cloth) piece.Piece {
	p := s.halves(part, piece.Piece{ID: part, Name: name, Cloth: cloth})
	if cloth == piece.Lining {
		p.ID += "-lining"
	} else {
		p.Match = piece.Match{At: s.point(part, "underarm"), Along: "side at the underarm", Across: part}
	}
	for _, n := range []string{"neck", "shoulder", "armhole", "side", "waist", "centre"} {
		p.Edges = append(p.Edges, s.edge(part, n))
	}
	x := s.mm("neck_width").MM() * 0.6
	p.Grain = geom.Line(geom.Pt{X: x, Y: s.mm(part + ".scye_level").MM()}, geom.Pt{X: x, Y: s.mm(part+".waist_level").MM() - 40})
	side := s.edge(part, "side")
	p.Notches = append(p.Notches, side.NotchAt(s.sideNotch(), say.Word("side"), notchSide))
	if s.has("closure", "zip_side") {
		back := s.edge("back", "side")
		end, _ := back.Sew.Nearest(s.point("back", "zip_end"))
		p.Notches = append(p.Notches, side.NotchAt(side.Sew.Len()-(back.Sew.Len()-end)-s.overDart(part, back.Sew.Len()-end), say.Word("end of the zip"), 0))
	}
	s.dartsOn(&p, 1)
	return p
}

// overDart is what a zip that reaches so far up from the waist passes of the dart
// in the side of a part.
func (s *shape) overDart(part string, up float64) float64 {
	if part == "back" || !s.rec.Has("front.bustdart_leg1") || !s.has("bust_dart", "from_side") {
		return 0
	}
	side := s.edge("front", "side").Sew
	leg, _ := side.Nearest(s.point("front", "bustdart_leg2"))
	if side.Len()-leg >= up {
		return 0
	}
	return s.taken("front", "side").MM()
}

// dartsOn marks the darts of the panel that a piece lies on, drawn to a share of
// their length.
func (s *shape) dartsOn(p *piece.Piece, share float64) {
	for _, d := range s.darts() {
		e := -1
		for i, x := range p.Edges {
			if x.Name == d.Edge && d.Panel == p.On && x.Sew.Within(d.Legs[0], 1) && x.Sew.Within(d.Legs[1], 1) {
				e = i
			}
		}
		if e < 0 {
			continue
		}
		for _, leg := range d.Legs {
			p.Lines = append(p.Lines, piece.Line{Name: say.Word("dart"), Kind: piece.DartLine, Path: geom.Polyline(leg, leg.Lerp(d.Point, share))})
			p.Notches = append(p.Notches, p.Edges[e].NotchNear(leg, "", 0))
		}
		if share == 1 {
			p.Marks = append(p.Marks, piece.Mark{Name: say.Word("dart point"), At: d.Point})
		}
	}
}

// facing is neck and armhole of a part in one piece.
func (s *shape) facing(part, name string) piece.Piece {
	p := s.halves(part, piece.Piece{ID: part + "-facing", Name: name, Cloth: piece.Main})
	p.Note = s.T("cut it of the interfacing too")
	side, centre := s.edge(part, "side"), s.edge(part, "centre")
	down := s.sideNotch()
	side.Sew, _ = side.Sew.Split(down)
	depth := s.rule("facing_depth").MM()
	_, centre.Sew = centre.Sew.Split(centre.Sew.Len() - depth)
	from, to := side.Sew.End(), centre.Sew.Start()
	h := from.Dist(to) * 0.35
	inner := geom.Path{{A: from, B: from.Add(side.Sew.EndDir().Right().Scale(h)), C: to.Add(geom.Vec{X: h}), D: to}}
	p.Edges = []piece.Edge{
		s.edge(part, "neck"), s.edge(part, "shoulder"), s.edge(part, "armhole"), side,
		piece.NewEdge(say.Word("inner edge"), inner, 0), centre,
	}
	x := s.mm("neck_width").MM() * 0.3
	y := s.point(part, "neck_centre").Y
	p.Grain = geom.Line(geom.Pt{X: x, Y: y + depth*0.3}, geom.Pt{X: x, Y: y + depth*0.9})
	s.dartsOn(&p, 0.4)
	return p
}
