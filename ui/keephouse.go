package ui

import (
	"context"
	"errors"
	"maps"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/rules"
	"chalkfold/sync/store"
)

// housed is the house on the desk, with what can be undone while the page is
// open. Undo in a job leaves it alone.
type housed struct {
	House
	keeper *Keeper
	steps  []House // before each change
	undone []House
	field  string // that was typed in last
}

// mostHouseSteps is how many changes of the house can be undone.
const mostHouseSteps = 50

// readHouse reads the house and its revision; the zero House where none is kept.
func readHouse(ctx context.Context, s store.Store) (House, uint32, error) {
	r, err := s.Get(ctx, houseKind, houseID)
	if errors.Is(err, store.ErrNotFound) {
		return House{}, r.Rev, nil
	}
	if err != nil {
		return House{}, r.Rev, err
	}
	h, err := decodeHouse(r.Data)
	return h, r.Rev, err
}

// firstSet is the id of the set that every house begins with, and ownName its
// name until the maker gives it another.
const (
	firstSet = "own"
	ownName  = "Our own"
)

// setName is the name of a set as shown.
func (d *Desk) setName(s RuleSet) string {
	if s.Name == ownName {
		return d.T("Our own")
	}
	return s.Name
}

func firstHouse(values rules.Values) House {
	return House{InForce: firstSet, Sets: []RuleSet{{ID: firstSet, Name: ownName, Values: maps.Clone(values)}}}
}

// openHouse takes what was read, the rules of the job on the desk where nothing
// was. What cannot be read is left as it is, and no change is kept then.
func (d *Desk) openHouse(h House, rev uint32, err error) {
	if h.InForce == "" {
		h = firstHouse(d.job.File.Rules.House)
	}
	h.clear(d.deps.Now())
	d.house, d.view.house = housed{House: h}, houseViewed{look: d.view.house.look}
	if err != nil {
		d.fault = d.sayFault(err)
		return
	}
	d.house.keeper = NewKeeper(houseKind, houseID, rev, d.deps.Now)
}

// settleHouse writes the house down before a job leaves its rules for the first
// time: what it was must not be guessed from that job later.
func (d *Desk) settleHouse() {
	if k := d.house.keeper; k != nil && k.rev == 0 && k.Saving() == Saved {
		d.keepHouse()
	}
}

// changeHouse changes the house and keeps it. Changes of one field that come
// one after the other are undone together; an empty field is a tap.
func (d *Desk) changeHouse(field string, change func(*House)) {
	h := &d.house
	if field == "" || field != h.field {
		h.steps = append(h.steps, h.clone())
		h.steps = h.steps[max(0, len(h.steps)-mostHouseSteps):]
	}
	h.field, h.undone = field, nil
	next := h.clone()
	change(&next)
	h.House = next
	d.keepHouse()
}

// stepHouse undoes the last change of the house or, forward, redoes it.
func (d *Desk) stepHouse(forward bool) {
	h := &d.house
	from, to := &h.steps, &h.undone
	if forward {
		from, to = to, from
	}
	n := len(*from) - 1
	if n < 0 {
		return
	}
	*to = append(*to, h.House)
	h.House, *from = (*from)[n], (*from)[:n]
	h.field = ""
	d.view.house.typed = nil
	d.keepHouse()
}

func (h *housed) can(forward bool) bool {
	if forward {
		return len(h.undone) > 0
	}
	return len(h.steps) > 0
}

// keepHouse has the house saved.
func (d *Desk) keepHouse() {
	d.wantEffect()
	k := d.house.keeper
	if k == nil {
		return
	}
	data, err := d.house.encode()
	if err != nil {
		d.fault = d.sayFault(err)
		return
	}
	k.Retry()
	k.Change(data)
	d.saveHouse()
}

// saveHouse saves as save does. Where another window was first, its house takes
// the place of this one, and that is said.
func (d *Desk) saveHouse() {
	k, s := d.house.keeper, d.store
	r, ok := k.Next()
	if !ok {
		return
	}
	d.ctx.Async(func() {
		err := s.Put(d.ctx, r)
		var theirs House
		var rev uint32
		var readErr error
		if errors.Is(err, store.ErrStale) {
			theirs, rev, readErr = readHouse(d.ctx, s)
		}
		d.ctx.Dispatch(func(app.Context) {
			k.Done(err)
			switch k.Saving() {
			case Elsewhere:
				if d.openHouse(theirs, rev, readErr); readErr != nil {
					return
				}
				d.fault = d.T("The house rules were changed in another window, and stand as they were left there. Make your last change again.")
				return
			case Failed:
				d.fault = d.sayFault(k.Fault())
				return
			case Saved, Writing:
			}
			d.saveHouse()
		})
	})
}

// houseValues are the rules that a new job begins with: those of the set in
// force that the garment knows.
func (d *Desk) houseValues() rules.Values {
	out := rules.Values{}
	for id, v := range d.house.inForce().Values {
		if _, ok := d.rule(id); ok {
			out[id] = v
		}
	}
	return out
}

// newJobOf is a new job by the rules of the house.
func (d *Desk) newJobOf(garment string) *Job {
	j := NewJob(garment)
	j.File.Rules.House = d.houseValues()
	if m := d.house.inForce().Method; garmentHas(garment, m) {
		j.File.Method = m
	}
	return j
}
