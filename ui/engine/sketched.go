package engine

import (
	"bytes"
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/job"
)

// between stands between the pictures of an answer: no SVG has it.
const between = "\x00"

// sketches makes the pictures of questions one after the other, and tells each as a part;
// see ReadSketched.
func (r *run) sketches(o Order) ([]byte, error) {
	j, err := job.Decode(bytes.NewReader(o.Job))
	if err != nil {
		return nil, err
	}
	b := &r.bench.board
	b.Maker.Words = r.bench.maker.Words
	b.Begin(j)
	g, _ := draft.Find(j.Garment)
	w := r.bench.maker.Words
	questions := strings.Fields(o.Questions)
	r.of = len(questions)
	for _, q := range questions {
		for next := b.Unmade(g, j, q); next != nil; next = b.Unmade(g, j, q) {
			b.Sketch(*next)
			if !r.goOn() {
				return nil, errStopped
			}
		}
		r.now++
		told := append([]string{q}, b.Pictures(g, j, q, w.T("front"), w.T("back"))...)
		r.tell(Answer{ID: r.id, Is: Part, Now: r.now, Of: r.of, Data: []byte(strings.Join(told, between))})
	}
	return nil, nil
}

// ReadSketched reads the question and its pictures, SVG, that a part of a Sketch has told.
func ReadSketched(a Answer) (question string, svgs []string, ok bool) {
	if a.Is != Part {
		return "", nil, false
	}
	told := strings.Split(string(a.Data), between)
	return told[0], told[1:], true
}
