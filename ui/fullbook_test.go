package ui

import (
	"fmt"
	"testing"
	"time"

	"chalkfold/sync/store"
	"chalkfold/ui/day"
)

// fullDesk is a desk with the Book of years: 5,000 jobs, four in ten of them promised,
// for 1,000 clients.
func fullDesk(b *testing.B) *Desk {
	b.Helper()
	d := NewDesk(Deps{Now: clock})
	for i := range 1000 {
		id := fmt.Sprintf("%032d", i)
		d.clients = append(d.clients, &filed{Client: &Client{Name: fmt.Sprint("Adire ", i)}, filing: filing{id: id, keeper: NewKeeper(clientKind, id, 1, clock)}})
	}
	for i := range 5000 {
		j, err := Sample()
		if err != nil {
			b.Fatal(err)
		}
		j.SetName(fmt.Sprint("Kente ", i))
		j.Client = d.clients[i%len(d.clients)].id
		if j.Due = day.Day("2031-05-12").Add(i % 60); i%10 >= 4 {
			j.Due = ""
			j.Reach(Cut, "2031-04-01")
			j.Reach(Sewn, "2031-04-03")
			j.Reach(Fitted, "2031-04-04")
		}
		data, err := j.Encode()
		if err != nil {
			b.Fatal(err)
		}
		d.records = append(d.records, shelf(store.Record{Kind: recordKind, ID: fmt.Sprintf("%032d", i), Rev: 1, Data: data, Updated: clock().Add(-time.Duration(i) * time.Minute)}))
	}
	d.keeper = NewKeeper(recordKind, d.records[0].ID, 1, clock)
	d.job = d.records[0].whole()
	d.redraft()
	return d
}

// What a full Book waits for: what it lists worked out anew when a job was saved, the
// stage drawn for a key, and what was typed understood.
func BenchmarkFullBook(b *testing.B) {
	d := fullDesk(b)
	b.Run("saved", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			d.shelvesRead++
			if f := d.list(); len(f.due) != 2000 {
				b.Fatal(len(f.due))
			}
		}
	})
	b.Run("drawn", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if v := d.bookView(); len(v.Due) != atOnce || v.Render() == nil {
				b.Fatal(len(v.Due))
			}
		}
	})
	b.Run("read", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			d.read()
			if d.sheet.Needed() == 0 {
				b.Fatal("nothing is to be measured")
			}
		}
	})
}
