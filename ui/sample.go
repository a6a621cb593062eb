package ui

import (
	"bytes"
	_ "embed"

	"chalkfold/draft/job"
)

//go:embed alto-3.json
var sampleFile []byte //nolint:gochecknoglobals // embed knows no other way; never written to

// Sample is the job that a first-time visitor may open: a ticket of the choir.
// The error is the program's own fault: the file is part of it.
func Sample() (*Job, error) {
	file, err := job.Decode(bytes.NewReader(sampleFile))
	if err != nil {
		return nil, err
	}
	return jobOf(file), nil
}
