package tables

import (
	"context"
	"strconv"
	"time"

	"chalkfold/sync/ledger"
	"chalkfold/sync/wire"
)

// PutChunk implements ledger.Ledger.
func (l Ledger) PutChunk(ctx context.Context, w wire.Workshop, c wire.Chunk) error {
	rows, err := l.db.Write(ctx, putChunk, w[:], c.Name[:], c.Blob, l.quota.Chunks)
	if err != nil || len(rows) > 0 {
		return err
	}
	missing, err := l.Missing(ctx, w, []wire.Name{c.Name})
	if err == nil && len(missing) > 0 {
		err = ledger.ErrFull
	}
	return err
}

// Chunk implements ledger.Ledger.
func (l Ledger) Chunk(ctx context.Context, w wire.Workshop, name wire.Name) (wire.Chunk, error) {
	s, err := l.open(ctx, w)
	if err != nil {
		return wire.Chunk{}, err
	}
	rows, err := l.db.Read(ctx, readChunk, s.id, name[:])
	if err != nil {
		return wire.Chunk{}, err
	}
	if len(rows) == 0 {
		return wire.Chunk{}, ledger.ErrNoChunk
	}
	r := row{values: rows[0]}
	c := wire.Chunk{Name: name, Blob: r.blob()}
	return c, r.end()
}

// Missing implements ledger.Ledger.
func (l Ledger) Missing(ctx context.Context, w wire.Workshop, names []wire.Name) ([]wire.Name, error) {
	s, err := l.open(ctx, w)
	if err != nil {
		return nil, err
	}
	bytes, places := packNames(names)
	rows, err := l.db.Read(ctx, missingChunks, s.id, bytes, places)
	if err != nil {
		return nil, err
	}
	var missing []wire.Name
	for _, values := range rows {
		r := row{values: values}
		i := r.number()
		if err := r.end(); err != nil {
			return nil, err
		}
		missing = append(missing, names[i])
	}
	return missing, nil
}

// DropChunks implements ledger.Ledger.
func (l Ledger) DropChunks(ctx context.Context, w wire.Workshop, names []wire.Name) error {
	s, err := l.open(ctx, w)
	if err != nil {
		return err
	}
	bytes, places := packNames(names)
	_, err = l.db.Write(ctx, dropChunks, s.id, bytes, places)
	return err
}

// packNames is for names what pack is for entries. The blob is never empty, since
// some databases take an empty one for none.
func packNames(names []wire.Name) (bytes []byte, places string) {
	bytes = make([]byte, 0, len(names)*len(wire.Name{})+1)
	list := []byte{'['}
	for i, n := range names {
		if i > 0 {
			list = append(list, ',')
		}
		list = strconv.AppendInt(list, int64(len(bytes)+1), 10)
		bytes = append(bytes, n[:]...)
	}
	return append(bytes, 0), string(append(list, ']'))
}

// Leave implements ledger.Boxes.
func (l Ledger) Leave(ctx context.Context, p wire.Parcel, until time.Time) error {
	_, err := l.db.Write(ctx, leaveParcel, p.Name[:], p.Blob, until.UnixMilli())
	return err
}

// Take implements ledger.Boxes.
func (l Ledger) Take(ctx context.Context, name wire.Name, now time.Time) (wire.Parcel, error) {
	rows, err := l.db.Write(ctx, takeParcel, name[:], now.UnixMilli())
	if err != nil {
		return wire.Parcel{}, err
	}
	for _, values := range rows {
		r := row{values: values}
		p := wire.Parcel{Name: r.name(), Blob: r.blob()}
		until := r.number()
		if err := r.end(); err != nil {
			return wire.Parcel{}, err
		}
		if p.Name == name && until > now.UnixMilli() {
			return p, nil
		}
	}
	return wire.Parcel{}, ledger.ErrNoParcel
}
