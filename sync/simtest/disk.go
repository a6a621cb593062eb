package simtest

import (
	"context"
	"fmt"
	"maps"
	"slices"

	"chalkfold/sync/store"
)

// disk is what a device keeps. It can be copied, as a backup of a phone is.
type disk struct {
	rows map[diskKey]diskRow
	// before is called before each call, and may refuse it.
	before func(op string) error
	// after is called when a change is on the disk, and before anybody hears of it.
	after func(put []store.Record)
}

type diskKey struct{ kind, id string }

type diskRow struct {
	store.Record
	deleted bool
}

var _ store.Store = (*disk)(nil)

func newDisk() *disk {
	return &disk{rows: map[diskKey]diskRow{}, before: func(string) error { return nil }, after: func([]store.Record) {}}
}

// copyRows is what is on the disk now.
func (d *disk) copyRows() map[diskKey]diskRow { return maps.Clone(d.rows) }

func (d *disk) ready(ctx context.Context, op string) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	return d.before(op)
}

// Put implements store.Store.
func (d *disk) Put(ctx context.Context, records ...store.Record) error {
	if err := d.ready(ctx, "put"); err != nil {
		return err
	}
	next := map[diskKey]diskRow{}
	for _, r := range records {
		if err := r.Check(); err != nil {
			return err
		}
		k := diskKey{r.Kind, r.ID}
		old, ok := next[k]
		if !ok {
			old = d.rows[k]
		}
		if r.Rev <= old.Rev {
			return store.Stale(old.Record, r.Rev)
		}
		next[k] = diskRow{Record: r.Normal()}
	}
	maps.Copy(d.rows, next)
	d.after(records)
	return nil
}

// Get implements store.Store.
func (d *disk) Get(ctx context.Context, kind, id string) (store.Record, error) {
	if err := store.CheckKey(kind, id); err != nil {
		return store.Record{}, err
	}
	if err := d.ready(ctx, "get"); err != nil {
		return store.Record{}, err
	}
	return d.get(kind, id)
}

func (d *disk) get(kind, id string) (store.Record, error) {
	r, ok := d.rows[diskKey{kind, id}]
	if !ok || r.deleted {
		return store.Record{Rev: r.Rev}, fmt.Errorf("%s %q: %w", kind, id, store.ErrNotFound)
	}
	return r.Normal(), nil
}

// List implements store.Store.
func (d *disk) List(ctx context.Context, kind string) ([]store.Record, error) {
	if err := d.ready(ctx, "list"); err != nil {
		return nil, err
	}
	return d.list(func(k string) bool { return k == kind }), nil
}

// All implements store.Store.
func (d *disk) All(ctx context.Context) ([]store.Record, error) {
	if err := d.ready(ctx, "all"); err != nil {
		return nil, err
	}
	return d.list(func(string) bool { return true }), nil
}

func (d *disk) list(of func(kind string) bool) []store.Record {
	var list []store.Record
	for k, r := range d.rows {
		if of(k.kind) && !r.deleted {
			list = append(list, r.Normal())
		}
	}
	slices.SortFunc(list, store.Compare)
	return list
}

// Delete implements store.Store.
func (d *disk) Delete(ctx context.Context, kind, id string, rev uint32) error {
	if err := store.CheckKey(kind, id); err != nil {
		return err
	}
	if err := d.ready(ctx, "delete"); err != nil {
		return err
	}
	k := diskKey{kind, id}
	left, ok, err := store.Tombstone(d.rows[k].Record, d.rows[k].deleted, rev)
	if ok {
		d.rows[k] = diskRow{Record: left, deleted: true}
		d.after(nil)
	}
	return err
}
