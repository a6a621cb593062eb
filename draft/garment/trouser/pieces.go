package trouser

import (
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

func (s *shape) pieces() ([]piece.Piece, error) {
	list := []piece.Piece{s.frontPiece(), s.backPiece(), s.band(), s.flyFacing(), s.flyShield()}
	if s.has("pocket", "slant") {
		list = append(list, s.pocketPieces()...)
	}
	if s.in.Rules.Number("belt_loops") > 0 {
		list = append(list, s.loops())
	}
	list = append(list, s.interfacings()...)
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
	return geom.Line(geom.Pt{X: top.X, Y: top.Y + 40}, geom.Pt{X: foot.X, Y: foot.Y - 120})
}

func (s *shape) legPiece(part, name string) piece.Piece {
	panel := s.front
	if part == "back" {
		panel = s.back
	}
	p := piece.Piece{
		ID: part, Name: name, Cloth: piece.Main, Count: 2, Pairs: true,
		Edges: append([]piece.Edge(nil), panel.Edges...), Grain: s.grain(part),
	}
	side, _ := panel.Edge("side")
	inseam, _ := panel.Edge("inseam")
	centre, _ := panel.Edge("centre")
	p.Notches = append(p.Notches,
		notchAt(side, s.along("side", "front.hip_side"), "hip", notchHip),
		notchAt(side, s.along("side", "front.knee_out"), "knee", notchKneeOut),
		notchAt(inseam, s.along("inseam", "front.knee_in"), "knee", notchKneeIn),
		notchAt(inseam, s.along("inseam", "front.thigh_in"), "thigh", notchThigh),
		notchNear(centre, s.rec.Point(part+".fork_start"), "fork curve begins", notchFork),
	)
	if s.rec.Has(part + ".dart_point") {
		pt := s.rec.Point(part + ".dart_point")
		legs := [2]geom.Pt{s.rec.Point(part + ".dart_leg_in"), s.rec.Point(part + ".dart_leg_out")}
		label := "dart"
		if part == "front" && s.has("front_dart", "pressed") {
			label = "pressed dart: fold, do not sew"
		}
		waist, _ := panel.Edge("waist")
		for _, l := range legs {
			p.Lines = append(p.Lines, piece.Line{Name: label, Path: geom.Polyline(l, pt)})
			p.Notches = append(p.Notches, notchNear(waist, l, "dart leg", 0))
		}
		p.Marks = append(p.Marks, piece.Mark{Name: label + " point", At: pt})
	}
	if !s.has("crease", "none") {
		top := s.rec.Point(part + ".crease_fork")
		if part == "front" && s.rec.Has("front.dart_point") {
			top = geom.Pt{X: top.X, Y: s.rec.Point("front.dart_point").Y}
		}
		label := "crease"
		if s.has("crease", "tuck") {
			label = "crease tuck"
		}
		p.Lines = append(p.Lines, piece.Line{Name: label, Path: geom.Polyline(top, s.rec.Point(part+".crease_hem"))})
	}
	return p
}

func (s *shape) frontPiece() piece.Piece {
	p := s.legPiece("front", "Front")
	centre, _ := s.front.Edge("centre")
	p.Notches = append(p.Notches, notchNear(centre, s.rec.Point("front.fly_end"), "end of the fly", notchFly))
	if !s.has("pocket", "slant") {
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
	mouth := edge("pocket mouth", s.rec.Path("front.pocket_mouth"), s.rule("seam_allowance"))
	p.Edges = append([]piece.Edge{waist, mouth, side}, p.Edges[2:]...)
	kept := p.Notches[:0:0]
	for _, n := range p.Notches {
		if _, off := gone.Nearest(n.At); off > 0.5 {
			kept = append(kept, n)
		}
	}
	p.Notches = append(kept,
		notchAt(mouth, 0, "pocket mouth at the waist", notchPocketTop),
		notchAt(mouth, mouth.Sew.Len(), "pocket mouth at the side", notchPocketLow))
	return p
}

func (s *shape) backPiece() piece.Piece {
	p := s.legPiece("back", "Back")
	if s.rule("centre_back_inlay") > 0 {
		p.Note = "inlay at the centre back, to let out"
	}
	return p
}

// block is a rectangle with its long side on the grain: w across, h along.
func block(id, name string, cloth piece.Cloth, w, h unit.Length, names [4]string, allow [4]unit.Length) piece.Piece {
	c := [4]geom.Pt{{}, {X: w.MM()}, {X: w.MM(), Y: h.MM()}, {Y: h.MM()}}
	p := piece.Piece{ID: id, Name: name, Cloth: cloth, Count: 1}
	for i := range 4 {
		p.Edges = append(p.Edges, edge(names[i], geom.Polyline(c[i], c[(i+1)%4]), allow[i]))
	}
	x := w.MM() / 2
	p.Grain = geom.Line(geom.Pt{X: x, Y: h.MM() * 0.2}, geom.Pt{X: x, Y: h.MM() * 0.8})
	return p
}

func fold(p piece.Piece, x unit.Length, h unit.Length) piece.Piece {
	p.Lines = append(p.Lines, piece.Line{Name: "fold", Path: geom.Polyline(geom.Pt{X: x.MM()}, geom.Pt{X: x.MM(), Y: h.MM()})})
	return p
}

// band lies along the grain. It is sewn to the waist by its left edge, from
// the front that laps over, round the back, to the lap on the shield.
func (s *shape) band() piece.Piece {
	w, h := 2*s.rule("waistband_width"), s.mm("band.length")
	wa, sa := s.rule("waist_allowance"), s.rule("seam_allowance")
	p := block("waistband", "Waistband", piece.Main, w, h,
		[4]string{"front end", "inner edge", "lap end", "waist"}, [4]unit.Length{sa, wa, sa, wa})
	p = fold(p, w/2, h)
	p.CrossGrain = true
	p.Note = "cut to the made-up waist: measure the sewn garment first"
	waist := p.Edges[3] // runs from the lap end up to the front end
	total := waist.Sew.Len()
	front, back := s.mm("band.front").MM(), s.mm("back.waist_closed").MM()
	for _, n := range []struct {
		at   float64
		name string
		no   int
	}{
		{front, "side seam", notchSide},
		{front + back, "centre back", notchCentreBack},
		{front + 2*back, "side seam", notchSide},
		{2*front + 2*back, "centre front, under the lap", notchFront},
	} {
		p.Notches = append(p.Notches, notchAt(waist, total-n.at, n.name, n.no))
	}
	return p
}

func (s *shape) flyFacing() piece.Piece {
	p := s.flyBlock("fly-facing", "Fly facing")
	p.Note = "for the " + s.lap() + " front, which laps over"
	return p
}

func (s *shape) flyShield() piece.Piece {
	p := s.flyBlock("fly-shield", "Fly shield")
	p.Note = "for the front that lies under the " + s.lap()
	return p
}

// lap is the side, as worn, that lies on top.
func (s *shape) lap() string {
	if s.has("closure", "fly_right") {
		return "right"
	}
	return "left"
}

// flyBlock is as wide and as long as it is cut: the rule gives the cut size,
// so its allowances lie inside it.
func (s *shape) flyBlock(id, name string) piece.Piece {
	sa, wa := s.rule("seam_allowance"), s.rule("waist_allowance")
	w, h := s.mm("fly.cut_width")-2*sa, s.mm("fly.cut_length")-wa-sa
	p := block(id, name, piece.Main, w, h,
		[4]string{"waist", "free edge", "foot", "centre"}, [4]unit.Length{wa, sa, 0, sa})
	// The foot is rounded from the fold to the free edges, flatter on a short fly.
	r := w.MM() / 2
	deep := math.Min(r, h.MM()*0.6)
	right, left := geom.Pt{X: w.MM(), Y: h.MM() - deep}, geom.Pt{Y: h.MM() - deep}
	mid := geom.Pt{X: r, Y: h.MM()}
	p.Edges[1].Sew = geom.Polyline(p.Edges[1].Sew.Start(), right)
	p.Edges[2].Sew = geom.Path{quarter(right, mid, geom.Pt{X: w.MM(), Y: h.MM()}), quarter(mid, left, geom.Pt{Y: h.MM()})}
	p.Edges[2].AllowStart, p.Edges[2].AllowEnd = sa, sa
	p.Edges[3].Sew = geom.Polyline(left, geom.Pt{})
	return fold(p, w/2, h)
}

// quarter is a quarter round from a to b in the corner c; the handle share is
// the usual one for a circle.
func quarter(a, b, c geom.Pt) geom.Curve {
	const k = 0.5522847498
	return geom.Curve{A: a, B: a.Lerp(c, k), C: b.Lerp(c, k), D: b}
}

func (s *shape) loops() piece.Piece {
	p := block("loop-strip", "Belt-loop strip", piece.Main, s.rule("loop_strip_width"), s.mm("loops.strip"),
		[4]string{"end", "edge", "end", "edge"}, [4]unit.Length{})
	p.Note = "cut into " + s.in.Rules.Text("belt_loops") + " equal loops"
	return p
}

func (s *shape) interfacings() []piece.Piece {
	band := block("band-interfacing", "Waistband interfacing", piece.Interfacing, s.rule("waistband_width"), s.mm("band.length"),
		[4]string{"front end", "fold", "lap end", "waist"}, [4]unit.Length{})
	fly := s.flyBlock("fly-interfacing", "Fly interfacing")
	fly.Cloth = piece.Interfacing
	return []piece.Piece{band, fly}
}
