package ui

import (
	"slices"
	"sort"
	"strings"

	"chalkfold/draft/quote"
	"chalkfold/draft/say"
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

// pace is how such garments have gone: the middle of the last ones of which it
// is known, at least of two; nought where there are fewer.
type pace struct {
	days     int // from the cut until it was sewn
	percent  int // that it took of the minutes that were reckoned
	reckoned int // minutes
}

// pace is worked out once for the jobs as they are kept.
func (d *Desk) pace(garment string) pace {
	f := &d.listing
	if f.paces == nil || f.pacesOf != d.shelvesRead {
		f.paces, f.pacesOf = map[string]pace{}, d.shelvesRead
	}
	p, ok := f.paces[garment]
	if ok {
		return p
	}
	var days, percents, minutes []int
	for _, r := range d.records {
		if r.Garment != garment {
			continue
		}
		if cut, sewn := r.Reached[Cut], r.Reached[Sewn]; cut != "" && sewn >= cut {
			days = append(days, sewn.Since(cut)+1)
		}
		if r.Minutes > 0 {
			minutes = append(minutes, r.Minutes)
			if r.Took > 0 {
				percents = append(percents, min(max(r.Took*100/r.Minutes, 10), 1000))
			}
		}
	}
	p = pace{middle(days), middle(percents), middle(minutes)}
	f.paces[garment] = p
	return p
}

// middle is the middle one of the first figures; nought of too few.
func middle(all []int) int {
	const most, least = 15, 2
	if len(all) < least {
		return 0
	}
	all = all[:min(len(all), most)]
	sort.Ints(all)
	return all[len(all)/2]
}

// minutes are those that a maker takes who works at this pace.
func (p pace) minutes(reckoned int) int {
	if p.percent == 0 {
		return reckoned
	}
	return (reckoned*p.percent + 50) / 100
}

// left is how many minutes of sewing a job still takes, going by how such jobs
// have gone; nought where nobody knows.
func (d *Desk) left(h head) int {
	p := d.pace(h.Garment)
	switch {
	case h.Reached[Sewn] != "":
		return 0
	case h.Minutes > 0:
		return p.minutes(h.Left)
	}
	return p.minutes(p.reckoned)
}

// days are those that a job takes from the cut until it is sewn: as such jobs
// have, or else as many as its work fills; nought where nobody knows.
func (d *Desk) days(h head) int {
	if n := d.pace(h.Garment).days; n > 0 || d.house.Week == 0 {
		return n
	}
	week := max(1, int(d.house.Week*60/quote.One))
	return (d.left(h)*7 + week - 1) / week
}

// cutDay is the day by which a promised job is to be cut, going by the days that such
// jobs have taken; none where nobody knows, or it is cut.
func (d *Desk) cutDay(h head) (by day.Day, days int) {
	next := h.next()
	if next == "" || h.Reached[Cut] != "" || h.Reached[Sewn] != "" {
		return "", 0
	}
	if days = d.days(h); days == 0 {
		return "", 0
	}
	return next.Add(-days), days
}

// cutBy says so; nothing where there is no such day.
func (d *Desk) cutBy(h head) (says string, late bool) {
	by, days := d.cutDay(h)
	if by == "" {
		return "", false
	}
	return d.N(days, "Cut it by %[2]s: such a job takes you %[1]d day.", "Cut it by %[2]s: such a job takes you %[1]d days.", by.Full(d.Words)), by < d.today()
}

// ahead is how many days the workload looks ahead.
const ahead = 14

// workload is what is promised in the days to come, day by day, with what is
// late on the first, and the work that is to be done until then.
func (d *Desk) workload() []book.Load {
	var out []book.Load
	var work []promised
	today := d.today()
	last := today.Add(ahead)
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
		if r.Due != "" && r.Due <= last {
			l := at(r.Due)
			l.Due = append(l.Due, d.ticket(r.Ticket))
		}
		if r.Fitting != "" && r.Fitting >= today && r.Fitting <= last {
			l := at(r.Fitting)
			l.Fittings = append(l.Fittings, d.ticket(r.Ticket))
		}
		next := r.next()
		if next == "" {
			continue
		}
		work = append(work, promised{next, d.left(r.head)})
		if by, _ := d.cutDay(r.head); by != "" && by <= last {
			l := at(by)
			l.Cut = append(l.Cut, d.ticket(r.Ticket))
		}
	}
	slices.SortFunc(out, func(a, b book.Load) int {
		if a.On < b.On {
			return -1
		}
		return 1
	})
	for i := range out {
		if len(out[i].Due)+len(out[i].Fittings) > 0 {
			d.weigh(&out[i], work)
		}
	}
	return out
}

// promised is work that is to be done by a day.
type promised struct {
	by      day.Day
	minutes int
}

// weigh sets the work until a day against the hours that there are.
func (d *Desk) weigh(l *book.Load, work []promised) {
	sum := 0
	for _, w := range work {
		if w.by <= l.On {
			sum += w.minutes
		}
	}
	if sum == 0 {
		return
	}
	hours := quote.Hours(sum)
	l.Work = d.F("Sewing until then: %s", quote.Hour.Much(hours, d.Words))
	if d.house.Week > 0 {
		have := quote.Hours(int(d.house.Week) * 60 / int(quote.One) * (l.On.Since(d.today()) + 1) / 7)
		l.Work, l.Over = d.F("Sewing until then: %s of your %s", quote.Hour.Much(hours, d.Words), quote.Hour.Much(have, d.Words)), hours > have
	}
}

// reminders say what is late, and what is promised for today and tomorrow.
func (d *Desk) reminders() []string {
	today := d.today()
	tomorrow := today.Add(1)
	var late, due, fit [2][]string // late of those to be fetched and to be cut; the others today and tomorrow
	soon := func(into *[2][]string, on day.Day, ticket string) {
		switch on {
		case today:
			into[0] = append(into[0], ticket)
		case tomorrow:
			into[1] = append(into[1], ticket)
		}
	}
	for _, r := range d.records {
		if r.deleted() || r.err != nil || r.next() == "" {
			continue
		}
		ticket := d.ticket(r.Ticket)
		if r.Due != "" && r.Due < today {
			late[0] = append(late[0], ticket)
		} else if by, _ := d.cutDay(r.head); by != "" && by < today {
			late[1] = append(late[1], ticket)
		}
		soon(&due, r.Due, ticket)
		soon(&fit, r.Fitting, ticket)
	}
	var out []string
	for _, s := range []struct {
		format string
		all    []string
	}{
		{d.T("Late: %s"), late[0]},
		{d.T("Due today: %s"), due[0]},
		{d.T("To be fitted today: %s"), fit[0]},
		{d.T("Due tomorrow: %s"), due[1]},
		{d.T("To be fitted tomorrow: %s"), fit[1]},
		{d.T("Late to be cut: %s"), late[1]},
	} {
		if len(s.all) > 0 {
			out = append(out, strings.Replace(s.format, "%s", d.several(s.all), 1))
		}
	}
	return out
}

// several are tickets in a row, of many the first and how many more.
func (d *Desk) several(all []string) string {
	const most = 4
	if len(all) <= most {
		return strings.Join(all, ", ")
	}
	return d.F("%s and %d more", strings.Join(all[:most-1], ", "), len(all)-most+1)
}

// loadView is the workload as the book shows it.
func (d *Desk) loadView() book.Workload {
	at := &d.view.book
	v := book.Workload{
		Open: at.load, Days: d.list().load,
		OnOpen: func() { at.load = !at.load },
		OnSave: func(send bool) { d.giveCalendar(d.promises(), "chalkfold", send) },
		Told:   at.told, Week: at.week, WeekBad: at.weekBad, OnWeek: d.typeWeek,
	}
	if !at.weekTyped && d.house.Week > 0 {
		v.Week = d.house.Week.Text(d.Words)
	}
	return v
}

// typeWeek takes what was typed for the hours that are sewn in a week.
func (d *Desk) typeWeek(text string) {
	at := &d.view.book
	at.week, at.weekTyped, at.weekBad = text, true, ""
	q, err := hoursOf(text)
	if err == nil && q > mostWeek {
		err = say.Errorf("“%s” is more than a week has: at most %d hours", text, int(mostWeek/quote.One))
	}
	if err != nil {
		at.weekBad = d.Err(err)
		return
	}
	d.house.Week = q
	d.keepHouse()
}

// mostWeek is how many hours a week has.
const mostWeek = 7 * 24 * quote.One

// hoursOf reads hours as they are typed; none of an empty text.
func hoursOf(text string) (quote.Quantity, error) {
	if strings.TrimSpace(text) == "" {
		return 0, nil
	}
	return quote.ParseQuantity(text)
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
		out = append(out, day.Event{UID: id + "-due", Day: h.Due, Summary: d.F("Due: %s", d.ticket(h.Ticket)), Note: what, Remind: max(1, d.days(h))})
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
