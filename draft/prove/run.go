package prove

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"sync/atomic"

	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/job"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/unit"
)

// Drafted is what one draft gave.
type Drafted struct {
	Report proof.Report
	Pieces []piece.Piece
	Ease   unit.Length // what was chosen for the fork seam over the crotch length
}

// Draft drafts one job. Errors are those of package draft.
type Draft func(job.Job) (Drafted, error)

// block is how many bodies a worker takes at a time, in one style: what a
// maker of drafts keeps between them stays good.
const block = 64

// Run drafts every body in every style on so many workers, each with a Draft
// of its own from newDraft, and counts. It ends early, with an error, only
// when ctx does.
func Run(ctx context.Context, bodies []Body, styles []Style, workers int, newDraft func() Draft) (Report, error) {
	outcomes := make([][]outcome, len(styles))
	for i := range outcomes {
		outcomes[i] = make([]outcome, len(bodies))
	}
	blocks := (len(bodies) + block - 1) / block
	var next atomic.Int64
	var all sync.WaitGroup
	for range max(workers, 1) {
		all.Go(func() {
			draft := newDraft()
			for ctx.Err() == nil {
				n := int(next.Add(1)) - 1
				if n >= blocks*len(styles) {
					return
				}
				s, from := n/blocks, n%blocks*block
				for i := from; i < min(from+block, len(bodies)); i++ {
					outcomes[s][i] = try(draft, styles[s].Job(bodies[i]))
				}
			}
		})
	}
	all.Wait()
	if err := ctx.Err(); err != nil {
		return Report{}, fmt.Errorf("prove: ended early: %w", err)
	}
	return count(bodies, styles, outcomes), nil
}

// outcome is what is kept of one draft.
type outcome struct {
	stops, minds []string // checks, each once
	crossed      bool     // an outline crosses itself
	failed       string   // the program failed: how
	fork         float64  // fork seam less the body's crotch length, mm
	hasFork      bool
	ease         float64 // chosen, mm
	told         bool    // a finding says that the fork seam could not be balanced, and why
}

// try drafts one job; a panic becomes an outcome.
func try(draft Draft, j job.Job) (o outcome) {
	defer func() {
		if p := recover(); p != nil {
			o = outcome{failed: fmt.Sprint("panic: ", p)}
		}
	}()
	d, err := draft(j)
	if err != nil {
		return refused(err)
	}
	for _, f := range d.Report.Findings {
		switch f.Level {
		case proof.Stops:
			o.stops = addOnce(o.stops, f.Check)
		case proof.Mind:
			o.minds = addOnce(o.minds, f.Check)
		case proof.Fine:
		}
		if f.Check == forkSeam && f.Least != nil {
			o.fork, o.hasFork, o.ease = f.Figure.V-f.Least.V, true, d.Ease.MM()
		}
		o.told = o.told || f.Check == balanced && f.Level != proof.Fine && f.Mend != ""
	}
	if len(o.stops) > 0 {
		o.crossed = crosses(d.Pieces)
	}
	return o
}

// forkSeam is the check whose figure is the fork seam from band to band, and
// whose least is the body's crotch length.
const forkSeam = "fork seam"

// balanced is the check that says whether the fork seam came out as it was
// balanced for, and what stopped it.
const balanced = "balance"

// refused is the outcome of an error: a stated reason, or the program's fault.
func refused(err error) outcome {
	var (
		impossible *garment.Impossible
		bad        *job.Bad
	)
	switch {
	case errors.As(err, &impossible): // the mend has no figures in it, so that it can be counted
		return outcome{stops: []string{"cannot be drafted: " + impossible.Mend}}
	case errors.As(err, &bad):
		var o outcome
		for _, p := range bad.Problems {
			o.stops = addOnce(o.stops, "refused: "+p.Path)
		}
		return o
	}
	return outcome{failed: err.Error()}
}

func crosses(pieces []piece.Piece) bool {
	for _, p := range pieces {
		for _, ring := range [][]geom.Pt{p.Sew, p.Cut} {
			if _, yes := geom.SelfCross(ring); yes {
				return true
			}
		}
	}
	return false
}

func addOnce(all []string, s string) []string {
	for _, a := range all {
		if a == s {
			return all
		}
	}
	return append(all, s)
}
