package trouser

import (
	"chalkfold/draft/garment/dart"
	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// leastDart is the narrowest dart worth sewing: a narrower one is left out.
const leastDart = 3.0 / 8 * unit.Inch

// dartWidths settles how much each dart takes in. As spoken a dart is as wide
// as its rule; trued, no wider than the hip is larger than the waist, or the
// side seam would have to run outwards to make room for it.
func (d *drafter) dartWidths() {
	width := func(part string) bool {
		if d.has(part+"_dart", "none") || part == "front" && d.pleats() > 0 {
			return false
		}
		rule := part + "_dart_width"
		d.Value(part+".dart", d.F("%s dart", d.T(part)), rule, d.T("taken in at the waist"))
		if !d.in.Trues(trueDart) {
			return true
		}
		fits := true
		d.Truing(trueDart, func() {
			if room := d.Get("hip_part") - d.Get(d.waistOf(part)); room < d.Get(rule) {
				d.Renew(part+".dart_kept", d.F("%s dart, narrowed", d.T(part)), part+".dart", "hip_part - "+d.waistOf(part), d.T("no wider than the hip is larger than the waist"))
				fits = unit.Length(room) >= leastDart
			}
		})
		return fits
	}
	d.frontDarted, d.backDarted = width("front"), width("back")
	if d.pleats() > 0 {
		d.pleatWidths()
		d.frontDarted = true
	}
	if d.backDarted && d.has("back_dart", "two") {
		d.Value("back.dart_each", d.T("each of two back darts"), "back.dart/2", d.T("two darts share what one would take in"))
	}
}

// pleats is how many pleats the front has.
func (d *drafter) pleats() int {
	switch d.in.Style["front_dart"] {
	case "pleat":
		return 1
	case "pleats":
		return 2
	}
	return 0
}

// pleatAtThigh is how much of what pleats open by at the hip the leg still has
// at the thigh line (common practice).
const pleatAtThigh = "0.5"

// pleatWidths settles what the pleats take in at the waist. What is more than a
// dart would take in is cloth of their own, which opens over the hip.
func (d *drafter) pleatWidths() {
	all := "pleat_width"
	if d.pleats() == 2 {
		all = "pleat_width + pleat_second"
		d.Value("pleat_second", d.T("second pleat"), "pleat_width * 2/3", d.T("the second pleat is narrower"))
	}
	d.Value("front.dart", d.T("pleats of one front"), all, d.T("folded in at the waist"))
	d.Value("pleat_room", d.T("cloth of the pleats over the hip"), "most(front.dart - most(least(front_dart_width, hip_part - "+d.waistOf("front")+"), 0 in), 0 in)",
		d.T("what the pleats take in beyond what a dart would"))
}

// pleatRoom is what the pleats add to the hip of the front, for a sum.
func (d *drafter) pleatRoom() string {
	if d.pleats() == 0 {
		return ""
	}
	return " + pleat_room"
}

// frontDartPlaces says how far from the centre the middle of each front dart or
// pleat lies.
func (d *drafter) frontDartPlaces() {
	if !d.frontDarted {
		return
	}
	label := d.T("front dart from the centre")
	switch {
	case d.has("front_dart", "pressed"):
		d.Solved("front.dart_from", label, d.Point("front.crease_fork").X, d.T("a pressed dart runs out in the crease"))
	case d.pleats() > 0:
		d.Solved("front.dart_from", d.T("first pleat from the centre"), d.Point("front.crease_fork").X, d.T("a pleat runs on into the crease"))
		if d.pleats() == 2 {
			d.Value("front.dart2_from", d.T("second pleat from the centre"), "front.dart_from + pleat_width/2 + 0.75 in + pleat_second/2", d.T("a thumb's breadth beside the first, towards the side"))
		}
	default:
		d.Value("front.dart_from", label, "front_dart_from", d.T("so far from the centre"))
	}
}

// backDartPlaces does so for the back.
func (d *drafter) backDartPlaces() {
	if !d.backDarted {
		return
	}
	if d.has("back_dart", "two") {
		d.Value("back.dart_from", d.T("first back dart from the centre"), "back.waist_width/3", d.T("a third of the back waist"))
		d.Value("back.dart2_from", d.T("second back dart from the centre"), "back.waist_width * 2/3", d.T("two thirds of the back waist"))
		return
	}
	d.Value("back.dart_from", d.T("back dart from the centre"), "back_dart_from", d.T("so far from the centre"))
}

// dartSums are the sums that shape one dart of a part, and how its marks are
// called.
type dartSums struct {
	mark, from, width, length string
	shorter                   float64 // than length, mm
}

// dartList lists the darts or pleats of a part, from the centre to the side.
func (d *drafter) dartList(part string) []dartSums {
	switch {
	case part == "front" && !d.frontDarted, part == "back" && !d.backDarted:
		return nil
	case part == "front" && d.pleats() == 1:
		return []dartSums{{"dart", "front.dart_from", "pleat_width", "pleat_length", 0}}
	case part == "front" && d.pleats() == 2:
		return []dartSums{{"dart", "front.dart_from", "pleat_width", "pleat_length", 0}, {"dart2", "front.dart2_from", "pleat_second", "pleat_length", 0}}
	case part == "back" && d.has("back_dart", "two"):
		const shorter = 25.4 // the dart nearer the side (common practice)
		return []dartSums{{"dart", "back.dart_from", "back.dart_each", "back_dart_length", 0}, {"dart2", "back.dart2_from", "back.dart_each", "back_dart_length", shorter}}
	}
	return []dartSums{{"dart", part + ".dart_from", part + ".dart", part + "_dart_length", 0}}
}

// dartsTo sets the darts of a part on the straight line from its centre to a
// side mark.
func (d *drafter) dartsTo(part string, side geom.Pt) []dart.Shape {
	var out []dart.Shape
	for _, s := range d.dartList(part) {
		out = append(out, dart.New(d.Point(part+".waist_centre"), side, d.Get(s.from), d.Get(s.width), d.Get(s.length)-s.shorter))
	}
	return out
}

// dartMarks lays the legs, the fold and the point of a dart or pleat, told from
// the straight line between the ends of the waist, which the hand can draw at
// once.
func (d *drafter) dartMarks(part string, sums dartSums, one dart.Opened) {
	centre, side := part+".waist_centre", part+".waist_side"
	lay := func(name, label string, at geom.Pt, why string) {
		d.Offset(part+"."+sums.mark+name, label, centre, side, at, why, sums.from, sums.width, sums.length)
	}
	if part == "front" && d.pleats() > 0 {
		half := d.T("half the pleat on this side of its middle")
		lay("_leg_in", d.T("pleat, fold on the centre's side"), one.Legs[0], half)
		lay("_top", d.T("pleat, middle, over the fold"), one.Top, d.T("the cloth of the pleat, folded to the centre, must reach the waist seam"))
		lay("_leg_out", d.T("pleat, line on the side's side"), one.Legs[1], half)
		lay("_point", d.T("pleat, where it opens"), one.Point, d.T("the pleat's length below the straight line; it is caught in the waist seam alone"))
		return
	}
	half := d.T("half the dart on this side of its middle")
	lay("_leg_in", d.F("%s dart, leg on the centre's side", d.T(part)), one.Legs[0], half)
	lay("_top", d.F("%s dart, middle, over the fold", d.T(part)), one.Top, d.T("the cloth of the dart, folded to the centre, must reach the waist seam"))
	lay("_leg_out", d.F("%s dart, leg on the side's side", d.T(part)), one.Legs[1], half)
	lay("_point", d.F("%s dart, point", d.T(part)), one.Point, d.T("the dart's length below the straight line"))
}
