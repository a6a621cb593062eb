package ui

import (
	"maps"
	"slices"

	"chalkfold/draft/bench"
	"chalkfold/draft/plain"
)

// Sewing is how far a job is at the bench.
type Sewing struct {
	Done   map[string]bool // tasks, by their ids
	Drawer map[string]bool // notions that are there, by their ids
	Weight bench.Weight
	Two    bool // it is shared by two workers
	Took   int  // minutes that it took, as the maker says; nought until then
	// Step is the task that was open last. It is no part of what can be undone,
	// nor what is reckoned of the tasks.
	Step string
	// Minutes are those that the tasks are reckoned at, and Left those of the
	// tasks that are not done.
	Minutes, Left int
}

// turn sets a tick, or takes it back.
func turn(ticks map[string]bool, id string) {
	if ticks[id] {
		delete(ticks, id)
		return
	}
	ticks[id] = true
}

func (s Sewing) write(w *plain.Writer) {
	writeTicks(w, "sewn", s.Done)
	writeTicks(w, "drawer", s.Drawer)
	w.TextIf("weight", string(s.Weight))
	w.TruthIf("two", s.Two)
	w.IntIf("took", int64(s.Took))
	w.TextIf("step", s.Step)
}

// read reads one of the keys that write writes.
func (s *Sewing) read(key string, r *plain.Reader) {
	switch key {
	case "sewn":
		s.Done = readTicks(r)
	case "drawer":
		s.Drawer = readTicks(r)
	case "weight":
		s.Weight = bench.Weight(r.Text())
	case "two":
		s.Two = r.Truth()
	case "took":
		s.Took = int(r.Int())
	case "step":
		s.Step = r.Text()
	}
}

func writeTicks(w *plain.Writer, key string, ticks map[string]bool) {
	if len(ticks) == 0 {
		return
	}
	w.Key(key).Open('{')
	for _, id := range slices.Sorted(maps.Keys(ticks)) {
		w.Key(id).Truth(ticks[id])
	}
	w.Shut('}')
}

func readTicks(r *plain.Reader) map[string]bool {
	out := map[string]bool{}
	for id := range r.Object() {
		out[id] = r.Truth()
	}
	return out
}
