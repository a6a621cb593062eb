package ui

import (
	"errors"
	"slices"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/sync/store"
	"chalkfold/ui/kit"
)

// beside is something that is kept beside the jobs, a client or a remnant.
type beside struct {
	*filing
	name string
	load func(store.Record) // takes what another window has kept
	drop func()             // forgets it
}

// allBeside are the clients, the remnants, the photos, and the lesson that is open.
func (d *Desk) allBeside() []beside {
	var all []beside
	for _, c := range d.clients {
		all = append(all, beside{&c.filing, d.nameOf(c), c.load, func() {
			d.clients = slices.DeleteFunc(d.clients, func(o *filed) bool { return o == c })
		}})
	}
	for _, r := range d.remnants {
		all = append(all, beside{&r.filing, d.remnantName(r), r.load, func() {
			d.remnants = slices.DeleteFunc(d.remnants, func(o *remnant) bool { return o == r })
		}})
	}
	for _, p := range d.photos {
		all = append(all, beside{&p.filing, d.photoName(p), p.load, func() {
			d.photos = slices.DeleteFunc(d.photos, func(o *photo) bool { return o == p })
		}})
	}
	if s := d.view.lesson.open; s != nil && s.kept {
		all = append(all, beside{&s.filing, d.T("Lesson"), s.load, func() { d.view.lesson.open = nil }})
	}
	return all
}

// besideWarnings tell of those that could not be saved.
func (d *Desk) besideWarnings() app.UI {
	var bad []beside
	if d.savingBeside() > Writing { // which is rare, and there may be thousands
		bad = slices.DeleteFunc(d.allBeside(), func(b beside) bool { return b.keeper.Saving() <= Writing })
	}
	return app.Range(bad).Slice(func(i int) app.UI {
		b := bad[i]
		if b.keeper.Saving() == Failed {
			return kit.Div().Body(
				kit.Note(kit.Stop, d.F("%s is not saved", b.name), d.sayFault(b.keeper.Fault())),
				besideKey(b, d.T("Try again"), func() {
					b.keeper.Retry()
					d.save(b.keeper)
				}),
			)
		}
		return kit.Div().Body(
			kit.Note(kit.Stop, d.F("%s was changed in another window", b.name), d.T("Which one is to be kept?")),
			kit.Div().Class("actions").Body(
				besideKey(b, d.T("The other window's"), func() { d.meetBeside(b, false) }),
				besideKey(b, d.T("This one"), func() { d.meetBeside(b, true) }),
			),
		)
	})
}

func besideKey(b beside, name string, do func()) app.UI {
	return kit.Key().Class("action").Text(name).OnClick(func(app.Context, app.Event) { do() }, app.EventScope(b.id, name))
}

// meetBeside answers for one that another window has changed.
func (d *Desk) meetBeside(b beside, mine bool) {
	s := d.store
	d.ctx.Async(func() {
		r, err := s.Get(d.ctx, b.keeper.kind, b.id)
		d.ctx.Dispatch(func(app.Context) {
			d.shelvesRead++                           // a client's name may be another
			gone := errors.Is(err, store.ErrNotFound) // there: r.Rev is the tombstone's
			switch {
			case err != nil && !gone:
				d.fault = d.sayFault(err)
			case mine:
				b.keeper.Overwrite(r.Rev)
				d.save(b.keeper)
			case gone:
				b.drop()
			default:
				b.keeper.Load(r)
				b.load(r)
			}
		})
	})
}
