package trouser

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// slanted reports whether the pocket mouth cuts the front away.
func slanted(pocket string) bool { return pocket == "slant" || pocket == "straight_slant" }

func (s *shape) slanted() bool { return slanted(s.in.Style["pocket"]) }

// leastHand is the least pocket mouth for a hand (common practice).
const leastHand = 5.75 * unit.Inch

// seamPocketMarks lays a pocket mouth in the side seam.
func (d *drafter) seamPocketMarks() {
	d.Part("front")
	d.Value("pocket.seam_low", d.T("lower end of the mouth, from the waist"), "pocket_seam_top + 6 in", d.T("a hand's breadth and a half for the mouth"))
	d.Along("front.pocket_top", d.T("pocket mouth, upper end"), "front.side", "front.waist_side", false, "pocket_seam_top", d.T("the seam is left open from here"))
	d.Along("front.pocket_low", d.T("pocket mouth, lower end"), "front.side", "front.waist_side", false, "pocket.seam_low", d.T("to here"))
	d.bagMarks()
}

// bagMarks lays how far down and how far in the pocket bag hangs.
func (d *drafter) bagMarks() {
	low := d.Point("front.pocket_low")
	d.Solved("pocket.low_level", d.T("lower end of the mouth below the waist line"), low.Y, d.T("straight down"))
	d.Value("pocket.bottom", d.T("pocket bag, waist line to its bottom"), "pocket.low_level + pocket_depth", d.T("so far below the mouth"))
	inner := d.Point("front.waist_side").X - d.Get("pocket_width")
	crease, fly := d.Point("front.crease_fork").X, d.Point("front.waist_centre").X+d.Get("fly_width")/2
	inner = max(inner, max(crease, fly)+pocketGap)
	d.Solved("pocket.inner", d.T("inner edge of the pocket bag from the centre front"), inner, d.T("clear of the crease and of the fly"), "pocket_width", "fly_width")
}

// seamMouth notches the ends of a mouth in the side seam, on front or back.
func (s *shape) seamMouth(p *piece.Piece) {
	if !s.has("pocket", "seam") {
		return
	}
	side, _ := s.front.Edge("side")
	if p.ID == "back" {
		side, _ = s.back.Edge("side")
	}
	p.Notches = append(p.Notches,
		side.NotchAt(s.along("side", "front.pocket_top"), say.Word("pocket mouth, upper end"), notchPocketTop),
		side.NotchAt(s.along("side", "front.pocket_low"), say.Word("pocket mouth, lower end"), notchPocketLow))
}

// mouthEnds are how far along waist and side of the front a bag begins to reach
// beyond the mouth.
func (s *shape) mouthEnds(waist, side piece.Edge) (top, low float64) {
	if s.has("pocket", "seam") {
		return waist.Sew.Len(), s.along("side", "front.pocket_low")
	}
	mouth := s.rec.Path("front.pocket_mouth")
	top, _ = waist.Sew.Nearest(mouth.Start())
	low, _ = side.Sew.Nearest(mouth.End())
	return top, low
}

// seamPocketPieces are the two facings of the cloth, which are sewn along the
// side seam, and the bags of lining.
func (s *shape) seamPocketPieces() []piece.Piece {
	waist, _ := s.front.Edge("waist")
	side, _ := s.front.Edge("side")
	_, low := s.mouthEnds(waist, side)
	width, seam := s.rule("pocket_facing").MM(), s.rule("seam_allowance")
	foot, _ := side.Sew.At(low + 25)
	in := geom.Pt{X: foot.X - width, Y: foot.Y}
	top, _ := waist.Sew.At(waist.Sew.Len() - width)
	facing := piece.Piece{
		ID: "pocket-facing", Name: say.Word("Pocket facing"), Cloth: piece.Main, Count: 4, Pairs: true, On: "front",
		Note: s.T("one on each bag, along the side seam"),
		Edges: []piece.Edge{
			edge("waist", waist.Sew.Between(waist.Sew.Len()-width, waist.Sew.Len()), s.rule("waist_allowance")),
			edge("side", side.Sew.Between(0, low+25), seam),
			edge("foot", geom.Polyline(foot, in), 0),
			edge("inner edge", geom.Polyline(in, top), 0),
		},
		Match: piece.Match{At: side.NotchAt(s.along("side", "front.hip_side"), "hip", notchHip).At, Along: "side at the hip", Across: "front"},
	}
	facing.Grain = grainWithin(facing.Edges)
	list := []piece.Piece{facing, s.bag("pocket-bag-front", say.Word("Pocket bag, front"), false), s.bag("pocket-bag-back", say.Word("Pocket bag, back"), false)}
	for i := range list {
		list[i].Notches = s.pocketNotches(list[i].Edges)
	}
	return list
}
