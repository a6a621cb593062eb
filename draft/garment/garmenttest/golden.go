package garmenttest

import (
	"bytes"
	"testing"

	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/svg"
	"chalkfold/testdata/golden"
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
			golden.Is(t, name+".svg", got.Bytes(), update)
		})
	}
}
