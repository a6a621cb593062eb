package garmenttest

import (
	"bytes"
	"os"
	"testing"

	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/svg"
)

// Golden holds drafts, by name, against those in testdata/golden, to be looked at
// when they change: what a cutter would not cut by must not get in. update rewrites
// them.
func Golden(t *testing.T, orders map[string]Order, update bool) {
	t.Helper()
	for name, o := range orders {
		t.Run(name, func(t *testing.T) {
			var got bytes.Buffer
			if err := svg.Write(&got, sheet.Draft(o.Draft(t).Pieces, sheet.Options{}), svg.Options{Screen: true, Title: name}); err != nil {
				t.Fatal(err)
			}
			path := "../../../testdata/golden/" + name + ".svg"
			if update {
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
