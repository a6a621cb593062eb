package ui

import (
	"bytes"
	"context"
	"slices"
	"strings"
	"time"

	"chalkfold/draft/body"
	"chalkfold/draft/plain"
	"chalkfold/draft/say"
	"chalkfold/sync/client"
	"chalkfold/sync/merge"
	"chalkfold/ui/day"
	"chalkfold/ui/second"
	"chalkfold/ui/tape"
)

// conflict is a measurement that was entered differently on two phones.
type conflict struct {
	id     string // of the job
	of     body.ID
	values []merge.Value // that which counts now first
}

func (c conflict) field() string { return measurementsField + escaped(string(c.of)) }

func (c conflict) same(o conflict) bool { return c.id == o.id && c.of == o.of }

// conflictsOf reads what was measured differently on two phones.
func conflictsOf(ctx context.Context, c *client.Client) ([]conflict, error) {
	if !c.Begun() {
		return nil, nil
	}
	var out []conflict
	for _, id := range c.Conflicts(recordKind) {
		doc, err := c.Doc(ctx, recordKind, id)
		if err != nil {
			return nil, err
		}
		if doc == nil {
			continue
		}
		for _, field := range inConflict(doc) {
			one := conflict{id: id, of: body.ID(unescaped(strings.TrimPrefix(field, measurementsField)))}
			for _, v := range doc.Fields[field] {
				if !slices.ContainsFunc(one.values, func(o merge.Value) bool { return bytes.Equal(o.Text, v.Text) }) {
					one.values = append(one.values, v)
				}
			}
			out = append(out, one)
		}
	}
	return out, nil
}

// differing are the conflicts that nobody has settled yet.
func (d *Desk) differing() []conflict {
	return slices.DeleteFunc(slices.Clone(d.copying.conflicts), func(c conflict) bool {
		return slices.ContainsFunc(d.copying.settled, c.same)
	})
}

// takingOf reads a measurement as the job file has it, and the figure as it is written
// there.
func takingOf(text []byte) (t body.Taking, figure string) {
	r := plain.Read(text)
	if r.Kind() != plain.Object {
		figure = r.Text()
	} else {
		for key := range r.Object() {
			switch key {
			case "value":
				figure = r.Text()
			case "of":
				if r.Text() == body.OfGarment.String() {
					t.Of = body.OfGarment
				}
			}
		}
	}
	if r.End() != nil || t.Value.UnmarshalText([]byte(figure)) != nil {
		figure = string(text) // of a newer version, perhaps
	}
	return t, figure
}

// dayOf is the day of a change, where the maker is.
func dayOf(v merge.Value) day.Day { return day.Of(time.UnixMilli(v.Stamp.Ms()).Local()) }

// asideKey is the key under which a taking is set aside: what was measured, the day, and
// the figure.
func asideKey(id body.ID, on day.Day, figure string) string {
	return string(id) + " " + string(on) + " " + figure
}

// SetAside are the takings of a measurement that were not chosen where two phones had
// measured differently, the newest first.
func (j *Job) SetAside(id body.ID) []Earlier {
	var out []Earlier
	for key, of := range j.Aside {
		rest, ok := strings.CutPrefix(key, string(id)+" ")
		on, figure, _ := strings.Cut(rest, " ")
		e := Earlier{Day: day.Day(on)}
		if !ok || e.Taking.Value.UnmarshalText([]byte(figure)) != nil {
			continue
		}
		if of == body.OfGarment.String() {
			e.Taking.Of = body.OfGarment
		}
		out = append(out, e)
	}
	slices.SortFunc(out, func(a, b Earlier) int {
		return strings.Compare(asideKey("", b.Day, b.Taking.Value.String()), asideKey("", a.Day, a.Taking.Value.String()))
	})
	return out
}

// settleDiffering settles what two phones measured differently: one counts, and the others are
// set aside.
func (d *Desk) settleDiffering(one conflict, n int) {
	if n >= len(one.values) {
		return
	}
	quoted := func(text string) []byte {
		w := &plain.Writer{}
		w.Text(text)
		data, _ := w.Done() // a text can always be written
		return data
	}
	chosen := one.values[n]
	fields := map[string][]byte{one.field(): chosen.Text, takenField + escaped(string(one.of)): quoted(string(dayOf(chosen)))}
	for i, v := range one.values {
		if t, figure := takingOf(v.Text); i != n {
			fields[asideField+escaped(asideKey(one.of, dayOf(v), figure))] = quoted(t.Of.String())
		}
	}
	c := &d.copying
	c.settled = append(c.settled, one) // it is shown so at once
	d.copyAsk(func() error { return c.client.Choose(d.ctx, recordKind, one.id, fields) }, func(err error) {
		c.settled = slices.DeleteFunc(c.settled, one.same)
		if err != nil {
			d.view.copy.told = d.sayCopyFault(err)
			return
		}
		c.conflicts = slices.DeleteFunc(c.conflicts, one.same)
		c.table.Edited(d.now())
	})
}

// sayConflicts puts what is in conflict in words.
func (d *Desk) sayConflicts() []second.Conflict {
	var out []second.Conflict
	for _, one := range d.differing() {
		c := second.Conflict{Name: nameOfMeasurement(one.of, d.Words)}
		if s := find(d.records, one.id); s != nil {
			c.Job = s.Ticket
		}
		for _, v := range d.sayDiffering(one) {
			c.Values = append(c.Values, second.Value{Figure: v.Figure, Day: v.Day})
		}
		out = append(out, c)
	}
	return out
}

// sayDiffering puts the figures of one in words, with their days.
func (d *Desk) sayDiffering(one conflict) []tape.Differing {
	var out []tape.Differing
	for _, v := range one.values {
		t, figure := takingOf(v.Text)
		if t.Value.Set() {
			figure = t.Value.In(d.Words)
		}
		out = append(out, tape.Differing{Figure: figure, Garment: t.Of == body.OfGarment, Day: dayOf(v).Text(d.Words)})
	}
	return out
}

// sayOnTape adds to the sheet what two phones measured differently, and what was set
// aside.
func (d *Desk) sayOnTape(s tape.Sheet) tape.Sheet {
	s.Rows = slices.Clone(s.Rows)
	for i := range s.Rows {
		row := &s.Rows[i]
		for _, one := range d.differing() {
			if d.keeper != nil && one.id == d.keeper.id && one.of == row.ID {
				row.Differ = d.sayDiffering(one)
			}
		}
		for _, e := range d.job.SetAside(row.ID) {
			row.Aside = append(row.Aside, tape.Differing{Figure: e.Taking.Value.In(d.Words), Garment: e.Taking.Of == body.OfGarment, Day: e.Day.Text(d.Words)})
		}
	}
	return s
}

// settleMeasured settles a measurement of the open job.
func (d *Desk) settleMeasured(id body.ID, n int) {
	for _, one := range d.differing() {
		if d.keeper != nil && one.id == d.keeper.id && one.of == id {
			d.settleDiffering(one, n)
		}
	}
}

// nameOfMeasurement is the name of a measurement.
func nameOfMeasurement(id body.ID, w *say.Words) string {
	if def, ok := body.Find(id); ok {
		return w.T(def.Name)
	}
	return string(id)
}
