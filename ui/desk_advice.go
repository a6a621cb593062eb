package ui

import (
	"bytes"
	"slices"

	"chalkfold/draft/job"
	"chalkfold/sync/store"
	"chalkfold/ui/cloth"
	"chalkfold/ui/engine"
)

// advice is what can give where the cloth of a laying is not enough.
type advice struct {
	asked, busy bool
	id          uint32
	tried       int
	gifts       []engine.Gift
	fault       string
}

// askAdvice has it worked out what can give.
func (d *Desk) askAdvice() {
	l := d.laying
	if l == nil || l.advice.asked {
		return
	}
	l.advice = advice{asked: true, busy: true}
	o := engine.Order{Cloth: l.cloth, Cut: l.cut}
	if l.shown != nil && l.spread != nil && l.drawn != (drawn{}) {
		o.Laid, _ = l.shown.Encode(l.spread.Items) // without it, it is looked for
	}
	l.advice.id = d.ask(l.r, engine.Advise, o, true, func(a engine.Answer) { d.heardAdvice(l, a) })
}

// heardAdvice takes what is heard of it.
func (d *Desk) heardAdvice(l *laying, a engine.Answer) {
	v := &l.advice
	v.tried = a.Now
	switch a.Is {
	case engine.Fault:
		v.busy, v.fault = false, sentenceOf(string(a.Data))
	case engine.Part, engine.Done:
		v.busy = a.Is == engine.Part
		if g, ok := engine.ReadGift(a.Data); ok {
			v.gifts = append(v.gifts, g)
		}
	case engine.Progress:
		if a.Now == 0 {
			v.gifts = nil // it begins anew
		}
	case engine.Up, engine.Ended:
	}
}

// stopAdvice leaves what was worked out so far.
func (d *Desk) stopAdvice(l *laying) {
	if l.advice.busy {
		l.advice.busy = false
		d.helpers.Stop(l.advice.id)
	}
}

// takeGift makes a change that was advised: one step of each job that it changes,
// which can be undone.
func (d *Desk) takeGift(i int) {
	l := d.laying
	if l == nil || i >= len(l.gifts()) || l.gen != d.work.Gen || d.waiting {
		return // it is of a job that was changed since
	}
	g := l.gifts()[i]
	file, err := job.Decode(bytes.NewReader(g.Job))
	switch {
	case err != nil:
		d.fault = d.sayFault(err)
	case d.ordering():
		d.giveTogether(g, l.cloth, file.Cloth[l.cloth].Fold)
	default:
		d.job.File = file
		d.job.forgetTyped()
		d.changed("")
	}
}

// gifted is what garments of an order gave last, by one tap.
type gifted struct {
	does   []string
	of     []store.Record // of the changed jobs
	cloth  int
	fold   job.Fold // as the cloth lay before ...
	folded bool     // ... where that was changed
}

// giveTogether has garments of the open order give, all of them or none, and then
// has its cloth lie so.
func (d *Desk) giveTogether(g engine.Gift, cloth int, fold job.Fold) {
	if !d.settled() {
		return
	}
	id, now := d.keeper.id, gifted{does: g.Does, cloth: cloth, fold: d.job.Cloth(cloth).Fold}
	for _, of := range g.Of {
		file, err := job.Decode(bytes.NewReader(of.Job))
		s := find(d.records, of.Key)
		if err == nil && (s == nil || s.whole() == nil) {
			err = store.ErrNotFound
		}
		var r store.Record
		if err == nil {
			r, err = d.rewritten(s.Record, s.job, func(j *Job) { j.File = file })
		}
		if err != nil {
			d.fault = d.sayFault(err)
			return
		}
		now.of = append(now.of, r)
	}
	then := func() {
		if d.keeper.id != id {
			return
		}
		now.folded = now.fold != fold
		if d.view.cloth.given = now; now.folded {
			d.foldSo(cloth, fold)
		}
	}
	if len(now.of) == 0 {
		then()
		return
	}
	d.put(now.of, then)
}

// foldSo has a cloth of the job lie so.
func (d *Desk) foldSo(cloth int, fold job.Fold) {
	if cloth < len(d.job.File.Cloth) {
		c := d.job.Cloth(cloth)
		c.Fold = fold
		d.job.SetCloth(cloth, c)
		d.changed("")
	}
}

// stillGiven reports whether the jobs are still as they were given.
func (d *Desk) stillGiven(g gifted) bool {
	return len(g.of) > 0 && !slices.ContainsFunc(g.of, func(r store.Record) bool {
		s := find(d.records, r.ID)
		return s == nil || s.Rev != r.Rev || s.whole() == nil
	})
}

// takeBack has the garments of the open order as they were before they gave.
func (d *Desk) takeBack() {
	g := d.view.cloth.given
	if !d.settled() || !d.stillGiven(g) {
		return
	}
	id := d.keeper.id
	var records []store.Record
	for _, of := range g.of {
		s := find(d.records, of.ID)
		j := *s.job
		err := j.open()
		was := j.Step(false)
		if err == nil && was == nil {
			err = store.ErrStale
		}
		var r store.Record
		if err == nil {
			r, err = d.nextOf(s.Record, was)
		}
		if err != nil {
			d.fault = d.sayFault(err)
			return
		}
		records = append(records, r)
	}
	d.put(records, func() {
		if d.keeper.id != id {
			return
		}
		if d.view.cloth.given = (gifted{}); g.folded {
			d.foldSo(g.cloth, g.fold)
		}
	})
}

// gifts are what was found, what is best together first.
func (l *laying) gifts() []engine.Gift {
	all := slices.Clone(l.advice.gifts)
	slices.SortStableFunc(all, func(a, b engine.Gift) int {
		switch {
		case a.Together == b.Together:
			return 0
		case a.Together:
			return -1
		}
		return 1
	})
	return all
}

// adviceView is what the stage shows of it.
func (d *Desk) adviceView(l *laying) cloth.Advice {
	v := cloth.Advice{OnAsk: d.askAdvice, OnTake: d.takeGift, OnBack: d.takeBack, OnStop: func() {
		if d.laying != nil {
			d.stopAdvice(d.laying)
		}
	}}
	if g := d.view.cloth.given; d.stillGiven(g) {
		v.Given, v.Told = g.does, d.N(len(g.of), "Done in %d garment.", "Done in %d garments.")
	}
	if l == nil || l.gen != d.work.Gen {
		return v
	}
	f := l.r.Format
	v.Wanted = l.tooWide || l.shown != nil && !l.shown.Fits && len(l.shown.Cloth.Outline) == 0 && !l.shown.Cloth.LeaveOut
	v.Asked, v.Busy, v.Tried, v.Fault = l.advice.asked, l.advice.busy, l.advice.tried, l.advice.fault
	for _, g := range l.gifts() {
		x := cloth.Gift{Does: g.Does, Costs: g.Costs, Fits: g.Fits, Together: g.Together, Leave: g.Leave}
		if n := len(g.Of); n > 0 {
			x.Of = d.N(n, "Changes %d garment.", "Changes %d garments.")
		}
		switch {
		case g.Fits && g.Saves > 0:
			x.Saves = d.F("Saves %s: it fits.", f.Text(g.Saves))
		case g.Fits:
			x.Saves = d.T("It fits.")
		case l.tooWide:
			x.Saves = d.F("It goes on the cloth so, and is short by %s.", f.Text(g.Short))
		default:
			x.Saves = d.F("Saves %s: still short by %s.", f.Text(g.Saves), f.Text(g.Short))
		}
		v.Gifts = append(v.Gifts, x)
	}
	return v
}
