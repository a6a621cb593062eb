package bodice_test

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
		"bodice_bust36_spoken":   {body: measured(t, bust36), spoken: true},
		"bodice_bust36_side":     {body: measured(t, bust36)},
		"bodice_bust36_shoulder": {body: measured(t, bust36), style: garment.Style{"bust_dart": "from_shoulder", "closure": "zip_side", "neck": "low", "finish": "lined"}},
		"bodice_full_bust":       {body: measured(t, fullBust), rules: rules.Values{"seam_allowance": "5/8 in"}},
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
