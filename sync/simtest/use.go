package simtest

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"time"

	"chalkfold/sync/client"
	"chalkfold/sync/merge"
	"chalkfold/sync/seal"
	"chalkfold/sync/store"
)

// use is something that the user does on the device.
func (d *device) use() {
	if d.gone {
		return
	}
	k := diskKey{oldKind, "j" + strconv.Itoa(d.w.IntN(4))}
	if d.newer && d.w.IntN(4) == 0 {
		k = diskKey{newKind, "c" + strconv.Itoa(d.w.IntN(2))}
	}
	r, err := d.disk.get(k.kind, k.id)
	switch n := d.w.IntN(40); {
	case err != nil && r.Rev > 0:
		if n == 0 {
			if doc := d.doc(k); doc == nil || !doc.Dead {
				d.w.model.undo(d.number, k) // it is back before anybody has noticed
			}
			d.edit(k, store.Record{Rev: r.Rev}, "restored")
		}
	case n < 30:
		field := fmt.Sprintf("f%d", d.w.IntN(3))
		if d.newer && d.w.IntN(5) == 0 {
			field = newField
		}
		d.edit(k, r, field)
	case n < 34:
		d.empty(k, r)
	case n < 36:
		d.clear(k, r)
	default:
		d.choose(k)
	}
}

// seen are the texts of a field that the device has, in the record and in the doc.
func (d *device) seen(k diskKey, r store.Record, field string) []string {
	all := map[string]bool{}
	if text, ok := lines(r.Data)[field]; ok {
		all[text] = true
	}
	if doc := d.doc(k); doc != nil {
		for _, v := range doc.Fields[field] {
			all[string(v.Text)] = true
		}
	}
	return slices.Sorted(maps.Keys(all))
}

// doc is the doc in the note beside a record.
func (d *device) doc(k diskKey) *merge.Doc {
	for _, r := range d.disk.list(func(kind string) bool { return kind == client.KindNote }) {
		if doc, err := client.NoteDoc(r); err == nil && !r.Damaged && doc.Kind == k.kind && doc.ID == k.id {
			return doc
		}
	}
	return nil
}

// edit changes a field of a record, as the page does: the whole record is put.
func (d *device) edit(k diskKey, r store.Record, field string) {
	text := fmt.Sprintf("%s-%d-%d", marker, d.number, len(d.w.model.edits))
	e := edit{text: text, device: d.number, key: k, field: field, replaces: d.seen(k, r, field)}
	fields := lines(r.Data)
	fields[field] = text
	if d.w.IntN(5) == 0 {
		fields["local"] = "of this phone"
	}
	d.put(k, r, fields)
	d.w.say("%v: %s %s %s: %s over %q", d, k.kind, k.id, field, text, e.replaces)
	d.w.count("edits")
	d.w.model.edits = append(d.w.model.edits, e)
}

// put puts a record, and tells the open windows as the page does.
func (d *device) put(k diskKey, was store.Record, fields map[string]string) {
	r := store.Record{Kind: k.kind, ID: k.id, Rev: was.Rev + 1, Data: written(fields), Updated: time.UnixMilli(d.now())}
	if err := d.disk.Put(context.Background(), r); err != nil {
		d.w.fail("%v: %v", d, err)
	}
	d.touch(k)
}

func (d *device) touch(k diskKey) {
	if c := d.windows[0].client; c != nil {
		c.Touch(k.kind, k.id)
	}
}

// empty empties a field.
func (d *device) empty(k diskKey, r store.Record) {
	fields := lines(r.Data)
	delete(fields, "local")
	if len(fields) < 2 {
		return
	}
	names := slices.Sorted(maps.Keys(fields))
	field := names[d.w.IntN(len(names))]
	e := edit{device: d.number, key: k, field: field, replaces: d.seen(k, r, field)}
	delete(fields, field)
	d.put(k, r, fields)
	d.w.say("%v: %s %s %s emptied of %q", d, k.kind, k.id, field, e.replaces)
	d.w.model.edits = append(d.w.model.edits, e)
}

// clear clears a record away for good.
func (d *device) clear(k diskKey, r store.Record) {
	if r.Rev == 0 {
		return
	}
	doc := d.doc(k)
	e := edit{device: d.number, key: k, kills: doc != nil} // of one that was never noted nobody hears
	fields := lines(r.Data)
	if doc != nil {
		for name := range doc.Fields {
			fields[name] = ""
		}
	}
	for name := range fields {
		e.replaces = append(e.replaces, d.seen(k, r, name)...)
	}
	slices.Sort(e.replaces)
	if err := d.disk.Delete(context.Background(), k.kind, k.id, r.Rev); err != nil {
		d.w.fail("%v: %v", d, err)
	}
	d.touch(k)
	d.w.say("%v: %s %s cleared away with %q", d, k.kind, k.id, e.replaces)
	d.w.count("cleared away")
	d.w.model.edits = append(d.w.model.edits, e)
}

// choose settles a conflict.
func (d *device) choose(k diskKey) {
	c, doc := d.idle(), d.doc(k)
	if c == nil || doc == nil {
		return
	}
	for _, field := range slices.Sorted(maps.Keys(doc.Fields)) {
		values := doc.Fields[field]
		if len(values) < 2 {
			continue
		}
		r, err := d.disk.get(k.kind, k.id)
		if err != nil {
			return
		}
		text := fmt.Sprintf("%s-%d-%d", marker, d.number, len(d.w.model.edits))
		e := edit{text: text, device: d.number, key: k, field: field, replaces: d.seen(k, r, field)}
		if err := c.Choose(context.Background(), k.kind, k.id, map[string][]byte{field: []byte(text)}); err != nil {
			d.w.fail("%v: choose: %v", d, err)
		}
		d.w.say("%v: %s %s %s: chosen of %q", d, k.kind, k.id, field, e.replaces)
		d.w.count("conflicts settled")
		d.w.model.edits = append(d.w.model.edits, e)
		return
	}
}

// workshopEvent is something that the members of the workshop do together.
func (w *world) workshopEvent() {
	d := w.devices[w.IntN(len(w.devices))]
	c := d.idle()
	if c == nil {
		return
	}
	if w.IntN(3) > 0 {
		w.carryFile(d, c)
		return
	}
	off := w.devices[w.IntN(len(w.devices))]
	left := 0
	for _, o := range w.devices {
		if !o.gone {
			left++
		}
	}
	if off == d || off.gone || left < 3 || c.Account().Leaving {
		return
	}
	key := seal.NewKey(w.random)
	if err := c.Move(context.Background(), key); err != nil {
		w.fail("%v: move: %v", d, err)
	}
	w.say("%v takes %v off", d, off)
	w.count("taken off")
	off.crash("it was taken off")
	off.gone = true
	w.model.key = key
	w.model.lose(w, off.number)
}

// carryFile takes the whole copy of one device to another by a file.
func (w *world) carryFile(from *device, c *client.Client) {
	to := w.devices[w.IntN(len(w.devices))]
	other := to.idle()
	if to == from || other == nil {
		return
	}
	file, err := c.Bundle(context.Background())
	if err != nil {
		w.fail("%v: bundle: %v", from, err)
	}
	if _, err := other.Take(context.Background(), file); err != nil {
		w.fail("%v: a file of %v: %v", to, from, err)
	}
	w.say("%v: took the file of %v", to, from)
	w.count("files carried")
}
