//go:build !js

package ui

import (
	"context"
	"fmt"
	"testing"
	"time"

	"chalkfold/sync/store"
	"chalkfold/sync/store/mem"
)

// TestManyJobs: of more jobs than are read before the first screen the newest is on the
// desk at once, and the others come after; a list that was worked out once follows what
// is changed.
func TestManyJobs(t *testing.T) {
	s, at := &mem.Store{}, clock().Add(-time.Hour)
	var all []store.Record
	for i := range fewJobs + 50 {
		j := NewJob("trousers")
		j.SetName(fmt.Sprint("Alto ", i))
		j.Client = fmt.Sprint("c", i%2)
		if i == fewJobs+49 {
			j.Deleted = at.UnixMilli()
		}
		data, err := j.Encode()
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, store.Record{Kind: recordKind, ID: fmt.Sprint("j", i), Rev: 1, Data: data, Updated: at.Add(time.Duration(i) * time.Second)})
	}
	for i, name := range []string{"Amina", "Ṣọlá"} {
		data, err := (&Client{Name: name}).Encode()
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, store.Record{Kind: clientKind, ID: fmt.Sprint("c", i), Rev: 1, Data: data, Updated: at})
	}
	if err := s.Put(context.Background(), all...); err != nil {
		t.Fatal(err)
	}
	if found, many := readNewest(t.Context(), s); !many || len(found.jobs) != 1 || found.jobs[0].Ticket != fmt.Sprint("Alto ", fewJobs+48) || len(found.clients) != 1 {
		t.Fatalf("the newest of many: %v, %d jobs, %d clients", many, len(found.jobs), len(found.clients))
	}
	b := open(t, s, nil)
	b.stage = stageBook
	if b.job.File.Name != fmt.Sprint("Alto ", fewJobs+48) || len(b.records) != fewJobs+50 || b.later {
		t.Fatalf("%q lies on the desk beside %d jobs; later: %v", b.job.File.Name, len(b.records), b.later)
	}
	finds := func(typed string, want int) {
		t.Helper()
		b.bookView().OnSearch(typed)
		b.settle()
		if v := b.bookView(); len(v.Jobs)+v.Left != want {
			t.Errorf("%q finds %d and %d more, want %d", typed, len(v.Jobs), v.Left, want)
		}
	}
	finds("sola", 2*atOnce)  // no more are told of than a tap adds
	finds("alto 7 amina", 5) // 70, 72, 74, 76, 78
	finds("alto 77 sola", 1)
	b.view.book.client = "c1"
	b.changeClient(func(c *filed) { c.Name = "Éléonore" })
	finds("alto 77 sola", 0)
	finds("alto 77 eleonore", 1)
	b.changeClient(func(c *filed) { c.Name = "" })
	b.settle()
	finds("alto 77 eleonore", 0)
	b.openKept("j77")
	b.settle()
	b.job.SetName("Bass 1")
	b.changed("name")
	b.settle()
	b.stage = stageBook
	b.newJob()
	b.settle()
	b.listJobs()
	b.settle()
	finds("bass 1", 1)
	finds("alto 77", 0)

	// An order of a job, and what another window makes of its ticket.
	b.openKept("j76")
	b.settle()
	b.beginOrder(b.job)
	b.settle()
	b.nameIt("The choir")
	b.settle()
	order := b.keeper.id
	b.stage = stageBook
	b.listJobs()
	b.settle()
	finds("alto 76 choir", 1)
	if v := b.bookView(); len(v.Orders) != 0 { // it is searched for by its own words
		t.Errorf("orders %+v", v.Orders)
	}
	finds("choir", 1)
	if v := b.bookView(); len(v.Orders) != 1 || v.Orders[0].State != "1 garment" {
		t.Errorf("orders %+v", v.Orders)
	}
	other := open(t, s, nil)
	other.openKept(order)
	other.settle()
	other.nameIt("The band")
	other.settle()
	b.listJobs()
	b.settle()
	finds("alto 76 choir", 0)
	finds("alto 76 band", 1)

	few := &mem.Store{}
	if err := few.Put(context.Background(), all[:fewJobs]...); err != nil {
		t.Fatal(err)
	}
	if _, many := readNewest(t.Context(), few); many {
		t.Error("few are left for later")
	}
}
