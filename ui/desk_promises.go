package ui

import (
	"slices"
	"sort"

	"chalkfold/ui/book"
	"chalkfold/ui/day"
)

// next is the day that comes first of those that are promised of a job which is
// not finished: its fitting, or the day it is due; none where none is.
func (h head) next() day.Day {
	switch {
	case h.Reached[Fitted] != "":
		return ""
	case h.Fitting == "" || h.Due != "" && h.Due < h.Fitting:
		return h.Due
	}
	return h.Fitting
}

// pace is how many days such a garment has taken from the cut until it was sewn:
// the middle of the last ones, at least of two; nought where there are fewer.
func (d *Desk) pace(garment string) int {
	if n, ok := d.listing.paces[garment]; ok {
		return n
	}
	n := d.reckonPace(garment)
	if d.listing.paces == nil {
		d.listing.paces = map[string]int{}
	}
	d.listing.paces[garment] = n
	return n
}

func (d *Desk) reckonPace(garment string) int {
	const most, least = 15, 2
	var took []int
	for _, r := range d.records {
		cut, sewn := r.Reached[Cut], r.Reached[Sewn]
		if r.Garment == garment && cut != "" && sewn >= cut && len(took) < most {
			took = append(took, sewn.Since(cut)+1)
		}
	}
	if len(took) < least {
		return 0
	}
	sort.Ints(took)
	return took[len(took)/2]
}

// cutBy says by when a promised job is to be cut, going by what such jobs have
// taken; nothing where nobody knows, or it is cut.
func (d *Desk) cutBy(h head) (says string, late bool) {
	pace, next := d.pace(h.Garment), h.next()
	if pace == 0 || next == "" || h.Reached[Cut] != "" || h.Reached[Sewn] != "" {
		return "", false
	}
	by := next.Add(-pace)
	return d.N(pace, "Cut it by %[2]s: such a job takes you %[1]d day.", "Cut it by %[2]s: such a job takes you %[1]d days.", by.Full(d.Words)), by < d.today()
}

// ahead is how many days the workload looks ahead.
const ahead = 14

// workload is what is promised in the days to come, day by day, with what is
// late on the first.
func (d *Desk) workload() []book.Load {
	var out []book.Load
	today := d.today()
	at := func(on day.Day) *book.Load {
		if on < today {
			on = today
		}
		i := slices.IndexFunc(out, func(l book.Load) bool { return l.On == on })
		if i < 0 {
			out = append(out, book.Load{On: on, Day: on.Full(d.Words)})
			i = len(out) - 1
		}
		return &out[i]
	}
	for _, r := range d.records {
		if r.deleted() || r.err != nil || r.Reached[Fitted] != "" {
			continue
		}
		if r.Due != "" && r.Due <= today.Add(ahead) {
			l := at(r.Due)
			l.Due = append(l.Due, d.ticket(r.Ticket))
		}
		if r.Fitting != "" && r.Fitting >= today && r.Fitting <= today.Add(ahead) {
			l := at(r.Fitting)
			l.Fittings = append(l.Fittings, d.ticket(r.Ticket))
		}
		if pace, next := d.pace(r.Garment), r.next(); pace > 0 && next != "" && r.Reached[Cut] == "" && r.Reached[Sewn] == "" {
			if by := next.Add(-pace); by <= today.Add(ahead) {
				l := at(by)
				l.Cut = append(l.Cut, d.ticket(r.Ticket))
			}
		}
	}
	slices.SortFunc(out, func(a, b book.Load) int {
		if a.On < b.On {
			return -1
		}
		return 1
	})
	return out
}

// loadView is the workload as the book shows it.
func (d *Desk) loadView() book.Workload {
	at := &d.view.book
	v := book.Workload{
		Open: at.load, Days: d.list().load,
		OnOpen: func() { at.load = !at.load },
		OnSave: func(send bool) { d.giveCalendar(d.promises(), "chalkfold", send) },
		Told:   at.told,
	}
	return v
}

// promises are the days of all jobs that are not finished, for a calendar.
func (d *Desk) promises() []day.Event {
	var out []day.Event
	for _, r := range d.records {
		if !r.deleted() && r.err == nil {
			out = append(out, d.promisesOf(r.ID, r.head)...)
		}
	}
	return out
}

// promisesOf are the days of one job.
func (d *Desk) promisesOf(id string, h head) []day.Event {
	var out []day.Event
	if h.Reached[Fitted] != "" {
		return nil
	}
	what := d.garmentName(h.Garment)
	if h.Due != "" {
		out = append(out, day.Event{UID: id + "-due", Day: h.Due, Summary: d.F("Due: %s", d.ticket(h.Ticket)), Note: what, Remind: max(1, d.pace(h.Garment))})
	}
	if h.Fitting != "" {
		out = append(out, day.Event{UID: id + "-fitting", Day: h.Fitting, Summary: d.F("Fitting: %s", d.ticket(h.Ticket)), Note: what, Remind: 1})
	}
	return out
}

// calendarKind is the kind of calendar files (RFC 5545).
const calendarKind = "text/calendar"

// giveCalendar hands a calendar file over.
func (d *Desk) giveCalendar(events []day.Event, name string, send bool) {
	at := &d.view.book
	if len(events) == 0 {
		at.told = d.T("Nothing is promised.")
		return
	}
	name += ".ics"
	d.hand(name, calendarKind, day.ICalendar(events, d.deps.Now()), send, func(out bool) {
		at.told = ""
		if out {
			at.told = d.F("Handed over as %s.", name)
		}
	})
}
