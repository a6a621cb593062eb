// Package jobs hands the example jobs to tests.
package jobs

import (
	"bytes"
	"embed"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/job"
)

//go:embed *.json
var files embed.FS

// File is the job file of a name, as "alto-3.json".
func File(t testing.TB, name string) []byte {
	t.Helper()
	data, err := files.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// Read is the job of a name.
func Read(t testing.TB, name string) job.Job {
	t.Helper()
	j, err := job.Decode(bytes.NewReader(File(t, name)))
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// Made is the draft of the job of a name.
func Made(t testing.TB, name string) *draft.Result {
	t.Helper()
	r, err := draft.Make(Read(t, name))
	if err != nil {
		t.Fatal(err)
	}
	return r
}
