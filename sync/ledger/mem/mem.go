// Package mem keeps ledgers in memory: for tests, and for a server whose copy may
// be lost when it stops.
package mem

import (
	"bytes"
	"context"
	"maps"
	"slices"
	"sync"
	"time"

	"chalkfold/sync/ledger"
	"chalkfold/sync/wire"
)

// Ledger keeps ledgers and boxes in memory. The zero value is empty and allows
// nothing; see New.
type Ledger struct {
	mu        sync.Mutex
	quota     ledger.Quota
	workshops map[wire.Workshop]*workshop
	boxes     map[wire.Name]box
}

var (
	_ ledger.Ledger = (*Ledger)(nil)
	_ ledger.Boxes  = (*Ledger)(nil)
)

// New returns an empty ledger that allows each workshop so much.
func New(q ledger.Quota) *Ledger {
	return &Ledger{quota: q, workshops: map[wire.Workshop]*workshop{}, boxes: map[wire.Name]box{}}
}

// Clone is a ledger with the same in it, as a backup has.
func (l *Ledger) Clone() *Ledger {
	l.mu.Lock()
	defer l.mu.Unlock()
	c := New(l.quota)
	for w, s := range l.workshops {
		c.workshops[w] = &workshop{s.proof, s.closed, slices.Clone(s.rows), maps.Clone(s.chunks)}
	}
	maps.Copy(c.boxes, l.boxes)
	return c
}

// workshop is one workshop. A stub is an entry without a blob.
type workshop struct {
	proof  ledger.Proof
	closed bool
	rows   []wire.Entry // by Seq
	chunks map[wire.Name][]byte
}

type box struct {
	blob  []byte
	until time.Time
}

// open returns a workshop that is not closed. The lock must be held.
func (l *Ledger) open(ctx context.Context, w wire.Workshop) (*workshop, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	switch s := l.workshops[w]; {
	case s == nil:
		return nil, ledger.ErrUnknown
	case s.closed:
		return nil, ledger.ErrClosed
	default:
		return s, nil
	}
}

// Create implements ledger.Ledger.
func (l *Ledger) Create(ctx context.Context, w wire.Workshop, p ledger.Proof) (wire.Position, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if err := ctx.Err(); err != nil {
		return wire.Position{}, err
	}
	switch s := l.workshops[w]; {
	case s == nil:
		l.workshops[w] = &workshop{proof: p, chunks: map[wire.Name][]byte{}}
		return wire.Position{}, nil
	case s.proof != p:
		return wire.Position{}, ledger.ErrTaken
	case s.closed:
		return wire.Position{}, ledger.ErrClosed
	default:
		return s.head(), nil
	}
}

// Proof implements ledger.Ledger.
func (l *Ledger) Proof(ctx context.Context, w wire.Workshop) (ledger.Proof, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if err := ctx.Err(); err != nil {
		return ledger.Proof{}, err
	}
	s := l.workshops[w]
	if s == nil {
		return ledger.Proof{}, ledger.ErrUnknown
	}
	return s.proof, nil
}

func (s *workshop) head() wire.Position {
	if len(s.rows) == 0 {
		return wire.Position{}
	}
	return s.rows[len(s.rows)-1].At()
}

// Append implements ledger.Ledger.
func (l *Ledger) Append(ctx context.Context, w wire.Workshop, base wire.Position, entries []wire.Entry) (wire.Position, error) {
	if err := (wire.Push{Base: base, Entries: entries}).Check(); err != nil {
		return wire.Position{}, err
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	s, err := l.open(ctx, w)
	if err != nil {
		return wire.Position{}, err
	}
	if at, ok := s.have(entries); ok {
		return at, nil
	}
	if s.head() != base {
		return wire.Position{}, ledger.ErrBehind
	}
	next := slices.Clone(s.rows)
	for i, row := range next {
		if slices.ContainsFunc(entries, func(e wire.Entry) bool { return e.Slot == row.Slot }) {
			next[i].Blob = nil
		}
	}
	for _, e := range entries {
		e.Seq = base.Seq + 1
		base = e.At()
		e.Blob = bytes.Clone(e.Blob)
		next = append(next, e)
	}
	if _, size := live(next); int64(size) > l.quota.Log {
		return wire.Position{}, ledger.ErrFull
	}
	s.rows = next
	return base, nil
}

// have tells where entries are that are all there.
func (s *workshop) have(entries []wire.Entry) (at wire.Position, ok bool) {
	found := 0
	for _, row := range s.rows {
		if slices.ContainsFunc(entries, func(e wire.Entry) bool { return e.ID == row.ID }) {
			found, at = found+1, row.At()
		}
	}
	return at, found == len(entries)
}

// live counts the live entries and the bytes of their blobs.
func live(rows []wire.Entry) (entries, size int) {
	for _, row := range rows {
		if row.Blob != nil {
			entries, size = entries+1, size+len(row.Blob)
		}
	}
	return entries, size
}

// Pull implements ledger.Ledger.
func (l *Ledger) Pull(ctx context.Context, w wire.Workshop, after wire.Position, most int) (wire.Page, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	s, err := l.open(ctx, w)
	if err != nil {
		return wire.Page{}, err
	}
	from, known := slices.BinarySearchFunc(s.rows, after.Seq, func(e wire.Entry, seq uint64) int { return int(int64(e.Seq) - int64(seq)) })
	if after != (wire.Position{}) {
		if !known || s.rows[from].ID != after.ID {
			return wire.Page{}, ledger.ErrDiverged
		}
		from++
	}
	page := wire.Page{To: s.head()}
	size := 0
	for _, row := range s.rows[from:] {
		if row.Blob == nil {
			continue
		}
		size += row.Size()
		if n := len(page.Entries); n > 0 && size > min(most, wire.MostPage) {
			page.To, page.More = page.Entries[n-1].At(), true
			break
		}
		row.Blob = bytes.Clone(row.Blob)
		page.Entries = append(page.Entries, row)
	}
	return page, nil
}

// Usage implements ledger.Ledger.
func (l *Ledger) Usage(ctx context.Context, w wire.Workshop) (wire.Usage, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	s, err := l.open(ctx, w)
	if err != nil {
		return wire.Usage{}, err
	}
	entries, size := live(s.rows)
	return wire.Usage{
		Entries: uint64(entries), LogBytes: uint64(size), LogQuota: uint64(l.quota.Log),
		Chunks: uint64(len(s.chunks)), ChunkBytes: uint64(s.chunkBytes()), ChunkQuota: uint64(l.quota.Chunks),
	}, nil
}

// Close implements ledger.Ledger.
func (l *Ledger) Close(ctx context.Context, w wire.Workshop) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	if err := ctx.Err(); err != nil {
		return err
	}
	s := l.workshops[w]
	if s == nil {
		return ledger.ErrUnknown
	}
	*s = workshop{proof: s.proof, closed: true}
	return nil
}
