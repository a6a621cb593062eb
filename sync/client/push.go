package client

import (
	"bytes"
	"context"
	"errors"
	"maps"
	"slices"

	"chalkfold/sync/merge"
	"chalkfold/sync/seal"
	"chalkfold/sync/store"
	"chalkfold/sync/wire"
)

// sorted are keys by kind and id, as texts: sorting something else by a function of
// its own weighs 3 kB in the page.
func sorted[V any](of map[key]V) []key {
	texts := make(map[string]key, len(of))
	for k := range of {
		texts[k.kind+"\x00"+k.id] = k
	}
	keys := make([]key, 0, len(of))
	for _, text := range slices.Sorted(maps.Keys(texts)) {
		keys = append(keys, texts[text])
	}
	return keys
}

// unsent lists the records of which this device knows more than the ledger may. Those
// that are dead come last: what was kept aside of them must be there before.
func (c *Client) unsent() []key {
	c.mu.Lock()
	defer c.mu.Unlock()
	var all, dead []key
	for _, k := range sorted(c.notes) {
		switch n := c.notes[k]; {
		case n.era == c.this.era || c.heavy[k] || c.later[c.keys.Slot(k.kind, k.id).String()]:
		case n.dead:
			dead = append(dead, k)
		default:
			all = append(all, k)
		}
	}
	return append(all, dead...)
}

// sending are docs on their way to the ledger.
type sending struct {
	push wire.Push
	from reached
	docs map[key][]byte // as they were sealed
}

// seal seals as many docs as fit into so many bytes, one at least.
func (c *Client) seal(ctx context.Context, todo []key, most int) (*sending, error) {
	s := &sending{push: wire.Push{Base: c.this.at}, from: c.this.reached(), docs: map[key][]byte{}}
	size := 0
	for _, k := range todo {
		n, err := c.note(ctx, k)
		if err != nil {
			return nil, err
		}
		if c.stale(n) {
			return &sending{}, c.relist(ctx)
		}
		text := n.doc.Encode()
		if len(text) > seal.MostText {
			c.mark(c.heavy, k, true)
			continue
		}
		e := wire.Entry{Slot: c.keys.Slot(k.kind, k.id)}
		c.Random(e.ID[:])
		e.Blob = c.keys.Seal(e.Slot, e.ID, seal.NewNonce(c.Random), text)
		if size += e.Size(); len(s.docs) > 0 && size > most || len(s.docs) == wire.MostEntries {
			break
		}
		s.push.Entries = append(s.push.Entries, e)
		s.docs[k] = text
	}
	return s, nil
}

// stale reports whether another window has put a note since it was remembered here.
func (c *Client) stale(n *note) bool {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.notes[n.key()].note != n.rev
}

// knowsAll reports whether, where some of what is to be sent is dead, every note that
// is kept is remembered here as it is: another window may have kept aside what must be
// sent before.
func (c *Client) knowsAll(ctx context.Context, todo []key) (bool, error) {
	if !c.isDead(todo[len(todo)-1]) { // the dead come last
		return true, nil
	}
	notes, err := c.Store.List(ctx, KindNote)
	if err != nil {
		return false, err
	}
	for _, r := range notes {
		if n, err := decodeNote(r); err == nil && c.stale(n) {
			return false, nil
		}
	}
	return true, nil
}

func (c *Client) isDead(k key) bool {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.notes[k].dead
}

// relist reads the notes anew: another window may have kept something aside, which must
// be sent before what it comes from is sent as dead.
func (c *Client) relist(ctx context.Context) error {
	if err := c.waver(); err != nil {
		return err
	}
	r, err := c.Store.Get(ctx, KindThis, thisID)
	if err != nil {
		return err
	}
	return c.load(ctx, r)
}

// note reads the note beside a record.
func (c *Client) note(ctx context.Context, k key) (*note, error) {
	r, err := c.Store.Get(ctx, KindNote, noteID(k))
	if err != nil {
		return nil, err
	}
	return decodeNote(r)
}

// sent notes that the ledger has what was sent, and that there is nothing else
// before its end: see the protocol.
func (c *Client) sent(ctx context.Context, s *sending, at wire.Position) error {
	return c.again(func() error {
		if c.this.reached() != s.from { // another window has gone on meanwhile
			return nil
		}
		t := *c.this
		t.at = at
		t.rev++
		puts := []store.Record{t.record(c.Now())}
		var notes []*note
		for _, k := range sorted(s.docs) {
			n, err := c.note(ctx, k)
			if err != nil {
				return err
			}
			if bytes.Equal(n.doc.Encode(), s.docs[k]) { // else it has changed since
				n.era = t.era
				puts = append(puts, n.record(c.Now()))
				notes = append(notes, n)
			}
		}
		err := c.Store.Put(ctx, puts...)
		if errors.Is(err, store.ErrStale) {
			return errors.Join(err, c.refresh(ctx))
		}
		if err != nil {
			return err
		}
		c.take(&t)
		for _, n := range notes {
			c.remember(n)
		}
		return nil
	})
}

// afresh has all be sent and fetched anew: the ledger is not the one that was known.
func (c *Client) afresh(ctx context.Context, made bool) error {
	return c.revise(ctx, func(t *this) {
		t.at, t.made = wire.Position{}, made
		t.era++
	})
}

// revise changes what is kept of the workshop.
func (c *Client) revise(ctx context.Context, change func(*this)) error {
	return c.again(func() error {
		t := *c.this
		change(&t)
		t.rev++
		err := c.Store.Put(ctx, t.record(c.Now()))
		if errors.Is(err, store.ErrStale) {
			return errors.Join(err, c.refresh(ctx))
		}
		if err == nil {
			c.take(&t)
		}
		return err
	})
}

// readLater tries again what was of a newer version, or met a record that could not
// be read.
func (c *Client) readLater(ctx context.Context) error {
	c.mu.Lock()
	slots := slices.Sorted(maps.Keys(c.later))
	c.mu.Unlock()
	for _, slot := range slots {
		r, err := c.Store.Get(ctx, KindLater, slot)
		if err != nil && !errors.Is(err, store.ErrNotFound) {
			return err
		}
		var e wire.Entry
		if err == nil && len(r.Data) > len(e.ID) {
			e.Blob = r.Data[copy(e.ID[:], r.Data):]
			if e.Slot, err = wire.ReadName(slot); err != nil {
				continue
			}
			switch _, err := c.open(e); {
			case errors.Is(err, seal.ErrNewer), errors.Is(err, merge.ErrNewer):
				continue
			case err == nil:
				if err := c.applyBeside(ctx, []wire.Entry{e}); err != nil {
					return err
				}
				if again, err := c.Store.Get(ctx, KindLater, slot); err == nil && again.Rev != r.Rev {
					continue // it was put back
				}
			}
		}
		if err := c.Store.Delete(ctx, KindLater, slot, r.Rev); err != nil && !errors.Is(err, store.ErrStale) {
			return err
		}
		c.mu.Lock()
		delete(c.later, slot)
		c.mu.Unlock()
	}
	return nil
}
