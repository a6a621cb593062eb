package ui

import (
	"math"
	"slices"

	"chalkfold/draft/garment"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
	"chalkfold/ui/fitting"
)

// lesson is what a maker corrects again and again.
type lesson struct {
	garment.Alteration
	times, of int         // clients, of those fitted last
	by        unit.Length // the middle amount that is still to be corrected
}

// How many clients are looked at, and of how many the same must have been
// corrected.
const (
	lastFitted = 5
	oftenFault = 3
)

// lessons are what the maker corrects again and again on garments like the open
// one; kept until the work changes.
func (d *Desk) lessons() []lesson {
	if at := &d.view.fit; at.learned != d.work.Gen {
		at.learned, at.lessons = d.work.Gen, learn(d.garment, d.fittings(), d.house.inForce().Values)
	}
	return d.view.fit.lessons
}

// fittings are the fitted jobs of the garment, of each client the last, the newest
// first.
func (d *Desk) fittings() []*Job {
	type at struct {
		client string
		job    *Job
	}
	var all []at
	for _, r := range d.records {
		if r.deleted() || r.Garment != d.garment.ID || d.keeper != nil && r.ID == d.keeper.id || r.Reached[Fitted] == "" || r.whole() == nil {
			continue
		}
		client := r.Client
		if client == "" {
			client = "job " + r.ID
		}
		all = append(all, at{client, r.job})
	}
	if d.job.Reached[Fitted] != "" {
		all = append(all, at{d.job.Client, d.job})
	}
	slices.SortStableFunc(all, func(a, b at) int {
		switch x, y := a.job.Reached[Fitted], b.job.Reached[Fitted]; {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	var out []*Job
	var seen []string
	for _, a := range all {
		if !slices.Contains(seen, a.client) {
			seen, out = append(seen, a.client), append(out, a.job)
		}
	}
	return out
}

// learn finds what was corrected alike on most of the clients fitted last, the
// newest first. What the rules of the house do by now is no longer counted.
func learn(g garment.Garment, jobs []*Job, house rules.Values) []lesson {
	if g.Alterations == nil {
		return nil
	}
	jobs = jobs[:min(len(jobs), lastFitted)]
	var out []lesson
	for _, def := range g.Alterations() {
		var by []float64
		for _, j := range jobs {
			if left := corrects(g, def, j, house); left >= leastCorrection {
				by = append(by, left)
			}
		}
		if len(by) < oftenFault {
			continue
		}
		slices.Sort(by)
		out = append(out, lesson{def, len(by), len(jobs), unit.Length(by[(len(by)-1)/2])})
	}
	return out
}

// corrects is how much of an alteration was made on a job and is not in the rules
// of the house by now, mm; what undoes it counts against it.
func corrects(g garment.Garment, def garment.Alteration, j *Job, house rules.Values) float64 {
	sum := 0.0
	for _, a := range j.File.Alterations {
		if a.Side != "" { // a figure's own, and no fault of the rules
			continue
		}
		switch a.Kind {
		case def.ID:
			sum += a.By.Length().MM()
		case def.Against:
			sum -= a.By.Length().MM()
		}
	}
	if sum <= 0 {
		return 0
	}
	over, _, _ := houseValue(g, def.House, j.File.Rules.House)
	return sum - grown(g, def, over, house)
}

// houseFor is the rule that would do a lesson for everybody, and its value; false
// where there is none, or where it would leave its range.
func (d *Desk) houseFor(l lesson) (rules.Def, string, bool) {
	def, ok := d.rule(l.House)
	if !ok {
		return rules.Def{}, "", false
	}
	text := valueOf(def, d.house.inForce().Values)
	step := d.amountStep().MM()
	by := math.Round(l.by.MM()*l.PerHouse/step) * step
	text, ok = def.Beyond(text, by, d.job.System().Metric())
	return def, text, ok
}

// sayLesson puts a lesson in words.
func (d *Desk) sayLesson(l lesson) fitting.Learned {
	f := d.job.File.Units.Format()
	f.Words = d.Words
	out := fitting.Learned{
		Kind: l.ID,
		Says: d.F("For %d of your last %d clients fitted you had to %s, by %s in the middle.", l.times, l.of, d.T(l.Name), f.Text(f.Round(l.by))),
	}
	if def, text, ok := d.houseFor(l); ok {
		out.Key = d.F("Make it your house rule: %s %s", d.T(def.Name), def.Told(text))
	}
	return out
}

// makeHouse makes a lesson a rule of the house.
func (d *Desk) makeHouse(kind string) {
	for _, l := range d.lessons() {
		if l.ID != kind {
			continue
		}
		if def, text, ok := d.houseFor(l); ok {
			d.settleHouse()
			d.changeHouse("", func(h *House) { h.setRule(def, text, d.job.System()) })
			d.view.fit.learned = -1
		}
	}
}
