package ui

import (
	"bytes"
	"slices"

	"chalkfold/draft/job"
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
	l.advice.id = d.ask(l.r, engine.Advise, engine.Order{Cloth: l.cloth, Cut: l.cut}, true, func(a engine.Answer) { d.heardAdvice(l, a) })
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

// takeGift makes a change that was advised: one step, which can be undone.
func (d *Desk) takeGift(i int) {
	l := d.laying
	if l == nil || i >= len(l.gifts()) || l.gen != d.work.Gen {
		return
	}
	file, err := job.Decode(bytes.NewReader(l.gifts()[i].Job))
	if err != nil {
		d.fault = d.sayFault(err)
		return
	}
	d.job.File = file
	d.job.forgetTyped()
	d.changed("")
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
	v := cloth.Advice{OnAsk: d.askAdvice, OnTake: d.takeGift, OnStop: func() {
		if d.laying != nil {
			d.stopAdvice(d.laying)
		}
	}}
	if l == nil || l.gen != d.work.Gen || d.ordering() {
		return v
	}
	f := l.r.Format
	v.Wanted = l.tooWide || l.shown != nil && !l.shown.Fits && len(l.shown.Cloth.Outline) == 0 && !l.shown.Cloth.LeaveOut
	v.Asked, v.Busy, v.Tried, v.Fault = l.advice.asked, l.advice.busy, l.advice.tried, l.advice.fault
	for _, g := range l.gifts() {
		x := cloth.Gift{Does: g.Does, Costs: g.Costs, Fits: g.Fits, Together: g.Together, Leave: g.Leave}
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
