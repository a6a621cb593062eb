package trouser

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

func (s *shape) pieces() ([]piece.Piece, error) {
	list := append([]piece.Piece{s.frontPiece()}, s.backPieces()...)
	list = append(list, s.bandPieces()...)
	if s.fly() {
		list = append(list, s.flyFacing(), s.flyShield())
	}
	switch {
	case s.slanted():
		list = append(list, s.pocketPieces()...)
	case s.has("pocket", "seam"):
		list = append(list, s.seamPocketPieces()...)
	}
	if s.in.Rules.Number("belt_loops") > 0 {
		list = append(list, s.loops())
	}
	list = append(list, s.weltPieces()...)
	list = append(list, s.interfacings()...)
	list = append(list, s.linings()...)
	for i, p := range list {
		var err error
		if list[i], err = piece.Outline(p); err != nil {
			return nil, err
		}
	}
	return list, nil
}

func (s *shape) grain(part string) geom.Curve {
	top, foot := s.rec.Point(part+".crease_fork"), s.rec.Point(part+".crease_hem")
	from, to := grainEnds(top.Y, foot.Y)
	return geom.Line(geom.Pt{X: top.X, Y: from}, geom.Pt{X: foot.X, Y: to})
}

func (s *shape) legPiece(part, name string) piece.Piece {
	panel := s.front
	if part == "back" {
		panel = s.back
	}
	p := piece.Piece{
		ID: part, Name: name, Cloth: piece.Main, Count: 2, Pairs: true, On: part,
		Edges: append([]piece.Edge(nil), panel.Edges...), Grain: s.grain(part),
	}
	side, _ := panel.Edge("side")
	inseam, _ := panel.Edge("inseam")
	waist, _ := panel.Edge("waist")
	p.Notches = append(p.Notches,
		notchAt(side, s.along("side", "front.hip_side"), "hip", notchHip),
		notchAt(side, s.along("side", "front.knee_out"), s.kneeName(), notchKneeOut),
		notchAt(inseam, s.along("inseam", "front.knee_in"), s.kneeName(), notchKneeIn),
		notchAt(inseam, s.along("inseam", "front.thigh_in"), "thigh", notchThigh),
	)
	p.Match = piece.Match{At: p.Notches[0].At, Along: "side at the hip", Across: part}
	for _, mark := range s.dartMarks(part) {
		mark = part + "." + mark
		pt := s.rec.Point(mark + "_point")
		legs := [2]geom.Pt{s.rec.Point(mark + "_leg_in"), s.rec.Point(mark + "_leg_out")}
		label, point := s.dartLabels(part)
		for _, l := range legs {
			p.Lines = append(p.Lines, piece.Line{Name: label, Kind: piece.DartLine, Path: geom.Polyline(l, pt)})
			p.Notches = append(p.Notches, notchNear(waist, l, "", 0))
		}
		p.Marks = append(p.Marks, piece.Mark{Name: point, At: pt})
	}
	if !s.has("crease", "none") {
		label := say.Word("crease")
		if s.has("crease", "tuck") {
			label = say.Word("crease tuck")
		}
		p.Lines = append(p.Lines, piece.Line{Name: label, Kind: piece.CreaseLine, Path: s.crease(part)})
	}
	s.zipNotch(&p)
	s.turnUpOn(&p)
	return p
}

func (s *shape) frontPiece() piece.Piece {
	p := s.legPiece("front", say.Word("Front"))
	centre, _ := s.front.Edge("centre")
	if s.fly() {
		p.Notches = append(p.Notches, notchNear(centre, s.rec.Point("front.fly_end"), flyEnd, notchFly))
	}
	s.seamMouth(&p)
	if !s.slanted() {
		return p
	}
	top, low := s.rec.Point("front.pocket_top"), s.rec.Point("front.pocket_low")
	waist, side := p.Edges[0], p.Edges[1]
	sTop, _ := waist.Sew.Nearest(top)
	sLow, _ := side.Sew.Nearest(low)
	var overMouth, besideMouth geom.Path // what the mouth cuts away
	waist.Sew, overMouth = waist.Sew.Split(sTop)
	besideMouth, side.Sew = side.Sew.Split(sLow)
	gone := overMouth.Join(besideMouth)
	mouth := edge(say.Word("pocket mouth"), s.rec.Path("front.pocket_mouth"), s.rule("seam_allowance"))
	p.Edges = append([]piece.Edge{waist, mouth, side}, p.Edges[2:]...)
	kept := p.Notches[:0:0]
	for _, n := range p.Notches {
		if _, off := gone.Nearest(n.At); off > 0.5 {
			kept = append(kept, n)
		}
	}
	p.Notches = append(kept,
		notchAt(mouth, 0, say.Word("pocket mouth at the waist"), notchPocketTop),
		notchAt(mouth, mouth.Sew.Len(), say.Word("pocket mouth at the side"), notchPocketLow))
	return p
}

func (s *shape) backPieces() []piece.Piece {
	p := s.legPiece("back", say.Word("Back"))
	s.seamMouth(&p)
	s.weltOn(&p)
	if s.rule("centre_back_inlay") > 0 {
		p.Note = s.T("inlay at the centre back, to let out")
	}
	if !s.rec.Has("back.join") {
		return []piece.Piece{p}
	}
	return s.pieced(p)
}

// flyEnd is the name of the notch where the zip ends.
const flyEnd = "end of the fly" // a step is labelled so too

func block(id, name string, cloth piece.Cloth, w, h unit.Length, names [4]string, allow [4]unit.Length) piece.Piece {
	return piece.Rectangle(id, name, cloth, w, h, names, allow)
}

func fold(p piece.Piece, x unit.Length, h unit.Length) piece.Piece { return p.FoldedAt(x, h) }

func (s *shape) flyFacing() piece.Piece {
	p := s.flyBlock("fly-facing", say.Word("Fly facing"))
	p.Note = s.F("for the %s front, which laps over; fold it double and round the lower corner at the fold", s.T(s.lap()))
	return p
}

func (s *shape) flyShield() piece.Piece {
	p := s.flyBlock("fly-shield", say.Word("Fly shield"))
	p.Note = s.F("for the front that lies under the %s; fold it double and round the lower corner at the fold", s.T(s.lap()))
	return p
}

// lap is the side, as worn, that lies on top.
func (s *shape) lap() string {
	if s.has("closure", "fly_right") {
		return say.Word("right")
	}
	return say.Word("left")
}

// hidden is the cloth of what does not show when the trousers are worn.
func (s *shape) hidden() piece.Cloth {
	if s.in.Rules.On("hidden_lining") {
		return piece.Lining
	}
	return piece.Main
}

// flyBlock is as wide and as long as it is cut: the rule gives the cut size, so
// its allowances lie inside it. It is folded down the middle, and both long
// edges together are sewn along the centre front.
func (s *shape) flyBlock(id, name string) piece.Piece {
	sa, wa := s.rule("seam_allowance"), s.rule("waist_allowance")
	w, h := s.mm("fly.cut_width")-2*sa, s.mm("fly.cut_length")-wa-sa
	p := block(id, name, s.hidden(), w, h,
		[4]string{"waist", say.Word("centre front, inner layer"), "foot", say.Word("centre front")}, [4]unit.Length{wa, sa, sa, sa})
	fly := s.mm("fly.length").MM()
	p.Notches = append(p.Notches,
		notchAt(p.Edges[3], p.Edges[3].Sew.Len()-fly, flyEnd, notchFly), notchAt(p.Edges[1], fly, flyEnd, notchFly))
	return fold(p, w/2, h)
}

// quarter is a quarter round from a to b in the corner c; the handle share is
// the usual one for a circle.
func quarter(a, b, c geom.Pt) geom.Curve {
	const k = 0.5522847498
	return geom.Curve{A: a, B: a.Lerp(c, k), C: b.Lerp(c, k), D: b}
}

func (s *shape) loops() piece.Piece {
	p := block("loop-strip", say.Word("Belt-loop strip"), piece.Main, s.rule("loop_strip_width"), s.mm("loops.strip"),
		[4]string{say.Word("end"), say.Word("edge"), "end", "edge"}, [4]unit.Length{})
	p.Note = s.F("cut into %s equal loops", s.in.Rules.Text("belt_loops"))
	return p
}

func (s *shape) interfacings() []piece.Piece {
	var out []piece.Piece
	ends := [2]string{"front end", "lap end"}
	switch {
	case s.has("closure", "elastic"): // the casing stays soft
	case s.has("band", "shaped"):
		out = append(out, s.shapedBand("band-interfacing", say.Word("Waistband interfacing"), piece.Interfacing, ends, 0, 0))
	default:
		out = append(out, block("band-interfacing", say.Word("Waistband interfacing"), piece.Interfacing, s.rule("waistband_width"), s.mm("band.length"),
			[4]string{ends[0], "fold", ends[1], "waist"}, [4]unit.Length{}))
	}
	if s.fly() {
		fly := s.flyBlock("fly-interfacing", say.Word("Fly interfacing"))
		fly.Cloth, fly.Note = piece.Interfacing, s.T("for the fly facing")
		out = append(out, fly)
	}
	return out
}
