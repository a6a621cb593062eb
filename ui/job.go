package ui

import (
	"encoding/json"
	"fmt"

	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/unit"
	"chalkfold/ui/tape"
)

// recordKind is the kind of the records that hold jobs.
const recordKind = "job"

// jobVersion is the version of the form in which this page keeps a job.
const jobVersion = 1

// Job is one job as it stands on the page: everything as it was typed, also
// what cannot be used yet, so that nothing is lost when the page is closed in
// the middle of a figure.
type Job struct {
	Version int           `json:"version"`
	Ticket  string        `json:"ticket"`
	Metric  bool          `json:"metric"` // a figure without a unit is in centimetres
	Figure  body.Figure   `json:"figure,omitempty"`
	Typed   tape.Typed    `json:"typed"`
	Style   garment.Style `json:"style"`
	Cloth   Cloth         `json:"cloth"`
}

// Cloth is the cloth at hand, as typed.
type Cloth struct {
	Width  string `json:"width"`
	Length string `json:"length"`
	Open   bool   `json:"open"` // laid open, not folded
}

// NewJob is a job with nothing in it.
func NewJob() *Job {
	return &Job{Version: jobVersion, Typed: tape.Typed{}, Style: garment.Style{}}
}

// System is the unit of a figure that names none.
func (j *Job) System() unit.System {
	if j.Metric {
		return unit.Centimetres
	}
	return unit.Inches
}

// Encode writes the job for the store.
func (j *Job) Encode() ([]byte, error) { return json.Marshal(j) }

// DecodeJob reads a job from the store.
func DecodeJob(data []byte) (*Job, error) {
	j := NewJob()
	if err := json.Unmarshal(data, j); err != nil {
		return nil, fmt.Errorf("the kept job cannot be read: %w", err)
	}
	if j.Version != jobVersion {
		return nil, fmt.Errorf("the kept job has version %d, this page knows %d: reload the page for a newer one", j.Version, jobVersion)
	}
	if j.Typed == nil {
		j.Typed = tape.Typed{}
	}
	if j.Style == nil {
		j.Style = garment.Style{}
	}
	return j, nil
}
