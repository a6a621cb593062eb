//go:build !js

package ui

import (
	"bytes"
	"strconv"
	"strings"
	"testing"

	"github.com/emersion/go-ical"

	"chalkfold/draft/quote"
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
	if got := b.pace("trousers").days; got != 4 {
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

// What is to be sewn until a day is set against the hours that there are: what is
// left of each job as it is reckoned, and as much longer as such jobs have taken.
func TestWorkAgainstHours(t *testing.T) {
	var jobs []*Job
	for _, took := range []int{480, 600, 590} { // 120, 150 and 147 %
		j := sewnIn(took)
		j.Sewing.Minutes, j.Sewing.Took = 400, took
		jobs = append(jobs, j)
	}
	begun := dueOn("begun", "2031-05-20", Cut)
	begun.Sewing.Minutes, begun.Sewing.Left = 400, 200
	b := open(t, stock(t, append(jobs, begun, dueOn("next", "2031-05-24", Cut), dueOn("sewn", "2031-05-18", Cut, Sewn))...), nil)
	if p := b.pace("trousers"); p.percent != 147 || p.minutes(400) != 588 || p.reckoned != 400 {
		t.Errorf("such jobs go at %+v", p)
	}
	said := func() string {
		var out []string
		for _, l := range b.bookView().Load.Days {
			out = append(out, string(l.On)+" "+l.Work+" "+strconv.FormatBool(l.Over))
		}
		return strings.Join(out, "\n")
	}
	// 200 minutes at 147 % are 4 h 54 min; 400 are 9 h 48 min more.
	if got, want := said(), `2031-05-18  false
2031-05-20 Sewing until then: 5 h false
2031-05-24 Sewing until then: 14¾ h false`; got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	// 10 h a week are 5.7 h in the four days until the 20th, 11.4 h until the 24th.
	b.bookView().Load.OnWeek("10")
	if got, want := said(), `2031-05-18  false
2031-05-20 Sewing until then: 5 h of your 5¾ h false
2031-05-24 Sewing until then: 14¾ h of your 11½ h true`; got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	b.bookView().Load.OnWeek("169")
	if v := b.bookView().Load; v.WeekBad == "" || v.Week != "169" || b.house.Week != 10*quote.One {
		t.Errorf("169 hours a week: %+v", v)
	}
	b.settle()
	if h, _, err := readHouse(t.Context(), b.store); err != nil || h.Week != 10*quote.One {
		t.Errorf("kept as %+v, %v", h.Week, err)
	}
}

// Where nobody knows how many days such jobs take, the hours say it.
func TestCutByHours(t *testing.T) {
	j := dueOn("soon", "2031-05-24")
	j.Sewing.Minutes, j.Sewing.Left = 600, 600
	b := open(t, stock(t, j, dueOn("open", "")), nil)
	b.house.Week = 20 * quote.One // 10 h are 3½ days of them
	if e := b.bookView().Due[0]; e.ToCut != "Cut it by Tue 20 May 2031: such a job takes you 4 days." {
		t.Errorf("%q", e.ToCut)
	}
}

// On opening, the book says what is late, and what is promised for today and
// tomorrow.
func TestReminders(t *testing.T) {
	fit := dueOn("Alto 1", "2031-05-30")
	fit.Fitting = "2031-05-18"
	b := open(t, stock(
		t,
		dueOn("Alto 2", "2031-05-10"), dueOn("Alto 3", "2031-05-17", Cut), dueOn("Alto 4", "2031-05-18", Cut, Sewn), fit,
		dueOn("Bass 1", "2031-05-19"), dueOn("Bass 2", "2031-05-17", Cut, Sewn, Fitted),
	), nil)
	want := "Late: Alto 2|Due today: Alto 3|Due tomorrow: Alto 4|To be fitted tomorrow: Alto 1"
	if got := strings.Join(b.bookView().Remind, "|"); got != want {
		t.Errorf("%s, want %s", got, want)
	}
	var many []*Job
	for i := range 6 {
		many = append(many, dueOn("Bass "+strconv.Itoa(i), "2031-05-17"))
	}
	b = open(t, stock(t, many...), nil)
	if got := strings.Join(b.bookView().Remind, "|"); !strings.HasSuffix(got, " and 3 more") {
		t.Errorf("of many: %s", got)
	}
	if b = open(t, stock(t, dueOn("Bass 1", "2031-05-30")), nil); len(b.bookView().Remind) != 0 {
		t.Errorf("nothing is near: %q", b.bookView().Remind)
	}
}

func TestPaceOfFew(t *testing.T) {
	b := open(t, stock(t, sewnIn(3), dueOn("soon", "2031-05-24"), dueOn("open", "")), nil)
	if e := b.bookView().Due[0]; e.ToCut != "" {
		t.Errorf("one job tells how long they take: %q", e.ToCut)
	}
}
