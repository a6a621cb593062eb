package mem

import (
	"bytes"
	"context"
	"time"

	"chalkfold/sync/ledger"
	"chalkfold/sync/wire"
)

func (s *workshop) chunkBytes() int {
	size := 0
	for _, blob := range s.chunks {
		size += len(blob)
	}
	return size
}

// PutChunk implements ledger.Ledger.
func (l *Ledger) PutChunk(ctx context.Context, w wire.Workshop, c wire.Chunk) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	s, err := l.open(ctx, w)
	if err != nil {
		return err
	}
	if s.chunks[c.Name] != nil {
		return nil
	}
	if int64(s.chunkBytes()+len(c.Blob)) > l.quota.Chunks {
		return ledger.ErrFull
	}
	s.chunks[c.Name] = bytes.Clone(c.Blob)
	return nil
}

// Chunk implements ledger.Ledger.
func (l *Ledger) Chunk(ctx context.Context, w wire.Workshop, name wire.Name) (wire.Chunk, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	s, err := l.open(ctx, w)
	if err != nil {
		return wire.Chunk{}, err
	}
	blob, ok := s.chunks[name]
	if !ok {
		return wire.Chunk{}, ledger.ErrNoChunk
	}
	return wire.Chunk{Name: name, Blob: bytes.Clone(blob)}, nil
}

// Missing implements ledger.Ledger.
func (l *Ledger) Missing(ctx context.Context, w wire.Workshop, names []wire.Name) ([]wire.Name, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	s, err := l.open(ctx, w)
	if err != nil {
		return nil, err
	}
	var missing []wire.Name
	for _, name := range names {
		if s.chunks[name] == nil {
			missing = append(missing, name)
		}
	}
	return missing, nil
}

// DropChunks implements ledger.Ledger.
func (l *Ledger) DropChunks(ctx context.Context, w wire.Workshop, names []wire.Name) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	s, err := l.open(ctx, w)
	if err != nil {
		return err
	}
	for _, name := range names {
		delete(s.chunks, name)
	}
	return nil
}

// Leave implements ledger.Boxes.
func (l *Ledger) Leave(ctx context.Context, p wire.Parcel, until time.Time) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	if err := ctx.Err(); err != nil {
		return err
	}
	l.boxes[p.Name] = box{bytes.Clone(p.Blob), until}
	return nil
}

// Take implements ledger.Boxes. It throws away what else was left too long.
func (l *Ledger) Take(ctx context.Context, name wire.Name, now time.Time) (wire.Parcel, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if err := ctx.Err(); err != nil {
		return wire.Parcel{}, err
	}
	for n, b := range l.boxes {
		if !now.Before(b.until) {
			delete(l.boxes, n)
		}
	}
	b, ok := l.boxes[name]
	if !ok {
		return wire.Parcel{}, ledger.ErrNoParcel
	}
	delete(l.boxes, name)
	return wire.Parcel{Name: name, Blob: b.blob}, nil
}
