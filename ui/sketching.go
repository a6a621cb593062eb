package ui

import (
	"bytes"
	"slices"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/ui/engine"
	"chalkfold/ui/flat"
)

// sketching keeps the pictures of the garment as it is and as every other choice would
// make it. Of a job that rests they are made by a helper or, where none can be had yet,
// on the page, one between two frames; until then the pictures are those of before.
type sketching struct {
	flat.Board
	whole    picture            // of the garment as it is
	pictures map[string]picture // of the choices, by question; in their order
	gen      int                // tells a rest from the next
	asked    uint32             // the task of a helper; nought for none
}

// picture is what was drawn last, and what it was made from.
type picture struct {
	of   string
	svgs []string
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

// wantSketches has what the style stage shows sketched, unless it is.
func (d *Desk) wantSketches() {
	s := &d.sketching
	if s.asked != 0 {
		d.helpers.Stop(s.asked)
		s.asked = 0
	}
	if d.stage != stageStyle || d.work == nil {
		return
	}
	j, middle := d.toSketch()
	s.Begin(j)
	if !middle {
		s.Keep(j, d.work.Result)
	}
	s.gen++
	wait := handRest
	if len(s.pictures) == 0 {
		wait = frame // nothing is in sight yet
	}
	d.sketchAfter(wait, s.gen)
}

// sketchAfter begins to sketch once the hand has rested for so long.
func (d *Desk) sketchAfter(wait time.Duration, gen int) {
	change := d.change
	d.ctx.After(wait, func(app.Context) { d.sketchUnless(gen, change) })
}

// sketchUnless goes on with the sketches of that rest, later where the hand has moved
// since. The first of the whole garment is not left to a helper, which must start.
func (d *Desk) sketchUnless(gen, change int) {
	switch {
	case gen != d.sketching.gen || d.stage != stageStyle:
		d.ctx.PreventUpdate()
	case change != d.change:
		d.sketchAfter(handRest, gen)
		d.ctx.PreventUpdate()
	case d.files.Whole && d.helpers.Health() != engine.OnPage && len(d.sketching.whole.svgs) > 0:
		d.askSketches()
	default:
		d.sketchOn(gen)
	}
}

// unsketched are the questions of which the pictures are those of before: the garment as
// it is, the question that is open, and then the others. A garment laid flat hardly
// shows what is asked of the figure.
func (d *Desk) unsketched(j job.Job) (all []string) {
	s := &d.sketching
	if s.Unmade(d.garment, j, flat.Whole) != nil && s.whole.of != d.wholeKey(j) {
		all = append(all, flat.Whole)
	}
	for _, open := range []bool{true, false} {
		for _, o := range d.garment.Options {
			if (o.ID == d.view.style.option) == open && !o.OfFigure && s.pictures[o.ID].of != s.Key(j, o.ID) {
				all = append(all, o.ID)
			}
		}
	}
	return all
}

// sketchOn makes one sketch, and has the next made after a turn of the browser.
func (d *Desk) sketchOn(gen int) {
	s := &d.sketching
	j, _ := d.toSketch()
	wanted := d.unsketched(j)
	if len(wanted) == 0 {
		return
	}
	if next := s.Unmade(d.garment, j, wanted[0]); next != nil {
		s.Sketch(*next)
	}
	if s.Unmade(d.garment, j, wanted[0]) == nil {
		d.takePictures(j, wanted[0], s.Pictures(d.garment, j, wanted[0], d.T("front"), d.T("back")))
	}
	change := d.change
	d.next(func() { d.sketchUnless(gen, change) })
}

// askSketches has a helper make what is not sketched.
func (d *Desk) askSketches() {
	j, _ := d.toSketch()
	wanted := d.unsketched(j)
	var file bytes.Buffer
	if len(wanted) == 0 || j.Encode(&file) != nil { // what cannot be written is not drafted either
		d.ctx.PreventUpdate()
		return
	}
	o := engine.Order{Job: file.Bytes(), Questions: strings.Join(wanted, " "), Lang: d.Language().ID}
	d.sketching.asked = d.helpers.Ask(engine.Sketch, o, true, func(a engine.Answer) {
		if question, svgs, ok := engine.ReadSketched(a); ok {
			d.takePictures(j, question, svgs)
			if question == flat.Whole || question == d.view.style.option {
				return // somebody looks at these; the others are shown when all are there
			}
		}
		if !a.Over() {
			d.ctx.PreventUpdate()
		}
	})
	d.watch()
}

// takePictures keeps the pictures of a question; of the garment, none leave those of before.
func (d *Desk) takePictures(j job.Job, question string, svgs []string) {
	s := &d.sketching
	if question == flat.Whole {
		if len(svgs) == 0 {
			svgs = s.whole.svgs
		}
		s.whole = picture{d.wholeKey(j), svgs}
		return
	}
	if s.pictures == nil {
		s.pictures = map[string]picture{}
	}
	s.pictures[question] = picture{s.Key(j, question), svgs}
}

func (d *Desk) wholeKey(j job.Job) string {
	return d.sketching.Key(j, flat.Whole) + d.T("front")
}

// sketch is the picture of the garment as it is; until it is sketched, the one
// of before.
func (d *Desk) sketch(j job.Job) string {
	s := &d.sketching
	if s.whole.of != d.wholeKey(j) && s.Unmade(d.garment, j, flat.Whole) == nil {
		d.takePictures(j, flat.Whole, s.Pictures(d.garment, j, flat.Whole, d.T("front"), d.T("back")))
	}
	if len(s.whole.svgs) == 0 {
		return ""
	}
	return s.whole.svgs[0]
}
