package skirt

import (
	"strconv"

	"chalkfold/draft/garment"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// levels: how far below the waist seam each line across lies.
func (d *drafter) levels() {
	d.Part(say.Word("levels"))
	d.Value("hip_level", d.T("hip line"), "waist_to_hips", d.T("the waist seam lies at the waist, and the band above it"))
	formula, why := "waist_to_knee", d.T("the hem hangs at the middle of the knee")
	switch {
	case d.Get("skirt_length") > 0:
		formula, why = "skirt_length", d.T("as the rule says")
	case d.Has("length", "above"):
		formula, why = "waist_to_knee - above_knee", d.T("so far above the middle of the knee")
	case d.Has("length", "calf"):
		formula, why = "waist_to_knee + calf_below", d.T("so far below the middle of the knee")
	case d.Has("length", "ankle"):
		formula, why = "waist_to_knee + ankle_below", d.T("so far below the middle of the knee")
	}
	d.Value("hem_level", d.T("hem line"), formula, why)
	d.Alter("hem_level")
}

// leastDart is the narrowest dart worth sewing: a narrower one is left out.
const leastDart = 3.0 / 8 * unit.Inch

// widths: the sums over girths, before anything is marked.
func (d *drafter) widths() {
	d.Part(say.Word("widths"))
	d.Value("quarter_hip", d.T("hip quarter"), "hip_girth/4", d.T("a quarter of the hip to each panel"))
	d.Value("quarter_waist", d.T("waist quarter"), "waist_girth/4", d.T("a quarter of the waist to each panel"))
	hip, waist := "quarter_hip", "quarter_waist"
	d.Trued(trueEase, func() {
		d.Value("hip_room", d.T("hip ease, a quarter"), "skirt_hip_ease/4", d.T("room over the body, a quarter to each panel"))
		d.Value("waist_room", d.T("waist ease, a quarter"), "skirt_waist_ease/4", d.T("room over the body, a quarter to each panel"))
		hip, waist = "quarter_hip + hip_room", "quarter_waist + waist_room"
	})
	d.Value("hip_part", d.T("hip, a quarter with its ease"), hip, d.T("front and back together measure twice this, half of the whole"))
	d.Alter("hip_part")
	d.Value("waist_part", d.T("waist, a quarter with its ease"), waist, d.T("front and back together measure twice this, half of the whole"))
	d.Alter("waist_part")
	for _, part := range parts() {
		sign, why := " + ", d.T("the front is a little wider, so that the side seam lies to the back")
		if part == "back" {
			sign, why = " - ", d.T("the back is narrower by as much as the front is wider")
		}
		d.Value(part+".hip_width", d.F("%s hip width", d.T(part)), "hip_part"+sign+"front_wider/2", why)
		d.Value(part+".waist_made", d.F("%s waist, darts closed", d.T(part)), "waist_part"+sign+"front_waist_wider/2", why)
		d.Alter(part + ".waist_made")
		d.takeIn(part)
	}
}

// takeIn settles what the side and each dart of a part take in between hip and
// waist. As spoken a dart is as wide as its rule, and the side takes what is
// left; trued, both share it.
func (d *drafter) takeIn(part string) {
	n := map[string]int{"one": 1, "two": 2}[d.In.Style[part+"_dart"]]
	rule := "skirt_" + part + "_dart"
	if n > 0 {
		d.Value(part+".dart", d.F("%s dart", d.T(part)), rule, d.T("taken in at the waist"))
	}
	d.Trued(trueDart, func() { n = d.share(part, n) })
	d.darts[part] = n
	width := part + ".waist_made"
	if n > 0 {
		width += " + " + times(n, part+".dart")
	}
	d.Value(part+".waist_width", d.F("%s waist width", d.T(part)), width, d.T("the made-up waist and the darts"))
}

// times and over write n times a sum, and a sum over n, leaving out what is one.
func times(n int, sum string) string {
	if n == 1 {
		return sum
	}
	return strconv.Itoa(n) + " * " + sum
}

func over(sum string, n int) string {
	if n == 1 {
		return sum
	}
	return "(" + sum + ")/" + strconv.Itoa(n)
}

// share gives the side its part of what hip and waist differ by, and the darts
// the rest; it returns how many darts are left.
func (d *drafter) share(part string, n int) int {
	differ := part + ".hip_width - " + part + ".waist_made"
	d.Value(part+".differ", d.F("%s, hip less waist", d.T(part)), differ, d.T("what side and darts take in together"))
	room := d.Get(part + ".differ")
	if n == 0 {
		return 0
	}
	d.Value(part+".side_in", d.F("%s side, taken in", d.T(part)), "least("+part+".differ * "+part+"_side_part, most_side)", d.T("a part of it at the side, no more than a side can take"))
	rest := room - d.Get(part+".side_in")
	for n > 0 && unit.Length(rest/float64(n)) < leastDart {
		n--
	}
	if n > 0 {
		d.Renew(part+".dart_shared", d.F("%s dart, its share", d.T(part)), part+".dart", over(part+".differ - "+part+".side_in", n), d.T("the darts take in what the side does not"))
	}
	return n
}

// minStep is the least distance between two levels that a skirt can be drawn
// over, mm.
const minStep = unit.Length(25)

// possible refuses what no skirt can be drawn over.
func (d *drafter) possible() error {
	if d.Err() != nil {
		return nil // Record tells
	}
	f := d.In.Format
	switch hip, hem := d.Length("hip_level"), d.Length("hem_level"); {
	case hip < 2*minStep:
		return &garment.Impossible{
			What: d.F("the hip line falls %s below the waist", f.Text(hip)), Mend: d.T("measure waist to hips again"),
		}
	case hem < hip+2*minStep:
		return &garment.Impossible{
			What: d.F("the hem falls %s below the hip line", f.Text(hem-hip)), Mend: d.T("take a longer skirt, or measure waist to hips and waist to knee again"),
		}
	}
	for _, part := range parts() {
		if d.Length(part+".hip_width") < 4*minStep || d.Length(part+".waist_made") < 3*minStep {
			return &garment.Impossible{What: d.F("the %s comes out less than %s wide", d.T(part), f.Text(3*minStep)), Mend: d.T("measure waist and hip again")}
		}
	}
	return nil
}
