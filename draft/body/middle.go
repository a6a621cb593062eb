package body

import (
	"math"
	"strconv"

	"chalkfold/draft/unit"
)

// Middle is the middle of a figure: the means of the survey, in whole
// millimetres and from the natural waist. It is nobody's body, and serves only
// to show a garment before anybody is measured.
func Middle(f Figure) Takings {
	out := Takings{}
	for _, d := range Defs() {
		sum, n := 0.0, 0
		for _, h := range f.halves() {
			if t, ok := survey(h, d.ID); ok {
				sum, n = sum+t.mean, n+1
			}
		}
		if n == 0 {
			continue
		}
		mm := math.Round(sum/float64(n) + raised(d.ID).MM())
		q, err := unit.Parse(strconv.Itoa(int(mm)), unit.Millimetres)
		if err != nil {
			continue
		}
		out[d.ID] = Taking{Value: q}
	}
	return out
}
