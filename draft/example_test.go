package draft_test

import (
	"fmt"
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/job"
)

// A job as it is written, drafted as it is taught and as it is trued.
func ExampleMake() {
	j, err := job.Decode(strings.NewReader(`{
		"chalkfold": 1, "name": "Alto 3", "garment": "trousers", "figure": "women",
		"measurements": {"waist_girth": "34 in", "hip_girth": "42 in", "thigh_girth": "25 in", "outside_leg_length": "40 in"}
	}`))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, drafting := range []job.Drafting{job.Spoken, job.Trued} {
		j.Drafting = drafting
		r, err := draft.Make(j)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s: %s\n", drafting, r.Record.Sum("quarter_hip", r.Format))
		for _, g := range r.Report.Girths {
			if g.Name == "hip" {
				fmt.Printf("  hip %s on a body of %s; stops the cut: %t\n", r.Format.Text(g.Draft), r.Format.Text(g.Body), r.Report.Stopped())
			}
		}
	}
	// Output:
	// spoken: hip girth ÷ 4 = 42 ÷ 4 = 10½
	//   hip 41⅜ in on a body of 42 in; stops the cut: true
	// trued: hip girth ÷ 4 = 42 ÷ 4 = 10½
	//   hip 43½ in on a body of 42 in; stops the cut: false
}
