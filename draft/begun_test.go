package draft_test

import (
	"reflect"
	"testing"

	"chalkfold/draft"
)

// TestBegun: what is begun is what is drafted at once, but for the proof, and with it.
func TestBegun(t *testing.T) {
	r := example(t, "alto-3.json")
	var m draft.Maker
	u, prove, err := m.Begin(r.Job)
	if err != nil {
		t.Fatal(err)
	}
	if len(u.Report.Findings)+len(u.Report.Seams) > 0 || len(r.Report.Seams) == 0 {
		t.Errorf("%d findings and %d seams of a draft that is not proved, %d of one that is", len(u.Report.Findings), len(u.Report.Seams), len(r.Report.Seams))
	}
	if !reflect.DeepEqual(u.Panels, r.Panels) || !reflect.DeepEqual(u.Darts, r.Darts) || !reflect.DeepEqual(u.Worn, r.Worn) {
		t.Error("another draft than the one that is cut")
	}
	prove()
	if !reflect.DeepEqual(u.Report, r.Report) {
		t.Error("another proof than that of what is drafted at once")
	}
	j := r.Job.Clone()
	j.Garment = "nothing"
	if _, _, err := m.Begin(j); err == nil {
		t.Error("a garment that nobody knows is drafted")
	}
}
