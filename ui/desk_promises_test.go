//go:build !js

package ui

import (
	"bytes"
	"strconv"
	"strings"
	"testing"

	"github.com/emersion/go-ical"

	"chalkfold/ui/day"
)

// sewnIn is a finished job that took so many days from the cut.
func sewnIn(days int) *Job {
	j := dueOn("done in "+strconv.Itoa(days), "2031-04-20")
	j.Reach(Cut, "2031-04-01")
	j.Reach(Sewn, day.Day("2031-04-01").Add(days-1))
	j.Reach(Fitted, "2031-04-20")
	return j
}

// The clock stands at 17 May 2031. What is promised is told for the next two
// weeks; by when a job is to be cut goes by how long such jobs have taken.
func TestPromises(t *testing.T) {
	fitted := dueOn("fitting", "2031-06-30")
	fitted.Fitting = "2031-05-18"
	b := open(t, stock(
		t,
		sewnIn(3), sewnIn(9), sewnIn(4), fitted, dueOn("late", "2031-05-15"), dueOn("soon", "2031-05-24"), dueOn("cut", "2031-05-24", Cut),
		dueOn("far", "2031-09-01"), dueOn("gone", "2031-05-20", Cut, Sewn, Fitted), dueOn("open", ""),
	), nil)
	v := b.bookView()
	if due := names(v.Due); due != "late,fitting,cut,soon,far" {
		t.Errorf("due: %s", due)
	}
	if got := b.pace("trousers"); got != 4 {
		t.Errorf("such jobs take %d days", got)
	}
	if e := v.Due[3]; e.ToCut != "Cut it by Tue 20 May 2031: such a job takes you 4 days." || e.CutLate {
		t.Errorf("soon: %q, late %v", e.ToCut, e.CutLate)
	}
	if late, cut, fit := v.Due[0], v.Due[2], v.Due[1]; !late.CutLate || cut.ToCut != "" || fit.Fitting != "Fitting: tomorrow" {
		t.Errorf("late %+v, cut %+v, fitting %+v", late, cut, fit)
	}
	var said []string
	for _, l := range v.Load.Days {
		said = append(said, string(l.On)+" due "+strings.Join(l.Due, "+")+" fit "+strings.Join(l.Fittings, "+")+" cut "+strings.Join(l.Cut, "+"))
	}
	want := []string{
		"2031-05-17 due late fit  cut late+fitting",
		"2031-05-18 due  fit fitting cut ",
		"2031-05-20 due  fit  cut soon",
		"2031-05-24 due cut+soon fit  cut ",
	}
	if got, want := strings.Join(said, "\n"), strings.Join(want, "\n"); got != want {
		t.Errorf("workload\n%s\nwant\n%s", got, want)
	}

	h := &shared{}
	b.hand = func(name, kind string, file []byte, send bool, done func(bool)) {
		*h = shared{name, kind, file, send, h.times + 1}
		done(true)
	}
	v.Load.OnSave(false)
	cal, err := ical.NewDecoder(bytes.NewReader(h.file)).Decode()
	if err != nil || h.name != "chalkfold.ics" || h.kind != "text/calendar" || len(cal.Events()) != 6 {
		t.Fatalf("%s, %s, %v:\n%s", h.name, h.kind, err, h.file)
	}
	seen := map[string]bool{}
	for _, e := range cal.Events() {
		uid := e.Props.Get("UID").Value
		if seen[uid] {
			t.Errorf("%s twice", uid)
		}
		seen[uid] = true
	}
	if b.bookView().Load.Told == "" {
		t.Error("nothing is told of the file")
	}
}

func TestPaceOfFew(t *testing.T) {
	b := open(t, stock(t, sewnIn(3), dueOn("soon", "2031-05-24"), dueOn("open", "")), nil)
	if e := b.bookView().Due[0]; e.ToCut != "" {
		t.Errorf("one job tells how long they take: %q", e.ToCut)
	}
}
