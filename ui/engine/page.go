package engine

import (
	"fmt"
	"sync/atomic"
)

// OnThisPage starts a worker that is no program of its own: it does its tasks in
// slices between which the page works. async runs a function beside the page,
// turn has one called on the page's own turn.
func OnThisPage(bench *Bench, async, turn func(func())) Start {
	return func(hear func(Answer)) Worker {
		w := &pageWorker{bench: bench, async: async, turn: turn, hear: hear}
		turn(func() { hear(Answer{Is: Up}) })
		return w
	}
}

type pageWorker struct {
	bench       *Bench
	async, turn func(func())
	hear        func(Answer)
	given       atomic.Uint32 // the task to be done, nought when it was stopped
}

func (w *pageWorker) Post(t Task) {
	if t.Do == Stop {
		w.given.CompareAndSwap(t.ID, 0)
		return
	}
	w.given.Store(t.ID)
	w.async(func() {
		tell := func(a Answer) { w.turn(func() { w.hear(a) }) }
		// What would end a helper must not end the page.
		defer func() {
			if why := recover(); why != nil {
				tell(Answer{ID: t.ID, Is: Fault, Data: fmt.Append(nil, why)})
			}
		}()
		w.bench.Do(t, func() bool { return w.given.Load() != t.ID }, tell)
	})
}

func (w *pageWorker) End() { w.given.Store(0) }
