package draft_test

import (
	"math"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/piece"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
)

// cutAnd drafts the middle trousers with house rules, cut, and again as altered.
func cutAnd(t *testing.T, house rules.Values, kind, by string) draft.Recut {
	t.Helper()
	g, _ := draft.Find("trousers")
	j := middle(g)
	j.Rules.House, j.Style = house, map[string]string{"pocket": "none"}
	cut, err := draft.Make(j)
	if err != nil {
		t.Fatal(err)
	}
	j.Alterations = []job.Alteration{{Kind: kind, By: length(t, by)}}
	is, err := draft.Make(j)
	if err != nil {
		t.Fatal(err)
	}
	return draft.RecutOf(cut, is)
}

func edgeOf(r draft.Recut, panel string, at piece.Place) (draft.RecutEdge, draft.RecutPanel) {
	for _, p := range r.Panels {
		for _, e := range p.Edges {
			if p.Piece.ID == panel && e.Place == at {
				return e, p
			}
		}
	}
	return draft.RecutEdge{}, draft.RecutPanel{}
}

func near(t *testing.T, what string, got unit.Length, want string) {
	t.Helper()
	if w := length(t, want).Length(); math.Abs((got - w).MM()) > 1 {
		t.Errorf("%s: %.2f mm, want %s", what, got.MM(), want)
	}
}

// What a seam asks for is what the alteration lays over it, and what is left is
// the allowance less that: half an inch of allowance lets the hip out by an inch
// all round, a quarter at each seam, and keeps a quarter to sew with.
func TestRecutLetsOutOfTheAllowance(t *testing.T) {
	r := cutAnd(t, nil, "hip_out", "1 in")
	side, p := edgeOf(r, "front", piece.Side)
	near(t, "asked at the side", side.Most, "1/4 in")
	near(t, "there is", side.Has, "1/2 in")
	near(t, "left", side.Left, "1/4 in")
	if !side.Can() || p.Lower != 0 {
		t.Errorf("set down by %v: %+v", p.Lower, p.Edges)
	}
	r = cutAnd(t, nil, "hip_out", "2 in")
	if side, _ = edgeOf(r, "front", piece.Side); side.Can() || r.Can() {
		t.Errorf("half an inch at each side cannot be let out of an allowance of half an inch: %+v", side)
	}
	if r = cutAnd(t, rules.Values{"seam_allowance": "1 in"}, "hip_out", "2 in"); !r.Can() {
		t.Error("an inch of allowance is enough")
	}
}

// The inlay at the centre back is there to be let out.
func TestRecutKnowsTheInlay(t *testing.T) {
	if r := cutAnd(t, nil, "back_waist_out", "1 1/2 in"); r.Can() {
		t.Error("without an inlay three quarters of an inch cannot be let out")
	}
	r := cutAnd(t, rules.Values{"centre_back_inlay": "1 in"}, "back_waist_out", "1 1/2 in")
	centre, _ := edgeOf(r, "back", piece.Centre)
	near(t, "asked at the centre back", centre.Most, "3/4 in")
	if !centre.Can() || centre.Upper < centre.Under {
		t.Errorf("the inlay of an inch is not seen: %+v", centre)
	}
	if len(r.Anew) == 0 {
		t.Error("the band must be longer")
	}
}

// What lacks above is found below: to lengthen the seat seam of trousers that are
// cut, the back is set down on its cloth, and the hem gives what that takes.
func TestRecutSetsDown(t *testing.T) {
	r := cutAnd(t, nil, "back_longer", "1/2 in")
	hem, p := edgeOf(r, "back", piece.Foot)
	if !r.Can() || p.Lower <= 0 {
		t.Fatalf("%+v", r)
	}
	near(t, "hem", hem.Most, unit.Format{System: unit.Inches, Den: 8}.Text(p.Lower))
	near(t, "the hem keeps", hem.Left+hem.Most, "2 in")
}

// A leg that is set further in is set aside on its cloth where the inseam alone
// has not enough.
func TestRecutSetsAside(t *testing.T) {
	r := cutAnd(t, nil, "leg_inwards", "1/4 in")
	aside := false
	for _, p := range r.Panels {
		aside = aside || p.Aside > 0
	}
	if !r.Can() || !aside {
		for _, p := range r.Panels {
			t.Errorf("%s: %+v", p.Piece.ID, p.Edges)
		}
	}
}

// Taking in needs no cloth, and what is not altered is not unpicked.
func TestRecutTakesIn(t *testing.T) {
	for _, kind := range []string{"hip_in", "thigh_in", "leg_in", "waist_in"} {
		r := cutAnd(t, nil, kind, "1/2 in")
		if !r.Can() {
			t.Errorf("%s cannot be done", kind)
		}
		if e, _ := edgeOf(r, "back", piece.Centre); e.Name != "" && math.Abs(e.Most.MM()) > 2 {
			t.Errorf("%s moves the centre back by %v", kind, e.Most)
		}
	}
}
