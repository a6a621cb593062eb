package client

import (
	"context"

	"chalkfold/sync/merge"
)

// Doc is the doc of a record, with what is in conflict in it; nil where there is none
// yet.
func (c *Client) Doc(ctx context.Context, kind, id string) (*merge.Doc, error) {
	b, err := c.look(ctx, key{kind, id})
	if err != nil || b.note.rev == 0 {
		return nil, err
	}
	return b.note.doc, nil
}

// Conflicts are the ids of the records of a kind that have a field with several values.
func (c *Client) Conflicts(kind string) []string {
	c.mu.Lock()
	defer c.mu.Unlock()
	var ids []string
	for _, k := range sorted(c.notes) {
		if k.kind == kind && c.notes[k].split {
			ids = append(ids, k.id)
		}
	}
	return ids
}

// Choose settles fields of which several values are kept: with these texts, which may be
// those that are shown already. What is changed of other fields goes with it.
func (c *Client) Choose(ctx context.Context, kind, id string, fields map[string][]byte) error {
	if c.this == nil {
		return ErrNotBegun
	}
	return c.again(func() error {
		b, err := c.look(ctx, key{kind, id})
		if err != nil {
			return err
		}
		if _, err := c.fold(&b); err != nil {
			return err
		}
		n := b.note
		n.doc = n.doc.Edit(c.dot(n.doc, c.Now()), fields)
		n.era = 0
		puts := append(c.showing(b, true), n.record(c.Now()))
		if err := c.Store.Put(ctx, puts...); err != nil {
			return err
		}
		c.remember(n)
		c.changed(kind, id)
		return nil
	})
}
