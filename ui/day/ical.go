package day

import (
	"strconv"
	"strings"
	"time"
	"unicode/utf8"
)

// Event is a day that something is promised for.
type Event struct {
	UID     string // the same event has the same one for ever
	Day     Day
	Summary string
	Note    string
	Remind  int // days before it on which to remind; nought is none
}

// ICalendar writes events as a calendar file by RFC 5545, which calendars of
// every kind take in: each a whole day that leaves its owner free. stamp is when
// it is written.
func ICalendar(events []Event, stamp time.Time) []byte {
	var b strings.Builder
	line := func(name, value string) { fold(&b, name+":"+value) }
	line("BEGIN", "VCALENDAR")
	line("VERSION", "2.0")
	line("PRODID", "-//Chalkfold//Chalkfold//EN")
	line("CALSCALE", "GREGORIAN")
	for _, e := range events {
		if !e.Day.Valid() {
			continue
		}
		line("BEGIN", "VEVENT")
		line("UID", escaped(e.UID)+"@chalkfold")
		utc := stamp.UTC()
		line("DTSTAMP", compact(Of(utc))+"T"+two(utc.Hour())+two(utc.Minute())+two(utc.Second())+"Z")
		line("DTSTART;VALUE=DATE", compact(e.Day))
		line("DTEND;VALUE=DATE", compact(e.Day.Add(1)))
		line("SUMMARY", escaped(e.Summary))
		if e.Note != "" {
			line("DESCRIPTION", escaped(e.Note))
		}
		line("TRANSP", "TRANSPARENT")
		if e.Remind > 0 {
			line("BEGIN", "VALARM")
			line("ACTION", "DISPLAY")
			line("DESCRIPTION", escaped(e.Summary))
			line("TRIGGER", "-P"+strconv.Itoa(e.Remind)+"D")
			line("END", "VALARM")
		}
		line("END", "VEVENT")
	}
	line("END", "VCALENDAR")
	return []byte(b.String())
}

func compact(d Day) string { return strings.ReplaceAll(string(d), "-", "") }

// two is a number of two digits.
func two(n int) string { return string([]byte{digit(n / 10), digit(n)}) }

// escaped is a text as RFC 5545 writes it (3.3.11). Other control characters
// cannot stand in one.
func escaped(s string) string {
	s = strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\r\n", `\n`, "\n", `\n`, "\t", " ").Replace(s)
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || r == utf8.RuneError {
			return -1
		}
		return r
	}, s)
}

// fold ends a line, and breaks it where it has more than 75 octets (3.1), at
// whole letters.
func fold(b *strings.Builder, s string) {
	for most := 75; len(s) > most; most = 74 { // the blank counts
		at := most
		for !utf8.RuneStart(s[at]) {
			at--
		}
		b.WriteString(s[:at] + "\r\n ")
		s = s[at:]
	}
	b.WriteString(s + "\r\n")
}
