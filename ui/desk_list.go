package ui

import (
	"slices"
	"strings"

	"chalkfold/draft/quote"
	"chalkfold/draft/say"
	"chalkfold/ui/book"
	"chalkfold/ui/day"
)

// listing is what the book shows of all jobs. With thousands of them it is not worked out
// anew for every frame, but when what it is made of has changed.
type listing struct {
	of          listingOf
	n           int // of the jobs that are not deleted
	due, others []*shelved
	load        []book.Load
	paces       map[string]pace // by garment
	remind      []string
}

// listingOf is what it is made of.
type listingOf struct {
	shelves int // see Desk.shelvesRead
	search  string
	today   day.Day
	words   *say.Words
	week    quote.Quantity // hours
}

// list brings up to date what the book lists.
func (d *Desk) list() *listing {
	f, of := &d.listing, listingOf{d.shelvesRead, d.view.book.search, d.today(), d.Words, d.house.Week}
	if f.of == of {
		return f
	}
	if f.of.shelves != of.shelves || f.of.today != of.today || f.of.words != of.words || f.of.week != of.week {
		f.paces = map[string]pace{}
		f.load, f.remind = d.workload(), d.reminders()
	}
	f.of, f.n, f.due, f.others = of, 0, nil, nil
	search := book.NewSearch(of.search)
	names := d.clientNames()
	for _, r := range d.records {
		if r.deleted() {
			continue
		}
		f.n++
		switch {
		case !search.Among(r.foldedWith(search, names[r.Client])):
		case r.isDue():
			f.due = append(f.due, r)
		default:
			f.others = append(f.others, r)
		}
	}
	slices.SortStableFunc(f.due, func(a, b *shelved) int { return strings.Compare(string(a.next()), string(b.next())) })
	return f
}

// clientNames are the names of the clients who are not deleted.
func (d *Desk) clientNames() map[string]string {
	names := make(map[string]string, len(d.clients))
	for _, c := range d.clients {
		if c.Deleted == 0 {
			names[c.id] = d.nameOf(c)
		}
	}
	return names
}

// foldedWith is what a search looks at of a job for a client, as it was folded last.
func (s *shelved) foldedWith(search book.Search, client string) string {
	if s.foldedFor != client || s.folded == "" {
		s.folded, s.foldedFor = search.Fold(" "+s.Ticket+" "+client), client
	}
	return s.folded
}
