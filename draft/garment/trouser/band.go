package trouser

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// bandHalves are the sums of a band that is joined at the centre back. The
// half of the front that lies under the lap runs on over the fly shield.
func (d *drafter) bandHalves() {
	if !bandHalved(d.in.Style["closure"], d.in.Style["band"], d.in.Rules.On("band_join")) {
		return
	}
	const half, lapped = "band.front + back.waist_closed", " + band_lap"
	left, right := half, half+lapped
	if d.has("closure", "fly_right") {
		left, right = right, left
	}
	d.Value("band.left", d.T("band, left half"), left, d.T("from the front end to the join at the centre back"))
	d.Value("band.right", d.T("band, right half"), right, d.T("from the front end to the join at the centre back"))
}

// bandJoin is the end of a half band.
const bandJoin = "centre back"

// bandPieces are the band, or its halves. It lies along the grain, drawn right
// side up: its left edge is sewn to the waist, its top end comes to the left
// front as worn, its foot to the right. The end under the lap is the one that
// runs on over the fly shield.
func (s *shape) bandPieces() []piece.Piece {
	ends := [2]string{say.Word("front end"), say.Word("lap end")}
	if s.lap() == "right" {
		ends[0], ends[1] = ends[1], ends[0]
	}
	if s.bandLined() {
		return append(s.outerBand(ends), s.bandLining(ends))
	}
	return s.outerBand(ends)
}

// outerBand is the band without a lining of its own.
func (s *shape) outerBand(ends [2]string) []piece.Piece {
	if s.has("band", "shaped") {
		return s.shapedBandPieces(ends)
	}
	if !s.bandHalved() {
		return []piece.Piece{s.bandPart("waistband", say.Word("Waistband"), "band.length", 0, ends)}
	}
	list := []piece.Piece{
		s.bandPart("waistband-left", say.Word("Waistband, left half"), "band.left", 0, [2]string{ends[0], say.Word("centre back")}),
		s.bandPart("waistband-right", say.Word("Waistband, right half"), "band.right", s.mm("band.left"), [2]string{bandJoin, ends[1]}),
	}
	for i := range list {
		e := list[i].Edges[2-2*i]
		if !s.bandLined() {
			list[i].Notches = append(list[i].Notches, notchAt(e, e.Sew.Len()/2, say.Word("fold of the band"), notchBandJoin))
		}
		list[i].Note = s.T("drawn right side up; cut to the made-up waist: measure the sewn garment first; sew both halves together at the centre back")
	}
	return list
}

// bandPart is the stretch of the band that begins from below its top end and is
// as long as the sum named.
func (s *shape) bandPart(id, name, length string, from unit.Length, ends [2]string) piece.Piece {
	w, h := 2*s.rule("waistband_width"), s.mm(length)
	wa, sa := s.rule("waist_allowance"), s.rule("seam_allowance")
	var p piece.Piece
	if s.bandLined() {
		w /= 2
		p = block(id, name, piece.Main, w, h, [4]string{ends[0], "upper edge", ends[1], "waist"}, [4]unit.Length{sa, sa, sa, wa})
	} else {
		p = block(id, name, piece.Main, w, h, [4]string{ends[0], "inner edge", ends[1], "waist"}, [4]unit.Length{sa, wa, sa, wa})
		p = fold(p, w/2, h)
	}
	p.CrossGrain = true
	if s.in.Rules.On("band_across") {
		p.CrossGrain = false
		y := h.MM() / 2
		p.Grain = geom.Line(geom.Pt{X: w.MM() * 0.2, Y: y}, geom.Pt{X: w.MM() * 0.8, Y: y})
	}
	p.Note = s.T("drawn right side up; cut to the made-up waist: measure the sewn garment first")
	s.markBand(&p, from, h)
	return p
}

// lapBefore is the lap, when the band begins with it.
func (s *shape) lapBefore() unit.Length {
	if s.lap() == "right" {
		return s.rule("band_lap")
	}
	return 0
}

// bandSeams claims that the band fits the made-up waist, of which each front and
// each back takes in so much.
func (s *shape) bandSeams(front, back unit.Length) []piece.Seam {
	whole := piece.Seam{
		Name: say.Word("waist to band"), LessA: 2 * (front + back),
		B: []piece.Ref{ofPiece("waistband", "waist")}, From: s.lapBefore(), LessB: s.bandLap(), Tol: seamTol,
		Mend: s.T("cut the band to the made-up waist"),
	}
	for _, r := range s.bandRuns() {
		less := front
		if r.part == "back" {
			less = back
		}
		whole.A, whole.Each = append(whole.A, ref(r.part, "waist")), append(whole.Each, less)
	}
	if !s.bandHalved() {
		return []piece.Seam{whole}
	}
	left, right := whole, whole
	left.Name, right.Name = say.Word("waist to band, left"), say.Word("waist to band, right")
	left.A, left.Each, left.B = whole.A[:2], whole.Each[:2], []piece.Ref{ofPiece("waistband-left", "waist")}
	right.A, right.Each, right.B = whole.A[2:], whole.Each[2:], []piece.Ref{ofPiece("waistband-right", "waist")}
	left.LessA, right.LessA = front+back, front+back
	left.LessB, right.LessB = s.lapBefore(), s.rule("band_lap")-s.lapBefore()
	right.From = 0
	return []piece.Seam{left, right, {
		Name: say.Word("join of the band"), A: []piece.Ref{ofPiece("waistband-left", bandJoin)}, B: []piece.Ref{ofPiece("waistband-right", bandJoin)},
		Tol: seamTol, Mend: s.T("cut both halves of the band to one width"),
	}}
}
