package ui

import (
	"errors"
	"maps"
	"slices"
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/proof"
	"chalkfold/draft/say"
	"chalkfold/ui/chalk"
)

// Work is what the core made of the job on the desk.
type Work struct {
	Result *draft.Result // nil when there is no draft
	Whys   []Why         // why there is none
	// Gen tells one work from the next.
	Gen int

	marks  *chalk.Guide
	spoken *draft.Result
	told   bool
	cures  map[int][]draft.Cure // by the number of the finding, from 1; 0 is no
	no     *garment.Impossible  // why no draft can be made of what was entered
}

// Why is one thing in the way of a draft.
type Why struct {
	Path string // of the field; "" when it is none in particular
	What string
	Text string // and what to do
}

// Maker drafts the job on the desk again and again.
type Maker struct {
	core draft.Maker
	gen  int
}

// Make drafts what was entered. Nothing is drafted while a measurement or rule
// that was entered cannot be used: an estimate in its place would be a guess
// that nobody asked for.
func (m *Maker) Make(j *Job) *Work {
	w, prove := m.Begin(j)
	prove()
	return w
}

// Begin is as Make, but leaves the proof of a draft to prove, before which the work is
// shown to nobody.
func (m *Maker) Begin(j *Job) (w *Work, prove func()) {
	m.gen++
	none := func() {}
	w = &Work{Gen: m.gen, Whys: unread(j, m.core.Words)}
	if len(w.Whys) > 0 {
		return w, none
	}
	r, prove, err := m.core.Begin(j.File)
	var bad *job.Bad
	var no *garment.Impossible
	switch {
	case err == nil:
		w.Result = r
		return w, prove
	case errors.As(err, &bad):
		for _, p := range bad.Problems {
			w.Whys = append(w.Whys, Why{p.Path, named(p.Path, j.File.Garment, m.core.Words), m.core.Words.Say(p.Why)})
		}
	case errors.As(err, &no):
		w.Whys, w.no = []Why{{What: no.What, Text: no.Mend}}, no
	default:
		w.Whys = []Why{{What: m.core.Words.T("the draft"), Text: m.core.Words.Err(err)}}
	}
	return w, none
}

// uncured is the number of the next thing that it was not tried yet to mend, and
// what tries it; nil when nothing is left.
func (w *Work) uncured(m *draft.Maker, j job.Job) (n int, try func() []draft.Cure) {
	if w.Result == nil {
		if _, tried := w.cures[0]; tried || w.no == nil {
			return 0, nil
		}
		return 0, func() []draft.Cure { return m.WaysOut(j, w.no) }
	}
	for i, f := range w.Result.Report.Findings {
		if _, tried := w.cures[i+1]; !tried && f.Level != proof.Fine && len(f.Mends) > 0 {
			return i + 1, func() []draft.Cure { return m.Cures(w.Result, f) }
		}
	}
	return 0, nil
}

// unread are the measurements that could not be read. Cloth that cannot be read
// is only in the way of its lay.
func unread(j *Job, w *say.Words) []Why {
	var out []Why
	for _, path := range slices.Sorted(maps.Keys(j.Unread)) {
		if strings.HasPrefix(path, "measurements.") {
			out = append(out, Why{path, named(path, j.File.Garment, w), w.F("“%s” is no length; correct it", j.Unread[path])})
		}
	}
	return out
}

// named is what a path is about, as shown: a measurement or a rule by its name,
// anything else by the last word of the path.
func named(path, of string, w *say.Words) string {
	last := path[strings.LastIndexByte(path, '.')+1:]
	if def, ok := body.Find(body.ID(last)); ok {
		return w.T(def.Name)
	}
	g, _ := draft.Find(of)
	for _, def := range g.Rules {
		if string(def.ID) == last {
			return w.T(def.Name)
		}
	}
	return strings.ReplaceAll(last, "_", " ")
}

// Marks is the chalk guide, read once it is asked for.
func (w *Work) Marks() chalk.Guide {
	if w.Result == nil {
		return chalk.Guide{}
	}
	if w.marks == nil {
		g := chalk.Read(draft.Chalk(w.Result), w.Result.Format)
		w.marks = &g
	}
	return *w.marks
}

// Spoken is the draft as the method is spoken, worked out once; nil when there
// is none, or when that is how it is drafted.
func (m *Maker) Spoken(w *Work) *draft.Result {
	if w.told || w.Result == nil || w.Result.Job.Drafting == job.Spoken {
		return w.spoken
	}
	w.told = true
	j := w.Result.Job.Clone()
	j.Drafting, j.Untrued = job.Spoken, nil
	if r, err := m.core.Make(j); err == nil {
		w.spoken = r
	}
	return w.spoken
}
