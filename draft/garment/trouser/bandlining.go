package trouser

import (
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// bandLined reports whether the inner layer of the band is cut from the lining:
// a casing for an elastic is folded from one strip all the same.
func bandLined(closure string, lined bool) bool { return lined && closure != "elastic" }

func (s *shape) bandLined() bool {
	return bandLined(s.in.Style["closure"], s.in.Rules.On("band_lining"))
}

// bandLining is the inner layer of a band that is lined, in one piece also where
// the band is joined. It lies turned over against the band, so its ends are the
// other way round.
func (s *shape) bandLining(ends [2]string) piece.Piece {
	const id = "band-lining"
	name := say.Word("Waistband lining")
	ends[0], ends[1] = ends[1], ends[0]
	wa, sa := s.rule("waist_allowance"), s.rule("seam_allowance")
	var p piece.Piece
	if s.has("band", "shaped") {
		p = s.shapedBand(id, name, piece.Lining, ends, wa, sa)
	} else {
		p = block(id, name, piece.Lining, s.rule("waistband_width"), s.mm("band.length"),
			[4]string{ends[0], "upper edge", ends[1], "waist"}, [4]unit.Length{sa, sa, sa, wa})
		p.CrossGrain = true
	}
	p.Note = s.T("cut to the made-up waist, as the band is: measure the sewn garment first")
	return p
}

// bandLiningSeams claims that the lining of the band fits the band.
func (s *shape) bandLiningSeams() []piece.Seam {
	if !s.bandLined() {
		return nil
	}
	band := []piece.Ref{ofPiece("waistband", "upper edge")}
	if s.bandHalved() {
		band = []piece.Ref{ofPiece("waistband-left", "upper edge"), ofPiece("waistband-right", "upper edge")}
	}
	return []piece.Seam{{
		Name: say.Word("band to its lining"), A: band, B: []piece.Ref{ofPiece("band-lining", "upper edge")},
		Tol: seamTol, Mend: s.T("cut the band and its lining to one length"),
	}}
}
