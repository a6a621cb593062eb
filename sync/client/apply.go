package client

import (
	"context"
	"encoding/binary"
	"errors"
	"slices"

	"chalkfold/sync/merge"
	"chalkfold/sync/seal"
	"chalkfold/sync/store"
	"chalkfold/sync/wire"
)

// apply puts what a page holds into the store, and that it is there up to the
// page's end: all of it or nothing, unless a slot comes twice, which an honest ledger
// leaves out.
func (c *Client) apply(ctx context.Context, p wire.Page, from reached) error {
	slots, first := map[wire.Name]bool{}, 0
	for i, e := range p.Entries {
		if slots[e.Slot] {
			to := p.Entries[i-1].At()
			if err := c.applyPart(ctx, p.Entries[first:i], from, to); err != nil {
				return err
			}
			clear(slots)
			first, from.at = i, to
		}
		slots[e.Slot] = true
	}
	return c.applyPart(ctx, p.Entries[first:], from, p.To)
}

// reached is how far a device has come with a ledger, and with which.
type reached struct {
	era uint32
	at  wire.Position
}

func (t *this) reached() reached { return reached{t.era, t.at} }

// applyPart puts entries of the ledger, no two of one slot, and that all is there up
// to to. They follow what was reached: where another window has gone on meanwhile, or
// found that the ledger is another, they are left alone.
func (c *Client) applyPart(ctx context.Context, entries []wire.Entry, from reached, to wire.Position) error {
	return c.again(func() error {
		if c.this.reached() != from {
			return nil
		}
		a := applying{Client: c, this: *c.this, ledger: true}
		a.this.at = to
		return c.applyAll(ctx, &a, entries)
	})
}

// applyBeside puts entries that come from elsewhere, no two of one slot.
func (c *Client) applyBeside(ctx context.Context, entries []wire.Entry) error {
	return c.again(func() error { return c.applyAll(ctx, &applying{Client: c, this: *c.this}, entries) })
}

func (c *Client) applyAll(ctx context.Context, a *applying, entries []wire.Entry) error {
	for _, e := range entries {
		if err := a.entry(ctx, e); err != nil {
			return err
		}
	}
	err := a.put(ctx)
	if errors.Is(err, store.ErrStale) {
		return errors.Join(err, c.refresh(ctx))
	}
	return err
}

// refresh reads anew what another window may have changed of the workshop.
func (c *Client) refresh(ctx context.Context) error {
	r, err := c.Store.Get(ctx, KindThis, thisID)
	if err != nil {
		return err
	}
	t, err := decodeThis(r)
	if err != nil {
		return err
	}
	if t.key != c.this.key {
		return c.load(ctx, r)
	}
	c.take(t)
	return nil
}

// applying is a page on its way into the store.
type applying struct {
	*Client
	ledger  bool // it comes from there
	this    this // as it will be
	puts    []store.Record
	asides  []*merge.Doc
	notes   []*note
	dead    []beside
	later   []store.Record
	strange int // entries that do not open
}

// entry takes in one entry.
func (a *applying) entry(ctx context.Context, e wire.Entry) error {
	theirs, err := a.open(e)
	if errors.Is(err, seal.ErrNewer) || errors.Is(err, merge.ErrNewer) {
		return a.keep(ctx, e)
	}
	if err != nil {
		a.strange++
		return nil
	}
	b, err := a.look(ctx, key{theirs.Kind, theirs.ID})
	if err != nil {
		return err
	}
	switch folded, err := a.fold(&b); {
	case err != nil:
		return a.keep(ctx, e) // what is here must be read before it can be joined to
	case folded: // noted first: what is not on the disk must not be sent or kept aside
		if err := a.Store.Put(ctx, b.note.record(a.Now())); err != nil {
			return err
		}
		a.remember(b.note)
	}
	a.join(b, theirs)
	return nil
}

// open opens an entry.
func (c *Client) open(e wire.Entry) (*merge.Doc, error) {
	text, err := c.keys.Open(e.Slot, e.ID, e.Blob)
	if err != nil {
		return nil, err
	}
	d, err := merge.Decode(text)
	if err != nil {
		return nil, err
	}
	if c.keys.Slot(d.Kind, d.ID) != e.Slot || store.CheckKey(d.Kind, d.ID) != nil {
		return nil, seal.ErrOpen
	}
	return d, nil
}

// keep keeps an entry until a newer version of the program reads it.
func (a *applying) keep(ctx context.Context, e wire.Entry) error {
	was, err := a.Store.Get(ctx, KindLater, e.Slot.String())
	if err != nil && !errors.Is(err, store.ErrNotFound) {
		return err
	}
	a.later = append(a.later, laterRecord(e, was.Rev+1, a.Now()))
	return nil
}

// join joins theirs to what is here.
func (a *applying) join(b beside, theirs *merge.Doc) {
	n := b.note
	mine := n.doc
	n.doc = merge.Join(mine, theirs)
	switch {
	case a.ledger && merge.Same(n.doc, theirs):
		n.era = a.this.era
	case a.ledger || !merge.Same(n.doc, mine):
		n.era = 0
	}
	a.notes = append(a.notes, n)
	if n.doc.Dead {
		a.aside(mine, theirs)
		switch {
		case b.here && b.record.Rev == n.of:
			a.dead = append(a.dead, b)
		case b.here: // it was put again: see settleDead
			a.Touch(n.doc.Kind, n.doc.ID)
		}
		return
	}
	if a.Shape.Carries(n.doc.Kind) {
		a.puts = append(a.puts, a.showing(b, !merge.Same(n.doc, mine))...)
	}
}

// aside keeps, under another id, a doc that one side cleared away without having seen
// all of what the other changed. Whoever does so makes the same doc of it.
func (a *applying) aside(mine, theirs *merge.Doc) {
	live, dead := mine, theirs
	if mine.Dead {
		live, dead = theirs, mine
	}
	if live.Dead {
		return
	}
	var newest merge.Value
	for _, values := range live.Fields {
		for _, v := range values {
			if !dead.Knows(v.Dot) && v.Stamp > newest.Stamp {
				newest = v
			}
		}
	}
	if newest.Stamp == 0 {
		return
	}
	kept := *live
	kept.ID = asideID(live.ID, uint64(newest.Stamp), binary.BigEndian.Uint16(newest.Device[:]))
	a.asides = append(a.asides, &kept)
}

// putAside puts a doc that is kept aside, with its record where this version can show
// it.
func (a *applying) putAside(ctx context.Context, kept *merge.Doc) error {
	b, err := a.look(ctx, key{kept.Kind, kept.ID})
	if err != nil {
		return err
	}
	n := b.note
	if b.record.Rev > 0 || n.rev > 0 { // it was kept before: that and this are joined
		if merge.Contains(n.doc, kept) {
			a.recall(n) // another window may have kept it, and it must be sent before what is dead
			return nil
		}
		also := applying{Client: a.Client, this: *a.Client.this}
		if folded, err := also.fold(&b); err != nil {
			return nil //nolint:nilerr // it is there, and cannot be read here
		} else if folded {
			if err := a.Store.Put(ctx, b.note.record(a.Now())); err != nil {
				return err
			}
			a.remember(b.note)
		}
		also.join(b, kept)
		return also.put(ctx)
	}
	n.doc = kept
	var puts []store.Record
	if r, ok := a.show(b); ok && a.Shape.Carries(kept.Kind) {
		n.of = 0 // so that what Aside adds is a change
		r.Data = a.Shape.Aside(kept.Kind, r.Data, a.Now())
		puts = append(puts, r)
	}
	if err := a.Store.Put(ctx, append(puts, n.record(a.Now()))...); err != nil {
		return err
	}
	a.remember(n)
	a.Touch(kept.Kind, kept.ID)
	a.changed(kept.Kind, kept.ID)
	return nil
}

// put puts all of it. What is kept aside goes first: it is done once, however often
// the rest is tried.
func (a *applying) put(ctx context.Context) error {
	c := a.Client
	for _, kept := range a.asides {
		if err := a.putAside(ctx, kept); err != nil {
			return err
		}
	}
	a.this.rev++
	puts := append(slices.Concat(a.puts, a.later), a.this.record(c.Now()))
	for _, n := range a.notes {
		puts = append(puts, n.record(c.Now()))
	}
	if err := c.Store.Put(ctx, puts...); err != nil {
		return err
	}
	c.take(&a.this)
	for _, n := range a.notes {
		c.remember(n)
	}
	c.mu.Lock()
	c.strange += a.strange
	for _, r := range a.later {
		c.later[r.ID] = true
	}
	c.mu.Unlock()
	for _, r := range a.puts {
		c.changed(r.Kind, r.ID)
	}
	return a.bury(ctx)
}

// bury removes the records whose docs are dead. One that is not removed now is when
// all are looked at next: see settleDead.
func (a *applying) bury(ctx context.Context) error {
	for _, b := range a.dead {
		a.Touch(b.record.Kind, b.record.ID)
		err := a.Store.Delete(ctx, b.record.Kind, b.record.ID, b.record.Rev)
		if err != nil && !errors.Is(err, store.ErrStale) {
			return err
		}
		a.changed(b.record.Kind, b.record.ID)
	}
	return nil
}
