package body_test

import (
	"fmt"

	"chalkfold/draft/body"
	"chalkfold/draft/unit"
)

// The alto of the choir, ticket 3: five measurements, the rest estimated.
func Example() {
	taken := body.Takings{}
	for id, text := range map[body.ID]string{
		body.WaistGirth: "34", body.HipGirth: "42", body.ThighGirth: "29",
		body.BodyRise: "11", body.OutsideLegLength: "41",
	} {
		q, err := unit.Parse(text, unit.Inches)
		if err != nil {
			fmt.Println(err)
			return
		}
		taken[id] = body.Taking{Value: q}
	}
	if err := body.Limits(taken); err != nil {
		fmt.Println(err)
		return
	}
	for _, d := range body.Check(body.Women, taken) {
		fmt.Printf("%s: %s\n", d.Level, d.Text)
	}
	values, err := body.Complete(body.Women, taken, []body.ID{body.HipGirth, body.InsideLegLength, body.KneeGirth})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, id := range []body.ID{body.HipGirth, body.InsideLegLength, body.KneeGirth} {
		v := values[id]
		if v.Estimated {
			fmt.Printf("%s about %s: %s\n", id, unit.Format{}.Text(v.Length), v.How)
			continue
		}
		fmt.Printf("%s %s\n", id, v.Given)
	}
	// Output:
	// insist: thigh girth 29 in beside hip girth 42 in: of the women in the survey nearly all lie from 24 in to 27 in; measure again, or keep it
	// hip_girth 42 in
	// inside_leg_length about 30 in: outside leg length less body rise
	// knee_girth about 16½ in: from hip, as in the survey of women
}
