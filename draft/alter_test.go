package draft_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/prove"
	"chalkfold/draft/prove/provetest"
	"chalkfold/draft/unit"
)

// middle is a job of a garment for the middle of the women surveyed.
func middle(g garment.Garment) job.Job {
	return prove.Style{Garment: g.ID}.Job(prove.Body{ID: "middle", Figure: body.Women, Taken: body.Middle(body.Women)})
}

// TestAlterationsAddUp: what is altered twice is altered by both amounts, and no
// more than is believed.
func TestAlterationsAddUp(t *testing.T) {
	g, _ := draft.Find("trousers")
	j := middle(g)
	side := func(by ...job.Alteration) float64 {
		j.Alterations = by
		r, err := draft.Make(j)
		if err != nil {
			t.Fatal(err)
		}
		e, _ := r.Panels[0].Edge("side")
		return e.Sew.Len()
	}
	half, whole := length(t, "1/2 in"), length(t, "1 in")
	twice := side(job.Alteration{Kind: "leg_longer", By: half, For: job.ForClient}, job.Alteration{Kind: "leg_longer", By: half, For: job.ForJob})
	if once := side(job.Alteration{Kind: "leg_longer", By: whole}); math.Abs(twice-once) > 1e-9 || math.Abs(once-side()-25.4) > 0.01 {
		t.Errorf("side %v altered twice by half, %v once by the whole, %v not at all", twice, once, side())
	}
	j.Alterations = []job.Alteration{{Kind: "tail_longer", By: half}, {Kind: "hip_out", By: length(t, "20 in")}}
	_, err := draft.Make(j)
	var bad *job.Bad
	if !errors.As(err, &bad) || len(bad.Problems) != 2 || bad.Problems[0].Path != "alterations[0].kind" || bad.Problems[1].Path != "alterations[1].by" {
		t.Errorf("said %v", err)
	}
}

// TestAlterationsReachEverything: what is cut, chalked and told follows an
// alteration.
func TestAlterationsReachEverything(t *testing.T) {
	for _, g := range draft.Garments() {
		for _, a := range g.Alterations() {
			j := middle(g)
			was, err := draft.Make(j)
			if err != nil {
				t.Fatal(err)
			}
			j.Alterations = []job.Alteration{{Kind: a.ID, By: length(t, "1/2 in"), For: job.ForClient}}
			is, err := draft.Make(j)
			if err != nil {
				t.Errorf("%s, %s: %v", g.ID, a.ID, err)
				continue
			}
			if q, ok := is.Record.Quantity("altered." + a.ID); !ok || q.Source != "kept from her fittings" {
				t.Errorf("%s, %s: the record knows %+v", g.ID, a.ID, q)
			}
			moved := 0
			for i, p := range is.Pieces {
				if differ(p, was.Pieces[i]) {
					moved++
				}
			}
			if moved == 0 {
				t.Errorf("%s, %s: no piece is cut otherwise", g.ID, a.ID)
			}
			for _, s := range draft.Chalk(is) {
				if len(s.Marks) == 0 {
					t.Errorf("%s, %s: nothing to chalk for %q", g.ID, a.ID, s.Piece)
				}
			}
			for _, f := range is.Report.At(proof.Stops) {
				t.Errorf("%s, %s: %s stops the cut", g.ID, a.ID, f.Check)
			}
		}
	}
}

func differ(a, b piece.Piece) bool {
	if len(a.Cut) != len(b.Cut) {
		return true
	}
	for i, p := range a.Cut {
		if p.Dist(b.Cut[i]) > 1 {
			return true
		}
	}
	return false
}

// TestAltersEverybody: on surveyed bodies every alteration of what is no pair of
// trousers, which have a test of their own, can be drafted, or it is said why not.
func TestAltersEverybody(t *testing.T) {
	bodies := provetest.Bodies(t, 90)
	if testing.Short() {
		bodies = bodies[:2]
	}
	for _, g := range draft.Garments()[1:] {
		var m draft.Maker
		no := map[string]int{}
		for _, b := range bodies {
			j := prove.Style{Garment: g.ID}.Job(b)
			was, err := m.Make(j)
			if err != nil {
				continue // no draft to alter
			}
			for _, a := range g.Alterations() {
				j.Alterations = []job.Alteration{{Kind: a.ID, By: length(t, unit.Format{System: unit.Inches, Den: 16}.Text(a.Usual)), For: job.ForJob}}
				is, err := m.Make(j)
				var cannot *garment.Impossible
				if errors.As(err, &cannot) && cannot.Mend != "" {
					no[a.ID+": "+cannot.Mend]++
					continue
				}
				if err != nil {
					t.Fatalf("%s, %s: %v", b.ID, a.ID, err)
				}
				for _, f := range is.Report.At(proof.Stops) {
					if !strings.Contains(stopped(was), f.Check+";") {
						no[a.ID+": "+f.Check]++
						if f.Mend == "" {
							t.Errorf("%s, %s: %s stops the cut, and nothing is said to mend it", b.ID, a.ID, f.Check)
						}
					}
				}
			}
		}
		t.Logf("%s, %d bodies: %v", g.ID, len(bodies), no)
	}
}

func stopped(r *draft.Result) string {
	s := ""
	for _, f := range r.Report.At(proof.Stops) {
		s += f.Check + ";"
	}
	return s
}
