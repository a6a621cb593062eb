package ui

import (
	"slices"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/rules"
	"chalkfold/ui/drafting"
	"chalkfold/ui/kit"
)

// wantCures has it tried, once the page is drawn, what takes away the findings
// that are looked at, one after the other, or what lets a draft be made at all.
func (d *Desk) wantCures() {
	w := d.work
	open := d.view.draft.open
	if w == nil || d.stage != stageDraft || w.Result != nil && open != "" && open != drafting.ViewPieces {
		return
	}
	n, try := w.uncured(&d.maker.core, d.job.File)
	if try == nil {
		return
	}
	if w.cures == nil {
		w.cures = map[int][]draft.Cure{}
	}
	tried := func() {
		if _, tried := w.cures[n]; tried || d.work != w {
			return
		}
		w.cures[n] = try()
		d.wantCures()
	}
	if len(w.cures) > 0 { // it rests already
		d.next(tried)
	} else {
		d.ctx.After(cureAfter, func(app.Context) { tried() })
	}
}

// cureAfter is how long a draft rests before it is tried what mends it, so that
// keys that are pressed again and again do not wait.
const cureAfter = 400 * time.Millisecond

// cure makes a mend that was offered: one change, which can be undone.
func (d *Desk) cure(n, i int) {
	w := d.work
	if i >= len(w.cures[n]) {
		return
	}
	c, gone := w.cures[n][i], d.T("It can be drafted now.")
	if n > 0 {
		gone = d.F("%s: it holds now.", kit.Sentence(w.Result.Report.Findings[n-1].Name))
	}
	if c.ByHand {
		d.mend(c.Path)
		return
	}
	d.job.File = c.Job.Clone()
	clear(d.job.typed)
	clear(d.job.edited)
	d.changed("")
	d.view.draft.lit = 0
	d.view.draft.mended = mended{drafting.Mended{What: d.F("Done: %s.", c.Say), Gone: gone}, d.job.past.done}
}

// playEvery is how long a step of the replay stays.
const playEvery = 2500 * time.Millisecond

// play has the replay go on by itself, or stops it.
func (d *Desk) play() {
	at := &d.view.draft
	at.plays = !at.plays
	at.turn++
	if at.plays {
		d.playOn(at.turn)
	}
}

func (d *Desk) playOn(turn int) {
	d.ctx.After(playEvery, func(app.Context) {
		at, r := &d.view.draft, d.work.Result
		if !at.plays || at.turn != turn || r == nil || d.stage != stageDraft {
			return
		}
		at.step++
		at.plays = at.step < len(r.Record.Steps())
		d.playOn(turn)
	})
}

// mend turns to the field that is in the way, or to the stage where it is.
func (d *Desk) mend(path string) {
	field := path[strings.LastIndexByte(path, '.')+1:]
	switch {
	case strings.HasPrefix(path, "measurements."):
		d.view.tape.more = d.view.tape.more || field != "" && !slices.Contains(d.garment.Needs, body.ID(field))
		d.turn(stageTape)
		d.view.tape.focus = body.ID(field)
	case strings.HasPrefix(path, "rules."):
		if def, ok := d.rule(rules.ID(field)); ok {
			d.view.style.group, d.view.style.rule = def.Group, def.ID
		}
		d.turn(stageStyle)
	default:
		d.turn(stageStyle)
		return
	}
	d.ctx.Defer(func(app.Context) {
		if el := app.Window().GetElementByID(field); el.Truthy() {
			el.Call("focus")
		}
	})
}
