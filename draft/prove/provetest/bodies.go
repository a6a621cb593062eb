// Package provetest hands the surveyed bodies to the tests of other packages.
package provetest

import (
	"bytes"
	"testing"

	"chalkfold/draft/prove"
	tables "chalkfold/testdata/body"
)

// Bodies are the surveyed bodies of testdata/body, one in so many.
func Bodies(t testing.TB, every int) []prove.Body {
	t.Helper()
	all, err := prove.Bodies(bytes.NewReader(tables.File(t, tables.Survey)), 0)
	if err != nil {
		t.Fatal(err)
	}
	var out []prove.Body
	for i := 0; i < len(all); i += every {
		out = append(out, all[i])
	}
	return out
}
