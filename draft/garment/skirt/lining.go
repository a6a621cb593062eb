package skirt

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
)

// liningPiece is a part as it is cut from the lining: shorter, its darts folded.
// Where the skirt has a vent or a slit it is left open.
func (s *shape) liningPiece(part, name string) piece.Piece {
	p := s.halves(part, piece.Piece{ID: part + "-lining", Name: name, Cloth: piece.Lining})
	p.Match = piece.Match{}
	p.Note = s.T("fold the darts, do not sew them")
	waist, side, hem, centre := s.edge(part, "waist"), s.edge(part, "side"), s.edge(part, "hem"), s.edge(part, "centre")
	shorter := s.rule("lining_shorter").MM()
	side.Sew, _ = side.Sew.Split(side.Sew.Len() - shorter)
	_, centre.Sew = centre.Sew.Split(shorter)
	foot, mid := side.Sew.End(), centre.Sew.Start()
	hem.Sew = geom.Polyline(foot, mid)
	if !s.has("shape", "straight") {
		bend := geom.Pt{X: s.mm(part+".hip_width").MM() / 2, Y: mid.Y}
		hem.Sew = hemPath(foot, side.Sew.EndDir().Right(), bend, mid)
	}
	hem.AllowStart, hem.AllowEnd = s.rule("flared_hem_allowance"), s.rule("flared_hem_allowance")
	p.Edges = []piece.Edge{waist, side, hem}
	if top := s.mm0("opening.height").MM() - shorter; part == "back" && s.openBack() && top > 1 {
		open := piece.NewEdge("slit", nil, s.rule("slit_allowance"))
		open.Sew, centre.Sew = centre.Sew.Split(top)
		p.Edges = append(p.Edges, open)
	}
	p.Edges = append(p.Edges, centre)
	p.Notches = []piece.Notch{side.NotchAt(s.along(s.edge("front", "side"), s.point("front", "hip_side")), "hip", notchHip)}
	for i := range s.dartCount(part) {
		at := func(what string) geom.Pt { return s.rec.Point(dartStep(part, i+1, what)) }
		for _, leg := range []string{"in", "out"} {
			p.Lines = append(p.Lines, piece.Line{Name: say.Word("fold, do not sew"), Kind: piece.DartLine, Path: geom.Polyline(at(leg), at(leg).Lerp(at("point"), 0.5))})
			p.Notches = append(p.Notches, waist.NotchNear(at(leg), "", 0))
		}
	}
	return p
}

// openBack reports whether the centre back stands open at the hem.
func (s *shape) openBack() bool { return s.has("opening", "vent") || s.has("opening", "slit") }
