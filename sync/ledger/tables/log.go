package tables

import (
	"context"
	"errors"
	"strconv"

	"chalkfold/sync/ledger"
	"chalkfold/sync/wire"
)

// packed is a push as the statements take it: all of it in one blob, which costs
// one copy, and a list that tells where.
type packed struct {
	bytes  []byte // id, slot, blob; id, slot, blob; ...
	places string // [[1,2000],[2033,300]]: where each id begins, how long each blob is
	blobs  int64  // the bytes of the blobs alone
}

func pack(entries []wire.Entry) packed {
	const names = 2 * len(wire.Name{})
	var p packed
	for _, e := range entries {
		p.blobs += int64(len(e.Blob))
	}
	p.bytes = make([]byte, 0, int(p.blobs)+names*len(entries))
	places := []byte{'['}
	for i, e := range entries {
		if i > 0 {
			places = append(places, ',')
		}
		places = append(places, '[')
		places = strconv.AppendInt(places, int64(len(p.bytes)+1), 10)
		places = append(places, ',')
		places = strconv.AppendInt(places, int64(len(e.Blob)), 10)
		places = append(places, ']')
		p.bytes = append(append(append(p.bytes, e.ID[:]...), e.Slot[:]...), e.Blob...)
	}
	p.places = string(append(places, ']'))
	return p
}

// tries is how often a call looks again where the ledger moved between two of its
// statements.
const tries = 8

// Append implements ledger.Ledger.
func (l Ledger) Append(ctx context.Context, w wire.Workshop, base wire.Position, entries []wire.Entry) (wire.Position, error) {
	if err := (wire.Push{Base: base, Entries: entries}).Check(); err != nil {
		return wire.Position{}, err
	}
	if base.Seq > wire.LargestSeq-uint64(len(entries)) {
		return wire.Position{}, ledger.ErrBehind
	}
	p := pack(entries)
	for range tries {
		at, err := l.append(ctx, w, base, entries, p)
		if !errors.Is(err, errMoved) {
			return at, err
		}
	}
	return wire.Position{}, ledger.ErrBehind // it has moved so often that base is long gone
}

func (l Ledger) append(ctx context.Context, w wire.Workshop, base wire.Position, entries []wire.Entry, p packed) (wire.Position, error) {
	rows, err := l.db.Write(ctx, appendEntries, w[:], int64(base.Seq), base.ID[:], p.bytes, p.places, p.blobs, l.quota.Log)
	if err != nil {
		return wire.Position{}, err
	}
	if len(rows) == len(entries) {
		return wire.Position{Seq: base.Seq + uint64(len(entries)), ID: entries[len(entries)-1].ID}, nil
	}
	// Nothing went in. Why?
	s, err := l.open(ctx, w)
	if err != nil {
		return wire.Position{}, err
	}
	at, all, err := l.find(ctx, s, p, entries)
	switch {
	case err != nil:
		return wire.Position{}, err
	case all:
		return at, nil
	case s.head != base:
		return wire.Position{}, ledger.ErrBehind
	case p.blobs+s.bytes > l.quota.Log:
		return wire.Position{}, ledger.ErrFull
	default:
		return wire.Position{}, errMoved
	}
}

// find returns the last position of entries that are all there, live or as stubs.
func (l Ledger) find(ctx context.Context, s workshop, p packed, entries []wire.Entry) (at wire.Position, all bool, err error) {
	rows, err := l.db.Read(ctx, findEntries, s.id, p.bytes, p.places)
	if err != nil {
		return wire.Position{}, false, err
	}
	found := make(map[wire.Name]bool, len(rows))
	for _, values := range rows {
		r := row{values: values}
		at = r.position()
		if err := r.end(); err != nil {
			return wire.Position{}, false, err
		}
		found[at.ID] = true
	}
	return at, len(found) == len(entries), nil
}

// Pull implements ledger.Ledger.
func (l Ledger) Pull(ctx context.Context, w wire.Workshop, after wire.Position, most int) (wire.Page, error) {
	if after.Seq > wire.LargestSeq {
		if _, err := l.open(ctx, w); err != nil {
			return wire.Page{}, err
		}
		return wire.Page{}, ledger.ErrDiverged
	}
	var err error
	for range tries {
		var page wire.Page
		if page, err = l.pull(ctx, w, after, min(most, wire.MostPage)); !errors.Is(err, errMoved) {
			return page, err
		}
	}
	return wire.Page{}, err
}

// pull reads a page by several statements. What is superseded between them is
// within what comes after the head that the first of them saw.
func (l Ledger) pull(ctx context.Context, w wire.Workshop, after wire.Position, most int) (wire.Page, error) {
	r, err := one(l.db.Read(ctx, readAfter, w[:], int64(after.Seq), after.ID[:]))
	if err != nil {
		return wire.Page{}, err
	}
	s := r.workshop()
	known := r.truth()
	switch err := r.end(); {
	case err != nil:
		return wire.Page{}, err
	case s.closed:
		return wire.Page{}, ledger.ErrClosed
	case !known && after != wire.Position{}:
		return wire.Page{}, ledger.ErrDiverged
	}
	last, more, err := l.cut(ctx, s, after.Seq, most)
	if err != nil {
		return wire.Page{}, err
	}
	rows, err := l.db.Read(ctx, readEntries, s.id, int64(after.Seq), int64(last))
	if err != nil {
		return wire.Page{}, err
	}
	page := wire.Page{To: s.head, More: more, Entries: make([]wire.Entry, 0, len(rows))}
	for _, values := range rows {
		r := row{values: values}
		e := wire.Entry{Seq: uint64(r.number()), ID: r.name(), Slot: r.name(), Blob: r.blob()}
		if err := r.end(); err != nil {
			return wire.Page{}, err
		}
		page.Entries = append(page.Entries, e)
	}
	if more {
		if len(page.Entries) == 0 {
			return wire.Page{}, errMoved
		}
		page.To = page.Entries[len(page.Entries)-1].At()
	}
	return page, nil
}

// cut returns the number of the last entry that fits into a page, and whether there
// are more beyond it, up to the head.
func (l Ledger) cut(ctx context.Context, s workshop, after uint64, most int) (last uint64, more bool, err error) {
	const usual = 512 // bytes of an entry, to read neither too few rows nor too many
	size, read := 0, after
	for {
		limit := min(max((most-size)/usual, 8), 1024)
		rows, err := l.db.Read(ctx, readSizes, s.id, int64(read), int64(s.head.Seq), int64(limit))
		if err != nil {
			return 0, false, err
		}
		for _, values := range rows {
			r := row{values: values}
			seq, n := uint64(r.number()), int(r.number())
			if err := r.end(); err != nil {
				return 0, false, err
			}
			size += wire.Entry{}.Size() + n
			if size > most && read > after {
				return read, true, nil
			}
			read = seq
		}
		if len(rows) < limit {
			return s.head.Seq, false, nil
		}
	}
}
