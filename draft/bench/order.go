package bench

import (
	"fmt"
	"slices"
)

// Sorted is the tasks in a sequence in which each comes after all that must be
// done before it: part by part where that can be, and as they were told within
// one. The error, a fault of the program, names a task that waits for itself or
// is told twice.
func Sorted(tasks []Task) ([]Task, error) {
	before, err := waits(tasks)
	if err != nil {
		return nil, err
	}
	done := make([]bool, len(tasks))
	out := make([]Task, 0, len(tasks))
	for range tasks {
		next := -1
		for i, t := range tasks {
			if !done[i] && ready(before[i], done) && (next < 0 || t.Part < tasks[next].Part) {
				next = i
			}
		}
		if next < 0 {
			return nil, fmt.Errorf("bench: task %q waits for itself", tasks[slices.Index(done, false)].ID)
		}
		done[next] = true
		out = append(out, tasks[next])
	}
	return out, nil
}

// Minutes is how long tasks take, one after the other.
func Minutes(tasks []Task) int {
	sum := 0
	for _, t := range tasks {
		sum += t.Minutes
	}
	return sum
}

// waits is, for each task, which others must be done before it.
func waits(tasks []Task) ([][]int, error) {
	at := map[string]int{}
	for i, t := range tasks {
		if _, twice := at[t.ID]; twice {
			return nil, fmt.Errorf("bench: task %q is told twice", t.ID)
		}
		at[t.ID] = i
	}
	out := make([][]int, len(tasks))
	for i, t := range tasks {
		for _, id := range t.After {
			if k, ok := at[id]; ok {
				out[i] = append(out[i], k)
			}
		}
	}
	return out, nil
}

func ready(before []int, done []bool) bool {
	for _, k := range before {
		if !done[k] {
			return false
		}
	}
	return true
}

// Shared is a task in the hands of one of two workers.
type Shared struct {
	Task
	Worker     int // 0 or 1
	Start, End int // minutes from the beginning
	// From are the tasks of the other worker that are handed over for this one.
	From []string
}

// Split shares sorted tasks between two workers so that the last is done early:
// who is free first takes the task that the longest work hangs on. What one has in
// hand the other leaves alone, with all that is sewn to it already. Both lists
// come in one sequence, by when each task begins.
func Split(sorted []Task) ([]Shared, error) {
	before, err := waits(sorted)
	if err != nil {
		return nil, err
	}
	hangs := tails(sorted, before)
	whole := joined{}
	out := make([]Shared, 0, len(sorted))
	placed := make([]int, len(sorted)) // where in out, from 1
	var free [2]int
	last := [2]int{-1, -1}
	for range sorted {
		best, who, start := -1, 0, 0
		for i := range sorted {
			if placed[i] != 0 || slices.ContainsFunc(before[i], func(k int) bool { return placed[k] == 0 }) {
				continue
			}
			at := 0
			for _, k := range before[i] {
				at = max(at, out[placed[k]-1].End)
			}
			for _, o := range out {
				if o.End > at && whole.meet(o.Task, sorted[i]) {
					at = o.End
				}
			}
			for w := range free {
				from := max(at, free[w])
				better := best < 0 || from < start || from == start && hangs[i] > hangs[best]
				goesOn := best == i && from == start && slices.Contains(before[i], last[w])
				if better || goesOn {
					best, who, start = i, w, from
				}
			}
		}
		if best < 0 {
			return nil, fmt.Errorf("bench: a task waits for itself")
		}
		s := Shared{Task: sorted[best], Worker: who, Start: start, End: start + sorted[best].Minutes}
		for _, k := range before[best] {
			if o := out[placed[k]-1]; o.Worker != who {
				s.From = append(s.From, o.ID)
			}
		}
		free[who], last[who] = s.End, best
		whole.sew(s.Task)
		out = append(out, s)
		placed[best] = len(out)
	}
	slices.SortStableFunc(out, func(a, b Shared) int { return a.Start - b.Start })
	return out, nil
}

// joined tells which pieces are one by now: each names another of them, or itself.
type joined map[string]string

func (j joined) of(id string) string {
	for j[id] != "" && j[id] != id {
		id = j[id]
	}
	return id
}

// sew makes what a task sews together one.
func (j joined) sew(t Task) {
	for i, r := range t.Sews {
		if a, b := j.of(r.Piece), j.of(t.Sews[0].Piece); i > 0 && !t.Single && a != b {
			j[a] = b
		}
	}
}

// meet reports whether two tasks take the same in hand.
func (j joined) meet(a, b Task) bool {
	return slices.ContainsFunc(a.Pieces, func(p string) bool {
		return slices.ContainsFunc(b.Pieces, func(q string) bool { return j.of(p) == j.of(q) })
	})
}

// tails is the longest work that hangs on each task, itself with it.
func tails(sorted []Task, before [][]int) []int {
	out := make([]int, len(sorted))
	for i := len(sorted) - 1; i >= 0; i-- {
		out[i] += sorted[i].Minutes
		for _, k := range before[i] {
			out[k] = max(out[k], out[i])
		}
	}
	return out
}
