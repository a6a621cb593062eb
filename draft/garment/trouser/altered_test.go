package trouser_test

import (
	"errors"
	"slices"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/construct"
	"chalkfold/draft/garment"
	"chalkfold/draft/garment/garmenttest"
	"chalkfold/draft/garment/trouser"
	"chalkfold/draft/proof"
)

// TestAlters: every alteration changes what it must by its amount, and leaves alone
// what it must, by either method (common practice: what their names say of the
// cloth).
func TestAlters(t *testing.T) {
	edges, girthBy, downBy, acrossBy := garmenttest.EdgesBy, garmenttest.GirthBy, garmenttest.DownBy, garmenttest.AcrossBy
	so := map[string][]garmenttest.Told{
		"back_longer":    {edges("back", 1, "centre", "fork"), edges("front", 0, "centre", "fork"), edges("front", 0, "side"), edges("back", 0, "side"), girthBy("waist", 0), girthBy("hip", 0), girthBy("thigh", 0)},
		"seat_slanted":   {acrossBy("back.waist_centre", 1), edges("front", 0, "centre", "fork"), edges("front", 0, "side"), edges("back", 0, "side"), girthBy("waist", 0), girthBy("hip", 0), girthBy("thigh", 0)},
		"back_fork_out":  {acrossBy("back.fork_tip", -1), acrossBy("front.fork_tip", 0), edges("front", 0, "centre", "fork"), edges("front", 0, "side"), edges("back", 0, "side"), girthBy("waist", 0), girthBy("hip", 0), girthBy("thigh", 0)},
		"front_fork_out": {acrossBy("front.fork_tip", -1), acrossBy("back.fork_tip", 0), girthBy("waist", 0), girthBy("hip", 0), girthBy("thigh", 0)},
		"fork_lower":     {downBy("front.fork_tip", 1), downBy("front.hem_in", 0), downBy("front.knee_in", 0), girthBy("waist", 0), girthBy("hip", 0), girthBy("thigh", 0)},
		"front_longer":   {edges("front", 1, "centre", "fork"), edges("back", 0, "centre", "fork"), edges("front", 0, "side"), edges("back", 0, "side"), girthBy("waist", 0), girthBy("hip", 0), girthBy("thigh", 0)},
		"leg_inwards": {
			acrossBy("front.knee_in", -1),
			acrossBy("front.knee_out", -1),
			acrossBy("front.hem_in", -1),
			acrossBy("back.hem_out", -1),
			acrossBy("front.fork_tip", 0),
			girthBy("waist", 0),
			girthBy("hip", 0),
			girthBy("thigh", 0),
			girthBy("knee", 0),
		},
		"side_longer":     {downBy("front.waist_side", -1), downBy("front.hem_in", 0), edges("front", 0, "centre", "fork"), edges("back", 0, "centre", "fork"), girthBy("waist", 0), girthBy("hip", 0), girthBy("thigh", 0)},
		"leg_longer":      {downBy("front.hem_in", 1), edges("front", 1, "side"), edges("back", 1, "side"), edges("front", 1, "inseam"), edges("back", 1, "inseam"), edges("front", 0, "centre", "fork"), edges("back", 0, "centre", "fork"), girthBy("waist", 0)},
		"back_waist_out":  {girthBy("waist", 1), edges("front", 0, "waist"), edges("front", 0, "centre", "fork"), edges("front", 0, "side"), edges("back", 0, "side"), girthBy("hip", 0), girthBy("thigh", 0)},
		"waist_out":       {girthBy("waist", 1), edges("front", 0, "centre", "fork"), edges("back", 0, "centre", "fork"), girthBy("hip", 0), girthBy("thigh", 0)},
		"front_waist_out": {girthBy("waist", 1), edges("front", 0, "centre", "fork"), edges("back", 0, "centre", "fork"), girthBy("hip", 0), girthBy("thigh", 0)},
		"hip_out":         {girthBy("hip", 1), girthBy("waist", 0), girthBy("thigh", 0)},
		"thigh_out":       {girthBy("thigh", 1), girthBy("hip", 0), girthBy("waist", 0), girthBy("knee", 0)},
		"leg_out":         {girthBy("knee", 1), girthBy("hem", 1), girthBy("thigh", 0), girthBy("hip", 0), edges("front", 0, "centre", "fork")},
	}
	taken := measured(t, hip42+", body_rise 10 1/2, waist_to_hips 8, total_crotch_length 29")
	for _, method := range []string{trouser.Quarter, trouser.Balanced} {
		garmenttest.Alters(t, order{Body: taken, Method: method}.of(), so)
	}
}

// TestAltersEverybody: on surveyed bodies every alteration can be drafted, or it
// is said why not; what it does not concern still proves, and what a proof finds
// to mend comes with the mend.
func TestAltersEverybody(t *testing.T) {
	all := surveyed(t)
	every := len(all) / 52
	if testing.Short() {
		every = len(all) / 2
	}
	var formulas construct.Formulas
	all = slices.Collect(func(yield func(body.Values) bool) {
		for i := 0; i < len(all) && yield(all[i]); i += every {
		}
	})
	g := trouser.Garment()
	tried, kept := 0, map[string]int{}
	for n, taken := range all {
		in := order{Body: taken}.input(t)
		in.Formulas = &formulas
		was, err := g.Draft(in)
		if err != nil {
			continue // no draft to alter
		}
		before := proof.Of(was.Panels, was.Pieces, was.Claims, nil)
		for _, a := range trouser.Alterations() {
			in.Altered = []garment.Altered{{Alteration: a, By: a.Usual}}
			tried++
			is, err := g.Draft(in)
			var no *garment.Impossible
			if errors.As(err, &no) && no.What != "" && no.Mend != "" {
				kept[a.ID]++
				continue
			}
			if err != nil {
				t.Fatalf("body %d, %s: %v", n, a.ID, err)
			}
			after := proof.Of(is.Panels, is.Pieces, is.Claims, nil)
			for _, f := range after.At(proof.Stops) {
				if slices.ContainsFunc(before.At(proof.Stops), func(o proof.Finding) bool { return o.Check == f.Check }) {
					continue
				}
				kept[a.ID+": "+f.Check]++
				if f.Mend == "" {
					t.Errorf("body %d, %s: %s stops the cut, and nothing is said to mend it", n, a.ID, f.Check)
				}
			}
			for _, seam := range []string{"inseam", "side seam", "fork at the inseam", "waist girth", "hip girth", "thigh girth"} {
				one, _ := find(before, seam)
				two, ok := find(after, seam)
				if !ok || two > one {
					t.Errorf("body %d, %s: %s does not hold any more", n, a.ID, seam)
				}
			}
		}
	}
	t.Logf("%d drafts; not possible or not to be cut: %v", tried, kept)
}

// find is the level of a check.
func find(r proof.Report, check string) (proof.Level, bool) {
	for _, f := range r.Findings {
		if f.Check == check {
			return f.Level, true
		}
	}
	return 0, false
}
