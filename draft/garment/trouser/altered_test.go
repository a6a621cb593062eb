package trouser_test

import (
	"errors"
	"fmt"
	"slices"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/construct"
	"chalkfold/draft/garment"
	"chalkfold/draft/garment/trouser"
	"chalkfold/draft/proof"
)

// TestAlterationsUndo: every alteration has one that undoes it, and both together
// change nothing.
func TestAlterationsUndo(t *testing.T) {
	o := order{body: measured(t, hip42)}
	was := o.draft(t)
	all := trouser.Alterations()
	for i := 0; i < len(all); i += 2 {
		one, other := all[i], all[i+1]
		if one.Against != other.ID || other.Against != one.ID {
			t.Fatalf("%s is not undone by %s", one.ID, other.ID)
		}
		both := o
		both.altered = []garment.Altered{{Alteration: one, By: one.Usual}, {Alteration: other, By: one.Usual}}
		is := both.draft(t)
		for _, p := range []string{"front", "back"} {
			for _, e := range was.panel(p).Edges {
				about(t, one.ID+" and back: "+p+" "+e.Name, is.edge(t, p, e.Name).Len(), e.Sew.Len(), 1e-6)
			}
		}
	}
}

// told is a figure of the finished draft, mm.
type told struct {
	what string
	of   func(t *testing.T, m made) float64
}

func edgesOf(panel string, names ...string) told {
	return told{fmt.Sprint(panel, names), func(t *testing.T, m made) float64 {
		sum := 0.0
		for _, n := range names {
			sum += m.edge(t, panel, n).Len()
		}
		return sum
	}}
}

func girthOf(name string) told {
	return told{"girth of the " + name, func(t *testing.T, m made) float64 { return m.girth(t, name) * 25.4 }}
}

func acrossAt(mark string) told {
	return told{mark + ", across", func(_ *testing.T, m made) float64 { return m.Record.Point(mark).X }}
}

func downAt(mark string) told {
	return told{mark + ", down", func(_ *testing.T, m made) float64 { return m.Record.Point(mark).Y }}
}

// moves is by how much a figure changes for each millimetre of an alteration.
type moves struct {
	told
	per float64
}

// altersSo is what each alteration must do, and must leave alone, by what its
// name says of the cloth (common practice).
func altersSo() map[string][]moves {
	frontSeam, backSeam := edgesOf("front", "centre", "fork"), edgesOf("back", "centre", "fork")
	frontSide, backSide := edgesOf("front", "side"), edgesOf("back", "side")
	waist, hip, thigh, knee := girthOf("waist"), girthOf("hip"), girthOf("thigh"), girthOf("knee")
	return map[string][]moves{
		"back_longer":    {{backSeam, 1}, {frontSeam, 0}, {frontSide, 0}, {backSide, 0}, {waist, 0}, {hip, 0}, {thigh, 0}},
		"seat_slanted":   {{acrossAt("back.waist_centre"), 1}, {frontSeam, 0}, {frontSide, 0}, {backSide, 0}, {waist, 0}, {hip, 0}, {thigh, 0}},
		"back_fork_out":  {{acrossAt("back.fork_tip"), -1}, {acrossAt("front.fork_tip"), 0}, {frontSeam, 0}, {frontSide, 0}, {backSide, 0}, {waist, 0}, {hip, 0}, {thigh, 0}},
		"front_fork_out": {{acrossAt("front.fork_tip"), -1}, {acrossAt("back.fork_tip"), 0}, {waist, 0}, {hip, 0}, {thigh, 0}},
		"fork_lower":     {{downAt("front.fork_tip"), 1}, {downAt("front.hem_in"), 0}, {downAt("front.knee_in"), 0}, {waist, 0}, {hip, 0}, {thigh, 0}},
		"front_longer":   {{frontSeam, 1}, {backSeam, 0}, {frontSide, 0}, {backSide, 0}, {waist, 0}, {hip, 0}, {thigh, 0}},
		"leg_inwards": {
			{acrossAt("front.knee_in"), -1},
			{acrossAt("front.knee_out"), -1},
			{acrossAt("front.hem_in"), -1},
			{acrossAt("back.hem_out"), -1},
			{acrossAt("front.fork_tip"), 0},
			{waist, 0},
			{hip, 0},
			{thigh, 0},
			{knee, 0},
		},
		"side_longer":     {{downAt("front.waist_side"), -1}, {downAt("front.hem_in"), 0}, {frontSeam, 0}, {backSeam, 0}, {waist, 0}, {hip, 0}, {thigh, 0}},
		"leg_longer":      {{downAt("front.hem_in"), 1}, {frontSide, 1}, {backSide, 1}, {edgesOf("front", "inseam"), 1}, {edgesOf("back", "inseam"), 1}, {frontSeam, 0}, {backSeam, 0}, {waist, 0}},
		"back_waist_out":  {{waist, 1}, {edgesOf("front", "waist"), 0}, {frontSeam, 0}, {frontSide, 0}, {backSide, 0}, {hip, 0}, {thigh, 0}},
		"waist_out":       {{waist, 1}, {frontSeam, 0}, {backSeam, 0}, {hip, 0}, {thigh, 0}},
		"front_waist_out": {{waist, 1}, {frontSeam, 0}, {backSeam, 0}, {hip, 0}, {thigh, 0}},
		"hip_out":         {{hip, 1}, {waist, 0}, {thigh, 0}},
		"thigh_out":       {{thigh, 1}, {hip, 0}, {waist, 0}, {knee, 0}},
		"leg_out":         {{knee, 1}, {girthOf("hem"), 1}, {thigh, 0}, {hip, 0}, {frontSeam, 0}},
	}
}

// TestAlters: every alteration changes what it must by its amount, and leaves
// alone what it must, by either method.
func TestAlters(t *testing.T) {
	taken := measured(t, hip42+", body_rise 10 1/2, waist_to_hips 8, total_crotch_length 29")
	for _, method := range []string{trouser.Quarter, trouser.Balanced} {
		o := order{body: taken, method: method}
		was := o.draft(t)
		for _, a := range trouser.Alterations() {
			so, ok := altersSo()[a.ID]
			sign := 1.0
			if !ok {
				so, sign = altersSo()[a.Against], -1
			}
			if len(so) == 0 {
				t.Errorf("it is not said what %s does", a.ID)
			}
			with := o
			with.altered = []garment.Altered{{Alteration: a, By: a.Usual}}
			is := with.draft(t)
			for _, m := range so {
				about(t, method+", "+a.ID+": "+m.what, m.of(t, is)-m.of(t, was), sign*m.per*a.Usual.MM(), 0.5)
			}
		}
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
		in := order{body: taken}.input(t)
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
