package day_test

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"github.com/emersion/go-ical"
	"pgregory.net/rapid"

	"chalkfold/ui/day"
)

// read has a calendar file read by a library that knows nothing of this one,
// github.com/emersion/go-ical.
func read(t interface{ Fatalf(string, ...any) }, file []byte) []ical.Event {
	cal, err := ical.NewDecoder(bytes.NewReader(file)).Decode()
	if err != nil {
		t.Fatalf("%v\n%s", err, file)
	}
	return cal.Events()
}

func TestICalendar(t *testing.T) {
	stamp := time.Date(2031, 5, 10, 9, 8, 7, 0, time.FixedZone("", 3600))
	file := day.ICalendar([]day.Event{
		{UID: "a-due", Day: "2031-05-17", Summary: "Alto 3, trousers: due", Note: "Choir; 2 pockets, no cuffs\nred thread", Remind: 2},
		{UID: "b-fit", Day: "2031-12-31", Summary: "Fitting"},
		{UID: "c", Day: "", Summary: "no day"},
	}, stamp)
	all := read(t, file)
	if len(all) != 2 {
		t.Fatalf("%d events in\n%s", len(all), file)
	}
	text := func(e ical.Event, name string) string {
		s, err := e.Props.Text(name)
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
		return s
	}
	due := all[0]
	if text(due, "SUMMARY") != "Alto 3, trousers: due" || text(due, "DESCRIPTION") != "Choir; 2 pockets, no cuffs\nred thread" || text(due, "UID") != "a-due@chalkfold" {
		t.Errorf("read as %+v", due.Props)
	}
	if p := due.Props.Get("DTSTART"); p.Value != "20310517" || p.Params.Get("VALUE") != "DATE" {
		t.Errorf("starts %+v", p)
	}
	if end := all[1].Props.Get("DTEND").Value; end != "20320101" {
		t.Errorf("the last of December ends %s", end)
	}
	if got := due.Props.Get("DTSTAMP").Value; got != "20310510T080807Z" {
		t.Errorf("stamped %s", got)
	}
	if len(due.Children) != 1 || due.Children[0].Name != "VALARM" || due.Children[0].Props.Get("TRIGGER").Value != "-P2D" || len(all[1].Children) != 0 {
		t.Errorf("reminders: %+v, %+v", due.Children, all[1].Children)
	}
}

// Whatever stands in a text comes back from it, and no line has more than 75
// octets (RFC 5545, 3.1).
func TestICalendarTexts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		said := rapid.StringMatching(`[ -~ẹọṣɓɗƙé“”½\n]{1,200}`).Draw(t, "said")
		file := day.ICalendar([]day.Event{{UID: "a", Day: "2031-05-17", Summary: "due", Note: said}}, time.UnixMilli(0))
		for _, l := range strings.Split(string(file), "\r\n") {
			if len(l) > 75 || strings.ContainsAny(l, "\r\n") {
				t.Fatalf("a line of %d octets: %q", len(l), l)
			}
		}
		got, err := read(t, file)[0].Props.Text("DESCRIPTION")
		if err != nil || got != said {
			t.Fatalf("%q came back as %q, %v", said, got, err)
		}
	})
}
