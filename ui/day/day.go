// Package day has the calendar days of the work: when it was measured, when it
// is due. A day has no hour and no zone, as on a wall calendar.
package day

import (
	"strconv"
	"time"

	"chalkfold/draft/say"
)

// Day is a calendar day as ISO 8601 writes it, "2031-05-17"; days compare as
// their texts do. The zero Day is none.
type Day string

// Of is the day of t, where t is.
func Of(t time.Time) Day {
	y, m, d := t.Date()
	return Day(digits(y, 4) + "-" + digits(int(m), 2) + "-" + digits(d, 2))
}

func digits(n, wide int) string {
	s := strconv.Itoa(n)
	for len(s) < wide {
		s = "0" + s
	}
	return s
}

// time is noon of the day, so that no change of clocks moves it; it reports
// whether the day is one.
func (d Day) time() (time.Time, bool) {
	if len(d) != len("2031-05-17") || d[4] != '-' || d[7] != '-' {
		return time.Time{}, false
	}
	y, errY := strconv.Atoi(string(d[:4]))
	m, errM := strconv.Atoi(string(d[5:7]))
	n, errN := strconv.Atoi(string(d[8:]))
	t := time.Date(y, time.Month(m), n, 12, 0, 0, 0, time.UTC)
	return t, errY == nil && errM == nil && errN == nil && Of(t) == d
}

// Valid reports whether d is a day of the calendar.
func (d Day) Valid() bool {
	_, ok := d.time()
	return ok
}

// Add is the day so many days later; none of no day.
func (d Day) Add(days int) Day {
	t, ok := d.time()
	if !ok {
		return ""
	}
	return Of(t.AddDate(0, 0, days))
}

// Since is how many days d is after e; nought if one of them is none.
func (d Day) Since(e Day) int {
	a, okA := d.time()
	b, okB := e.time()
	if !okA || !okB {
		return 0
	}
	return int(a.Sub(b).Hours() / 24)
}

// Weekday is the day of the week, Sunday for no day.
func (d Day) Weekday() time.Weekday {
	t, _ := d.time()
	return t.Weekday()
}

// months are the names of the months as short as they are told.
func months() [12]string {
	return [12]string{
		say.Word("Jan"), say.Word("Feb"), say.Word("Mar"), say.Word("Apr"), say.Word("May"), say.Word("Jun"),
		say.Word("Jul"), say.Word("Aug"), say.Word("Sep"), say.Word("Oct"), say.Word("Nov"), say.Word("Dec"),
	}
}

// Text is the day as it is told: "17 May 2031".
func (d Day) Text(w *say.Words) string {
	t, ok := d.time()
	if !ok {
		return ""
	}
	return w.F("%d %s %d", t.Day(), w.T(months()[t.Month()-1]), t.Year())
}

// Full is the day with its day of the week: "Sat 17 May 2031".
func (d Day) Full(w *say.Words) string {
	if !d.Valid() {
		return ""
	}
	names := [7]string{
		say.Word("Sun"), say.Word("Mon"), say.Word("Tue"), say.Word("Wed"), say.Word("Thu"), say.Word("Fri"), say.Word("Sat"),
	}
	return w.F("%s %s", say.Name(names[d.Weekday()]), d.Text(w))
}

// From is the day as seen from today, as one says when something is due: "2
// days late", "today", "in 3 days"; none from further than two weeks.
func (d Day) From(today Day, w *say.Words) string {
	n := d.Since(today)
	switch {
	case !d.Valid() || !today.Valid() || n > 14:
		return ""
	case n < 0:
		return w.N(-n, "%d day late", "%d days late")
	case n == 0:
		return w.T("today")
	case n == 1:
		return w.T("tomorrow")
	}
	return w.N(n, "in %d day", "in %d days")
}
