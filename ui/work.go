package ui

import (
	"chalkfold/draft/garment"
	"chalkfold/ui/chalk"
	"chalkfold/ui/drafting"
	"chalkfold/ui/kit"
)

// Core makes the draft of a job. It is the same core as on the command line;
// wasm/ hands it in.
type Core struct {
	Garment garment.Garment
	// Make drafts what can be drafted of the job.
	Make func(*Job) Work
}

// Work is what the core made of a job, ready to be shown. The zero value has
// nothing.
type Work struct {
	Missing  string // why there is no draft
	Drawing  string // SVG
	Findings []drafting.Finding
	Steps    []chalk.Step
	Lay      Lay
}

// Lay is the pieces on the cloth at hand, ready to be shown.
type Lay struct {
	BadWidth, BadLength string // why what was typed cannot be used
	Missing             string // why there is no lay
	Drawing             string // SVG
	Tone                kit.Tone
	Verdict             string
	Lines               []string
}
