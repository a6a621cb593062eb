package trouser

import (
	"chalkfold/draft/body"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// flyClosed reports whether the trousers open by a fly.
func flyClosed(closure string) bool { return closure == "fly_left" || closure == "fly_right" }

func (s *shape) fly() bool { return flyClosed(s.in.Style["closure"]) }

func (d *drafter) fly() bool { return flyClosed(d.in.Style["closure"]) }

// zipEnd is the name of the notch where a zip outside a fly ends.
const zipEnd = "end of the zip" // a step is labelled so too

// zipMarks lays where a zip in the side or at the centre back ends.
func (d *drafter) zipMarks() {
	switch d.in.Style["closure"] {
	case "side_zip":
		d.Part("front")
		d.Value("zip.length", d.T("zip, waist seam to its end"), "zip_length", d.T("so far down the side seam"))
		d.Along("front.zip_end", d.T("end of the zip"), "front.side", "front.waist_side", false, "zip.length", d.T("the left side is left open down to here; notch it"))
	case "back_zip":
		d.Part("back")
		d.Solved("back.straight_centre", d.T("straight of the seat line"), d.Point("back.fork_start").Dist(d.Point("back.waist_centre")), d.T("from the waist seam to where the fork curve begins"))
		d.Value("zip.length", d.T("zip, waist seam to its end"), "least(zip_length, back.straight_centre)", d.T("the zip ends where the fork curve begins, if not before"))
		d.Along("back.zip_end", d.T("end of the zip"), "back.centre", "back.waist_centre", true, "zip.length", d.T("the centre back is left open down to here; notch it"))
	}
}

// zipNotch notches where the zip ends, on front or back. The two sides of the
// seam that it lies in are notched equally far along.
func (s *shape) zipNotch(p *piece.Piece) {
	switch {
	case s.has("closure", "side_zip"):
		side, _ := s.front.Edge("side")
		if p.ID == "back" {
			side, _ = s.back.Edge("side")
		}
		p.Notches = append(p.Notches, side.NotchAt(s.along("side", "front.zip_end"), zipEnd, notchZip))
	case s.has("closure", "back_zip") && p.ID == "back":
		centre, _ := s.back.Edge("centre")
		p.Notches = append(p.Notches, centre.NotchNear(s.rec.Point("back.zip_end"), zipEnd, 0))
	}
}

// zipInset is how far beside its seam a zip is stitched, mm (common practice).
const zipInset = 8

// zipSeen is the stitching beside a zip on a part.
func (s *shape) zipSeen(part string) []piece.Seen {
	switch {
	case s.has("closure", "side_zip"):
		line := s.rec.Path(part+".side").Between(0, s.rec.Value("zip.length")).Map(geom.Translate(geom.Vec{X: -zipInset}))
		return []piece.Seen{{Kind: piece.Stitching, Path: line, On: piece.LeftHand}}
	case s.has("closure", "back_zip") && part == "back":
		c := s.rec.Path("back.centre")
		line := c.Between(c.Len()-s.rec.Value("zip.length"), c.Len()).Map(geom.Translate(geom.Vec{X: zipInset}))
		return []piece.Seen{{Kind: piece.Stitching, Path: line}}
	}
	return nil
}

// openings claim that the trousers can be stepped into, and that what closes
// them has its place.
func (s *shape) openings() []piece.Bound {
	heel, _, heelGuessed := s.measure(body.HeelGirth)
	out := append(s.closureBounds(), piece.Bound{
		Check: say.Word("foot through the hem"), Say: s.T("finished hem against heel and instep"), Of: piece.Measured{Girth: "hem"}, Least: least(heel), Stops: !heelGuessed,
		Mend: s.T("widen the hem, or leave an opening in it"),
	})
	if s.fly() {
		out = append(out, s.flyBounds()...)
	}
	if kept, ok := s.rec.Find("hip_level_kept"); ok {
		lo, hi := unit.Length(kept.Before)-seamTol, unit.Length(kept.Before)+seamTol
		out = append(out, piece.Bound{
			Check: say.Word("hip line"), Say: s.T("hip line below the waist seam, against where it was measured"), Figure: s.mm("hip_level"), Least: &lo, Most: &hi,
			Mend: s.T("measure waist to hips and body rise again: the hip line was moved to leave room for the fork"),
		})
	}
	return out
}

// closureBounds claim that the waist, opened, goes over the hip.
func (s *shape) closureBounds() []piece.Bound {
	hip, _, _ := s.measure(body.HipGirth)
	band := s.rule("waistband_width")
	b := piece.Bound{Check: say.Word("stepping in"), Least: least(hip), Stops: true, Panel: "front"}
	switch {
	case s.fly():
		at := s.rec.Point("front.fly_end")
		b.Say, b.Mend, b.At = s.T("waist opening with the fly open"), s.T("open it further: a longer fly where its straight allows, a zip in the side, or a wider waistband"), &at
		b.Of = piece.Measured{Notch: ref("front", "centre"), Named: flyEnd, Girth: "waist", Times: 2, Plus: 2 * band}
	case s.has("closure", "elastic"):
		b.Say, b.Mend = s.T("waist, stretched, over the hip"), s.T("give the hip more ease")
		b.Of = piece.Measured{Girth: "waist"}
	default:
		b.Say, b.Mend = s.T("waist opening with the zip open"), s.T("open it further: a longer zip, a zip in the side, or a wider waistband")
		b.Of = piece.Measured{Girth: "waist", Plus: 2 * (s.mm("zip.length") + band)}
	}
	return []piece.Bound{b}
}
