package ui

import (
	"bytes"
	_ "embed"

	"chalkfold/draft/job"
)

// sampleFile is the sample as in testdata/jobs. It is never written to.
//
//go:embed alto-3.json
var sampleFile []byte

// Sample is the job that a first-time visitor may open: a ticket of the choir.
// The error is the program's own fault: the file is part of it.
func Sample() (*Job, error) {
	file, err := job.Decode(bytes.NewReader(sampleFile))
	if err != nil {
		return nil, err
	}
	return jobOf(file), nil
}
