package ui

import (
	"errors"
	"slices"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
	"chalkfold/ui/cloth"
	"chalkfold/ui/engine"
)

const (
	// layAfter is how long the cloth must rest before it is laid on.
	layAfter = 250 * time.Millisecond
	// layLonger is the budget of each search that the maker asks for, in steps,
	// when she wants a shorter lay than the quick one.
	layLonger = 20_000
	layMost   = 40 * layLonger
)

// A laying is the lay of one draft on one cloth, made or being made.
type laying struct {
	gen, cloth int           // of which draft, on which cloth
	cut        string        // what cloths of its kind before it cut
	r          *draft.Result // the draft
	spread     *draft.Laid   // what is laid, without a place yet
	searches   [engine.Seeds]search
	best       engine.Best
	byHand     *lay.Result // as the hand left it, until a better one is found
	first      unit.Length // of the quick lay
	advice     advice
	tooWide    bool // a piece goes on the cloth in no way
	budget     int  // of each search, in steps; nought is the quick lay
	begun      bool

	held    int // the item in the hand; -1 for none
	missing string
	faults  map[string]string // of the cloth, by the keys of their fields
	shown   *draft.Laid       // the best so far, or that of the draft before
	drawn   drawn
	drawing cloth.Picture
}

// drawn tells one lay of a laying from another.
type drawn struct {
	some, hand bool
	seed, work int
}

// search is one of the searches for a lay.
type search struct {
	id      uint32
	now, of int // steps
	busy    bool
}

// busy reports whether a better lay may still come.
func (l *laying) busy() bool {
	for _, s := range l.searches {
		if s.busy {
			return true
		}
	}
	return !l.begun
}

// progress is how many steps of all are done.
func (l *laying) progress() (now, of int) {
	for _, s := range l.searches {
		now, of = now+s.now, of+s.of
	}
	return now, of
}

// wantLay has the pieces laid on the cloth that is looked at, unless they are.
func (d *Desk) wantLay() {
	if d.work == nil || d.work.Result == nil {
		d.leaveLay()
		return
	}
	if d.stage != stageCloth {
		return
	}
	old := d.laying
	d.noteLaid(old)
	at, cut := d.turnToLay()
	if old != nil && old.gen == d.work.Gen && old.cloth == at && old.cut == cut {
		return
	}
	d.leaveLay()
	l := &laying{gen: d.work.Gen, cloth: at, cut: cut, r: d.work.Result, held: -1}
	d.laying = l
	if len(l.r.Pieces) == 0 {
		l.begun, l.missing = true, d.T("Every piece is cut already.")
		return
	}
	if at >= len(l.r.Job.Cloth) {
		l.begun, l.missing = true, d.T("Give the width of the cloth, from selvedge to selvedge.")
		return
	}
	if old != nil && old.cloth == at {
		l.spread, l.shown, l.drawing, l.held = old.spread, old.shown, old.drawing, old.held // stays in sight until the new one is there
	}
	h := &d.view.cloth.hand
	if h.lifted != nil && h.of != d.handKey() {
		*h = inHand{} // what it was taken from is no more
	}
	wait := layAfter
	if _, ok := d.view.cloth.hands[d.handKey()]; ok {
		wait = frame
	}
	d.ctx.After(wait, func(app.Context) {
		if d.laying == l {
			d.startLay(l)
		}
	})
}

// leaveLay gives up the lay that is on the desk.
func (d *Desk) leaveLay() {
	if d.laying != nil {
		d.stopLay(d.laying)
		d.stopAdvice(d.laying)
		d.laying = nil
	}
}

// stopLay ends the searches for a lay. What they have found stays.
func (d *Desk) stopLay(l *laying) {
	l.begun = true
	for i := range l.searches {
		if s := &l.searches[i]; s.busy {
			s.busy = false
			d.helpers.Stop(s.id)
		}
	}
}

// startLay looks for the quick lay.
func (d *Desk) startLay(l *laying) {
	l.begun = true
	var err error
	if l.spread, err = d.spreadOn(l); err == nil && len(l.spread.Items) == 0 {
		l.shown, l.drawing = nil, cloth.Picture{}
		l.missing = d.T("Nothing is left to lay on it: the cloths before it take every piece, or it is too small.")
		d.wantLay() // on the next, if this one is before it
		return
	}
	if err == nil {
		err = lay.Check(l.spread.Cloth, l.spread.Items) // says what will never lie on it
	}
	if err != nil {
		l.shown, l.drawing, l.missing = nil, cloth.Picture{}, d.whyNoLay(err, l)
		return
	}
	l.best.Better = l.spread.Prefer(l.r.Format)
	h := &d.view.cloth.hand
	if r, ok := d.view.cloth.hands[d.handKey()]; ok && lay.Verify(l.spread.Cloth, l.spread.Items, r) == nil {
		l.byHand = &r
	} else {
		*h = inHand{}
	}
	l.held = h.item()
	l.draw()
	if h.lifted == nil {
		d.search(l, 0)
	}
}

// spreadOn is what is to be laid.
func (d *Desk) spreadOn(l *laying) (*draft.Laid, error) {
	cut, err := lay.ReadWant(l.cut)
	if err != nil {
		return nil, err
	}
	return draft.SpreadAfter(l.r, l.cloth, cut)
}

// searchLonger looks on for a shorter lay than the one found.
func (d *Desk) searchLonger() {
	if l := d.laying; l != nil && l.spread != nil && !l.busy() {
		if l.first == 0 {
			l.first = l.shown.Length
		}
		l.budget = min(max(layLonger, 2*l.budget), layMost)
		d.search(l, l.budget)
	}
}

// search looks for a lay from every seed, in so many steps each: the quick one
// when work is nought, else on from what that seed has found, or the hand.
func (d *Desk) search(l *laying, work int) {
	for seed := range l.searches {
		o := engine.Order{Cloth: l.cloth, Cut: l.cut, Seed: uint64(seed), Work: work}
		if work > 0 {
			o.Laid = l.found(seed)
		}
		s := &l.searches[seed]
		*s = search{busy: true}
		s.id = d.ask(l.r, engine.Lay, o, false,
			func(a engine.Answer) { d.heardLay(l, seed, a) })
	}
}

// found is the lay that a search goes on from; none when it begins anew.
func (l *laying) found(seed int) []byte {
	r, ok := l.best.Of(seed)
	if !ok && l.byHand != nil {
		r, ok = *l.byHand, true
	}
	if !ok {
		return nil
	}
	data, err := r.Encode(l.spread.Items)
	if err != nil {
		return nil
	}
	return data
}

// heardLay takes what is heard of one search.
func (d *Desk) heardLay(l *laying, seed int, a engine.Answer) {
	s := &l.searches[seed]
	s.now, s.of = a.Now, max(a.Of, s.of)
	switch a.Is {
	case engine.Fault:
		s.busy = false
		l.missing = d.F("The pieces could not be laid: %s", string(a.Data))
	case engine.Part, engine.Done:
		s.busy = a.Is == engine.Part
		r, err := lay.Decode(l.spread.Cloth, l.spread.Items, a.Data)
		if err != nil {
			l.missing = d.F("The pieces could not be laid: %s", d.Err(err))
			return
		}
		l.best.Take(seed, r)
		l.draw()
		if !l.busy() && l.cloth != d.view.cloth.at {
			d.wantLay()
		}
	case engine.Up, engine.Progress, engine.Ended:
	}
}

// draw shows the best lay, unless it is the one that is shown.
func (l *laying) draw() {
	best, seed, ok := l.best.Lay()
	now := drawn{some: true, seed: seed, work: best.Work}
	if l.byHand != nil && (!ok || !best.Better(*l.byHand)) {
		best, now, ok = *l.byHand, drawn{some: true, hand: true}, true
	}
	if !ok || now == l.drawn {
		return
	}
	laid := *l.spread
	laid.Result, laid.Items = best, slices.Clone(l.spread.Items)
	l.shown, l.drawn, l.missing = &laid, now, ""
	l.picture(l.held)
}

// picture draws the lay that is shown, with an item in the hand; none is below
// nought.
func (l *laying) picture(held int) {
	l.held = held
	l.drawing = cloth.Draw(l.shown, l.r.Format, held)
}

// whyNoLay puts in words why nothing can be laid.
func (d *Desk) whyNoLay(err error, l *laying) string {
	var wide *lay.TooWideError
	if errors.As(err, &wide) {
		l.tooWide = true
		return cloth.TooWide(wide, l.r.Format)
	}
	var bad *job.Bad
	if errors.As(err, &bad) {
		l.faults = map[string]string{}
		for _, p := range bad.Problems {
			l.faults[strings.TrimPrefix(p.Path, clothPath(l.cloth, ""))] = sentenceOf(d.Say(p.Why))
		}
	}
	return whyNoCloth(err, d.Words)
}

// whyNoCloth puts in words what is to be mended of a cloth; empty when nothing
// is.
func whyNoCloth(err error, w *say.Words) string {
	var bad *job.Bad
	switch {
	case err == nil:
		return ""
	case errors.As(err, &bad):
		return sentenceOf(w.Say(bad.Problems[0].Why))
	}
	return sentenceOf(w.Err(err))
}
