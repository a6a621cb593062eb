// Package day has the calendar days of the work: when it was measured, when it
// is due. A day has no hour and no zone, as on a wall calendar.
package day

import (
	"time"

	"chalkfold/draft/say"
)

// Day is a calendar day as ISO 8601 writes it, "2031-05-17"; days compare as
// their texts do. The zero Day is none.
type Day string

// Of is the day of t, where t is; none of a year that four digits do not hold.
func Of(t time.Time) Day {
	y, m, d := t.Date()
	if y < 0 || y > 9999 {
		return ""
	}
	return Day([]byte{
		digit(y / 1000), digit(y / 100), digit(y / 10), digit(y), '-',
		digit(int(m) / 10), digit(int(m)), '-', digit(d / 10), digit(d),
	})
}

// digit is the last one of n.
func digit(n int) byte { return byte('0' + n%10) }

// time is noon of the day, so that no change of clocks moves it; it reports
// whether the day is one.
func (d Day) time() (time.Time, bool) {
	if len(d) != len("2031-05-17") || d[4] != '-' || d[7] != '-' {
		return time.Time{}, false
	}
	all := 0
	for i := range len(d) {
		switch c := d[i]; {
		case '0' <= c && c <= '9':
			all = all*10 + int(c-'0')
		case i != 4 && i != 7:
			return time.Time{}, false
		}
	}
	m, n := time.Month(all/100%100), all%100
	t := time.Date(all/10_000, m, n, 12, 0, 0, 0, time.UTC)
	return t, t.Month() == m && t.Day() == n
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
	return int((a.Unix() - b.Unix()) / (24 * 60 * 60))
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
