package body

import (
	"math"
	"testing"

	"chalkfold/draft/unit"
	tables "chalkfold/testdata/body"
)

// The rules of thumb that estimate neck base and back width, held against the
// survey: on the whole they are within a finger's breadth of its women, and as
// far off for one of them as people differ.
// Source: testdata/body/ansur2_garment_columns.csv.
func TestUpperEstimatesAgainstTheSurvey(t *testing.T) {
	const finger, differ = 12, 32 // mm: on the whole; the spread of a single body
	for id, of := range map[ID]struct {
		from  string
		parts float64
		more  float64
		is    string
	}{
		NeckBaseGirth: {"neckcircumference", 1, neckBase.MM(), "neckcircumferencebase"},
		BackWidth:     {"chestcircumference", 5, backWidth.MM(), "interscyei"},
	} {
		var sum, squares, n float64
		for _, row := range tables.Rows(t, "ansur2_garment_columns.csv") {
			if row["sex"] != "Female" {
				continue
			}
			off := num(t, row[of.from])/of.parts + of.more - num(t, row[of.is])
			sum, squares, n = sum+off, squares+off*off, n+1
		}
		mean := sum / n
		if sd := math.Sqrt(squares/n - mean*mean); n < 1000 || math.Abs(mean) > finger || sd > differ {
			t.Errorf("%s: %.1f mm off on the whole, spread %.1f, over %.0f women", id, mean, sd, n)
		}
	}
}

// What of the upper body was not taken is estimated from what was, and says how.
func TestUpperEstimates(t *testing.T) {
	taken := Takings{}
	for id, text := range map[ID]string{ChestGirth: "36 in", NeckGirth: "14 in", BackWaistLength: "16 in"} {
		q, err := unit.Parse(text, unit.Inches)
		if err != nil {
			t.Fatal(err)
		}
		taken[id] = Taking{Value: q}
	}
	got, err := Complete(Women, taken, []ID{NeckBaseGirth, BackWidth, ScyeDepth, NeckToBust, BustPoints, FrontWaist})
	if err != nil {
		t.Fatal(err)
	}
	for id, want := range map[ID]float64{
		NeckBaseGirth: 15.625, BackWidth: 14.2, ScyeDepth: 7.725, NeckToBust: 10.5, BustPoints: 7.45, FrontWaist: 17.75,
	} {
		if v := got[id]; !v.Estimated || v.How.In(nil) == "" || math.Abs(v.Length.In()-want) > 1e-9 {
			t.Errorf("%s: %v, %q, want about %v in", id, v.Length.In(), v.How.In(nil), want)
		}
	}
}
