package skirt_test

import (
	"bytes"
	"flag"
	"os"
	"testing"

	"chalkfold/draft/garment"
	"chalkfold/draft/rules"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/svg"
)

var update = flag.Bool("update", false, "rewrite the golden drafts") //nolint:gochecknoglobals // a flag

// Golden drafts, to be looked at when they change: what a cutter would not cut
// by must not get in. -update rewrites them.
func TestGoldenDrafts(t *testing.T) {
	for name, o := range map[string]order{
		"skirt_hip38_spoken":   {body: measured(t, hip38), spoken: true},
		"skirt_hip38_trued":    {body: measured(t, hip38)},
		"skirt_a_line_lined":   {body: measured(t, hip38), style: garment.Style{"shape": "a_line", "closure": "zip_side", "opening": "none", "lining": "full"}},
		"skirt_pencil_slits":   {body: measured(t, curvy), style: garment.Style{"shape": "pencil", "closure": "zip_side", "opening": "side_slits", "front_dart": "two"}},
		"skirt_straight_waist": {body: measured(t, straightWaist), style: garment.Style{"length": "calf", "opening": "slit"}, rules: rules.Values{"skirt_band_width": "2 in"}},
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
