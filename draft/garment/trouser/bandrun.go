package trouser

import (
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// bandRun is a part of the waist that the band runs along, and what it comes to
// at its end.
type bandRun struct{ part, end string }

// bandRuns are the parts of the waist from the band's top end on: from where
// the trousers open, round the body, and back.
func (s *shape) bandRuns() []bandRun {
	const side, back = "side seam", bandJoin
	switch s.in.Style["closure"] {
	case "side_zip": // from the left side over the front
		return []bandRun{{"front", say.Word("centre front")}, {"front", side}, {"back", back}, {"back", say.Word("left side, under the lap")}}
	case "back_zip":
		return []bandRun{{"back", side}, {"front", say.Word("centre front")}, {"front", side}, {"back", say.Word("centre back, under the lap")}}
	case "elastic":
		return []bandRun{{"back", side}, {"front", say.Word("centre front")}, {"front", side}, {"back", back}}
	}
	return []bandRun{{"front", side}, {"back", back}, {"back", side}, {"front", say.Word("centre front, under the lap")}}
}

// bandMark is what meets the band so far below its top end.
type bandMark struct {
	at   unit.Length
	name string
}

func (s *shape) bandMarks() []bandMark {
	runs := s.bandRuns()
	run := s.lapBefore()
	out := []bandMark{{run, runs[len(runs)-1].end}}
	for _, r := range runs {
		if run += s.mm("band.front"); r.part == "back" {
			run += s.mm("back.waist_closed") - s.mm("band.front")
		}
		out = append(out, bandMark{run, r.end})
	}
	return out
}

// bandLap is how far the band runs on; an elastic band is sewn to a ring.
func (s *shape) bandLap() unit.Length {
	if s.has("closure", "elastic") {
		return 0
	}
	return s.rule("band_lap")
}

// bandHalved reports whether the band is joined at the centre back: only a
// straight one that opens in front can be.
func bandHalved(closure, band string, joined bool) bool {
	return joined && flyClosed(closure) && band == "straight"
}

func (s *shape) bandHalved() bool {
	return bandHalved(s.in.Style["closure"], s.in.Style["band"], s.in.Rules.On("band_join"))
}

// shapedBand is one layer of a band that is closer at its upper edge: a part of
// a ring. Its ends are named from the top.
func (s *shape) shapedBand(id, name string, cloth piece.Cloth, ends [2]string, wa, sa unit.Length) piece.Piece {
	w, l := s.rule("waistband_width").MM(), s.rec.Value("band.length")
	radius := w * l / s.rule("band_shape").MM() // of the waist seam: the edges differ by band_shape
	half := l / radius / 2
	at := func(r, turn float64) geom.Pt {
		return geom.Pt{X: radius - r*math.Cos(turn), Y: l/2 + r*math.Sin(turn)}
	}
	arc := func(r, from, to float64) geom.Path {
		const pieces = 8
		var out geom.Path
		step := (to - from) / pieces
		k := 4.0 / 3 * math.Tan(step/4) * r
		way := func(turn float64) geom.Vec { return geom.Vec{X: math.Sin(turn), Y: math.Cos(turn)} }
		for i := range pieces {
			a, b := from+float64(i)*step, from+float64(i+1)*step
			out = append(out, geom.Curve{A: at(r, a), B: at(r, a).Add(way(a).Scale(k)), C: at(r, b).Add(way(b).Scale(-k)), D: at(r, b)})
		}
		return out
	}
	upper := radius - w
	p := piece.Piece{ID: id, Name: name, Cloth: cloth, Count: 1, Edges: []piece.Edge{
		edge(ends[0], geom.Polyline(at(radius, -half), at(upper, -half)), sa),
		edge(say.Word("upper edge"), arc(upper, -half, half), wa),
		edge(ends[1], geom.Polyline(at(upper, half), at(radius, half)), sa),
		edge("waist", arc(radius, half, -half), wa),
	}}
	p.Grain = geom.Line(geom.Pt{X: w / 2, Y: l * 0.35}, geom.Pt{X: w / 2, Y: l * 0.65})
	return p
}

// shapedBandPieces are both layers of a shaped band.
func (s *shape) shapedBandPieces(ends [2]string) []piece.Piece {
	p := s.shapedBand("waistband", say.Word("Waistband"), piece.Main, ends, s.rule("waist_allowance"), s.rule("seam_allowance"))
	if s.bandLined() {
		p.Note = s.T("drawn right side up; cut to the made-up waist: measure the sewn garment first")
	} else {
		p.Count, p.Pairs = 2, true
		p.Note = s.T("one for outside, one turned over for inside; cut to the made-up waist: measure the sewn garment first")
	}
	s.markBand(&p, 0, s.mm("band.length"))
	return []piece.Piece{p}
}

// markBand notches a band that begins from below the top end where parts of the
// waist meet.
func (s *shape) markBand(p *piece.Piece, from, length unit.Length) {
	waist := p.Edges[3] // runs from the foot up to the top
	for _, m := range s.bandMarks() {
		if at := (m.at - from).MM(); at > 1 && at < length.MM()-1 {
			p.Notches = append(p.Notches, notchAt(waist, waist.Sew.Len()-at, m.name, 0))
		}
	}
}
