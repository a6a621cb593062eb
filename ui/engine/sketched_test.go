package engine

import (
	"bytes"
	"slices"
	"testing"

	"chalkfold/draft/job"
	"chalkfold/ui/flat"
)

// TestBenchSketch: a helper tells the pictures of each question in turn, and they are
// those that the page makes by itself; it gives up when it is told to.
func TestBenchSketch(t *testing.T) {
	file, r := sample(t)
	questions := []string{"hem", flat.Whole, "leg"}
	o := Order{Job: file, Questions: "hem whole leg"}
	j, err := job.Decode(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	var board flat.Board
	board.Begin(j)
	b := bench()
	for range 2 { // the second time nothing is left to sketch
		before, last := do(b, Sketch, o, never)
		parts := slices.DeleteFunc(before, func(a Answer) bool { return a.Is != Part })
		if len(parts) != len(questions) || last.Is != Done {
			t.Fatalf("%d pictures, then %s: %s", len(parts), last.Is, last.Data)
		}
		for i, a := range parts {
			question, svgs, ok := ReadSketched(a)
			if !ok || question != questions[i] || a.Now != i+1 || a.Of != len(questions) {
				t.Fatalf("pictures of %q, %d of %d, want those of %q", question, a.Now, a.Of, questions[i])
			}
			for next := board.Unmade(r.Garment, j, question); next != nil; next = board.Unmade(r.Garment, j, question) {
				board.Sketch(*next)
			}
			want := board.Pictures(r.Garment, j, question, "front", "back")
			if len(want) == 0 || slices.Contains(want, "") || !slices.Equal(svgs, want) {
				t.Errorf("%s: a helper drew %.90q, want %.90q", question, svgs, want)
			}
		}
	}
	if _, _, ok := ReadSketched(Answer{Is: Progress}); ok {
		t.Error("pictures are read where none are told")
	}

	steps := 0
	before, last := do(bench(), Sketch, o, func() bool { steps++; return steps > 1 })
	if last.Is != Fault || string(last.Data) != "stopped" || slices.ContainsFunc(before, func(a Answer) bool { return a.Is == Part }) {
		t.Errorf("stopped: heard %s, %s", last.Is, last.Data)
	}
}
