package draft_test

import (
	"math"
	"slices"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/proof"
	"chalkfold/draft/prove"
)

// Body 17520 of the survey (ANSUR II) has the hip line 3 in below the waist seam,
// and a waist that dips behind below the tape square to the seat line: its hip is
// measured all the same, as far as the side stands off the seat line at the hip
// mark. Where that is less than the body, it still stops the cut.
func TestHighHip(t *testing.T) {
	b := surveyed(t, "17520")
	styles := prove.Styles()
	j := styles[slices.IndexFunc(styles, func(s prove.Style) bool { return s.Name == "no back dart, tapered" })].Job(b)
	j.Method = job.Balanced
	r, err := draft.Make(j)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range r.Report.At(proof.Stops) {
		t.Errorf("%s stops the cut: %s", f.Check, f.Say)
	}
	waist, hip, side := r.Record.Point("back.waist_centre"), r.Record.Point("back.hip_centre"), r.Record.Point("back.hip_side")
	seat := hip.Sub(waist).Unit()
	across, out := side.Sub(hip).Cross(seat), seat.Left()
	dips := slices.ContainsFunc(r.Record.Path("back.waist").CrossLine(side, out), func(at float64) bool { return at > 0 })
	if !dips {
		t.Fatal("the waist does not dip below the tape: this body shows nothing")
	}
	front := r.Record.Point("front.hip_side").X - r.Record.Point("front.hip_centre").X
	i := slices.IndexFunc(r.Report.Girths, func(g proof.Girth) bool { return g.Name == "hip" })
	if got, want := r.Report.Girths[i].Draft.MM(), 2*(front+math.Abs(across)); math.Abs(got-want) > 0.1 {
		t.Errorf("the hip measures %.1f mm, off the marks it is %.1f", got, want)
	}

	j.Untrued = []string{"hip"}
	j.Rules.Job["hip_ease"] = "0 in"
	if r, err = draft.Make(j); err != nil {
		t.Fatal(err)
	}
	if !slices.ContainsFunc(r.Report.At(proof.Stops), func(f proof.Finding) bool { return f.Check == "hip girth" }) {
		t.Error("a hip drawn short of the body stops nothing")
	}
}
