package trouser

import (
	"math"

	"chalkfold/draft/say"
)

// calfLength is how far down from the knee line to a full hem a hem at the calf
// lies, and kneeLength how far below the knee line one at the knee does
// (common practice).
const (
	calfLength = "0.45"
	kneeLength = "1 in"
)

// shorten moves the hem of a full leg up to where the length of the style has
// it. The knee line stays; shorts, which end above it, are drawn over a line
// half way down their leg instead.
func (d *drafter) shorten() {
	hem := ""
	switch d.in.Style["length"] {
	case "ankle":
		hem = "hem_full - ankle_lift"
	case "calf":
		hem = "knee_level + (hem_full - knee_level) * " + calfLength
	case "knee":
		hem = "knee_level + " + kneeLength
	case "shorts":
		hem = "fork_level + shorts_leg"
	default:
		return
	}
	d.Value("hem_full", d.T("hem line of a full leg"), "hem_level", d.T("the leg is shaped as a full one, and ends sooner"))
	d.Value("knee_full", d.T("knee line of a full leg"), "knee_level", d.T("the leg is shaped as a full one, and ends sooner"))
	d.Renew("hem_level_short", d.T("hem line"), "hem_level", hem, d.T("where the hem of this length comes to"))
	if d.shorts() {
		d.Renew("knee_level_short", d.T("middle of the leg"), "knee_level", "(thigh_level + hem_level)/2", d.T("half way from the thigh line to the hem"))
	}
}

func (d *drafter) shorts() bool { return d.has("length", "shorts") }

// lineName is what a line across the leg is called.
func (d *drafter) lineName(line string) string {
	if line == "knee" && d.shorts() {
		return d.T("middle of the leg")
	}
	return d.T(line)
}

// levelLine is the whole name of a line across the leg.
func (d *drafter) levelLine(line string) string {
	switch {
	case line == "knee" && d.shorts():
		return d.T("middle of the leg line")
	case line == "hip":
		return d.T("hip line")
	case line == "fork":
		return d.T("fork line")
	case line == "thigh":
		return d.T("thigh line")
	case line == "knee":
		return d.T("knee line")
	}
	return d.T("hem line")
}

// legGirths are the finished girths at the knee line and at the hem, as the leg
// of the style has them.
func (d *drafter) legGirths() {
	knee, hem := "least(knee_girth + knee_ease, thigh_all)", "leg.knee"
	switch {
	case d.has("leg", "free"):
		knee = "thigh_all"
	case d.has("leg", "tapered"):
		hem = "most(leg.knee - taper, heel_girth + 0.5 in)"
	case d.has("leg", "flared"):
		hem = "leg.knee + flare"
	case d.has("leg", "wide"):
		knee, hem = "thigh_all + wide_leg/4", "thigh_all + wide_leg/2"
	}
	full, ruled := d.has("length", "full"), d.Get("hem_girth") > 0
	if full && ruled {
		hem = "hem_girth"
	}
	why := d.T("the leg all round at the hem")
	d.Value("leg.knee", d.T("finished knee"), knee, d.T("the leg all round at the knee line"))
	d.Alter("leg.knee")
	d.Value("leg.hem", d.T("finished hem"), hem, why)
	if full {
		return
	}
	as := d.T("as wide as the full leg is there")
	switch {
	case ruled:
		d.Renew("leg.hem_short", d.T("finished hem, shorter leg"), "leg.hem", "hem_girth", why)
	case d.shorts():
		d.Renew("leg.hem_short", d.T("finished hem, shorter leg"), "leg.hem", "thigh_all + (leg.knee - thigh_all) * (hem_level - thigh_level)/(knee_full - thigh_level)", as)
	default:
		d.Renew("leg.hem_short", d.T("finished hem, shorter leg"), "leg.hem", "leg.knee + (leg.hem - leg.knee) * (hem_level - knee_level)/(hem_full - knee_level)", as)
	}
	if d.shorts() {
		d.Renew("leg.knee_short", d.T("middle of the leg, all round"), "leg.knee", "(thigh_all + leg.hem)/2", d.T("half way between thigh and hem"))
	}
}

// calfAt is where the calf is fullest, as a share of the way from the knee line
// to the hem; false where the leg ends above it.
func (s *shape) calfAt() (float64, bool) {
	if s.has("length", "full") {
		return calfShare, true
	}
	share := calfShare * (s.rec.Value("hem_full") - s.rec.Value("knee_level")) / (s.rec.Value("hem_level") - s.rec.Value("knee_level"))
	return share, !s.has("length", "shorts") && share < 0.95
}

// hemFull is the step that says where the hem of a full leg hangs, for what the
// body's length is held against.
func (s *shape) hemFull() string {
	if s.rec.Has("hem_full") {
		return "hem_full"
	}
	return "hem_level"
}

// kneeName is what the mark between thigh and hem is called on the pieces.
func (s *shape) kneeName() string {
	if s.has("length", "shorts") {
		return say.Word("middle of the leg")
	}
	return "knee"
}

// grainEnds keeps the grain line of a leg clear of its fork and its hem.
func grainEnds(fork, hem float64) (top, foot float64) {
	return fork + math.Min(40, (hem-fork)*0.2), hem - math.Min(120, (hem-fork)*0.3)
}
