package draft_test

import (
	"reflect"
	"testing"

	"chalkfold/draft"
)

// TestUnproved: what is drafted for a picture is what is drafted to be cut, but for the
// proof.
func TestUnproved(t *testing.T) {
	r := example(t, "alto-3.json")
	var m draft.Maker
	u, err := m.Unproved(r.Job)
	if err != nil {
		t.Fatal(err)
	}
	if len(u.Report.Findings)+len(u.Report.Seams) > 0 || len(r.Report.Seams) == 0 {
		t.Errorf("%d findings and %d seams of a draft that is not proved, %d of one that is", len(u.Report.Findings), len(u.Report.Seams), len(r.Report.Seams))
	}
	if !reflect.DeepEqual(u.Panels, r.Panels) || !reflect.DeepEqual(u.Darts, r.Darts) || !reflect.DeepEqual(u.Worn, r.Worn) {
		t.Error("another draft than the one that is cut")
	}
	j := r.Job.Clone()
	j.Garment = "nothing"
	if _, err := m.Unproved(j); err == nil {
		t.Error("a garment that nobody knows is drafted")
	}
}
