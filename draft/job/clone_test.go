package job_test

import (
	"reflect"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/job"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
)

func TestCloneSharesNothing(t *testing.T) {
	j := job.Job{
		Name: "Alto 3", Measurements: body.Takings{body.HipGirth: {}}, Style: map[string]string{"leg": "free"},
		Rules:   job.Rules{House: rules.Values{"rise": "11 in"}, Client: rules.Values{"rise": "12 in"}, Job: rules.Values{"rise": "13 in"}},
		Untrued: []string{"hip"}, Cloth: []job.Cloth{{Name: "suiting", Flaws: []job.Flaw{{}}, Outline: []job.Corner{{}}, Kept: []job.Kept{{Piece: "front"}}}},
		Alterations: []job.Alteration{{Kind: "hip_out"}},
	}
	c := j.Clone()
	if !reflect.DeepEqual(c, j) {
		t.Fatalf("the clone differs: %+v", c)
	}
	c.Measurements[body.WaistGirth] = body.Taking{}
	c.Style["leg"], c.Rules.House["rise"], c.Rules.Client["rise"], c.Rules.Job["rise"] = "x", "x", "x", "x"
	c.Alterations[0].Kind = "x"
	c.Untrued[0], c.Cloth[0].Name, c.Cloth[0].Kept[0].Piece = "x", "x", "x"
	inch, err := unit.Parse("1 in", unit.Inches)
	if err != nil {
		t.Fatal(err)
	}
	c.Cloth[0].Flaws[0].Across, c.Cloth[0].Outline[0].Along = inch, inch
	if j.Alterations[0].Kind != "hip_out" || len(j.Measurements) != 1 || j.Style["leg"] != "free" || j.Rules.House["rise"] != "11 in" || j.Rules.Client["rise"] != "12 in" ||
		j.Rules.Job["rise"] != "13 in" || j.Untrued[0] != "hip" || j.Cloth[0].Name != "suiting" || j.Cloth[0].Kept[0].Piece != "front" ||
		j.Cloth[0].Flaws[0].Across.Set() || j.Cloth[0].Outline[0].Along.Set() {
		t.Errorf("the job was changed through its clone: %+v", j)
	}
}
