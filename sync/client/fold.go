package client

import (
	"bytes"
	"context"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"time"

	"chalkfold/sync/merge"
	"chalkfold/sync/store"
)

// beside is a record with the note beside it, as they stand in the store.
type beside struct {
	record store.Record // its Rev is the tombstone's where it is gone
	here   bool
	note   *note
}

// look reads a record and its note, the note first: where another window is between,
// the note that is read is older than the record, and putting the next one is stale.
func (c *Client) look(ctx context.Context, k key) (beside, error) {
	var b beside
	r, err := c.Store.Get(ctx, KindNote, noteID(k))
	if err != nil && !errors.Is(err, store.ErrNotFound) {
		return b, err
	}
	if b.note, err = decodeNote(r); err != nil {
		if r.Rev > 0 { // it is damaged: what it said must not be said again by the same
			c.Random(c.device[:])
		}
		b.note = &note{rev: r.Rev, doc: merge.New(k.kind, k.id)}
	}
	r, err = c.Store.Get(ctx, k.kind, k.id)
	switch {
	case err == nil:
		b.here = true
	case !errors.Is(err, store.ErrNotFound):
		return b, err
	}
	b.record = r
	b.record.Kind, b.record.ID = k.kind, k.id
	return b, nil
}

// fold takes into the doc what was done to the record since. It reports whether
// anything was.
func (c *Client) fold(b *beside) (folded bool, err error) {
	n := b.note
	switch {
	case b.record.Rev == n.of || b.record.Damaged:
		return false, nil
	case n.doc.Dead:
		return false, nil // see settleDead
	case !b.here && b.record.Rev == 0:
		n.see(0, nil) // it is gone without a trace: it is put again
		return true, nil
	case !b.here:
		n.doc, n.of, n.era = n.doc.Kill(c.dot(n.doc, c.Now())), b.record.Rev, 0
		return true, nil
	}
	now, err := c.Shape.Split(b.record.Kind, b.record.Data)
	if err != nil {
		return false, err
	}
	if next := n.doc.Edit(c.dot(n.doc, b.record.Updated.UnixMilli()), n.changes(now)); next != n.doc {
		n.doc, n.era = next, 0
	}
	n.see(b.record.Rev, now)
	return true, nil
}

// dot is that of a change that is made here.
func (c *Client) dot(d *merge.Doc, ms int64) merge.Dot {
	return d.Next(c.device, ms)
}

// changes are the fields of a record that were changed since the note was made.
func (n *note) changes(now map[string][]byte) map[string][]byte {
	changes := map[string][]byte{}
	for name, text := range now {
		sum, was := n.base[name]
		if was && sum == sumOf(text) {
			continue
		}
		if shown, ok := n.doc.Shown(name); !ok || !bytes.Equal(shown, text) {
			changes[name] = append([]byte{}, text...)
		}
	}
	for name := range n.base {
		if _, ok := now[name]; !ok && len(n.doc.Fields[name]) > 0 {
			changes[name] = nil
		}
	}
	return changes
}

// tries is how often something is done again when another window was first.
const tries = 8

// gather folds in every record that may have been changed.
func (c *Client) gather(ctx context.Context) error {
	todo, err := c.toGather(ctx)
	if err != nil {
		return err
	}
	for _, k := range todo {
		c.mark(c.touched, k, false) // before, for it may be touched again meanwhile
		if err := c.again(func() error { return c.gatherOne(ctx, k) }); err != nil {
			c.mark(c.touched, k, true)
			return err
		}
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	c.looked = true
	return nil
}

// again does something until no other window was first.
func (c *Client) again(do func() error) (err error) {
	for range tries {
		if err = do(); !errors.Is(err, store.ErrStale) {
			return err
		}
	}
	return err
}

// toGather lists the records to look at. All are read when the program has begun,
// since another window, or this one before it was closed, may have changed any.
func (c *Client) toGather(ctx context.Context) ([]key, error) {
	c.mu.Lock()
	all := c.all
	c.mu.Unlock()
	var seen map[key]bool
	if all {
		records, err := c.Store.All(ctx)
		if err != nil {
			return nil, err
		}
		c.mu.Lock()
		defer c.mu.Unlock()
		c.all = false
		seen = map[key]bool{}
		for _, r := range records {
			if k := (key{r.Kind, r.ID}); c.Shape.Carries(r.Kind) && !r.Damaged {
				seen[k] = true
				if n, ok := c.notes[k]; !ok || n.rev != r.Rev || n.dead || n.partly {
					c.touched[k] = true
				}
			}
		}
		for k, n := range c.notes {
			if !seen[k] && !n.dead && c.Shape.Carries(k.kind) {
				c.touched[k] = true
			}
		}
	} else {
		c.mu.Lock()
		defer c.mu.Unlock()
	}
	return sorted(c.touched), nil
}

// gatherOne folds in one record.
func (c *Client) gatherOne(ctx context.Context, k key) error {
	b, err := c.look(ctx, k)
	if err != nil {
		return err
	}
	if b.note.doc.Dead {
		return c.settleDead(ctx, b)
	}
	folded, err := c.fold(&b)
	c.mark(c.unread, k, err != nil)
	if err != nil {
		return nil //nolint:nilerr // one that cannot be read here is left alone
	}
	var puts []store.Record
	if !b.note.doc.Dead && (!b.here || b.record.Damaged || b.note.partly()) { // gone without a trace, damaged, or this version may show more of it
		puts = c.showing(b, false)
	}
	if !folded && len(puts) == 0 {
		return nil
	}
	if err := c.Store.Put(ctx, append(puts, b.note.record(c.Now()))...); err != nil {
		return err
	}
	for _, r := range puts {
		c.changed(r.Kind, r.ID)
	}
	c.remember(b.note)
	return nil
}

// settleDead removes a record whose doc is dead. One that was put since, from a
// backup for instance, goes on under another id, since under its own it cannot.
func (c *Client) settleDead(ctx context.Context, b beside) error {
	if !b.here {
		return nil
	}
	if b.record.Rev > b.note.of {
		other := b.record
		other.ID, other.Rev = asideID(b.record.ID, sumOf(b.record.Data), uint16(b.record.Rev)), 1
		err := c.Store.Put(ctx, other)
		if err != nil && !errors.Is(err, store.ErrStale) { // stale: it was done before
			return err
		}
		c.Touch(other.Kind, other.ID)
		c.changed(other.Kind, other.ID)
	}
	if err := c.Store.Delete(ctx, b.record.Kind, b.record.ID, b.record.Rev); err != nil {
		return err
	}
	c.changed(b.record.Kind, b.record.ID)
	return nil
}

// asideID is the id under which a state of a record is kept aside: the same for the
// same state, so that it is kept aside once.
func asideID(id string, of uint64, by uint16) string {
	const most = 100
	if len(id) > most {
		id = id[len(id)-most:]
	}
	told := binary.BigEndian.AppendUint16(binary.BigEndian.AppendUint64(nil, of), by)
	return id + "-" + hex.EncodeToString(told)
}

// showing is what show shows, if anything. A record that shows nothing else of a doc
// that has changed is put again as it is: a user who changes it meanwhile is told so,
// and does not replace what she has not seen.
func (c *Client) showing(b beside, changed bool) []store.Record {
	r, ok := c.show(b)
	switch {
	case ok:
		return []store.Record{r}
	case changed && b.here && !b.record.Damaged:
		r = b.record
		r.Rev++
		b.note.of = r.Rev
		return []store.Record{r}
	}
	return nil
}

// show is the next revision of a record, as its doc is shown, and notes it. It is not
// ok where that is what is here already, or this version cannot show it.
func (c *Client) show(b beside) (r store.Record, ok bool) {
	n := b.note
	var here []byte
	if b.here && !b.record.Damaged {
		here = b.record.Data
	}
	data, err := c.Shape.Join(n.doc, here)
	if err != nil || here != nil && bytes.Equal(data, here) {
		return r, false
	}
	fields, err := c.Shape.Split(n.doc.Kind, data)
	if err != nil {
		return r, false
	}
	r = store.Record{
		Kind: n.doc.Kind, ID: n.doc.ID, Rev: b.record.Rev + 1, Data: data,
		Updated: time.UnixMilli(n.doc.Last().Ms()),
	}
	n.see(r.Rev, fields)
	return r, true
}

// mark notes whether something is so of a record.
func (c *Client) mark(of map[key]bool, k key, is bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	delete(of, k)
	if is {
		of[k] = true
	}
}

// remember remembers a note whose next revision was put.
func (c *Client) remember(n *note) {
	n.rev++
	c.recall(n)
}

// recall remembers a note as it is kept.
func (c *Client) recall(n *note) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.notes[n.key()] = n.known()
	delete(c.heavy, n.key())
}

func (c *Client) changed(kind, id string) {
	if c.Changed != nil {
		c.Changed(kind, id)
	}
}
