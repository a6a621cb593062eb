package trouser

import (
	"math"

	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

var natural = math.NaN() //nolint:gochecknoglobals // Go has no constant NaN: an end of a line left as it falls

// easeOf are the rules that give room.
func easeOf() []garment.Eased {
	return []garment.Eased{
		{Rule: "waist_ease", Of: body.WaistGirth},
		{Rule: "hip_ease", Of: body.HipGirth},
		{Rule: "thigh_ease", Of: body.ThighGirth},
		{Rule: "knee_ease", Of: body.KneeGirth},
		{Rule: "rise_ease", Of: body.BodyRise},
	}
}

// taken reports whether a measurement was taken, not estimated.
func (d *drafter) taken(id body.ID) bool { return d.Taken(id) }

// levels: how far below the waist seam each line across lies. The band stands
// above the waist seam, so its width comes off what is measured from its top.
func (d *drafter) levels() {
	d.Part(say.Word("levels"))
	why := d.T("the band is outside the cloth, so its width comes off")
	if d.taken(body.BodyRise) {
		d.Value("fork_level", d.T("fork line"), "body_rise + rise_ease - waistband_width", why)
	} else {
		d.Value("fork_level", d.T("fork line"), "rise - waistband_width", why)
	}
	d.rebalance("fork_level")
	d.Alter("fork_level")
	hip := "hip_drop - waistband_width"
	if d.taken(body.WaistToHips) {
		hip = "waist_to_hips - waistband_width"
	}
	d.Value("hip_level", d.T("hip line"), hip, why)
	if d.in.Trues(trueLevel) {
		d.keepHipLevel()
	}
	d.Value("thigh_level", d.T("thigh line"), "fork_level + thigh_drop", d.T("the thigh is measured below the fork"))
	below := "" // the inside leg is measured from the body's fork, not from the room below it
	if d.taken(body.BodyRise) && d.in.Body[body.BodyRise].Of != body.OfGarment {
		below = " - rise_ease"
	}
	if d.by != nil && d.by.by["fork_level"] != 0 {
		below += " - balance.fork_level"
	}
	below += d.in.Less("fork_level")
	if d.taken(body.OutsideLegLength) || !d.taken(body.InsideLegLength) {
		d.Value("hem_level", d.T("hem line"), "outside_leg_length - floor_clearance - waistband_width", why)
	} else {
		d.Value("hem_level", d.T("hem line"), "fork_level + inside_leg_length - floor_clearance"+below, d.T("the inside leg hangs from the fork line"))
	}
	d.Value("knee_level", d.T("knee line"), "(fork_level"+d.in.Less("fork_level")+" + hem_level)/2 - knee_lift", d.T("a little above the middle of the inside leg"))
	d.shorten()
	d.Alter("hem_level")
}

// keepHipLevel moves a hip line that leaves no room for a fork below it, or for
// a seat line above it.
func (d *drafter) keepHipLevel() {
	hip, fork := d.Get("hip_level"), d.Get("fork_level")
	d.trued(trueLevel, func() {
		switch {
		case hip > fork-25.4:
			d.Renew("hip_level_kept", d.T("hip line, kept above the fork"), "hip_level", "fork_level - 1 in", d.T("the hip line must leave room for a fork below it"))
		case hip < fork*0.45:
			d.Renew("hip_level_kept", d.T("hip line, kept below the waist"), "hip_level", "fork_level * 0.45", d.T("the hip line must leave room for a seat line above it"))
		}
	})
}

// mostReach is how much of the hip the front fork may reach when it grows.
const mostReach = 1.0 / 9

// leastFly is the narrowest folded fly facing that holds a zip.
const leastFly = 3.0 / 4 * unit.Inch

// possible refuses levels that no leg can be drawn over.
func (d *drafter) possible() error {
	if d.Err() != nil {
		return nil // Record tells
	}
	lv := func(n string) unit.Length { return unit.Length(d.Get(n)) }
	f := d.in.Format
	switch {
	case lv("hip_level") < minStep*3:
		return &garment.Impossible{
			What: d.F("the hip line falls %s below the waist seam", f.Text(lv("hip_level"))),
			Mend: d.T("measure waist to hips again, or take a narrower waistband"),
		}
	case lv("fork_level") < lv("hip_level")+minStep:
		return &garment.Impossible{
			What: d.F("the fork line falls %s below the hip line, too little to draw a fork", f.Text(lv("fork_level")-lv("hip_level"))),
			Mend: d.T("measure the body rise and waist to hips again"),
		}
	case lv("knee_level") < lv("thigh_level")+minStep || lv("hem_level") < lv("knee_level")+minStep:
		return &garment.Impossible{
			What: d.F("the leg is too short below the thigh line: hem at %s below the waist seam", f.Text(lv("hem_level"))),
			Mend: d.T("measure the outside leg again"),
		}
	case d.fly() && (lv("fly_width")-2*lv("seam_allowance"))/2 < leastFly:
		return &garment.Impossible{
			What: d.F("the fly facing comes out %s wide when it is folded", f.Text((lv("fly_width")-2*lv("seam_allowance"))/2)),
			Mend: d.F("take a wider fly, or a smaller seam allowance: it needs %s", f.Text(leastFly)),
		}
	case lv("front.hip_width") < minStep*5 || lv("front.waist_width") < minStep*5:
		return &garment.Impossible{What: d.F("the front comes out less than %s wide", f.Text(minStep*5)), Mend: d.T("measure waist and hip again")}
	}
	return nil
}

// widths: the sums over girths, before anything is marked.
func (d *drafter) widths() {
	d.Part(say.Word("widths"))
	d.Value("quarter_hip", d.T("hip quarter"), "hip_girth/4", d.T("a quarter of the hip to each panel"))
	d.Value("quarter_waist", d.T("waist quarter"), "waist_girth/4", d.T("a quarter of the waist to each panel"))
	hip, waist := "quarter_hip", "quarter_waist"
	d.trued(trueEase, func() {
		d.Value("hip_room", d.T("hip ease, a quarter"), "hip_ease/4", d.T("room over the body, a quarter to each panel"))
		d.Value("waist_room", d.T("waist ease, a quarter"), "waist_ease/4", d.T("room over the body, a quarter to each panel"))
		hip, waist = "quarter_hip + hip_room", "quarter_waist + waist_room"
	})
	d.Value("hip_part", d.T("hip of one panel"), hip, d.T("what one panel must measure at the hip"))
	d.Alter("hip_part")
	if d.has("closure", "elastic") {
		d.Value("waist_part", d.T("waist of one panel"), "most(hip_part, "+waist+")", d.T("as wide as the hip, over which it is pulled; the elastic draws it in"))
	} else {
		d.Value("waist_part", d.T("waist of one panel"), waist, d.T("what one panel must measure at the waist, darts closed"))
	}
	d.waistParts()
	d.dartWidths()
	tuck, tuckWaist := "", ""
	if d.has("crease", "tuck") {
		d.Value("tuck_cloth", d.T("cloth for the crease tuck"), "2 * crease_tuck", d.T("a stitched tuck eats twice its depth"))
		tuck = " + tuck_cloth"
		if !d.frontDarted {
			tuckWaist = tuck // with no dart to run out in, the tuck runs up into the band
		}
	}
	pleat := d.pleatRoom()
	d.Value("front.hip_width", d.T("front hip width"), "hip_part"+tuck+pleat, d.T("hip quarter, and the tuck's cloth when there is one"))
	dart := map[bool]string{true: " + front.dart"}[d.frontDarted]
	d.Value("front.waist_width", d.T("front waist width"), d.waistOf("front")+dart+tuckWaist, d.T("a quarter of the waist plus the dart"))
	dart = map[bool]string{true: " + back.dart"}[d.backDarted]
	d.Value("back.waist_width", d.T("back waist width"), d.waistOf("back")+dart, d.T("a quarter of the waist plus the dart"))

	d.Value("front.reach", d.T("front fork extension"), "hip_girth/front_fork_part", d.T("a sixteenth of the hip for the fork"))
	d.forkMore("front")
	thigh := "thigh_girth"
	d.trued(trueEase, func() { thigh = "thigh_girth + thigh_ease" })
	if d.has("leg", "wide") {
		thigh += " + wide_leg/2"
	}
	d.Value("thigh_all", d.T("finished thigh"), thigh, d.T("the thigh line all round"))
	d.Alter("thigh_all")
	half := "thigh_girth/2"
	if more := d.in.Term("thigh_all"); more != "" {
		half = "(thigh_girth" + more + ")/2"
	}
	d.Value("front.half_thigh", d.T("front's half of the thigh"), half, d.T("half the thigh, centred on the crease"))
	if d.in.Trues(trueEase) {
		d.Truing(trueEase, func() {
			d.Value("front.thigh_share", d.T("front's share of the thigh"), "(thigh_all - back_leg_extra)/2", d.T("half the finished thigh, less what the back is wider"))
		})
	} else {
		d.Value("front.thigh_share", d.T("front's share of the thigh"), "front.half_thigh", d.T("half the thigh, centred on the crease"))
	}
	d.trued(trueReach, func() {
		need, most := d.Get("front.thigh_share")+d.Get("thigh_taper")-d.Get("hip_part"), d.Get("hip_girth")*mostReach
		switch {
		case need <= d.Get("front.reach") || most <= d.Get("front.reach"):
		case need <= most:
			d.Renew("front.reach_grown", d.T("front fork extension, grown"), "front.reach", "front.thigh_share + thigh_taper - hip_part", d.T("the fork line must be wider than the leg below it"))
		default:
			d.Renew("front.reach_grown", d.T("front fork extension, grown"), "front.reach", "hip_girth/9", d.T("the fork line must be wider than the leg below it; a ninth of the hip at most"))
		}
	})
	d.rebalance("front.reach")
	d.Alter("front.reach")
	d.Value("back.reach", d.T("back fork extension"), "hip_girth/back_fork_part", d.T("the back reaches a further sixteenth"))
	d.forkMore("back")
	d.rebalance("back.reach")
	d.Alter("back.reach")
	const front = "front.thigh_share"
	shared := false
	d.trued(trueThigh, func() {
		if d.Get(front) > d.Get("hip_part")+d.Get("front.reach")-d.Get("thigh_taper")+0.01 {
			d.Renew("front.thigh_trued", d.T("front's share of the thigh, trued"), front, "hip_part + front.reach - thigh_taper",
				d.T("the front leg may not be wider than the fork line above it"))
			shared = true
		}
	})
	if pleat != "" {
		pleat += " * " + pleatAtThigh
	}
	d.Value("front.thigh_width", d.T("front thigh width"), front+tuck+pleat, d.T("at the thigh line, half on each side of the crease"))
	back := front + " + back_leg_extra"
	if shared {
		back = "thigh_all - " + front
		if !d.in.Trues(trueEase) {
			back = "thigh_all + back_leg_extra - " + front
		}
	}
	d.Value("back.thigh_width", d.T("back thigh width"), back+tuck, d.T("the back leg takes the rest"))
	d.legWidths(tuck)
}

// forkMore gives a fork what the house has it reach further than its part of the
// hip.
func (d *drafter) forkMore(part string) {
	rule := part + "_fork_more"
	if d.Get(rule) != 0 {
		d.Renew(part+".reach_more", d.F("%s fork extension, further", d.T(part)), part+".reach", part+".reach + "+rule, d.T("so much further than its part of the hip"))
	}
	if part == "back" && d.Get("front_fork_more") != 0 {
		d.Renew("back.reach_less", d.F("%s fork extension, from the front's tip", d.T(part)), "back.reach", "back.reach - front_fork_more", d.T("the front reaches so much further itself"))
	}
}

// waistParts gives the waist what the alterations make of it, front and back
// apart where only one of them changes.
func (d *drafter) waistParts() {
	d.Alter("waist_part")
	for _, part := range []string{"front", "back"} {
		if d.in.Term(part+".waist_part") != "" {
			d.Value(part+".waist_part", d.F("waist of the %s", d.T(part)), "waist_part", d.T("what one panel must measure at the waist, darts closed"))
			d.Alter(part + ".waist_part")
		}
	}
}

// waistOf is the sum that says what the waist of a part must measure.
func (d *drafter) waistOf(part string) string {
	if d.in.Term(part+".waist_part") != "" {
		return part + ".waist_part"
	}
	return "waist_part"
}

func (d *drafter) legWidths(tuck string) {
	d.legGirths()
	for _, at := range []string{"knee", "hem"} {
		d.Value("front."+at+"_width", d.F("front %s width", d.lineName(at)), "(leg."+at+" - back_leg_extra)/2"+tuck, d.T("half the leg, less what the back is wider"))
		d.Value("back."+at+"_width", d.F("back %s width", d.lineName(at)), "(leg."+at+" + back_leg_extra)/2"+tuck, d.T("the back leg is wider, half on each side"))
	}
}
