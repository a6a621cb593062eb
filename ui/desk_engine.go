package ui

import (
	"bytes"
	"cmp"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft"
	"chalkfold/ui/engine"
	"chalkfold/ui/kit"
)

// pageSlice is how long work may hold the page, but for one step.
const pageSlice = 10 * time.Millisecond

// startEngine makes ready what does long work beside the page.
func (d *Desk) startEngine() {
	turn := func(do func()) { d.ctx.Dispatch(func(app.Context) { do() }) }
	bench := &engine.Bench{
		Now: d.deps.Now, Font: d.deps.Font, Words: d.deps.Words, Slice: pageSlice,
		Rest: func() { time.Sleep(time.Millisecond) },
	}
	var beside engine.Start
	if start := d.deps.Helpers; start != nil {
		beside = func(hear func(engine.Answer)) engine.Worker {
			return start(func(a engine.Answer) { turn(func() { hear(a) }) })
		}
	}
	d.helpers = engine.NewPool(beside, engine.OnThisPage(bench, d.ctx.Async, turn), d.deps.Cores)
}

// ask has a task done for a draft.
func (d *Desk) ask(r *draft.Result, do engine.Do, o engine.Order, urgent bool, hear func(engine.Answer)) uint32 {
	var file bytes.Buffer
	if err := r.Job.Encode(&file); err != nil { // it was drafted, so it can be written
		d.fault = d.sayFault(err)
		return 0
	}
	for _, p := range r.Of {
		var part bytes.Buffer
		if err := p.Job.Encode(&part); err != nil {
			d.fault = d.sayFault(err)
			return 0
		}
		o.Parts = append(o.Parts, engine.Garment{Key: p.Key, Job: part.Bytes(), Cut: strings.Join(p.Cut, " ")})
	}
	o.Job, o.Lang = file.Bytes(), d.Language().ID
	o.Work = cmp.Or(o.Work, d.deps.Work)
	id := d.helpers.Ask(do, o, urgent, hear)
	d.watch()
	return id
}

// watch looks after the helpers once a second, while there are any.
func (d *Desk) watch() {
	if d.ticking || !d.helpers.Watched() {
		return
	}
	d.ticking = true
	d.ctx.After(time.Second, func(app.Context) {
		d.ticking = false
		d.helpers.Tick()
		d.watch()
	})
}

// engineNote tells of helpers that have stopped.
func (d *Desk) engineNote() (n kit.Remark) {
	switch d.helpers.Health() {
	case engine.Again:
		n.Title, n.Text = d.T("The helper stopped and was started again"), d.T("What it had begun is being done anew. Nothing is lost.")
	case engine.OnPage:
		if d.deps.Helpers != nil {
			n.Title, n.Text = d.T("The helper stopped again"), d.T("The page now does its work itself. That takes longer; nothing is lost.")
		}
	case engine.Well:
	}
	return n
}
