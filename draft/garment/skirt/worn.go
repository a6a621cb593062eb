package skirt

import (
	"chalkfold/draft/construct"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
)

// besideZip is how far from the seam a zip is stitched, mm (common practice).
const besideZip = 8

// seen are the lines that show on a part when it is worn.
func (s *shape) seen(part string) []piece.Seen {
	var out []piece.Seen
	if part == "front" {
		if s.has("opening", "side_slits") {
			side := s.path("front", "side")
			_, open := side.Split(side.Len() - s.mm("opening.height").MM())
			out = append(out, piece.Seen{Kind: piece.Stitching, Path: open.Map(geom.Translate(geom.Vec{X: -besideZip}))})
		}
		return out
	}
	if s.has("closure", "zip_back") {
		end := s.point("back", "zip_end")
		top := geom.Pt{X: besideZip, Y: s.point("back", "waist_centre").Y}
		out = append(out, piece.Seen{Kind: piece.Stitching, Path: geom.Polyline(top, geom.Pt{X: besideZip, Y: end.Y}, end)})
	}
	switch at := s.mm0("opening.height").MM(); {
	case s.has("opening", "vent"):
		top, foot := s.point("back", "opening_top"), s.point("back", "hem_centre")
		w := s.rule("vent_width").MM()
		out = append(out, piece.Seen{Kind: piece.Mouth, Path: geom.Polyline(top, foot)},
			piece.Seen{Kind: piece.Stitching, Path: geom.Polyline(top, geom.Pt{X: w, Y: foot.Y - at + w/2}), On: piece.RightHand})
	case s.has("opening", "slit"):
		top, foot := s.point("back", "opening_top"), s.point("back", "hem_centre")
		out = append(out, piece.Seen{Kind: piece.Mouth, Path: geom.Polyline(top, foot)},
			piece.Seen{Kind: piece.Stitching, Path: geom.Polyline(geom.Pt{X: besideZip, Y: top.Y}, geom.Pt{X: besideZip, Y: foot.Y})})
	}
	return out
}

func (s *shape) worn() piece.Worn {
	w := piece.Worn{Band: s.rule("skirt_band_width")}
	if s.has("closure", "zip_back") {
		w.Lap, w.LapBehind = piece.LeftHand, true
	}
	return w
}

// cards are the curves that a tape cannot draw.
func cards() []construct.Card {
	return []construct.Card{
		{Name: say.Word("front hip side"), Line: "front.side", From: "front.waist_side", To: "front.hip_side"},
		{Name: say.Word("back hip side"), Line: "back.side", From: "back.waist_side", To: "back.hip_side"},
		{Name: say.Word("front waist"), Line: "front.waist"},
		{Name: say.Word("back waist"), Line: "back.waist"},
		{Name: say.Word("front hem"), Line: "front.hem"},
		{Name: say.Word("back hem"), Line: "back.hem"},
	}
}

// notions are what the draft knows of: a zip as long as it opens, and what
// closes the band over it (common practice).
func (s *shape) notions() []piece.Notion {
	part, edge := "back", "centre"
	if s.has("closure", "zip_side") {
		part, edge = "front", "side"
	}
	e := s.edge(part, edge)
	zip := s.along(e, s.point(part, "zip_end"))
	if part == "back" {
		zip = e.Sew.Len() - zip
	}
	return []piece.Notion{
		{ID: "zip", Name: say.Word("zip, closed at its lower end"), Count: 1, Least: mm(zip)},
		{ID: "fastening", Name: say.Word("button, or hook and bar, for the band"), Count: 1},
	}
}
