package ui

import (
	"bytes"
	"maps"
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/say"
	"chalkfold/draft/sketch"
	"chalkfold/ui/style"
)

// mostSketches is how many sketches are kept: all choices of every question,
// a few times over.
const mostSketches = 120

// sketching keeps the sketches of the garment as it is and as every other
// choice would make it. They are made one between two frames, while the style
// is looked at, and found again by what of the job shows in them.
type sketching struct {
	maker    draft.Maker
	made     map[string]*sketch.Flat // nil where none can be made
	pictures map[string][]string     // of the choices of one question
	busy     bool
}

// sketchKey is all of a job that can show in a sketch.
func sketchKey(j job.Job) string {
	j.Name, j.Cloth = "", nil
	var b bytes.Buffer
	if err := j.Encode(&b); err != nil {
		return "" // never found
	}
	return b.String()
}

// toSketch is the job as it is sketched: on a middle figure where no draft can
// be made of the one that is measured.
func (d *Desk) toSketch() (j job.Job, middle bool) {
	j = d.job.File
	if whole, err := d.garment.Complete(garment.Style(j.Style)); err == nil {
		j.Style = whole
	}
	if d.work.Result != nil {
		return j, false
	}
	j.Measurements = body.Middle(j.Figure)
	if slices.ContainsFunc(d.work.Whys, func(w Why) bool { return strings.HasPrefix(w.Path, "rules.") }) {
		j.Rules = job.Rules{}
	}
	return j, true
}

// answered is the job with a question answered so.
func answered(j job.Job, option, choice string) job.Job {
	j.Style = maps.Clone(j.Style)
	if j.Style == nil {
		j.Style = map[string]string{}
	}
	j.Style[option] = choice
	return j
}

// wantSketches has what the style stage shows sketched, unless it is.
func (d *Desk) wantSketches() {
	if d.stage != stageStyle || d.work == nil || d.sketching.busy {
		return
	}
	s := &d.sketching
	if s.made == nil || len(s.made) > mostSketches {
		s.made, s.pictures = map[string]*sketch.Flat{}, map[string][]string{}
	}
	j, middle := d.toSketch()
	if r := d.work.Result; !middle {
		s.keep(j, r)
	}
	if next := d.nextSketch(j); next != nil {
		s.busy = true
		d.ctx.After(frame, func(app.Context) {
			s.busy = false
			r, err := s.maker.Make(*next)
			if err != nil {
				r = nil
			}
			s.keep(*next, r)
			d.wantSketches()
		})
	}
}

// nextSketch is what is to be sketched next, nil when all is there: the garment
// as it is, the question that is open, and then the others.
func (d *Desk) nextSketch(j job.Job) *job.Job {
	wants := []job.Job{j}
	for _, open := range []bool{true, false} {
		for _, o := range d.garment.Options {
			if (o.ID == d.view.style.option) != open {
				continue
			}
			for _, c := range o.Choices {
				wants = append(wants, answered(j, o.ID, c.ID))
			}
		}
	}
	for _, w := range wants {
		if _, ok := d.sketching.made[sketchKey(w)]; !ok {
			return &w
		}
	}
	return nil
}

// keep sketches a draft; none is told by nil.
func (s *sketching) keep(j job.Job, r *draft.Result) {
	key := sketchKey(j)
	if _, ok := s.made[key]; ok {
		return
	}
	s.made[key] = nil
	if r == nil {
		return
	}
	if f, ok := sketch.Of(r.Panels, r.Darts, r.Worn); ok {
		s.made[key] = &f
	}
}

// picture is the sketch of a job, empty until it is made.
func (s *sketching) picture(j job.Job, w *say.Words) string {
	if f := s.made[sketchKey(j)]; f != nil {
		return style.Both(*f, w.T("front"), w.T("back"))
	}
	return ""
}

// choices are the pictures of the answers to a question, in their order; none
// until all are sketched. An answer of which no draft can be made has none.
func (s *sketching) choices(j job.Job, o garment.Option) []string {
	first := answered(j, o.ID, o.Choices[0].ID)
	key := o.ID + "\n" + sketchKey(first)
	if all, ok := s.pictures[key]; ok {
		return all
	}
	var flats []sketch.Flat
	var at []int
	for i, c := range o.Choices {
		f, ok := s.made[sketchKey(answered(j, o.ID, c.ID))]
		if !ok {
			return nil
		}
		if f != nil {
			flats, at = append(flats, *f), append(at, i)
		}
	}
	out := make([]string, len(o.Choices))
	if len(flats) > 0 {
		for i, p := range style.Choices(flats) {
			out[at[i]] = p
		}
	}
	s.pictures[key] = out
	return out
}
