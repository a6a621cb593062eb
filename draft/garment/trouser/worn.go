package trouser

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// crease is the crease of a part: from the hem up to the fork, in front up to
// the point of the dart.
func (s *shape) crease(part string) geom.Path {
	top := s.rec.Point(part + ".crease_fork")
	if part == "front" && s.rec.Has("front.dart_point") {
		top = geom.Pt{X: top.X, Y: s.rec.Point("front.dart_point").Y}
	}
	return geom.Polyline(top, s.rec.Point(part+".crease_hem"))
}

// seen are the lines that show on a part when it is worn.
func (s *shape) seen(part string) []piece.Seen {
	var out []piece.Seen
	switch {
	case s.has("crease", "tuck"):
		out = append(out, piece.Seen{Kind: piece.Tucked, Path: s.crease(part), Takes: s.tuck()})
	case !s.has("crease", "none"):
		out = append(out, piece.Seen{Kind: piece.Pressed, Path: s.crease(part)})
	}
	out = append(append(append(out, s.turnUpSeen(part)...), s.zipSeen(part)...), s.liningSeen(part)...)
	if part == "back" {
		return append(out, s.weltSeen()...)
	}
	switch {
	case s.slanted():
		out = append(out, piece.Seen{Kind: piece.Mouth, Path: s.rec.Path("front.pocket_mouth")})
	case s.has("pocket", "seam"):
		out = append(out, piece.Seen{Kind: piece.Mouth, Path: s.rec.Path("front.side").Between(s.rec.Value("pocket_seam_top"), s.rec.Value("pocket.seam_low")).Map(geom.Translate(geom.Vec{X: -mouthInset}))})
	}
	if !s.fly() {
		return out
	}
	return append(out, piece.Seen{Kind: piece.Stitching, Path: s.rec.Path(flyStitching), On: s.lapHand()})
}

// mouthInset is how far beside its seam a mouth is drawn, mm, to be seen.
const mouthInset = 5

func (s *shape) lapHand() piece.Hand {
	if !s.fly() {
		return piece.BothHands
	}
	if s.lap() == "right" {
		return piece.RightHand
	}
	return piece.LeftHand
}

// loopPart is how wide a loop is, as a part of its strip, whose edges are both
// folded in (common practice).
const loopPart = 1.0 / 3

func (s *shape) worn() piece.Worn {
	in := unit.Length(0)
	if s.has("band", "shaped") {
		in = s.rule("band_shape")
	}
	return piece.Worn{
		BandIn: in, Gathered: s.has("closure", "elastic"),
		Band: s.rule("waistband_width"), Lap: s.lapHand(),
		Loops: s.loopPlaces(), LoopWidth: s.rule("loop_strip_width") * loopPart,
	}
}

// loopPlaces sets the loops: an odd one at the centre back, then a pair over
// the front darts, at the sides, and over the back darts. An eighth makes two
// of the one at the centre back (common practice).
func (s *shape) loopPlaces() []piece.Loop {
	n := int(s.in.Rules.Number("belt_loops"))
	front, _ := s.front.Edge("waist")
	back, _ := s.back.Edge("waist")
	at := func(e piece.Edge, part string, mark string, share float64) geom.Pt {
		if mark = part + "." + mark; s.rec.Has(mark) {
			return s.rec.Point(mark)
		}
		p, _ := e.Sew.At(e.Sew.Len() * share)
		return p
	}
	const besideSide = 0.98 // just behind the side seam
	behind, _ := back.Sew.At(back.Sew.Len() * besideSide)
	near, _ := back.Sew.At(20)
	pairs := []piece.Loop{
		{Panel: "front", At: at(front, "front", "dart_leg_in", 0.45)},
		{Panel: "back", At: behind},
		{Panel: "back", At: at(back, "back", "dart_leg_in", 0.45)},
		{Panel: "back", At: near},
	}
	var out []piece.Loop
	if n%2 == 1 {
		out = append(out, piece.Loop{Panel: "back", At: back.Sew.Start()})
	}
	return append(out, pairs[:min(n/2, len(pairs))]...)
}
