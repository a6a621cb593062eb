package ui

import (
	"cmp"
	"maps"
	"slices"
	"strconv"
	"strings"

	"chalkfold/draft/job"
	"chalkfold/draft/unit"
	"chalkfold/ui/book"
	"chalkfold/ui/keep"
)

// orderKind is the kind of the records that hold orders: garments that are made
// together, for one client or for many bodies.
//
// An order is kept as a job is: its name, its client, its note, when it is due, the
// cloths that its garments are laid on together, and what can be undone of these. It
// has no measurements. Which garments belong to it their jobs say (Job.Order), so that
// of two phones that add one each, both have added it.
const orderKind = "order"

// asJob reports whether records of a kind are written as jobs are.
func asJob(kind string) bool { return kind == recordKind || kind == orderKind }

// newOrder is an order of garments as one job has them: from such cloth off the bolt.
func newOrder(like *Job) *Job {
	o := NewJob(like.File.Garment)
	o.File.Units, o.Client, o.Due = like.File.Units, like.Client, like.Due
	o.File.Cloth = offTheBolt(like.File.Cloth)
	return o
}

// offTheBolt are cloths as a shop has them: no remnants, without a length, a flaw or
// a piece that is kept in its place.
func offTheBolt(all []job.Cloth) []job.Cloth {
	var out []job.Cloth
	for _, c := range all {
		if c.Remnant == "" && len(c.Outline) == 0 {
			c.Length, c.Flaws, c.Kept = unit.Quantity{}, nil, nil
			out = append(out, c)
		}
	}
	return out
}

// ordering reports whether it is an order that lies on the desk.
func (d *Desk) ordering() bool { return d.keeper != nil && d.keeper.kind == orderKind }

// leaveOrder puts the newest job in the place of an order that lies on the desk.
func (d *Desk) leaveOrder() {
	if d.ordering() && d.settled() {
		d.openNewest()
	}
}

// garmentsOf are the jobs of an order, by their tickets.
func (d *Desk) garmentsOf(order string) []*shelved {
	var out []*shelved
	for _, r := range d.records {
		if r.Order == order && order != "" && !r.deleted() {
			out = append(out, r)
		}
	}
	slices.SortStableFunc(out, func(a, b *shelved) int {
		return cmp.Or(byTicket(a.Ticket, b.Ticket), strings.Compare(a.ID, b.ID))
	})
	return out
}

// byTicket compares tickets as they are counted: Alto 9 comes before Alto 10.
func byTicket(a, b string) int {
	figures := func(s string) (string, int) {
		name := strings.TrimRight(s, "0123456789")
		n, _ := strconv.Atoi(s[len(name):])
		return name, n
	}
	nameA, a1 := figures(a)
	nameB, b1 := figures(b)
	return cmp.Or(strings.Compare(nameA, nameB), cmp.Compare(a1, b1))
}

// orderOf is the order of that id; nil when there is none, or it is deleted.
func (d *Desk) orderOf(id string) *shelved {
	if id == "" {
		return nil
	}
	if s := find(d.orders, id); s != nil && !s.deleted() {
		return s
	}
	return nil
}

// orderName is how an order is called where the name cannot be empty.
func (d *Desk) orderName(o *shelved) string {
	if o.Ticket == "" {
		return d.T("Order")
	}
	return o.Ticket
}

// takeOrders has the garments of orders promised as these are, where nothing else is
// said of them, and joins the garments of the open order anew.
func (d *Desk) takeOrders() {
	for _, r := range d.records {
		if r.Due = r.promised; r.Due == "" && r.Order != "" {
			if o := d.orderOf(r.Order); o != nil {
				r.Due = o.Due
			}
		}
	}
	if d.ordering() && d.job != nil {
		d.redraft()
	}
}

// likeIt is a new job made as another: of its style, by its rules, from such cloth,
// for nobody in particular and with nothing measured.
func likeIt(was *Job) *Job {
	f := was.File.Clone()
	for asked := range was.build() { // of the figure
		delete(f.Style, asked)
	}
	f.Name, f.Figure, f.Measurements, f.Rules.Client, f.Alterations = "", "", nil, nil, nil
	f.Cloth = offTheBolt(f.Cloth)
	return jobOf(f)
}

// again is a new job like one that was made before, on the newest measurements: those
// of its client or, where it was for nobody in particular, its own.
func (d *Desk) again(was *Job) *Job {
	j := likeIt(was)
	j.File.Name, j.File.Figure, j.File.Rules.Client = was.File.Name, was.File.Figure, maps.Clone(was.File.Rules.Client)
	j.Client, j.File.Style = was.Client, maps.Clone(was.File.Style)
	j.File.Measurements, j.Taken = maps.Clone(was.File.Measurements), maps.Clone(was.Taken)
	j.File.Alterations = slices.Clone(was.File.Alterations)
	if c := d.client(was.Client); c != nil {
		d.startWith(j, c)
	}
	if len(j.File.Measurements) > 0 {
		j.State = Measured
	}
	return j
}

// tableView takes in a table of sizes, and saves that of the order.
func (d *Desk) tableView() keep.Table {
	t := d.keeping.table
	v := keep.Table{
		Words: d.Words, Sends: d.browser.Sends, Jobs: len(d.records) > 0, Found: t.found, Told: t.told, Fresh: len(t.fresh) > 0,
		OnSave: d.saveTable, OnFile: d.lookAtTable, OnTake: d.takeTable, OnLeave: func() { d.keeping.table = tabled{} },
	}
	if j := d.likeOpen(); j != nil {
		v.Like = j.File.Name
	}
	return v
}

// likeOpen is the job that new ones are made like: the open one, or the first of the
// open order; nil where there is none.
func (d *Desk) likeOpen() *Job {
	if !d.ordering() {
		return d.job
	}
	for _, s := range d.garmentsOf(d.keeper.id) {
		if j := s.whole(); j != nil && d.stage == stageOrder {
			return j
		}
	}
	return nil
}

// intoOrder is the order that new jobs are put into; none beside its screen.
func (d *Desk) intoOrder() string {
	if d.ordering() && d.stage == stageOrder {
		return d.keeper.id
	}
	return ""
}

// listOrders lists the orders, those first that are due next.
func (d *Desk) listOrders(v *book.View, find book.Search) {
	for _, o := range d.orders {
		if o.deleted() || !find.Finds(o.Ticket, d.clientName(o.Client)) {
			continue
		}
		e := d.entry(o)
		e.Garment, e.State = "", d.N(d.list().ordered[o.ID], "%d garment", "%d garments")
		v.Orders = append(v.Orders, e)
	}
	v.OnNewOrder = func() { d.beginOrder(nil) }
}

// nameIt, promise, promiseNothing and noteDown change the open job, or the open order.
func (d *Desk) nameIt(text string) {
	d.job.SetName(text)
	d.changed("name")
}

func (d *Desk) promise(days int) {
	d.job.Due = d.moved(d.job.Due, days)
	d.changed("")
}

func (d *Desk) promiseNothing() {
	d.job.Due = ""
	d.changed("")
}

func (d *Desk) noteDown(text string) {
	d.job.Notes = clipTo(text, longest)
	d.changed("note")
}

// whose is the client of a job, and the order that it is of.
func (d *Desk) whose(h head) string {
	client, o := d.clientName(h.Client), d.orderOf(h.Order)
	switch {
	case o == nil:
		return client
	case client == "":
		return d.orderName(o)
	}
	return client + " · " + d.orderName(o)
}
