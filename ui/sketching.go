package ui

import (
	"bytes"
	"maps"
	"slices"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/say"
	"chalkfold/draft/sketch"
	"chalkfold/ui/style"
)

// sketching keeps the sketches of the garment as it is and as every other
// choice would make it. Of a job that rests they are made one between two
// frames, while the style is looked at; until then the pictures are those of
// before.
type sketching struct {
	maker    draft.Maker
	of       string                  // all of the job but the style that can show
	made     map[string]*sketch.Flat // by style; nil where none can be made
	whole    picture                 // of the garment as it is
	pictures map[string]picture      // of the choices, by question; in their order
	gen      int                     // tells a rest from the next
}

// picture is what was drawn last, and of which style.
type picture struct {
	of   string
	svgs []string
}

// begin makes ready for a job: of another one than before, but for its style,
// everything is to be sketched anew.
func (s *sketching) begin(j job.Job) {
	if of := unstyled(j); s.made == nil || of != s.of {
		s.of, s.made = of, map[string]*sketch.Flat{}
	}
}

// unstyled is all that the draft of a job is made from, but for its style.
func unstyled(j job.Job) string {
	j.Name, j.Cloth, j.Style = "", nil, nil
	var b bytes.Buffer
	_ = j.Encode(&b) // what cannot be written is not drafted either
	return b.String()
}

// styleKey tells one style from another.
func styleKey(chosen map[string]string) string {
	var b strings.Builder
	for _, option := range slices.Sorted(maps.Keys(chosen)) {
		b.WriteString(option + "=" + chosen[option] + "\n")
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

// answered is the job with a question answered so, and other answers given up
// that cannot go with it.
func answered(g garment.Garment, j job.Job, option, choice string) job.Job {
	j.Style = maps.Clone(j.Style)
	if j.Style == nil {
		j.Style = map[string]string{}
	}
	j.Style[option] = choice
	if full, err := g.Complete(j.Style); err == nil && g.Check(full) != nil {
		j.Style = g.Together(full, option)
	}
	return j
}

// wantSketches has what the style stage shows sketched, unless it is.
func (d *Desk) wantSketches() {
	if d.stage != stageStyle || d.work == nil {
		return
	}
	s := &d.sketching
	j, middle := d.toSketch()
	s.begin(j)
	if r := d.work.Result; !middle {
		s.keep(j, r)
	}
	s.draw(d.garment, j)
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
// since.
func (d *Desk) sketchUnless(gen, change int) {
	switch {
	case gen != d.sketching.gen:
	case change != d.change:
		d.sketchAfter(handRest, gen)
	default:
		d.sketchOn(gen)
	}
}

// sketchOn makes one sketch, and has the next made after a turn of the browser.
func (d *Desk) sketchOn(gen int) {
	s := &d.sketching
	j, _ := d.toSketch()
	next := d.nextSketch(j)
	if next == nil || d.stage != stageStyle {
		return
	}
	r, err := s.maker.Unproved(*next)
	if err != nil {
		r = nil
	}
	s.keep(*next, r)
	s.draw(d.garment, j)
	change := d.change
	d.next(func() { d.sketchUnless(gen, change) })
}

// nextSketch is what is to be sketched next, nil when all is there: the garment
// as it is, the question that is open, and then the others.
func (d *Desk) nextSketch(j job.Job) *job.Job {
	unmade := func(j job.Job) bool {
		_, made := d.sketching.made[styleKey(j.Style)]
		return !made
	}
	if unmade(j) {
		return &j
	}
	for _, open := range []bool{true, false} {
		for _, o := range d.garment.Options {
			if (o.ID != d.view.style.option) == open || o.OfFigure {
				continue
			}
			for _, c := range o.Choices {
				if w := answered(d.garment, j, o.ID, c.ID); unmade(w) {
					return &w
				}
			}
		}
	}
	return nil
}

// keep sketches a draft; none is told by nil.
func (s *sketching) keep(j job.Job, r *draft.Result) {
	key := styleKey(j.Style)
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

// sketch is the picture of the garment as it is; until it is sketched, the one
// of before.
func (s *sketching) sketch(j job.Job, w *say.Words) string {
	key := s.of + styleKey(j.Style) + w.T("front")
	if s.whole.of != key {
		if f := s.made[styleKey(j.Style)]; f != nil {
			s.whole = picture{key, []string{style.Both(*f, w.T("front"), w.T("back"))}}
		}
	}
	if len(s.whole.svgs) == 0 {
		return ""
	}
	return s.whole.svgs[0]
}

// draw draws the answers to each question of a job of which all are sketched; of the
// others the pictures of before stay. A garment laid flat hardly shows what is asked of
// the figure.
func (s *sketching) draw(g garment.Garment, j job.Job) {
	for _, o := range g.Options {
		others := maps.Clone(j.Style)
		delete(others, o.ID)
		if key := s.of + styleKey(others); !o.OfFigure && s.pictures[o.ID].of != key {
			s.drawChoices(g, j, o, key)
		}
	}
}

// drawChoices does so for one question. An answer of which no draft can be made has no
// picture.
func (s *sketching) drawChoices(g garment.Garment, j job.Job, o garment.Option, key string) {
	var flats []sketch.Flat
	var at []int
	for i, c := range o.Choices {
		f, ok := s.made[styleKey(answered(g, j, o.ID, c.ID).Style)]
		if !ok {
			return
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
	if s.pictures == nil {
		s.pictures = map[string]picture{}
	}
	s.pictures[o.ID] = picture{key, out}
}
