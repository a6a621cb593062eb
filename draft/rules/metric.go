package rules

import (
	"math"
	"strconv"

	"chalkfold/draft/unit"
)

// InCentimetres is defs with the defaults that a maker with a metric tape has
// by heart: 5 cm where another says 2 in, 1.3 cm for ½ in. Lengths of 2 in and
// more go to the nearest half centimetre, shorter ones to the nearest
// millimetre; one that would leave its range stays as it is.
func InCentimetres(defs []Def) []Def {
	out := append([]Def(nil), defs...)
	for i, d := range out {
		if d.Kind != Length {
			continue
		}
		q, err := unit.Parse(d.Default, unit.Inches)
		if err != nil {
			continue // Resolve says what is wrong with it
		}
		step := 0.1
		if q.Length() >= 2*unit.Inch {
			step = 0.5
		}
		cm := math.Round(q.Length().CM()/step) * step
		m := unit.Length(cm) * unit.Centimetre
		if !within(d, m) {
			continue
		}
		out[i].Default = strconv.FormatFloat(math.Round(cm*10)/10, 'f', -1, 64) + " cm"
	}
	return out
}

func within(d Def, l unit.Length) bool {
	lo, errLo := unit.ParseSigned(d.Min, unit.Inches)
	hi, errHi := unit.ParseSigned(d.Max, unit.Inches)
	return (d.Min == "" || errLo == nil && l >= lo.Length()) && (d.Max == "" || errHi == nil && l <= hi.Length())
}
