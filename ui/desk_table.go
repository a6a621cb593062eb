package ui

import (
	"math"
	"slices"
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/roster"
	"chalkfold/draft/unit"
	"chalkfold/sync/store"
	"chalkfold/ui/book"
	"chalkfold/ui/day"
)

// tableKind is the kind of tables (RFC 4180).
const tableKind = "text/csv"

// tabled is a table that was taken in, as it is looked at.
type tabled struct {
	fresh []roster.Row // those that are not here yet
	found []string     // what it holds, in words
	told  string       // what became of one
}

// saveTable hands over all jobs with their clients and measurements as a table.
func (d *Desk) saveTable(send bool) {
	rows := d.tableRows()
	if len(rows) == 0 {
		d.keeping.table.told = d.T("No job is kept yet.")
		return
	}
	file, err := roster.Write(rows, d.units().System, d.Words)
	if err != nil {
		d.fault = d.sayFault(err)
		return
	}
	const name = "chalkfold-measurements.csv"
	d.hand(name, tableKind, file, send, func(out bool) {
		d.keeping.table.told = ""
		if out {
			d.keeping.table.told = d.F("Handed over as %s.", name)
		}
	})
}

// tableRows are the jobs that are kept, the newest first: those of the open order on
// its screen.
func (d *Desk) tableRows() []roster.Row {
	var out []roster.Row
	for _, r := range d.records {
		if into := d.intoOrder(); r.deleted() || into != "" && r.Order != into || r.whole() == nil {
			continue
		}
		j := r.job
		row := roster.Row{
			Client: d.clientName(j.Client), Ticket: j.File.Name, Garment: j.File.Garment, Figure: j.File.Figure,
			Due: string(j.Due), Note: j.Notes, Takings: j.File.Measurements,
		}
		for _, on := range j.Taken {
			row.Taken = max(row.Taken, string(on))
		}
		out = append(out, row)
	}
	return out
}

// lookAtTable says what a table holds, before any of it is taken in.
func (d *Desk) lookAtTable(text string) {
	t := &d.keeping.table
	*t = tabled{}
	rows, problems, err := roster.Read([]byte(text), d.units().System)
	if err != nil {
		t.told = sentenceOf(d.Err(err)) + "."
		return
	}
	fold := book.NewSearch("")
	known := map[string][]roster.Row{}
	keep := func(r roster.Row) {
		k := foldedName(fold, r.Client) + "\x00" + r.Ticket
		known[k] = append(known[k], r)
	}
	for _, r := range d.tableRows() {
		keep(r)
	}
	for _, r := range rows {
		of := known[foldedName(fold, r.Client)+"\x00"+r.Ticket]
		if !slices.ContainsFunc(of, func(h roster.Row) bool { return sameBody(h, r) }) {
			t.fresh = append(t.fresh, r)
			keep(r)
		}
	}
	t.found = append(t.found,
		d.N(len(rows), "%d row", "%d rows"),
		d.N(len(t.fresh), "%d would be a new job", "%d would be new jobs"),
	)
	if n := len(rows) - len(t.fresh); n > 0 {
		t.found = append(t.found, d.N(n, "%d is here already", "%d are here already"))
	}
	const told = 5
	for i, p := range problems {
		if i == told {
			t.found = append(t.found, d.N(len(problems)-told, "and %d more cell that cannot be read", "and %d more cells that cannot be read"))
			break
		}
		t.found = append(t.found, d.Say(p))
	}
	if len(problems) > 0 {
		t.found = append(t.found, d.T("What cannot be read is left empty: mend it in the table, or on the tape later."))
	}
}

// sameBody reports whether two rows of one client and ticket are of one job: with
// the same measurements to the tenth of a millimetre.
func sameBody(a, b roster.Row) bool {
	if b.Garment != "" && a.Garment != b.Garment || len(a.Takings) != len(b.Takings) {
		return false
	}
	const near = unit.Length(0.1)
	for id, t := range a.Takings {
		if o, ok := b.Takings[id]; !ok || math.Abs(float64(o.Value.Length()-t.Value.Length())) > float64(near) {
			return false
		}
	}
	return true
}

// foldedName is a name as the search of the book compares it.
func foldedName(fold book.Search, name string) string {
	return strings.Join(strings.Fields(fold.Fold(name)), " ")
}

// takeTable makes a job of each new row, and a client of each new name: as new jobs
// are made, or like the open one; see likeOpen.
func (d *Desk) takeTable(asOpen bool) {
	t := d.keeping.table
	if len(t.fresh) == 0 || d.store == nil || d.job == nil {
		return
	}
	d.keeping.table = tabled{}
	var like *Job
	if asOpen {
		like = d.likeOpen()
	}
	var records []store.Record
	now := d.deps.Now()
	for i := len(t.fresh) - 1; i >= 0; i-- { // the first row ends as the newest
		data, err := d.jobOfRow(t.fresh[i], like).Encode()
		if err != nil {
			d.fault = d.sayFault(err)
			return
		}
		records = append(records, store.Record{Kind: recordKind, ID: d.deps.NewID(), Rev: 1, Updated: now, Data: data})
	}
	d.put(records, func() { d.keeping.table.told = d.N(len(records), "%d job was taken in.", "%d jobs were taken in.") })
}

// jobOfRow is a new job of a row, made like another unless that is nil.
func (d *Desk) jobOfRow(r roster.Row, as *Job) *Job {
	made := d.garment.ID
	if _, ok := draft.Find(r.Garment); ok {
		made = r.Garment
	}
	j := d.newJobOf(made)
	j.File.Units = d.units()
	if as != nil {
		j = likeIt(as)
	}
	j.Order = d.intoOrder()
	j.File.Figure, j.File.Measurements = r.Figure, r.Takings
	j.SetName(r.Ticket)
	j.Notes = clipTo(r.Note, longest)
	if due := day.Day(r.Due); due.Valid() {
		j.Due = due
	}
	on := day.Day(r.Taken)
	if !on.Valid() {
		on = d.today()
	}
	for id := range r.Takings {
		j.Taken[id] = on
	}
	if c := d.clientOfRow(r); c != nil {
		j.Client = c.id
		j.File.Rules.Client = known(d.garment, c.Rules)
		if j.File.Name == "" {
			j.SetName(c.Name)
		}
	}
	if len(j.File.Measurements) > 0 {
		j.State = Measured
	}
	return j
}

// clientOfRow is the client of that name, made where there is none; nil where the
// row names nobody.
func (d *Desk) clientOfRow(r roster.Row) *filed {
	if r.Client == "" {
		return nil
	}
	fold := book.NewSearch("")
	name := foldedName(fold, r.Client)
	for _, c := range d.clients {
		if c.Deleted == 0 && foldedName(fold, c.Name) == name {
			return c
		}
	}
	c := d.newClient(r.Client)
	c.Figure = r.Figure
	d.keepClient(c)
	return c
}
