package ui

import (
	"errors"
	"slices"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/sync/store"
	"chalkfold/ui/day"
	"chalkfold/ui/kit"
)

// keep has the job saved as it is.
func (d *Desk) keep() {
	if d.keeper != nil {
		d.keepBy(d.keeper, d.job.Encode)
	}
}

// keepFiled has what is kept whole beside the jobs saved as it is, and reports whether
// it will be. What cannot be read is left untouched.
func (d *Desk) keepFiled(f *filing, encode func() ([]byte, error)) bool {
	return d.store != nil && f.err == nil && d.keepBy(f.keeper, encode)
}

// keepBy has a keeper save what is encoded, and reports whether that could be.
func (d *Desk) keepBy(k *Keeper, encode func() ([]byte, error)) bool {
	data, err := encode()
	if err != nil {
		d.fault = d.sayFault(err)
		return false
	}
	k.Change(data)
	d.save(k)
	d.saySaved()
	return true
}

// save puts what the keeper offers, until it offers nothing more.
func (d *Desk) save(k *Keeper) {
	r, ok := k.Next()
	if !ok {
		return
	}
	s := d.store
	d.ctx.Async(func() {
		err := s.Put(d.ctx, r)
		d.ctx.Dispatch(func(app.Context) {
			k.Done(err)
			d.save(k)
			if err == nil {
				d.askToKeep()
			}
			switch {
			case k != d.keeper || err != nil:
			case d.stage == stageBook || d.stage == stageOrder:
				if k.Saving() == Saved {
					d.reshelveLater(r)
				}
			case k.rev > 1 && d.stage != stageLesson && d.stage != stageCopy:
				d.ctx.PreventUpdate() // nothing else tells of it
				d.saySaved()
			}
		})
	})
}

// reshelveLater does so when the keys rest: for longer where there are many others, among
// which nobody sees what is typed.
func (d *Desk) reshelveLater(r store.Record) {
	d.reshelving++
	n, rest := d.reshelving, typingRest
	if len(d.records) > fewJobs {
		rest = handRest
	}
	d.ctx.After(rest, func(app.Context) {
		if n == d.reshelving || d.keeper == nil || d.keeper.id != r.ID {
			d.reshelve(r)
		}
	})
}

// reshelve puts a job or an order that was saved in its place among the others.
func (d *Desk) reshelve(r store.Record) {
	into := &d.records
	if r.Kind == orderKind {
		into = &d.orders
	}
	rest := slices.DeleteFunc(slices.Clone(*into), func(s *shelved) bool { return s.ID == r.ID })
	i := slices.IndexFunc(rest, func(s *shelved) bool { return !s.Updated.After(r.Updated) })
	if i < 0 {
		i = len(rest)
	}
	*into = slices.Insert(rest, i, shelf(r))
	d.shelvesRead++
	d.takeOrders()
}

// meetOther answers for a job that another window has changed.
func (d *Desk) meetOther(mine bool) {
	s, k := d.store, d.keeper
	d.ctx.Async(func() {
		r, err := s.Get(d.ctx, k.kind, k.id)
		d.ctx.Dispatch(func(app.Context) {
			if k != d.keeper || k.Saving() != Elsewhere { // it was answered before
				return
			}
			deleted := errors.Is(err, store.ErrNotFound) // there: r.Rev is the tombstone's
			switch {
			case err != nil && !deleted:
				d.fault = d.sayFault(err)
			case mine:
				k.Overwrite(r.Rev)
				d.save(k)
			case deleted || d.open(r) && d.job.Deleted > 0:
				d.blank()
			}
		})
	})
}

// savedLine says whether all is saved. What it says is never older than what it is said
// of, and changes far more often than anything else, so it is written there at once and
// nothing is drawn anew for it.
type savedLine struct {
	app.Compo
	Says string
	desk *Desk  // the first that it is given
	said string // the words stay as they are while nothing else is to be said
}

// OnMount implements app.Mounter.
func (l *savedLine) OnMount(app.Context) {
	l.desk.line, l.said = l, ""
	l.say()
}

// OnUpdate implements app.Updater.
func (l *savedLine) OnUpdate(app.Context) { l.say() }

// Render implements app.Composer.
func (l *savedLine) Render() app.UI {
	return kit.Span().ID("saving").Class("saving").Role("status")
}

// say writes what it says.
func (l *savedLine) say() {
	if el := l.JSValue(); l.Says != l.said && el != nil && el.Truthy() {
		el.Set("textContent", l.Says)
		l.said = l.Says
	}
}

// saySaved says anew whether all is saved.
func (d *Desk) saySaved() {
	if l := d.line; l != nil {
		l.Says = d.sayingSaved()
		l.say()
	}
}

// sayingSaved puts the state of saving in words.
func (d *Desk) sayingSaved() string {
	if d.job == nil {
		return d.T("Opening…")
	}
	k := d.keeper
	if d.stage == stageHouse {
		k = d.house.keeper
	}
	if s := d.view.lesson.open; s != nil && d.stage == stageLesson {
		k = s.keeper
	}
	if k == nil {
		return d.T("Not saved")
	}
	switch d.saving() {
	case Saved:
		if k.rev == 0 {
			return ""
		}
		return d.T("Saved")
	case Writing:
		return d.T("Saving…")
	case Failed, Elsewhere:
	}
	return d.T("Not saved")
}

// saving is how far the open job, what is kept beside it and the house have got to the
// disk: as far as the one that has got least.
func (d *Desk) saving() Saving {
	worst := Saved
	if d.typing.field != "" && d.keeper != nil {
		worst = Writing
	}
	for _, k := range []*Keeper{d.keeper, d.house.keeper} {
		if k != nil {
			worst = max(worst, k.Saving())
		}
	}
	return max(worst, d.savingBeside())
}

// savingBeside is how far what is kept beside the job has got.
func (d *Desk) savingBeside() Saving {
	worst := Saved
	for _, c := range d.clients {
		worst = max(worst, c.keeper.Saving())
	}
	for _, r := range d.remnants {
		worst = max(worst, r.keeper.Saving())
	}
	for _, p := range d.photos {
		worst = max(worst, p.keeper.Saving())
	}
	if s := d.view.lesson.open; s != nil && s.kept {
		worst = max(worst, s.keeper.Saving())
	}
	return worst
}

// takeUpdate opens the version that waits, unless something is not saved.
func (d *Desk) takeUpdate() {
	if l := loader(); l != nil && d.saving() == Saved {
		l.Call("takeUpdate")
	}
}

// today is the day where the maker is.
func (d *Desk) today() day.Day { return day.Of(d.deps.Now().Local()) }
