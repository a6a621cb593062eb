package trouser_test

import (
	"bytes"
	"flag"
	"os"
	"testing"

	"chalkfold/draft/garment"
	"chalkfold/draft/garment/trouser"
	"chalkfold/draft/rules"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/svg"
)

var update = flag.Bool("update", false, "rewrite the golden drafts") //nolint:gochecknoglobals // a flag

// Golden drafts, to be looked at when they change: what a cutter would not cut
// by must not get in. -update rewrites them.
func TestGoldenDrafts(t *testing.T) {
	for name, o := range map[string]order{
		"trousers_hip42_spoken":   {body: measured(t, hip42), spoken: true},
		"trousers_hip42_trued":    {body: measured(t, hip42)},
		"trousers_large_man":      {body: measured(t, largeMan), style: garment.Style{"crease": "pressed"}, rules: rules.Values{"centre_back_inlay": "1 1/2 in"}},
		"trousers_small_woman":    {body: measured(t, smallWoman), style: garment.Style{"closure": "fly_right", "leg": "free"}},
		"trousers_balanced":       {body: measured(t, balancedBody), method: trouser.Balanced},
		"trousers_elastic_shorts": {body: measured(t, smallWoman), style: garment.Style{"closure": "elastic", "front_dart": "none", "back_dart": "none", "pocket": "seam", "length": "shorts", "back_pocket": "one"}},
		"trousers_full_figure":    {body: measured(t, largeMan), method: trouser.Balanced, style: garment.Style{garment.Seat: "full", garment.Abdomen: "full", "closure": "back_zip", "pocket": "seam", "back_dart": "two"}},
		"trousers_high_hip":       {body: measured(t, highLeft), style: garment.Style{"pocket": "none"}},
		"trousers_pleats_turn_up": {body: measured(t, hip42), style: garment.Style{"front_dart": "pleats", "hem": "turn_up", "leg": "tapered", "back_pocket": "two", "back_dart": "two", "pocket": "seam", "crease": "pressed"}},
		"trousers_side_zip_wide":  {body: measured(t, hip42), style: garment.Style{"closure": "side_zip", "pocket": "none", "band": "shaped", "leg": "wide", "lining": "knee"}},
		"trousers_tuck_tapered":   {body: measured(t, hip42), style: garment.Style{"crease": "tuck", "leg": "tapered", "front_dart": "pressed"}},
	} {
		t.Run(name, func(t *testing.T) {
			var got bytes.Buffer
			if err := svg.Write(&got, sheet.Draft(o.draft(t).Pieces, sheet.Options{}), svg.Options{Screen: true, Title: name}); err != nil {
				t.Fatal(err)
			}
			path := "../../../testdata/golden/" + name + ".svg"
			if *update {
				if err := os.WriteFile(path, got.Bytes(), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(got.Bytes(), want) {
				t.Errorf("the draft is not as kept in %s; look at it, and run go test -update if it is right", path)
			}
		})
	}
}
