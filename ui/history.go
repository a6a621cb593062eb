package ui

import (
	"slices"
	"unicode/utf8"

	"chalkfold/draft/plain"
)

// mostSteps is how many changes of one job can be undone. A step is a few dozen
// bytes, kept with the job.
const mostSteps = 100

// step is one change of a job's content: at byte At, Was became Now.
type step struct {
	At       int
	Was, Now string
}

func (s step) write(w *plain.Writer) {
	w.Open('{')
	w.Key("at").Int(int64(s.At))
	w.TextIf("was", s.Was)
	w.TextIf("now", s.Now)
	w.Shut('}')
}

func readStep(r *plain.Reader) (s step) {
	for key := range r.Object() {
		switch key {
		case "at":
			s.At = int(r.Int())
		case "was":
			s.Was = r.Text()
		case "now":
			s.Now = r.Text()
		}
	}
	return s
}

// history is what can be undone and redone.
type history struct {
	steps  []step
	done   int    // those after it were undone
	now    string // the content
	before string // the content before the last step
	field  string // that the last step typed in
}

// change notes that the content is now another. Changes of one field that come
// one after the other are one step; an empty field is a tap, a step of its own.
func (h *history) change(now, field string) {
	if now == h.now {
		return
	}
	if field == "" || field != h.field {
		h.before = h.now
		h.steps = append(slices.Clip(h.steps[:h.done]), step{})
		if len(h.steps) > mostSteps {
			h.steps = h.steps[1:]
		}
		h.done = len(h.steps)
	}
	h.steps[h.done-1] = between(h.before, now)
	h.now, h.field = now, field
	if now == h.before { // typed and taken back
		h.done--
		h.steps, h.field = h.steps[:h.done], ""
	}
}

// can reports whether there is anything to undo or, forward, to redo.
func (h *history) can(forward bool) bool {
	if forward {
		return h.done < len(h.steps)
	}
	return h.done > 0
}

// move undoes one step, or redoes one. Steps that do not fit the content are
// not of this job; they are let go.
func (h *history) move(forward bool) bool {
	if !h.can(forward) {
		return false
	}
	by, at := -1, h.done-1
	if forward {
		by, at = 1, h.done
	}
	s := h.steps[at]
	was, now := s.Now, s.Was
	if forward {
		was, now = s.Was, s.Now
	}
	if s.At < 0 || s.At > len(h.now)-len(was) || h.now[s.At:s.At+len(was)] != was {
		*h = history{now: h.now}
		return false
	}
	end := s.At + len(was)
	h.now = h.now[:s.At] + now + h.now[end:]
	h.done += by
	h.field = ""
	return true
}

// between is the step from one content to another, at whole letters.
func between(was, now string) step {
	inside := func(s string, at int) bool { return at < len(s) && !utf8.RuneStart(s[at]) }
	most := min(len(was), len(now))
	at := 0
	for at < most && was[at] == now[at] {
		at++
	}
	for inside(was, at) || inside(now, at) {
		at--
	}
	end := 0
	for end < most-at && was[len(was)-1-end] == now[len(now)-1-end] {
		end++
	}
	for inside(was, len(was)-end) {
		end--
	}
	return step{At: at, Was: was[at : len(was)-end], Now: now[at : len(now)-end]}
}

// open makes the history ready for the job as it is.
func (j *Job) open() error {
	data, err := j.Content()
	j.past.now = string(data)
	return err
}

// Note has the last change of the job noted as one that can be undone. field
// is the path that was typed at, empty for a tap.
func (j *Job) Note(field string) error {
	data, err := j.Content()
	if err == nil {
		j.past.change(string(data), field)
	}
	return err
}

// Step returns the job as it was before its last change or, forward, as it was
// before that was undone; nil if there is none.
func (j *Job) Step(forward bool) *Job {
	if !j.past.move(forward) {
		return nil
	}
	next, err := DecodeJob([]byte(j.past.now))
	if err != nil { // steps that fit by chance alone
		j.past = history{}
		_ = j.open() // what is on the desk could be written before
		return nil
	}
	next.past, next.Mark, next.Printed, next.State = j.past, j.Mark, j.Printed, j.State
	next.Sewing.Minutes, next.Sewing.Left = j.Sewing.Minutes, j.Sewing.Left
	return next
}
