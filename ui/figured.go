package ui

import (
	"maps"
	"slices"

	"chalkfold/draft"
	"chalkfold/draft/garment"
	"chalkfold/draft/rules"
)

// build is what the job's style says of the figure.
func (j *Job) build() garment.Style {
	g, _ := draft.Find(j.File.Garment)
	return figured(g, j.File.Style)
}

// figured are the answers to the questions that a garment asks of the figure.
func figured(g garment.Garment, s garment.Style) garment.Style {
	var out garment.Style
	for _, o := range g.Options {
		if c := s[o.ID]; o.OfFigure && slices.ContainsFunc(o.Choices, func(k garment.Choice) bool { return k.ID == c }) {
			out = builtOn(out, garment.Style{o.ID: c})
		}
	}
	return out
}

// builtOn is a style with some answers laid over it; the style stays as it was.
func builtOn(s, over garment.Style) garment.Style {
	if len(over) == 0 {
		return s
	}
	out := maps.Clone(s)
	if out == nil {
		out = garment.Style{}
	}
	maps.Copy(out, over)
	return out
}

// movedRules are the values of the rules that the figure of the job changes.
func (d *Desk) movedRules() map[rules.ID]string {
	r := d.work.Result
	if r == nil {
		return nil
	}
	out := map[rules.ID]string{}
	for _, def := range r.Rules.Defs() {
		if reasons, _ := r.Rules.MovedFor(def.ID); len(reasons) > 0 {
			out[def.ID] = d.Say(r.Rules.Told(def.ID))
		}
	}
	return out
}
