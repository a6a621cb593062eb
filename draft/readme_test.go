package draft_test

import (
	"bytes"
	"flag"
	"os"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/svg"
)

var update = flag.Bool("update", false, "rewrite the golden files") //nolint:gochecknoglobals // a flag

// The picture in the README is what the program draws today.
func TestReadmePicture(t *testing.T) {
	const golden = "../testdata/golden/readme.svg"
	f, err := os.Open("../testdata/jobs/alto-3.json")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	j, err := job.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	r, err := draft.Make(j)
	if err != nil {
		t.Fatal(err)
	}
	var got bytes.Buffer
	if err := svg.Write(&got, sheet.Draft(r.Pieces, sheet.Options{Job: j.Name}), svg.Options{Screen: true, Title: "Trousers drafted for " + j.Name}); err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile(golden, got.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got.Bytes(), want) {
		t.Errorf("the README shows another draft than the program draws; look at the new one, then rewrite it with -update")
	}
}
