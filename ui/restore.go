package ui

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"time"

	"chalkfold/draft/plain"
	"chalkfold/draft/say"
	"chalkfold/sync/store"
)

// byName are records by their kind and id.
type byName map[[2]string]store.Record

func namesOf(all []store.Record) byName {
	names := make(byName, len(all))
	for _, r := range all {
		names[[2]string{r.Kind, r.ID}] = r
	}
	return names
}

// has returns the record of the same kind and id.
func (n byName) has(r store.Record) (store.Record, bool) {
	a, ok := n[[2]string{r.Kind, r.ID}]
	return a, ok
}

// readable reports whether this version can read a record; of another kind than
// jobs, whether it is one.
func readable(r store.Record) bool {
	if asJob(r.Kind) {
		_, err := DecodeJob(r.Data)
		return err == nil
	}
	return !r.Damaged
}

// sameRecord reports whether the same was entered in both.
func sameRecord(a, b store.Record) bool {
	if bytes.Equal(a.Data, b.Data) {
		return true
	}
	if !asJob(a.Kind) {
		return false
	}
	x, errX := DecodeJob(a.Data)
	y, errY := DecodeJob(b.Data)
	if errX != nil || errY != nil {
		return false
	}
	p, errP := x.Content()
	q, errQ := y.Content()
	return errP == nil && errQ == nil && bytes.Equal(p, q)
}

// found tells what a file has of one kind, against what is here.
type found struct {
	kind                            string
	all, fresh, differs, unreadable int
}

// look compares a file with the records that are here, kind by kind in the
// order of the file.
func (r *restoring) look(here []store.Record) []found {
	var out []found
	were := namesOf(here)
	for _, f := range r.records {
		if len(out) == 0 || out[len(out)-1].kind != f.Kind {
			out = append(out, found{kind: f.Kind})
		}
		of := &out[len(out)-1]
		of.all++
		if !readable(f) {
			of.unreadable++
		}
		switch h, ok := were.has(f); {
		case !ok || deletedAt(h.Data) > 0 && sameRecord(h, f):
			of.fresh++
		case !sameRecord(h, f):
			of.differs++
		}
	}
	return out
}

// into restores the file into a store, all or none of it.
func (r *restoring) into(ctx context.Context, s store.Store, replace bool, now time.Time, w *say.Words) error {
	here, err := s.All(ctx)
	if err != nil {
		return err
	}
	m := merging{Words: w, were: namesOf(here), now: now.UnixMilli(), replace: replace}
	for _, f := range r.records {
		m.take(f)
	}
	if replace {
		inFile := namesOf(r.records)
		for _, h := range here {
			_, ok := inFile.has(h)
			if !ok && carried(h.Kind) && (r.version > 1 || h.Kind == recordKind) && deletedAt(h.Data) == 0 && readable(h) {
				m.delete(h)
			}
		}
	}
	// One that is not here may have been deleted for good: then it comes back
	// over its tombstone.
	for i, p := range m.puts {
		if _, ok := m.were.has(p); !ok {
			left, err := s.Get(ctx, p.Kind, p.ID)
			if !errors.Is(err, store.ErrNotFound) {
				return errors.Join(err, store.ErrStale)
			}
			m.puts[i].Rev += left.Rev
		}
	}
	return s.Put(ctx, m.puts...)
}

// merging gathers what to put for a restore. Of a record that differs the newer
// one stays under its name and the other is set aside, unless all is to be as
// in the file; the same file restored again adds nothing. What cannot be read
// is never touched.
type merging struct {
	*say.Words
	were    byName
	now     int64 // ms since 1970
	replace bool
	puts    []store.Record
}

// take takes one record of the file.
func (m *merging) take(f store.Record) {
	h, ok := m.were.has(f)
	over := f
	over.Rev = h.Rev + 1
	switch {
	case !ok:
		m.puts = append(m.puts, f)
	case sameRecord(h, f):
		if deletedAt(h.Data) > 0 {
			m.puts = append(m.puts, over)
		}
	case !readable(h) || !readable(f):
		m.aside(f, m.T("%s (from backup)"), false)
	case m.replace:
		m.aside(h, "", true)
		m.puts = append(m.puts, over)
	case f.Updated.After(h.Updated):
		m.aside(h, m.T("%s (before restoring)"), deletedAt(h.Data) > 0)
		m.puts = append(m.puts, over)
	default:
		m.aside(f, m.T("%s (from backup)"), false)
	}
}

// aside keeps a record under an id of its own, made of what is in it. A job is
// named for where it comes from, unless it is to be among the deleted ones; of
// the other kinds, of which there should be but one, it always is.
func (m *merging) aside(r store.Record, named string, deleted bool) {
	r.ID, r.Rev, r.Damaged = r.ID+"-"+sumOf(r.Data), 1, false
	if _, ok := m.were.has(r); ok {
		return
	}
	if job, err := DecodeJob(r.Data); asJob(r.Kind) && err == nil && named != "" {
		job.SetName(fmt.Sprintf(named, job.File.Name))
		job.past = history{}
		if data, err := job.Encode(); err == nil {
			r.Data = data
		}
	} else if data, ok := marked(r.Data, m.now); ok && (deleted || !asJob(r.Kind)) {
		r.Data = data
	}
	m.puts = append(m.puts, r)
}

// delete marks a record that is here as deleted.
func (m *merging) delete(h store.Record) {
	if data, ok := marked(h.Data, m.now); ok {
		h.Data, h.Rev = data, h.Rev+1
		m.puts = append(m.puts, h)
	}
}

// marked is a record marked as deleted at that time. One that is no object
// cannot be.
func marked(data []byte, at int64) ([]byte, bool) {
	fields := map[string][]byte{}
	r := plain.Read(data)
	isObject := r.Kind() == plain.Object
	for key := range r.Object() {
		fields[key] = r.Raw()
	}
	if r.End() != nil || !isObject {
		return nil, false
	}
	fields["deleted"] = strconv.AppendInt(nil, at, 10)
	w := &plain.Writer{}
	w.Open('{')
	for _, key := range slices.Sorted(maps.Keys(fields)) {
		w.Key(key).Raw(fields[key])
	}
	w.Shut('}')
	data, err := w.Done()
	return data, err == nil
}
