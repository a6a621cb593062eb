package ui

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"time"

	"chalkfold/sync/store"
)

// backupVersion is the version of a backup file; the records in it have their
// own.
const backupVersion = 1

// backup is a backup file: every job that is not deleted, by id, as it is kept.
type backup struct {
	Version int             `json:"chalkfold_backup"`
	Sum     string          `json:"sum"` // of the jobs as they stand here without spaces; see sumOf
	Jobs    json.RawMessage `json:"jobs"`
}

type backedUp struct {
	ID      string          `json:"id"`
	Changed int64           `json:"changed"` // ms since 1970
	Job     json.RawMessage `json:"job"`     // the record; see kept
}

// sumOf is the FNV-1a sum of 64 bits: against damage, not against deceit.
// (Fowler, Noll, Vo; the offset and the prime are theirs.)
func sumOf(data []byte) string {
	h := uint64(14695981039346656037)
	for _, b := range data {
		h = (h ^ uint64(b)) * 1099511628211
	}
	return strconv.FormatUint(h, 16)
}

// writeBackup writes the jobs of a list, in its order. The same jobs make the
// same bytes. One that cannot be read is left out.
func writeBackup(records []store.Record) ([]byte, error) {
	all := []backedUp{}
	for _, r := range records {
		if job, err := DecodeJob(r.Data); err == nil && job.Deleted == 0 {
			all = append(all, backedUp{r.ID, r.Updated.UnixMilli(), r.Data})
		}
	}
	jobs, err := json.Marshal(all)
	if err != nil {
		return nil, err
	}
	return json.Marshal(backup{backupVersion, sumOf(jobs), jobs})
}

// backupName is the name of a backup file of that day.
func backupName(t time.Time) string {
	two := func(n int) string { return strconv.Itoa(100 + n)[1:] }
	return "chalkfold-backup-" + strconv.Itoa(t.Year()) + "-" + two(int(t.Month())) + "-" + two(t.Day()) + ".json"
}

// The reasons why a file is refused.
var (
	errNoBackup = errors.New("this is no backup file, or not the whole of one: choose another, or fetch it again from where it was kept")
	errDamaged  = errors.New("this backup file is damaged: fetch it again from where it was kept, or choose an earlier one")
	errTooNew   = errors.New("this backup file is of a newer Chalkfold: open the page once with the network, take the newer version, and choose the file again")
)

// readBackup reads the jobs of a backup file.
func readBackup(text []byte) ([]*shelved, error) {
	var b backup
	var jobs bytes.Buffer
	var all []backedUp
	if json.Unmarshal(text, &b) != nil || b.Version < 1 {
		return nil, errNoBackup
	}
	if b.Version > backupVersion {
		return nil, errTooNew
	}
	if json.Compact(&jobs, b.Jobs) != nil || sumOf(jobs.Bytes()) != b.Sum || json.Unmarshal(jobs.Bytes(), &all) != nil {
		return nil, errDamaged
	}
	var out []*shelved
	for _, e := range all {
		s := &shelved{Record: store.Record{Kind: recordKind, ID: e.ID, Rev: 1, Data: e.Job, Updated: time.UnixMilli(e.Changed)}}
		s.job, s.err = DecodeJob(e.Job)
		switch {
		case errors.Is(s.err, errNewer):
			return nil, errTooNew
		case s.err != nil || find(out, e.ID) != nil || s.Check() != nil:
			return nil, errDamaged
		}
		out = append(out, s)
	}
	return out, nil
}

// restoring is a backup file that was looked at, against the jobs that are
// here.
type restoring struct {
	jobs             []*shelved
	fresh, differing int
}

// look compares a file with the jobs that are here.
func look(file, here []*shelved) *restoring {
	r := &restoring{jobs: file}
	for _, f := range file {
		switch h := find(here, f.ID); {
		case h == nil || h.deleted() && sameJob(h, f):
			r.fresh++
		case !sameJob(h, f):
			r.differing++
		}
	}
	return r
}

// find returns the job of that id, nil if there is none.
func find(all []*shelved, id string) *shelved {
	for _, s := range all {
		if s.ID == id {
			return s
		}
	}
	return nil
}

// sameJob reports whether the same was entered in both.
func sameJob(a, b *shelved) bool {
	if a.job == nil || b.job == nil {
		return bytes.Equal(a.Data, b.Data)
	}
	x, errX := a.job.Content()
	y, errY := b.job.Content()
	return errX == nil && errY == nil && bytes.Equal(x, y)
}

// puts are the records to put for a restore. Of a job that differs the newer
// one stays under its name and the other beside it, named for where it comes
// from; the same file restored again adds nothing. To replace, what is here and
// not in the file goes to the deleted ones. A job that is not here has the
// revision 1.
func (r *restoring) puts(here []*shelved, replace bool, now time.Time) ([]store.Record, error) {
	var out []store.Record
	add := func(s *shelved, id, name string, rev uint32, deleted int64) error {
		job, err := DecodeJob(s.Data) // a copy
		if err != nil {
			return fmt.Errorf("job %q: %w", s.ID, err)
		}
		job.Deleted = deleted
		if name != "" {
			job.SetName(job.File.Name + name)
			job.past = history{}
		}
		data, err := job.Encode()
		out = append(out, store.Record{Kind: recordKind, ID: id, Rev: rev, Data: data, Updated: s.Updated})
		return err
	}
	// beside keeps a job under an id of its own, made of what is in it.
	beside := func(s *shelved, name string, deleted int64) error {
		id := s.ID + "-" + sumOf(s.Data)
		if find(here, id) != nil {
			return nil
		}
		return add(s, id, name, 1, deleted)
	}
	for _, f := range r.jobs {
		h := find(here, f.ID)
		var err error
		switch {
		case h == nil:
			err = add(f, f.ID, "", 1, 0)
		case sameJob(h, f):
			if h.deleted() {
				err = add(h, f.ID, "", h.Rev+1, 0)
			}
		case h.job == nil: // cannot be read: it stays
			err = beside(f, " (from backup)", 0)
		case replace:
			if err = beside(h, "", now.UnixMilli()); err == nil {
				err = add(f, f.ID, "", h.Rev+1, 0)
			}
		case f.Updated.After(h.Updated):
			if err = beside(h, " (before restoring)", h.job.Deleted); err == nil {
				err = add(f, f.ID, "", h.Rev+1, 0)
			}
		default:
			err = beside(f, " (from backup)", 0)
		}
		if err != nil {
			return nil, err
		}
	}
	for _, h := range here {
		if replace && h.job != nil && !h.deleted() && find(r.jobs, h.ID) == nil {
			if err := add(h, h.ID, "", h.Rev+1, now.UnixMilli()); err != nil {
				return nil, err
			}
		}
	}
	return out, nil
}
