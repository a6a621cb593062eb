package ui

import (
	"maps"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/rules"
)

// A job becomes another garment with all that both know, and comes back by undo
// as it was.
func TestJobBecomesAnotherGarment(t *testing.T) {
	skirt, _ := draft.Find("skirt")
	j := NewJob("trousers")
	if err := j.open(); err != nil {
		t.Fatal(err)
	}
	j.Measure("hip_girth", "38", "2026-05-04")
	j.Choose("front_dart", "none")
	j.Choose("crease", "tuck")
	j.File.Untrued = []string{"ease", "fork"}
	j.File.Rules.House = rules.Values{"seam_allowance": "5/8 in", "fly_length": "7 in"}
	j.File.Rules.Job = rules.Values{"waist_allowance": "3/8 in", "seat_tilt": "1 in"}
	if err := j.Note(""); err != nil {
		t.Fatal(err)
	}

	hers := rules.Values{"skirt_hip_ease": "3 in", "hip_ease": "2 in"}
	j.SetGarment(skirt, known(skirt, j.File.Rules.House), hers)
	if err := j.Note(""); err != nil {
		t.Fatal(err)
	}
	f := j.File
	if f.Garment != "skirt" || !maps.Equal(f.Style, map[string]string{"front_dart": "none"}) || len(f.Untrued) != 1 || f.Untrued[0] != "ease" {
		t.Errorf("%s, style %v, untrued %v", f.Garment, f.Style, f.Untrued)
	}
	for _, x := range []struct{ got, want rules.Values }{
		{f.Rules.House, rules.Values{"seam_allowance": "5/8 in"}},
		{f.Rules.Client, rules.Values{"skirt_hip_ease": "3 in"}},
		{f.Rules.Job, rules.Values{"waist_allowance": "3/8 in"}},
	} {
		if !maps.Equal(x.got, x.want) {
			t.Errorf("rules %v, want %v", x.got, x.want)
		}
	}
	if !f.Measurements["hip_girth"].Value.Set() {
		t.Error("the measurement is lost")
	}
	back := j.Step(false)
	if back == nil || back.File.Garment != "trousers" || back.File.Style["crease"] != "tuck" || back.File.Rules.House["fly_length"] != "7 in" {
		t.Errorf("undone: %+v", back)
	}
}

// What a client has for one garment stays when a job of another tells hers.
func TestClientsRulesOfOtherGarmentsStay(t *testing.T) {
	skirt, _ := draft.Find("skirt")
	got := withKnown(skirt, rules.Values{"hip_ease": "2 in", "skirt_hip_ease": "3 in", "seam_allowance": "1 in"}, rules.Values{"skirt_hip_ease": "4 in"})
	if want := (rules.Values{"hip_ease": "2 in", "skirt_hip_ease": "4 in"}); !maps.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}
