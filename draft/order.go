package draft

import "chalkfold/draft/bench"

// Order is the order of work of a draft, sewn with that. The error is a fault of
// the garment's tasks.
func Order(r *Result, by bench.Setting) ([]bench.Task, error) {
	return bench.Sorted(r.Garment.Work(r.input(), r.Record, r.Pieces, by))
}
