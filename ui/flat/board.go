package flat

import (
	"bytes"
	"maps"
	"slices"
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/sketch"
)

// Whole stands for the garment as it is, where the id of a question stands for the
// answers to it.
const Whole = "whole"

// Board has the sketches of one job, in each style that it was asked for. The zero value
// is ready; it is not for two goroutines at once.
type Board struct {
	Maker draft.Maker

	of   string                  // all of the job but the style that can show
	made map[string]*sketch.Flat // by style; nil where none can be made
}

// Begin makes ready for a job: of another one than before, but for its style,
// everything is to be sketched anew.
func (b *Board) Begin(j job.Job) {
	if of := Unstyled(j); b.made == nil || of != b.of {
		b.of, b.made = of, map[string]*sketch.Flat{}
	}
}

// Unstyled is all that the draft of a job is made from, but for its style.
func Unstyled(j job.Job) string {
	j.Name, j.Cloth, j.Style = "", nil, nil
	var b bytes.Buffer
	_ = j.Encode(&b) // what cannot be written is not drafted either
	return b.String()
}

// Key tells what the pictures of a question are made from; see Whole.
func (b *Board) Key(j job.Job, question string) string {
	others := maps.Clone(j.Style)
	delete(others, question)
	return b.of + styleKey(others)
}

// styleKey tells one style from another.
func styleKey(chosen map[string]string) string {
	var b strings.Builder
	for _, option := range slices.Sorted(maps.Keys(chosen)) {
		b.WriteString(option + "=" + chosen[option] + "\n")
	}
	return b.String()
}

// Answered is a job with a question answered so, and other answers given up that cannot
// go with it.
func Answered(g garment.Garment, j job.Job, option, choice string) job.Job {
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

// Unmade is what is to be sketched next for the pictures of a question, nil when nothing
// is.
func (b *Board) Unmade(g garment.Garment, j job.Job, question string) *job.Job {
	if question == Whole {
		if _, made := b.made[styleKey(j.Style)]; !made {
			return &j
		}
		return nil
	}
	for _, c := range choices(g, question) {
		if j := Answered(g, j, question, c.ID); b.Unmade(g, j, Whole) != nil {
			return &j
		}
	}
	return nil
}

func choices(g garment.Garment, question string) []garment.Choice {
	i := slices.IndexFunc(g.Options, func(o garment.Option) bool { return o.ID == question })
	if i < 0 {
		return nil
	}
	return g.Options[i].Choices
}

// Sketch drafts a job for its sketch.
func (b *Board) Sketch(j job.Job) {
	r, _, err := b.Maker.Begin(j)
	if err != nil {
		r = nil
	}
	b.Keep(j, r)
}

// Keep sketches a draft; none is told by nil.
func (b *Board) Keep(j job.Job, r *draft.Result) {
	key := styleKey(j.Style)
	if _, ok := b.made[key]; ok {
		return
	}
	b.made[key] = nil
	if r == nil {
		return
	}
	if f, ok := sketch.Of(r.Panels, r.Darts, r.Worn); ok {
		b.made[key] = &f
	}
}

// Pictures are those of a question of which nothing is unmade: of the garment, front and
// back over their names, or none when it cannot be drawn; of each answer, where nothing
// is drawn of one that cannot be drafted.
func (b *Board) Pictures(g garment.Garment, j job.Job, question, front, back string) []string {
	if question == Whole {
		if f := b.made[styleKey(j.Style)]; f != nil {
			return []string{Both(*f, front, back)}
		}
		return nil
	}
	var flats []sketch.Flat
	var at []int
	all := choices(g, question)
	for i, c := range all {
		if f := b.made[styleKey(Answered(g, j, question, c.ID).Style)]; f != nil {
			flats, at = append(flats, *f), append(at, i)
		}
	}
	out := make([]string, len(all))
	if len(flats) > 0 {
		for i, p := range Choices(flats) {
			out[at[i]] = p
		}
	}
	return out
}
