package main

import (
	"context"
	"fmt"
	"io"
	"sync"
	"time"

	"chalkfold/draft/lay"
	"chalkfold/draft/lay/published"
)

// layTask is how a published packing problem is laid: by one search on each
// core, from seeds of their own, each going on from the best of all, until the
// time is up or so many steps are made. By steps it comes out the same each time.
type layTask struct {
	seconds float64
	work    int // steps of each search; 0 goes by the time
	seed    uint64
	cores   int
}

// instanceJSON is a packing problem laid.
type instanceJSON struct {
	Name    string     `json:"name"`
	Width   float64    `json:"width"`
	Length  float64    `json:"length"`
	Density float64    `json:"density_percent"`
	Seed    uint64     `json:"seed"`
	Cores   int        `json:"cores"`
	Seconds float64    `json:"seconds,omitempty"`
	Work    int        `json:"work,omitempty"`
	Pieces  []spotJSON `json:"pieces"`
}

// runInstance lays a published packing problem and says how densely.
func runInstance(ctx context.Context, file string, task layTask, asJSON bool, out, errs io.Writer) error {
	in, err := openInstance(file)
	if err != nil {
		return refusal(errs, "lay", err)
	}
	r, err := task.lay(ctx, in)
	if err != nil {
		return refusal(errs, "lay", fmt.Errorf("%s: %w", file, err))
	}
	if !asJSON {
		_, err = fmt.Fprintf(out, "length %.3f\ndensity %.2f %%\n", r.Length.MM(), r.Density)
		return err
	}
	j := instanceJSON{
		Name: in.Name, Width: in.Cloth.Width.MM(), Length: r.Length.MM(), Density: round3(r.Density),
		Seed: task.seed, Cores: task.cores, Pieces: spots(r, in.Items),
	}
	if j.Work = task.work; task.work == 0 {
		j.Seconds = task.seconds
	}
	return writeJSON(out, j)
}

func openInstance(file string) (published.Problem, error) {
	f, err := openInput(file)
	if err != nil {
		return published.Problem{}, err
	}
	defer f.Close()
	data, err := io.ReadAll(f)
	if err != nil {
		return published.Problem{}, err
	}
	in, err := published.Read(data)
	if err != nil {
		return in, fmt.Errorf("%s: %w", file, err)
	}
	return in, nil
}

// lay returns the best lay of all the searches. It has been verified.
func (t layTask) lay(ctx context.Context, in published.Problem) (lay.Result, error) {
	end := time.Now().Add(time.Duration(t.seconds * float64(time.Second))) //nolint:forbidigo // the time is what was asked for
	r, err := t.begin(in)
	if err != nil {
		return lay.Result{}, err
	}
	r.run(t.work, func() bool { return ctx.Err() != nil || t.work == 0 && !time.Now().Before(end) }) //nolint:forbidigo // likewise
	return r.best()
}

// race is the searches of a task under way.
type race struct {
	problem  published.Problem
	searches []*lay.Search
}

func (t layTask) begin(in published.Problem) (race, error) {
	r := race{in, make([]*lay.Search, t.cores)}
	for k := range r.searches {
		var err error
		if r.searches[k], err = lay.NewSearch(in.Cloth, in.Items, t.seed+uint64(k)<<32); err != nil {
			return r, err
		}
	}
	return r, nil
}

// layRound is how many steps each search makes before they share what they have
// found: some hundredths of a second.
const layRound = 1000

// run goes on until it is to stop, or each search has made so many steps if that is
// not 0; it makes one round at least.
func (r race) run(work int, stop func() bool) {
	for made := 0; made == 0 || !stop() && (work == 0 || made < work); made += layRound {
		steps := layRound
		if work > 0 {
			steps = min(steps, work-made)
		}
		var round sync.WaitGroup
		for _, s := range r.searches {
			round.Go(func() { s.Run(steps, stop, nil) })
		}
		round.Wait()
		lay.Share(r.searches)
	}
}

// best returns the best lay so far, and the error that it fails verification
// with.
func (r race) best() (lay.Result, error) {
	best := r.searches[0].Best()
	return best, lay.Verify(r.problem.Cloth, r.problem.Items, best)
}
