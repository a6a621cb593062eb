package day

import (
	"testing"
	"time"
)

func TestDay(t *testing.T) {
	if got := Of(time.Date(2031, 5, 7, 23, 59, 0, 0, time.UTC)); got != "2031-05-07" {
		t.Errorf("of: %q", got)
	}
	for _, tt := range []struct {
		day   Day
		valid bool
		text  string
	}{
		{"2031-05-17", true, "17 May 2031"},
		{"2028-02-29", true, "29 Feb 2028"},
		{"2031-02-29", false, ""},
		{"2031-13-01", false, ""},
		{"2031-5-17", false, ""},
		{"", false, ""},
		{"2031/05/17", false, ""},
	} {
		if got := tt.day.Valid(); got != tt.valid {
			t.Errorf("%q valid: %v", tt.day, got)
		}
		if got := tt.day.Text(nil); got != tt.text {
			t.Errorf("%q: %q, want %q", tt.day, got, tt.text)
		}
	}
	// Days are counted over the end of a leap February and of a year.
	for _, tt := range []struct {
		from, to Day
		days     int
	}{
		{"2028-02-28", "2028-03-01", 2},
		{"2031-12-31", "2032-01-01", 1},
		{"2031-05-17", "2031-05-10", -7},
		{"2031-05-17", "", 0},
	} {
		if got := tt.to.Since(tt.from); got != tt.days {
			t.Errorf("%q to %q: %d days", tt.from, tt.to, got)
		}
		if got := tt.from.Add(tt.days); tt.to != "" && got != tt.to {
			t.Errorf("%q and %d days: %q", tt.from, tt.days, got)
		}
	}
	if got := Day("2026-11-25").Weekday(); got != time.Wednesday {
		t.Errorf("weekday %v", got)
	}
}

func TestFrom(t *testing.T) {
	const today Day = "2031-05-17"
	for _, tt := range []struct {
		day  Day
		text string
	}{
		{"2031-05-15", "2 days late"},
		{"2031-05-16", "1 day late"},
		{"2030-05-17", "365 days late"},
		{"2031-05-17", "today"},
		{"2031-05-18", "tomorrow"},
		{"2031-05-20", "in 3 days"},
		{"2031-05-31", "in 14 days"},
		{"2031-06-01", ""},
		{"", ""},
		{"soon", ""},
	} {
		if got := tt.day.From(today, nil); got != tt.text {
			t.Errorf("%q on %s: %q, want %q", tt.day, today, got, tt.text)
		}
	}
	if got := today.From("", nil); got != "" {
		t.Errorf("from no day: %q", got)
	}
	if got := today.Full(nil); got != "Sat 17 May 2031" {
		t.Errorf("in full: %q", got)
	}
	if got := Day("").Full(nil); got != "" {
		t.Errorf("no day in full: %q", got)
	}
}
