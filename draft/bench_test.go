package draft_test

import (
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/rules"
)

// workshop is a job with the whole of the style: darts, pocket, stitched crease.
const workshop = `{"chalkfold": 1, "garment": "trousers", "figure": "women",
	"measurements": {"waist_girth": "34 in", "hip_girth": "42 in", "thigh_girth": "25 in",
		"knee_girth": "15 1/2 in", "outside_leg_length": "40 in"},
	"style": {"front_dart": "pressed", "crease": "tuck"}, "rules": {"house": {"centre_back_inlay": "1 in"}}}`

// A whole draft from nothing: construction, pieces, proof.
func BenchmarkDraft(b *testing.B) {
	j := read(b, workshop)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := draft.Make(j); err != nil {
			b.Fatal(err)
		}
	}
}

// A draft made again with another measurement, as when a figure is turned.
func BenchmarkRedraft(b *testing.B) {
	var jobs [2]job.Job
	for i, hip := range []string{"42 in", "42 1/8 in"} {
		jobs[i] = read(b, workshop)
		t := jobs[i].Measurements["hip_girth"]
		t.Value = length(b, hip)
		jobs[i].Measurements["hip_girth"] = t
	}
	redraft(b, jobs)
}

// A draft made again with another rule, as when a rule is slid.
func BenchmarkRedraftRule(b *testing.B) {
	var jobs [2]job.Job
	for i, tilt := range []string{"2 in", "1 7/8 in"} {
		jobs[i] = read(b, workshop)
		jobs[i].Rules.Job = rules.Values{"seat_tilt": tilt}
	}
	redraft(b, jobs)
}

func redraft(b *testing.B, jobs [2]job.Job) {
	b.Helper()
	var m draft.Maker
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		n++
		if _, err := m.Make(jobs[n%2]); err != nil {
			b.Fatal(err)
		}
	}
}
