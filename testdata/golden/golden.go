// Package golden holds what is made now against what is kept here, for tests.
package golden

import (
	"bytes"
	"embed"
	"os"
	"path/filepath"
	"testing"
)

//go:embed *.svg *.txt
var files embed.FS

// Is holds what was made against the file of that name, to be looked at when it
// changes; with update it writes the file instead.
func Is(t testing.TB, name string, got []byte, update bool) {
	t.Helper()
	if update {
		if err := os.WriteFile(filepath.Join(folder(t), name), got, 0o600); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := files.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("it is not as kept in testdata/golden/%s; look at it, and run go test -update if it is right", name)
	}
}

// folder is this one, looked for from where the test runs.
func folder(t testing.TB) string {
	t.Helper()
	up := "."
	for range 8 {
		here := filepath.Join(up, "testdata", "golden")
		if _, err := os.Stat(filepath.Join(here, "golden.go")); err == nil {
			return here
		}
		up = filepath.Join(up, "..")
	}
	t.Fatal("testdata/golden is not found")
	return ""
}
