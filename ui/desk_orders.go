package ui

import (
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/body"
	"chalkfold/draft/quote"
	"chalkfold/draft/say"
	"chalkfold/sync/store"
	"chalkfold/ui/book"
)

// orderScreen is the open order with its garments.
func (d *Desk) orderScreen() *book.Order {
	j, at := d.job, &d.view.book
	c := &book.Card{
		Ticket: j.File.Name, Note: j.Notes, Typed: d.view.book.typed, Client: d.clientName(j.Client), Promised: j.Due, Today: d.today(),
		Sure:     d.view.book.sure == d.keeper.id,
		OnTicket: d.nameIt, OnDue: d.promise, OnNoDue: d.promiseNothing, OnNote: d.noteDown, OnDelete: d.deleteOpen,
	}
	d.offerClients(c)
	c.OnLook = func() {
		d.view.book = bookViewed{view: book.ViewClients, client: d.job.Client}
		d.turn(stageBook)
	}
	v := &book.Order{
		Words: d.Words, Card: c, Busy: !d.settled(), Out: at.others, OnOpen: d.openKept,
		OnLay:    func() { d.turn(stageCloth) },
		OnLike:   func() { d.addGarment(nil) },
		OnHers:   func() { d.addGarment(d.client(d.job.Client)) },
		OnOthers: func() { at.others = !at.others },
		OnAdd:    func(id string) { d.putIn(id, d.keeper.id) },
		Buy:      d.buyView().Render(d.Words), Table: d.tableView().Render(),
		Needed: d.notionsView().Render(d.Words),
	}
	garments := d.garmentsOf(d.keeper.id)
	var not []string
	for _, s := range garments {
		e := d.entry(s)
		e.For = d.clientName(s.Client)
		if s.Due == j.Due {
			e.Due, e.Day = "", ""
		}
		if g, ok := d.together.drafts[s.ID]; ok && s.whole() != nil {
			h := s.head
			h.State = stateOf(s.job, g.Work)
			e.State = d.sayState(h)
			if g.Result == nil {
				not = append(not, d.ticket(s.Ticket))
			}
		}
		v.Garments = append(v.Garments, e)
	}
	v.Laid = d.work.Result != nil && len(d.work.Result.Pieces) > 0
	v.Cut = d.cutAlready()
	if len(not) > 0 {
		v.NotLaid = d.F("Not in the lay until they can be drafted: %s.", strings.Join(not, ", "))
	}
	v.Owed = d.owedFor(garments)
	if at.others {
		w := d.window()
		for _, r := range d.records {
			if !r.deleted() && d.orderOf(r.Order) == nil && r.err == nil && w.takes() {
				v.Others = append(v.Others, d.entry(r))
			}
		}
	}
	return v
}

// owedFor is what is still to be paid for jobs, by currency; empty when nothing is.
func (d *Desk) owedFor(jobs []*shelved) string {
	var all []quote.Currency
	owed := map[quote.Currency]quote.Money{}
	for _, s := range jobs {
		if s.Owed == "" || s.whole() == nil {
			continue
		}
		c := s.job.Quote.Currency
		if _, met := owed[c]; !met {
			all = append(all, c)
		}
		owed[c] += s.job.Quote.Sum().Owed
	}
	var texts []string
	for _, c := range all {
		texts = append(texts, c.Text(owed[c], d.Words))
	}
	return strings.Join(texts, " + ")
}

// beginOrder opens a new order: of the open job, or of none yet.
func (d *Desk) beginOrder(of *Job) {
	if !d.settled() {
		return
	}
	like := d.job
	if d.ordering() {
		like = NewJob(d.garment.ID)
		like.File.Units = d.units()
	}
	o := newOrder(like)
	if of == nil {
		o.Client, o.Due = "", ""
		d.lay(NewKeeper(orderKind, d.deps.NewID(), 0, d.deps.Now), o)
		d.keep()
		d.turn(stageOrder)
		return
	}
	data, err := o.Encode()
	if err != nil {
		d.fault = d.sayFault(err)
		return
	}
	id := d.deps.NewID()
	d.putJob(store.Record{ID: d.keeper.id, Rev: d.keeper.rev}, of, id, func() { d.openKept(id) },
		store.Record{Kind: orderKind, ID: id, Rev: 1, Data: data, Updated: d.deps.Now()})
}

// putIn puts a job that is kept into an order; out of the one that it is in where that
// is empty.
func (d *Desk) putIn(id, order string) {
	if s := find(d.records, id); s != nil && s.whole() != nil && d.settled() {
		d.putJob(s.Record, s.job, order, nil)
	}
}

// putJob keeps a job as one of an order, along with other records, and then does the
// rest.
func (d *Desk) putJob(r store.Record, of *Job, order string, then func(), with ...store.Record) {
	rewritten, err := d.rewritten(r, of, func(j *Job) { j.Order = order })
	if err != nil {
		d.fault = d.sayFault(err)
		return
	}
	d.put(append(with, rewritten), then)
}

// rewritten is the next record of a job that lies on the shelf, with a change made to
// it that can be undone.
func (d *Desk) rewritten(r store.Record, of *Job, change func(*Job)) (store.Record, error) {
	j := *of
	if err := j.open(); err != nil {
		return r, err
	}
	change(&j)
	if err := j.Note(""); err != nil {
		return r, err
	}
	return d.nextOf(r, &j)
}

// nextOf is the next record of a job.
func (d *Desk) nextOf(r store.Record, j *Job) (store.Record, error) {
	data, err := j.Encode()
	return store.Record{Kind: recordKind, ID: r.ID, Rev: r.Rev + 1, Data: data, Updated: d.deps.Now()}, err
}

// put keeps records, all or none, and then does the rest. A second tap, before the
// shelves are read anew, does nothing.
func (d *Desk) put(records []store.Record, then func()) {
	if d.putting {
		return
	}
	d.putting = true
	s := d.store
	d.ctx.Async(func() {
		err := s.Put(d.ctx, records...)
		d.relist(err, then)
		d.ctx.Dispatch(func(app.Context) { d.putting = false })
	})
}

// addGarment begins one more garment of the open order, made like its first: for a
// client, on what is known of her, or for another body.
func (d *Desk) addGarment(c *filed) {
	if !d.settled() {
		return
	}
	order := d.keeper.id
	j := d.newJobOf(d.job.File.Garment)
	j.File.Units, j.File.Cloth = d.units(), offTheBolt(d.job.File.Cloth)
	if like := d.likeOpen(); like != nil {
		j = likeIt(like)
	}
	if j.Order = order; c != nil {
		d.startWith(j, c)
	}
	d.lay(d.newKeeper(), j)
	d.keep()
	d.turn(stageTape)
}

// repeat begins a job like the open one on the newest measurements.
func (d *Desk) repeat() {
	if !d.settled() {
		return
	}
	j := d.again(d.job)
	d.lay(d.newKeeper(), j)
	d.keep()
	d.turn(stageTape)
}

// startWith has a job start from all that is known of a client: her figure, her rules,
// what her fittings taught, and the newest of each measurement.
func (d *Desk) startWith(j *Job, c *filed) {
	g := d.makeOf(j.File.Garment)
	if j.Client = c.id; c.Figure != body.Unknown {
		j.File.Figure = c.Figure
	}
	j.File.Rules.Client = known(g, c.Rules)
	j.File.Style = builtOn(j.File.Style, figured(g, c.Build))
	j.File.Alterations = corrected(g, c.Corrections[g.ID], j.File.Rules.House, j.File.Units.Format())
	hers := d.jobsOf(c.id)
	for _, def := range body.Defs() {
		if all := takings(hers, def.ID); len(all) > 0 && all[0].Day >= j.Taken[def.ID] {
			j.take(def.ID, all[0].Taking)
			if j.Taken[def.ID] = all[0].Day; all[0].Day == "" {
				delete(j.Taken, def.ID)
			}
		}
	}
	if len(j.File.Measurements) > 0 {
		j.State = Measured
	}
}

// carriedLines are what a client's fittings taught, garment by garment.
func (d *Desk) carriedLines(c *Client) []string {
	var out []string
	for _, g := range d.makes {
		for _, one := range c.Corrections[g.ID] {
			if def, ok := g.Alter(one.Kind); ok {
				out = append(out, d.F("%s: %s, %s", say.Name(g.Name), say.Within(def.Name), one.By))
			}
		}
	}
	return out
}
