// Package tables keeps ledgers in the tables of an SQLite database, whoever runs
// the statements: a file here, an engine at the edge of the network there.
//
//	l := tables.New(db, ledger.Common())
//	for _, s := range tables.Make() { ... } // once, in an empty database
//
// Every change is one statement, so it needs no transactions of whoever runs it:
// all of the statement is done, or none. What belongs to a change beside (an entry
// that is superseded becomes a stub, the head moves, sums are kept) is done by
// triggers within the statement. The text of the statements is the same for all.
package tables

import (
	"context"
	"errors"
	"fmt"

	"chalkfold/sync/ledger"
	"chalkfold/sync/wire"
)

// A DB runs one statement at a time. Parameters are int64, []byte and string.
// Values in rows are int64 or float64, []byte, string or nil, and are the caller's.
// Both methods may be called from several goroutines at once. Once Write has
// returned without an error, the change has reached the disk, if there is one, and
// every later Read sees it.
type DB interface {
	Read(ctx context.Context, statement string, parameters ...any) ([][]any, error)
	Write(ctx context.Context, statement string, parameters ...any) ([][]any, error)
}

// Ledger keeps ledgers and boxes in a DB.
type Ledger struct {
	db    DB
	quota ledger.Quota
}

var (
	_ ledger.Ledger = Ledger{}
	_ ledger.Boxes  = Ledger{}
)

// New returns the ledger in a database that has been made.
func New(db DB, q ledger.Quota) Ledger { return Ledger{db, q} }

// A workshop is its row.
type workshop struct {
	id                 int64
	proof              ledger.Proof
	closed             bool
	head               wire.Position
	entries, bytes     int64
	chunks, chunkBytes int64
}

// one reads the one row of a statement. There is ErrUnknown if there is none.
func one(rows [][]any, err error) (row, error) {
	if err != nil {
		return row{}, err
	}
	if len(rows) == 0 {
		return row{}, ledger.ErrUnknown
	}
	return row{values: rows[0]}, nil
}

// workshop reads a workshop, closed or not.
func (l Ledger) workshop(ctx context.Context, w wire.Workshop) (workshop, error) {
	r, err := one(l.db.Read(ctx, readWorkshop, w[:]))
	if err != nil {
		return workshop{}, err
	}
	s := r.workshop()
	return s, r.end()
}

// open reads a workshop that is not closed.
func (l Ledger) open(ctx context.Context, w wire.Workshop) (workshop, error) {
	s, err := l.workshop(ctx, w)
	if err == nil && s.closed {
		err = ledger.ErrClosed
	}
	return s, err
}

// Create implements ledger.Ledger.
func (l Ledger) Create(ctx context.Context, w wire.Workshop, p ledger.Proof) (wire.Position, error) {
	if _, err := l.db.Write(ctx, createWorkshop, w[:], p[:]); err != nil {
		return wire.Position{}, err
	}
	switch s, err := l.workshop(ctx, w); {
	case err != nil:
		return wire.Position{}, err
	case s.proof != p:
		return wire.Position{}, ledger.ErrTaken
	case s.closed:
		return wire.Position{}, ledger.ErrClosed
	default:
		return s.head, nil
	}
}

// Proof implements ledger.Ledger.
func (l Ledger) Proof(ctx context.Context, w wire.Workshop) (ledger.Proof, error) {
	s, err := l.workshop(ctx, w)
	return s.proof, err
}

// Usage implements ledger.Ledger.
func (l Ledger) Usage(ctx context.Context, w wire.Workshop) (wire.Usage, error) {
	s, err := l.open(ctx, w)
	if err != nil {
		return wire.Usage{}, err
	}
	return wire.Usage{
		Entries: uint64(s.entries), LogBytes: uint64(s.bytes), LogQuota: uint64(l.quota.Log),
		Chunks: uint64(s.chunks), ChunkBytes: uint64(s.chunkBytes), ChunkQuota: uint64(l.quota.Chunks),
	}, nil
}

// Close implements ledger.Ledger.
func (l Ledger) Close(ctx context.Context, w wire.Workshop) error {
	_, err := one(l.db.Write(ctx, closeWorkshop, w[:]))
	return err
}

// A row reads values one after the other, and remembers what was wrong.
type row struct {
	values []any
	bad    error
}

func (r *row) next() any {
	if len(r.values) == 0 {
		r.fail("too few values")
		return nil
	}
	v := r.values[0]
	r.values = r.values[1:]
	return v
}

func (r *row) fail(format string, args ...any) {
	if r.bad == nil {
		r.bad = fmt.Errorf("a row of the ledger cannot be read: "+format, args...)
	}
}

// end says what was wrong.
func (r *row) end() error {
	if len(r.values) > 0 {
		r.fail("%d values too many", len(r.values))
	}
	return r.bad
}

// number reads a number that is not negative. Some databases have only doubles,
// which hold all that there are here.
func (r *row) number() int64 {
	switch v := r.next().(type) {
	case int64:
		if v >= 0 {
			return v
		}
		r.fail("the number %d", v)
	case float64:
		if v >= 0 && v <= wire.LargestSeq && v == float64(int64(v)) {
			return int64(v)
		}
		r.fail("the number %v", v)
	default:
		r.fail("%T in place of a number", v)
	}
	return 0
}

func (r *row) truth() bool { return r.number() != 0 }

func (r *row) blob() []byte {
	v := r.next()
	b, ok := v.([]byte)
	if !ok {
		r.fail("%T in place of a blob", v)
	}
	return b
}

// fixed reads a blob into all of to.
func (r *row) fixed(to []byte) {
	if b := r.blob(); len(b) != len(to) {
		r.fail("a blob of %d bytes where there are %d", len(b), len(to))
	} else {
		copy(to, b)
	}
}

func (r *row) name() (n wire.Name) {
	r.fixed(n[:])
	return n
}

func (r *row) position() wire.Position {
	return wire.Position{Seq: uint64(r.number()), ID: r.name()}
}

// workshop reads the columns of workshopColumns.
func (r *row) workshop() workshop {
	s := workshop{id: r.number()}
	r.fixed(s.proof[:])
	s.closed = r.truth()
	s.head = r.position()
	s.entries, s.bytes = r.number(), r.number()
	s.chunks, s.chunkBytes = r.number(), r.number()
	return s
}

// errMoved says that the ledger was another when it was looked at again. It is
// tried anew; nobody sees it.
var errMoved = errors.New("the ledger has moved meanwhile")
