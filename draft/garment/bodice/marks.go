package bodice

import (
	"chalkfold/draft/construct"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
)

// acrossShare is how far up from the scye line to the end of the shoulder back
// width and chest are measured (common practice: a little below the middle).
const acrossShare = "0.4"

// frontMarks lays the front, on the fold of the cloth.
func (d *drafter) frontMarks() {
	d.Part(say.Word("front"))
	d.Edge("front.down", d.T("line of the neck point"), d.T("the cut end of the cloth"), "seam_allowance + 0.5 in", d.T("room for the allowance of the shoulder"))
	why, along := d.T("on the fold"), d.T("down the fold")
	if d.In.Hand != piece.BothHands {
		why, along = d.T("on a line along the grain, with room for both halves beside it"), d.T("down the centre line")
	}
	d.Origin("front.top", d.T("centre front, level with the neck point"), geom.Pt{}, why)
	down, out := construct.Down(along), construct.ToSide(d.T("square out to the side"))
	d.Measure("front.neck_centre", d.T("front neck at the centre"), "front.top", down, "neck_depth", d.Why("neck_depth"))
	for _, l := range []struct{ name, label string }{
		{"scye", d.T("scye line at the centre front")}, {"bust", d.T("bust line at the centre front")}, {"waist", d.T("waist line at the centre front")},
	} {
		d.Measure("front."+l.name+"_centre", l.label, "front.top", down, "front."+l.name+"_level", d.Why("front."+l.name+"_level"))
	}
	d.Measure("front.neck_side", d.T("front neck point"), "front.top", out, "neck_width", d.Why("neck_width"))
	d.shoulderMarks("front", "front.neck_side")
	d.Measure("front.bust_point", d.T("bust point"), "front.bust_centre", out, "bust_point_distance/2", d.T("half of what lies between the bust points"))
	d.bodyMarks("front")
}

// backMarks lays the back by itself.
func (d *drafter) backMarks() {
	d.Part(say.Word("back"))
	if d.Has("closure", "zip_back") {
		d.Edge("back.clear", d.T("centre-back line"), d.T("the long edge"), "seam_allowance + 0.5 in", d.T("the centre back has a seam; keep clear of the selvedge"))
	}
	d.Edge("back.down", d.T("line of the nape"), d.T("the cut end of the cloth"), "nape_rise + seam_allowance + 0.5 in", d.T("the neck point stands higher, and has its allowance"))
	why := d.T("on the fold")
	switch {
	case d.Has("closure", "zip_back"):
		why = d.T("on a line parallel to the selvedge")
	case d.In.Hand != piece.BothHands:
		why = d.T("on a line along the grain, with room for both halves beside it")
	}
	d.Origin("back.neck_centre", d.T("nape"), geom.Pt{}, why)
	down, out := construct.Down(d.T("down the centre back")), construct.ToSide(d.T("square out to the side"))
	for _, l := range []struct{ name, label string }{{"scye", d.T("scye line at the centre back")}, {"waist", d.T("waist line at the centre back")}} {
		d.Measure("back."+l.name+"_centre", l.label, "back.neck_centre", down, "back."+l.name+"_level", d.Why("back."+l.name+"_level"))
	}
	d.Measure("back.neck_out", d.T("back neck, straight out"), "back.neck_centre", out, "neck_width", d.Why("neck_width"))
	d.Measure("back.neck_side", d.T("back neck point"), "back.neck_out", construct.Up(d.T("straight up")), "nape_rise", d.T("the side of the neck lies above the nape"))
	d.shoulderMarks("back", "back.neck_side")
	d.bodyMarks("back")
}

// shoulderMarks lay the end of the shoulder.
func (d *drafter) shoulderMarks(part, neck string) {
	d.Measure(part+".shoulder_level", d.F("%s, level of the end of the shoulder", d.T(part)), neck, construct.Down(d.T("straight down")), "shoulder_drop", d.T("so far the shoulder falls"))
	d.Alter(part + ".shoulder_level")
	d.Swing(part+".shoulder_end", d.F("%s end of the shoulder", d.T(part)), neck, part+".shoulder_level", 1, d.T("swing the tape out until it meets that level"), "shoulder", d.Why("shoulder"))
}

// bodyMarks lay what lies below the shoulder: armhole, side and waist.
func (d *drafter) bodyMarks(part string) {
	out := construct.ToSide(d.T("square out to the side"))
	centre := part + ".scye_centre"
	d.Value(part+".across_up", d.F("%s, scye line up to where it is measured across", d.T(part)), "("+part+".scye_level - "+d.shoulderY(part)+") * "+acrossShare, d.T("a little below the middle of the armhole"))
	d.Measure(part+".across_centre", d.F("%s, level across", d.T(part)), centre, construct.Up(d.T("up the centre")), part+".across_up", d.Why(part+".across_up"))
	d.Measure(part+".across", d.F("%s, armhole where it is measured across", d.T(part)), part+".across_centre", out, part+".across_width", d.Why(part+".across_width"))
	d.Measure(part+".underarm", d.F("%s underarm", d.T(part)), centre, out, part+".scye_width", d.Why(part+".scye_width"))
	d.Measure(part+".waist_side", d.F("%s side at the waist", d.T(part)), part+".waist_centre", out, part+".scye_width - "+part+".side_in", d.T("the side leans in from the scye line"))
	d.Alter(part + ".waist_centre")
	if d.darted[part] {
		from, why := "bust_point_distance/2", d.T("below the bust point")
		if part == "back" {
			from, why = "back.waist_made/2", d.T("in the middle of the made-up waist")
		}
		d.Value(part+".dart_from", d.F("%s waist dart from the centre", d.T(part)), from, why)
		length := "front.waist_level - front.bust_level - bust_dart_short"
		if part == "back" {
			length = "back.waist_level - back.scye_level - back_dart_below"
		}
		d.Value(part+".dart_length", d.F("%s waist dart, length", d.T(part)), length, d.T("it ends short of the fullest place"))
	}
}

// shoulderY is how far below the origin of a part its shoulder ends.
func (d *drafter) shoulderY(part string) string {
	if part == "back" {
		return "(shoulder_drop - nape_rise" + d.In.Term("back.shoulder_level") + ")"
	}
	if term := d.In.Term("front.shoulder_level"); term != "" {
		return "(shoulder_drop" + term + ")"
	}
	return "shoulder_drop"
}
