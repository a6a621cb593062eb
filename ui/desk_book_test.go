//go:build !js

package ui

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"chalkfold/draft/body"
	"chalkfold/draft/rules"
	"chalkfold/sync/store/mem"
	"chalkfold/ui/book"
	"chalkfold/ui/day"
)

// stock is a store with these jobs, named by their tickets, each changed a
// minute after the one before it.
func stock(t *testing.T, jobs ...*Job) *mem.Store {
	t.Helper()
	s := &mem.Store{}
	for i, r := range shelfWith(t, jobs...) {
		r.Updated = clock().Add(time.Duration(i-len(jobs)) * time.Minute)
		if err := s.Put(context.Background(), r.Record); err != nil {
			t.Fatal(err)
		}
	}
	return s
}

func dueOn(ticket string, due day.Day, reached ...Milestone) *Job {
	j := NewJob("trousers")
	j.SetName(ticket)
	j.Due = due
	for _, m := range reached {
		j.Reach(m, "2031-05-01")
	}
	return j
}

func names(all []book.Entry) string {
	var out []string
	for _, e := range all {
		out = append(out, e.Name)
	}
	return strings.Join(out, ",")
}

// The clock of these tests stands at 17 May 2031.
func TestBookOrder(t *testing.T) {
	b := open(t, stock(
		t,
		dueOn("older", ""), dueOn("far", "2031-08-01"), dueOn("late", "2031-05-15"), dueOn("newer", ""), dueOn("soon", "2031-05-20"),
		dueOn("done", "2031-05-10", Cut, Sewn, Fitted, Paid), dueOn("today", "2031-05-17", Paid), dueOn("open", "2031-05-16"),
	), nil)
	v := b.bookView()
	if due, jobs := names(v.Due), names(v.Jobs); due != "late,today,soon,far" || jobs != "done,newer,older" || v.Open.Name != "open" {
		t.Errorf("due %s, others %s, open %q", due, jobs, v.Open.Name)
	}
	for _, tt := range []struct {
		e                    book.Entry
		due, day, state, pay string
		late                 bool
	}{
		{v.Due[0], "2 days late", "15 May 2031", "", "", true},
		{v.Due[1], "today", "17 May 2031", "", "paid", false},
		{v.Due[2], "in 3 days", "20 May 2031", "", "", false},
		{v.Due[3], "1 Aug 2031", "", "", "", false},
		{v.Jobs[0], "10 May 2031", "", "Fitted", "paid", false}, // no longer late
		{v.Open.Entry, "1 day late", "16 May 2031", "To be measured", "", true},
	} {
		if e := tt.e; e.Due != tt.due || e.Day != tt.day || e.State != tt.state || e.Paid != (tt.pay != "") || e.Late != tt.late {
			t.Errorf("%s: %+v", e.Name, e)
		}
	}
	b.bookView().OnSearch("LÀTE")
	if v := b.bookView(); names(v.Due)+names(v.Jobs) != "late" || v.Many {
		t.Errorf("found %s, %s", names(v.Due), names(v.Jobs))
	}
	b.bookView().OnSearch("nothing of the kind")
	b.shows("Nothing is found.")
}

func TestBookWindow(t *testing.T) {
	var jobs []*Job
	for i := range 120 {
		j := NewJob("trousers")
		j.SetName("Job " + strconv.Itoa(i))
		if i%2 == 0 {
			j.Due = "2031-05-20"
		}
		jobs = append(jobs, j)
	}
	b := open(t, stock(t, jobs...), nil)
	for _, tt := range []struct{ due, others, left int }{{20, 0, 20}, {40, 0, 20}, {60, 0, 20}, {60, 20, 20}, {60, 40, 19}, {60, 59, 0}} {
		v := b.bookView()
		if len(v.Due) != tt.due || len(v.Jobs) != tt.others || v.Left != tt.left || !v.Many {
			t.Errorf("%d due, %d others, %d left; want %+v", len(v.Due), len(v.Jobs), v.Left, tt)
		}
		v.OnMore()
	}
}

// Opening the book reads one job whole: the one that is opened.
func TestBookReadsLittle(t *testing.T) {
	b := open(t, stock(t, dueOn("a", ""), dueOn("b", "2031-05-20"), dueOn("c", "")), nil)
	_ = b.bookView()
	for _, r := range b.records {
		if r.read {
			t.Errorf("%s was read whole", r.Ticket)
		}
	}
}

func TestStands(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	at := func(want string) {
		t.Helper()
		if got := b.stands(); got != want {
			t.Errorf("%s, reached %v: the work stands at %q, want %q", b.job.State, b.job.Reached, got, want)
		}
	}
	at(stageTape)
	b.tapeView().OnText(body.WaistGirth, "34")
	b.settle()
	at(stageTape)
	b.tapeView().OnText(body.HipGirth, "42")
	b.tapeView().OnText(body.OutsideLegLength, "40")
	b.settle()
	at(stageCloth)
	b.chalkAt(3)
	at(stageChalk)
	b.styleView().OnRule("front_fork_part", "99")
	b.settle()
	at(stageDraft)
	for m, want := range map[Milestone]string{Cut: stageBench, Sewn: stageFitting, Fitted: stageFitting} {
		clear(b.job.Reached)
		b.tick(string(m))
		at(want)
	}
	b.tick(string(Paid))
	b.job.Reach(Fitted, "2031-05-17")
	at("")
}

// A client through her jobs: made on the spot, found again in whatever way her
// name is written, her own rules in her next job, deleted and recovered.
func TestClients(t *testing.T) {
	s := &mem.Store{}
	ids := 0
	another := func() string { // another window names its records otherwise
		ids++
		return "another-" + strconv.Itoa(ids)
	}
	b := open(t, s, nil)
	b.tapeView().OnTicket("Alto 1")
	b.tapeView().OnText(body.HipGirth, "42")
	b.tapeView().OnFigure("women")
	card := func() *book.Card {
		b.view.book.view = book.ViewJobs
		return b.bookView().Open
	}
	card().OnTyped("Éléonore ")
	if card().Fresh != "Éléonore" {
		t.Errorf("she would be %q", card().Fresh)
	}
	card().OnFresh()
	b.settle()
	ada := b.clients[0]
	if card().Client != "Éléonore" || ada.Figure != body.Women || b.sayingSaved() != "Saved" {
		t.Fatalf("for %q, %+v, %s", card().Client, ada.Client, b.sayingSaved())
	}
	// A rule moved to her level is hers; undone, it is not.
	seat := ruleDef(t, "seat_tilt")
	b.styleView().OnRule(seat.ID, "1 1/2")
	b.styleView().OnMove(rules.Client, seat.ID)
	if ada.Rules[seat.ID] != "1½ in" {
		t.Errorf("her rules are %v", ada.Rules)
	}
	b.step(false)
	if len(ada.Rules) != 0 {
		t.Errorf("undone, her rules are %v", ada.Rules)
	}
	b.step(true)
	b.settle()

	// The next window, a job for nobody: she is offered, and gives what is hers.
	b = open(t, s, nil)
	b.deps.NewID = another
	b.newJob()
	b.tapeView().OnTicket("Alto 2")
	b.settle()
	card().OnTyped("ELEO")
	if o := card().Offers; len(o) != 1 || o[0].Name != "Éléonore" || card().Fresh != "ELEO" {
		t.Fatalf("offered %v, fresh %q", o, card().Fresh)
	}
	card().OnTyped("eleonore")
	if card().Fresh != "" {
		t.Error("the same name would be another client")
	}
	card().OnChoose(card().Offers[0].ID)
	b.settle()
	if b.job.File.Figure != body.Women || b.job.File.Rules.Client[seat.ID] != "1½ in" || len(b.job.File.Measurements) != 0 {
		t.Errorf("given to her, the job is %+v", b.job.File)
	}
	if e := takings(b.earlierJobs(), body.HipGirth); len(e) != 1 || e[0].Day != "2031-05-17" || e[0].Ticket != "Alto 1" {
		t.Errorf("earlier takings %+v", e)
	}

	// Her screen.
	card().OnLook()
	b.stage = stageBook
	b.shows("Measurements over time", "Alto 1", "42 in", "1 rule of the draft is this client&#39;s own.")
	b.bookView().Client.OnNote("left hip out")
	b.bookView().Client.OnNewJob()
	b.settle()
	if b.stage != stageTape || b.job.Client == "" || b.job.File.Rules.Client[seat.ID] != "1½ in" || b.keeper.rev == 0 {
		t.Errorf("a new job for her is %+v on %s", b.job.File, b.stage)
	}
	b = open(t, s, nil)
	if c := b.client(b.job.Client); c == nil || c.Note != "left hip out" {
		t.Errorf("the next window has %+v", c)
	}

	// Deleted: the jobs stay; recovered: all is as it was.
	card().OnLook()
	b.bookView().Client.OnDelete()
	b.stage = stageBook
	b.shows("Yes, delete: the jobs stay")
	b.bookView().Client.OnDelete()
	b.settle()
	if v := b.bookView(); len(v.Clients) != 0 || v.Client != nil || v.Open != nil || card().Client != "" {
		t.Errorf("deleted: %+v", v.Clients)
	}
	b.bookView().OnView(book.ViewDeleted)
	gone := b.bookView().Deleted
	if len(gone) != 1 || gone[0].Changed != "until 16 Jun 2031" {
		t.Fatalf("deleted are %+v", gone)
	}
	b.bookView().OnRecover(gone[0].ID)
	b.settle()
	if len(b.bookView().Deleted) != 0 || card().Client != "Éléonore" {
		t.Errorf("recovered, the job is for %q", card().Client)
	}
}

// Two windows change one client: it is asked which one is to be kept.
func TestClientElsewhere(t *testing.T) {
	for _, mine := range []bool{true, false} {
		t.Run(fmt.Sprint(mine), func(t *testing.T) {
			s := &mem.Store{}
			one := open(t, s, nil)
			one.newClient("Alto")
			one.settle()
			two := open(t, s, nil)
			change := func(b tried, name string) {
				b.view.book.client = b.clients[0].id
				b.changeClient(func(c *filed) { c.Name = name })
				b.settle()
			}
			change(one, "of the one")
			change(two, "of the other")
			two.shows("of the other was changed in another window")
			two.meetBeside(two.allBeside()[0], mine)
			two.settle()
			want := "of the one"
			if mine {
				want = "of the other"
			}
			if got := open(t, s, nil).clients[0].Name; got != want || two.clients[0].Name != want {
				t.Errorf("kept %q, shown %q, want %q", got, two.clients[0].Name, want)
			}
		})
	}
}

func TestClientsAreClearedAway(t *testing.T) {
	s := &mem.Store{}
	b := open(t, s, nil)
	for name, days := range map[string]int64{"long ago": 31, "of late": 29, "there": 0} {
		c := b.newClient(name)
		if days > 0 {
			c.Deleted = clock().UnixMilli() - days*24*60*60*1000
		}
		b.keepClient(c)
	}
	b.settle()
	var left []string
	for _, c := range open(t, s, nil).clients {
		left = append(left, c.Name)
	}
	slices.Sort(left)
	if strings.Join(left, ",") != "of late,there" {
		t.Errorf("left are %v", left)
	}
}

func TestBenchKeepsItsPlace(t *testing.T) {
	s := &mem.Store{}
	b := open(t, s, nil)
	b.openSample()
	b.settle()
	b.stage = stageBench
	b.benchView().OnPiece("front")
	b.benchView().OnMadeUp("35")
	b.settle()
	b.shows("1 of 12 pieces is cut.", "½ in more than drafted")
	b.benchView().OnMadeUp("35 1/")
	b.settle()
	if b.work.Result == nil {
		t.Error("a waist that is half typed is in the way of the draft")
	}
	b.shows("“35 1/” is no length")
	b = open(t, s, nil)
	if v := b.benchView(); v.Band.Text != "35 1/" || !v.Pieces[0].Cut || v.Pieces[1].Cut {
		t.Errorf("the bench of the next window: %+v", v.Band)
	}
	b.fittingView().OnDay(7)
	b.fittingView().OnDay(-1)
	b.fittingView().OnSeen("gapes")
	b.settle()
	if v := open(t, s, nil).fittingView(); v.On != "2031-05-23" || v.Seen != "gapes" || len(v.Girths) == 0 || len(v.Rooms) == 0 {
		t.Errorf("the fitting of the next window: %+v", v)
	}
}
