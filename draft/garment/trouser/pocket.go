package trouser

import (
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
)

// pocketPieces are the mouth facing and side facing of the main cloth, and
// the two bags of lining: one under the front, cut away at the mouth, and one
// behind the hand, up to the side seam.
func (s *shape) pocketPieces() []piece.Piece {
	seam := s.rule("seam_allowance")
	wa := s.rule("waist_allowance")
	waist, _ := s.front.Edge("waist")
	side, _ := s.front.Edge("side")
	mouth := s.rec.Path("front.pocket_mouth")
	sTop, _ := waist.Sew.Nearest(mouth.Start())
	sLow, _ := side.Sew.Nearest(mouth.End())
	facing := s.rule("pocket_facing").MM()

	// Mouth facing: as wide as the rule says, along the mouth.
	fw := math.Min(facing, s.pocketReach(waist, sTop))
	inTop, _ := waist.Sew.At(sTop - fw)
	inLow, _ := side.Sew.At(sLow + facing)
	mf := piece.Piece{
		ID: "pocket-mouth-facing", Name: say.Word("Pocket mouth facing"), Cloth: s.hidden(), Count: 2, Pairs: true, On: "front",
		Edges: []piece.Edge{
			edge("waist", waist.Sew.Between(sTop-fw, sTop), wa),
			edge("pocket mouth", mouth, seam),
			edge("side", side.Sew.Between(sLow, sLow+facing), seam),
			edge(say.Word("inner edge"), hollowed(inTop, inLow, s.pocketHollow()).Reverse(), 0),
		},
	}
	mf.Grain = grainWithin(mf.Edges)

	// Side facing: the cloth seen in the mouth, up to the side seam.
	sf := piece.Piece{
		ID: "side-facing", Name: say.Word("Side facing"), Cloth: piece.Main, Count: 2, Pairs: true, On: "front",
		Edges: []piece.Edge{
			edge("waist", waist.Sew.Between(sTop-fw, waist.Sew.Len()), wa),
			edge("side", side.Sew.Between(0, sLow+facing), seam),
			edge(say.Word("inner edge"), geom.Polyline(inLow, inTop), 0),
		},
		// It fills the corner that the mouth cuts away.
		Match: piece.Match{At: notchAt(side, s.along("side", "front.hip_side"), "hip", notchHip).At, Along: "side at the hip", Across: "front"},
	}
	sf.Grain = grainWithin(sf.Edges)
	list := []piece.Piece{mf, sf, s.bag("pocket-bag-front", say.Word("Pocket bag, front"), true), s.bag("pocket-bag-back", say.Word("Pocket bag, back"), false)}
	for i := range list {
		list[i].Notches = s.pocketNotches(list[i].Edges)
	}
	return list
}

// pocketHollow is how far the mouth is hollowed, mm.
func (s *shape) pocketHollow() float64 {
	if s.has("pocket", "straight_slant") {
		return 0
	}
	return s.rule("pocket_hollow").MM()
}

// pocketNotches marks, on whichever edges they lie, the ends of the mouth and
// the hip: a pocket that reaches below the hip line takes its notch along.
func (s *shape) pocketNotches(edges []piece.Edge) []piece.Notch {
	var out []piece.Notch
	for _, n := range []struct {
		mark, name string
		number     int
	}{
		{"front.pocket_top", "pocket mouth at the waist", notchPocketTop},
		{"front.pocket_low", "pocket mouth at the side", notchPocketLow},
		{"front.hip_side", "hip", notchHip},
	} {
		at := s.rec.Point(n.mark)
		for _, e := range edges {
			if along, off := e.Sew.Nearest(at); off < 0.1 {
				out = append(out, notchAt(e, along, n.name, n.number))
				break
			}
		}
	}
	return out
}

// pocketReach is how much waist lies between the pocket mouth and what facing
// and bag must keep clear of: the dart, the crease, the fly.
func (s *shape) pocketReach(waist piece.Edge, sTop float64) float64 {
	from := s.along("waist", "front.waist_centre")
	if at := waist.Sew.CrossLine(geom.Pt{X: s.rec.Value("pocket.inner")}, geom.Vec{Y: 1}); len(at) > 0 {
		from = at[len(at)-1]
	}
	for _, mark := range s.dartMarks("front") {
		leg, _ := waist.Sew.Nearest(s.rec.Point("front." + mark + "_leg_out"))
		from = math.Max(from, leg)
	}
	return math.Max(sTop-from-2, pocketGap/2)
}

// bag hangs from the waist to pocket.bottom, from the inner edge to the side.
func (s *shape) bag(id, name string, cutAway bool) piece.Piece {
	seam, wa := s.rule("seam_allowance"), s.rule("waist_allowance")
	waist, _ := s.front.Edge("waist")
	side, _ := s.front.Edge("side")
	sTop, sLow := s.mouthEnds(waist, side)
	inner, bottom := s.rec.Value("pocket.inner"), s.rec.Value("pocket.bottom")
	sIn := sTop - s.pocketReach(waist, sTop)
	top, _ := waist.Sew.At(sIn)
	sideEnd := sLow + 25
	corner, _ := side.Sew.At(sideEnd)
	x0 := math.Min(inner, corner.X-60)
	// A round foot, a quarter on each side.
	round := math.Max(10, math.Min(60, bottom-corner.Y-5))
	mid := geom.Pt{X: (corner.X + x0) / 2, Y: bottom}
	right, left := geom.Pt{X: corner.X, Y: bottom - round}, geom.Pt{X: x0, Y: bottom - round}
	foot := geom.Path{
		geom.Line(corner, right),
		quarter(right, mid, geom.Pt{X: corner.X, Y: bottom}),
		quarter(mid, left, geom.Pt{X: x0, Y: bottom}),
	}
	rise := math.Min(60, (bottom-top.Y)/3)
	in := geom.Path{{A: foot.End(), B: geom.Pt{X: x0, Y: foot.End().Y - rise}, C: geom.Pt{X: top.X, Y: top.Y + rise}, D: top}}
	p := piece.Piece{ID: id, Name: name, Cloth: piece.Lining, Count: 2, Pairs: true, On: "front", AnyGrain: true, Grain: geom.Line(
		geom.Pt{X: (x0 + corner.X) / 2, Y: top.Y + 80}, geom.Pt{X: (x0 + corner.X) / 2, Y: bottom - 60})}
	tail := []piece.Edge{edge(say.Word("foot"), foot, seam), edge("inner edge", in, seam)}
	if cutAway {
		p.Edges = append([]piece.Edge{
			edge("waist", waist.Sew.Between(sIn, sTop), wa), edge("pocket mouth", s.rec.Path("front.pocket_mouth"), seam),
			edge("side", side.Sew.Between(sLow, sideEnd), seam),
		}, tail...)
		return p
	}
	p.Edges = append([]piece.Edge{
		edge("waist", waist.Sew.Between(sIn, waist.Sew.Len()), wa), edge("side", side.Sew.Between(0, sideEnd), seam),
	}, tail...)
	return p
}
