package ui

import (
	"bytes"
	"errors"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"chalkfold/draft/plain"
	"chalkfold/sync/store"
)

// backupVersion is the version of a backup file; the records in it have their
// own.
//
//	1  every job, by id
//	2  every record, by kind and id, readable or not
//	3  and the pictures of photos, a line for each; see backupLines. A file
//	   without them is of version 2
const backupVersion = 3

// backup is a backup file: every record that is not deleted, as it is kept.
type backup struct {
	Version int64
	Sum     string // of what follows as it stands here without spaces; see sumOf
	Records []byte
	Jobs    []byte // of version 1
	// Pictures is the list of them, where all of the file was read at once.
	Pictures []byte
}

func (b *backup) encode() ([]byte, error) {
	w := &plain.Writer{}
	w.Open('{')
	w.Key("chalkfold_backup").Int(b.Version)
	w.Key("sum").Text(b.Sum)
	w.Key("records").Raw(b.Records)
	w.Shut('}')
	return w.Done()
}

func (b *backup) read(r *plain.Reader) {
	for key := range r.Object() {
		switch key {
		case "chalkfold_backup":
			b.Version = r.Int()
		case "sum":
			b.Sum = r.Text()
		case "records":
			b.Records = r.Raw()
		case "jobs":
			b.Jobs = r.Raw()
		case "pictures":
			b.Pictures = r.Raw()
		}
	}
}

// backedUp is one record. What it holds is nobody's business here.
type backedUp struct {
	Kind    string
	ID      string
	Changed int64  // ms since 1970
	Data    []byte // an object as this program writes it, or
	Bytes   []byte // anything else, byte for byte
	Job     []byte // the same in version 1
}

func (e *backedUp) write(w *plain.Writer) {
	w.Open('{')
	w.Key("kind").Text(e.Kind)
	w.Key("id").Text(e.ID)
	w.Key("changed").Int(e.Changed)
	if len(e.Data) > 0 {
		w.Key("data").Raw(e.Data)
	}
	if len(e.Bytes) > 0 {
		w.Key("bytes").Bytes(e.Bytes)
	}
	w.Shut('}')
}

func readBackedUp(r *plain.Reader) (e backedUp) {
	for key := range r.Object() {
		switch key {
		case "kind":
			e.Kind = r.Text()
		case "id":
			e.ID = r.Text()
		case "changed":
			e.Changed = r.Int()
		case "data":
			e.Data = r.Raw()
		case "bytes":
			e.Bytes = r.Bytes()
		case "job":
			e.Job = r.Raw()
		}
	}
	return e
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

// carried reports whether a backup carries the records of a kind: all but those
// about this device, among them what the second copy keeps, the key of the workshop
// for one.
func carried(kind string) bool {
	return kind != backupKind && kind != deviceKind && !strings.HasPrefix(kind, syncKind)
}

// deletedAt is when a record was deleted, in ms since 1970: nought for one that
// was not. Every kind that can be recovered tells it as jobs do; see kept.
func deletedAt(data []byte) int64 {
	var at int64
	r := plain.Read(data)
	for key := range r.Object() {
		if key == "deleted" {
			at = r.Int()
		}
	}
	if r.End() != nil {
		return 0 // it cannot be read, and stays
	}
	return at
}

// writeBackup writes the records, in their order. The same records make the
// same bytes.
func writeBackup(records []store.Record) ([]byte, error) {
	all := &plain.Writer{}
	all.Open('[')
	for _, r := range records {
		if !carried(r.Kind) || deletedAt(r.Data) > 0 {
			continue
		}
		e := backedUp{Kind: r.Kind, ID: r.ID, Changed: r.Updated.UnixMilli()}
		if asWritten(r.Data) {
			e.Data = r.Data
		} else {
			e.Bytes = r.Data
		}
		e.write(all.Next())
	}
	all.Shut(']')
	text, err := all.Done()
	if err != nil {
		return nil, err
	}
	b := backup{Version: 2, Sum: sumOf(text), Records: text}
	return b.encode()
}

// asWritten reports whether data is an object that is the same, byte for byte,
// when it is written into another and read out again.
func asWritten(data []byte) bool {
	if !bytes.HasPrefix(data, []byte("{")) || !utf8.Valid(data) {
		return false
	}
	w := &plain.Writer{}
	w.Raw(data)
	again, err := w.Done()
	return err == nil && bytes.Equal(again, data)
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

// restoring is what a backup file holds.
type restoring struct {
	records  []store.Record
	version  int64
	pictures int // how many there are
	// eachPicture goes through them until do does not want any more.
	eachPicture func(do func(name string, jpeg []byte) error) error
}

// readBackup reads a backup file of every version there was.
func readBackup(text []byte) (*restoring, error) {
	var b backup
	file := plain.Read(text)
	b.read(file)
	if file.End() != nil || b.Version < 1 {
		return nil, errNoBackup
	}
	if b.Version > backupVersion {
		return nil, errTooNew
	}
	list := b.Records
	if b.Version == 1 {
		list = b.Jobs
	}
	list, err := plain.Compact(list)
	if err != nil || b.Sum != "" && sumOf(list) != b.Sum { // another program may leave it out
		return nil, errDamaged
	}
	var all []backedUp
	entries := plain.Read(list)
	for range entries.List() {
		all = append(all, readBackedUp(entries))
	}
	if entries.End() != nil {
		return nil, errDamaged
	}
	r := &restoring{version: b.Version, eachPicture: b.eachPicture}
	had := byName{}
	for _, e := range all {
		record, err := e.record(b.Version)
		if err != nil {
			return nil, err
		}
		if _, twice := had.has(record); twice || record.Check() != nil || !carried(record.Kind) {
			return nil, errDamaged
		}
		r.records = append(r.records, record)
		had[[2]string{record.Kind, record.ID}] = record
	}
	return r, nil
}

// record is the record of an entry, as it was.
func (e backedUp) record(version int64) (store.Record, error) {
	r := store.Record{Kind: e.Kind, ID: e.ID, Rev: 1, Data: e.Data, Updated: time.UnixMilli(e.Changed).UTC()}
	if e.Data == nil {
		r.Data = e.Bytes
	}
	if version > 1 {
		return r, nil
	}
	// Of version 1 every job could be read.
	r.Kind, r.Data = recordKind, e.Job
	_, err := DecodeJob(e.Job)
	switch {
	case errors.Is(err, errNewer):
		return r, errTooNew
	case err != nil:
		return r, errDamaged
	}
	return r, nil
}
