package ui

import (
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

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
	ordered     map[string]int // how many are of an order, by its id
	load        []book.Load
	paces       map[string]pace // by garment
	pacesOf     int             // of which shelves they are
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
	f, of := &d.listing, listingOf{d.shelvesRead, d.view.book.found, d.today(), d.Words, d.house.Week}
	was := f.of
	if was == of {
		return f
	}
	f.of, f.n, f.due, f.others = of, 0, f.due[:0], f.others[:0]
	if was.shelves != of.shelves || was.today != of.today || was.words != of.words || was.week != of.week {
		f.load, f.remind = d.workload(), d.reminders()
	}
	f.ordered = map[string]int{}
	search := book.NewSearch(of.search)
	names := d.clientNames()
	for _, r := range d.records {
		if r.deleted() {
			continue
		}
		f.n++
		if r.Order != "" {
			f.ordered[r.Order]++
		}
		of := names[r.Client]
		if o := d.orderOf(r.Order); o != nil {
			of += " " + o.Ticket
		}
		switch {
		case !search.Among(r.foldedWith(search, of)):
		case r.isDue():
			r.nextDay = string(r.next())
			f.due = append(f.due, r)
		default:
			f.others = append(f.others, r)
		}
	}
	slices.SortStableFunc(f.due, func(a, b *shelved) int { return strings.Compare(a.nextDay, b.nextDay) })
	return f
}

// searchBook searches the book for what is typed: where there is much in it, when the keys
// rest.
func (d *Desk) searchBook(text string) {
	at := &d.view.book
	at.search, at.more = text, 0
	at.typing++
	typing := at.typing
	if len(d.records)+len(d.clients) <= fewJobs {
		at.found = text
		return
	}
	d.ctx.After(typingRest, func(app.Context) {
		if typing == at.typing {
			at.found = at.search
		}
	})
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
