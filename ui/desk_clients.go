package ui

import (
	"slices"
	"strings"

	"chalkfold/draft/body"
	"chalkfold/ui/book"
	"chalkfold/ui/kit"
)

// clientName is the name of a client; none of one who is deleted or not there.
func (d *Desk) clientName(id string) string {
	if c := d.client(id); c != nil && c.Deleted == 0 {
		return d.nameOf(c)
	}
	return ""
}

// nameOf is how a client is called where the name cannot be empty.
func (d *Desk) nameOf(c *filed) string {
	switch {
	case c.err != nil:
		return d.T("Cannot be read")
	case strings.TrimSpace(c.Name) == "":
		return d.T("No name")
	}
	return c.Name
}

// inOrder are the clients who are not deleted and that a search finds, by name.
func (d *Desk) inOrder(find book.Search) []*filed {
	var out []*filed
	for _, c := range d.clients {
		if c.Deleted > 0 {
			continue
		}
		if name := d.nameOf(c); c.foldedFor != name {
			c.folded, c.foldedFor = find.Fold(" "+name), name
		}
		if find.Among(c.folded) {
			out = append(out, c)
		}
	}
	slices.SortStableFunc(out, func(a, b *filed) int { return strings.Compare(a.folded, b.folded) })
	return out
}

// listClients lists the clients, or shows one of them.
func (d *Desk) listClients(v *book.View) {
	if c := d.client(d.view.book.client); c != nil && c.Deleted == 0 && c.err == nil {
		v.Client = d.oneClient(c)
		return
	}
	jobs := map[string]int{}
	for _, r := range d.records {
		if !r.deleted() {
			jobs[r.Client]++
		}
	}
	v.Many = len(d.clients) > searched
	w := d.window()
	for _, c := range d.inOrder(book.NewSearch(d.view.book.found)) {
		if !w.takes() {
			continue
		}
		e := book.Entry{ID: c.id, Name: d.nameOf(c), Bad: c.err != nil, State: d.N(jobs[c.id], "%d job", "%d jobs")}
		if c.err != nil {
			e.State = d.Err(c.err)
		}
		v.Clients = append(v.Clients, e)
	}
	v.Left = min(w.left, atOnce)
}

// oneClient is a client with what her jobs tell.
func (d *Desk) oneClient(c *filed) *book.Client {
	v := &book.Client{
		ID: c.id, Name: c.Name, Note: c.Note, Sure: d.view.book.sure == c.id,
		OnName: func(text string) { d.changeClient(func(c *filed) { c.Name = clip(text) }) },
		OnNote: func(text string) { d.changeClient(func(c *filed) { c.Note = clipTo(text, longest) }) },
		OnNewJob: func() {
			if c := d.client(d.view.book.client); c != nil {
				d.newJobFor(c)
			}
		},
		OnDelete: func() {
			at := &d.view.book
			if at.sure != at.client {
				at.sure = at.client
				return
			}
			d.changeClient(func(c *filed) { c.Deleted = d.deps.Now().UnixMilli() })
			at.client, at.sure = "", ""
		},
	}
	if n := len(c.Rules); n > 0 {
		v.Rules = d.N(n, "%d rule of the draft is this client's own.", "%d rules of the draft are this client's own.")
	}
	w := d.window()
	hers := d.jobsOf(c.id)
	for _, r := range hers {
		if w.takes() {
			e := d.entry(r)
			if e.For = ""; d.orderOf(r.Order) != nil {
				e.For = d.orderName(d.orderOf(r.Order))
			}
			v.Jobs = append(v.Jobs, e)
		}
	}
	v.Owed, v.Carried = d.owedFor(hers), d.carriedLines(c.Client)
	for _, def := range body.Defs() {
		m := book.Measurement{Name: kit.Sentence(d.T(def.Name))}
		for _, t := range takings(hers, def.ID) {
			text := d.Say(t.Taking.Value)
			if t.Taking.Of == body.OfGarment {
				text = d.F("%s of a garment", text)
			}
			m.Takings = append(m.Takings, book.Taking{Text: text, Day: t.Day.Text(d.Words), Job: d.ticket(t.Ticket)})
		}
		if len(m.Takings) > 0 {
			v.Taken = append(v.Taken, m)
		}
	}
	return v
}

// changeClient changes the client who is looked at.
func (d *Desk) changeClient(change func(*filed)) {
	if c := d.client(d.view.book.client); c != nil {
		change(c)
		d.keepClient(c)
	}
}

// offerClients offers those whom the open job may be for, by what is typed.
func (d *Desk) offerClients(v *book.Card) {
	const most = 5
	typed := strings.TrimSpace(v.Typed)
	v.OnTyped = func(text string) { d.view.book.typed = text }
	v.OnChoose = func(id string) {
		d.view.book.typed = ""
		d.give(d.client(id))
	}
	v.OnFresh = func() {
		if name := strings.TrimSpace(d.view.book.typed); name != "" {
			d.view.book.typed = ""
			d.give(d.newClient(name))
		}
	}
	v.OnLook = func() {
		d.view.book = bookViewed{view: book.ViewClients, client: d.job.Client}
	}
	if v.Client != "" {
		return
	}
	v.Fresh = typed
	find := book.NewSearch(typed)
	for _, c := range d.inOrder(find) {
		if find.Fold(c.Name) == find.Fold(typed) {
			v.Fresh = ""
		}
		if len(v.Offers) < most && c.err == nil {
			v.Offers = append(v.Offers, kit.Choice{ID: c.id, Name: d.nameOf(c)})
		}
	}
}
