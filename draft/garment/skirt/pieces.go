package skirt

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

func (s *shape) pieces() ([]piece.Piece, error) {
	list := []piece.Piece{s.panelPiece("front", say.Word("Front")), s.panelPiece("back", say.Word("Back")), s.bandPiece()}
	if s.has("lining", "full") {
		list = append(list, s.liningPiece("front", say.Word("Front lining")), s.liningPiece("back", say.Word("Back lining")))
	}
	list = append(list, piece.Rectangle("band-interfacing", say.Word("Waistband interfacing"), piece.Interfacing, s.rule("skirt_band_width"), s.mm("band.length"),
		[4]string{"lap end", "fold", "end", "waist"}, [4]unit.Length{}))
	for i, p := range list {
		var err error
		if list[i], err = piece.Outline(p); err != nil {
			return nil, err
		}
	}
	return list, nil
}

// onFold reports whether a part is cut on the fold.
func (s *shape) onFold(part string) bool { return part == "front" || !s.backSeam() }

// halves sets how often a part is cut: once on the fold, or as a pair.
func (s *shape) halves(part string, p piece.Piece) piece.Piece {
	p.Count, p.On = 1, part
	if !s.onFold(part) {
		p.Count, p.Pairs = 2, true
	}
	hip := s.point(part, "hip_side")
	x := hip.X / 2
	p.Grain = geom.Line(geom.Pt{X: x, Y: s.mm("hip_level").MM()}, geom.Pt{X: x, Y: s.mm("hem_level").MM() - 60})
	p.Match = piece.Match{At: hip, Along: "side at the hip", Across: part}
	return p
}

func (s *shape) panelPiece(part, name string) piece.Piece {
	p := s.halves(part, piece.Piece{ID: part, Name: name, Cloth: piece.Main})
	waist, side, hem, centre := s.edge(part, "waist"), s.edge(part, "side"), s.edge(part, "hem"), s.edge(part, "centre")
	p.Edges = []piece.Edge{waist}
	p.Edges = append(p.Edges, s.slit(side, notReversed)...)
	p.Edges = append(p.Edges, hem)
	if part == "back" && s.has("opening", "vent") {
		p.Edges = append(p.Edges, s.vent()...)
		_, centre.Sew = centre.Sew.Split(s.mm("opening.height").MM())
		p.Edges = append(p.Edges, centre)
	} else {
		p.Edges = append(p.Edges, s.slit(centre, reversed)...)
	}
	p.Notches = s.notches(part)
	for i := range s.dartCount(part) {
		at := func(what string) geom.Pt { return s.rec.Point(dartStep(part, i+1, what)) }
		for _, leg := range []string{"in", "out"} {
			p.Lines = append(p.Lines, piece.Line{Name: say.Word("dart"), Kind: piece.DartLine, Path: geom.Polyline(at(leg), at("point"))})
			p.Notches = append(p.Notches, waist.NotchNear(at(leg), "", 0))
		}
		p.Marks = append(p.Marks, piece.Mark{Name: say.Word("dart point"), At: at("point")})
	}
	return p
}

// reversed edges run up from the hem, others down to it.
const (
	notReversed = false
	reversed    = true
)

// slit splits an edge that stands open at its hem, where there is a slit in it.
func (s *shape) slit(e piece.Edge, up bool) []piece.Edge {
	if s.has("opening", "slit") != up || up && e.Fold || !up && !s.has("opening", "side_slits") || !s.rec.Has("opening.height") {
		return []piece.Edge{e}
	}
	open := piece.NewEdge(say.Word("slit"), nil, s.rule("slit_allowance"))
	height := s.mm("opening.height").MM()
	if up {
		open.Sew, e.Sew = e.Sew.Split(height)
		return []piece.Edge{open, e}
	}
	e.Sew, open.Sew = e.Sew.Split(e.Sew.Len() - height)
	return []piece.Edge{e, open}
}

// vent is what laps over at the centre back, from the hem up.
func (s *shape) vent() []piece.Edge {
	seam := s.rule("seam_allowance")
	hem := piece.NewEdge(say.Word("vent hem"), geom.Polyline(s.point("back", "hem_centre"), s.point("back", "vent_hem")), s.hemAllowance())
	hem.Turned = true
	return []piece.Edge{
		hem,
		piece.NewEdge(say.Word("vent"), s.path("back", "vent"), seam),
		piece.NewEdge(say.Word("slanted top of the vent"), s.path("back", "vent_slant"), seam),
	}
}

// notches are those on the seams of a part: the back's are set as far along as
// the front's, so that the two meet.
func (s *shape) notches(part string) []piece.Notch {
	side, centre := s.edge(part, "side"), s.edge(part, "centre")
	out := []piece.Notch{side.NotchAt(s.along(s.edge("front", "side"), s.point("front", "hip_side")), say.Word("hip"), notchHip)}
	if s.has("closure", "zip_side") {
		out = append(out, side.NotchAt(s.along(s.edge("front", "side"), s.point("front", "zip_end")), zipEnd(), notchZip))
	}
	if s.has("opening", "side_slits") {
		out = append(out, side.NotchAt(s.along(s.edge("front", "side"), s.point("front", "opening_top")), openingTop(), notchSlit))
	}
	if part == "front" || !s.backSeam() {
		return out
	}
	if s.has("closure", "zip_back") {
		out = append(out, centre.NotchNear(s.point("back", "zip_end"), zipEnd(), 0))
	}
	if s.has("opening", "vent") || s.has("opening", "slit") {
		out = append(out, centre.NotchNear(s.point("back", "opening_top"), openingTop(), 0))
	}
	return out
}

// zipEnd and openingTop are the names of the notches where a zip ends and a vent
// or slit begins.
func zipEnd() string     { return say.Word("end of the zip") }
func openingTop() string { return say.Word("top of the opening") }

// bandPiece is the band. It lies along the grain, drawn right side up: its left
// edge is sewn to the waist, and its top end runs on under the other.
func (s *shape) bandPiece() piece.Piece {
	w, h := 2*s.rule("skirt_band_width"), s.mm("band.length")
	wa, sa := s.rule("waist_allowance"), s.rule("seam_allowance")
	p := piece.Rectangle("waistband", say.Word("Waistband"), piece.Main, w, h,
		[4]string{say.Word("lap end"), say.Word("inner edge"), say.Word("end"), "waist"}, [4]unit.Length{sa, wa, sa, wa})
	p = p.FoldedAt(w/2, h)
	p.CrossGrain = true
	if s.in.Rules.On("band_across") {
		p.CrossGrain = false
		y := h.MM() / 2
		p.Grain = geom.Line(geom.Pt{X: w.MM() * 0.2, Y: y}, geom.Pt{X: w.MM() * 0.8, Y: y})
	}
	p.Note = s.T("drawn right side up; cut to the made-up waist: measure the sewn garment first")
	waist := p.Edges[3] // runs from the foot up to the top
	run := s.rule("skirt_band_lap")
	for i, part := range s.bandRuns() {
		p.Notches = append(p.Notches, waist.NotchAt(waist.Sew.Len()-run.MM(), s.bandMarks()[i], 0))
		run += s.mm(part + ".waist_closed")
	}
	return p
}

// bandRuns are the halves of front and back that the band is sewn to, from the
// end that runs on under the other. The left back laps over the right, the front
// over the back (common practice).
func (s *shape) bandRuns() []string {
	if s.has("closure", "zip_side") {
		return []string{"back", "back", "front", "front"}
	}
	return []string{"back", "front", "front", "back"}
}

// bandMarks are what the band meets where each of its runs begins.
func (s *shape) bandMarks() []string {
	if s.has("closure", "zip_side") {
		return []string{say.Word("left side, under the lap"), say.Word("centre back"), say.Word("right side"), say.Word("centre front")}
	}
	return []string{say.Word("centre back, under the lap"), say.Word("right side"), say.Word("centre front"), say.Word("left side")}
}
