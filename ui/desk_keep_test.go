//go:build !js

package ui

import (
	"bytes"
	"testing"
	"time"

	"chalkfold/sync/store/mem"
)

// handed is what a desk hands over.
type handed struct {
	name string
	file []byte
	send bool
}

// catch has a desk hand its files to the test, which says whether they went out.
func (b tried) catch(out bool) *handed {
	h := &handed{}
	b.hand = func(name, _ string, file []byte, send bool, done func(bool)) {
		*h = handed{name, file, send}
		done(out)
	}
	return h
}

func TestDeskBackup(t *testing.T) {
	s := &mem.Store{}
	b := open(t, s, nil)
	b.stage = stageBook
	if got := b.backupNudge(0); got != "" {
		t.Errorf("with no job it says %q", got)
	}
	b.openSample()
	b.settle()
	b.stage = stageBook
	b.listJobs()
	b.settle()
	b.shows("No backup yet")
	h := b.catch(false)
	b.saveBackup(true)
	b.settle()
	b.shows("Nothing was sent", "No backup yet")
	if !h.send {
		t.Error("it was saved, not sent")
	}
	h = b.catch(true)
	b.saveBackup(false)
	b.settle()
	b.shows("Handed over as chalkfold-backup-2031-05-17.json")
	if h.name != "chalkfold-backup-2031-05-17.json" || b.backupNudge(1) != "" {
		t.Errorf("named %q, and then it says %q", h.name, b.backupNudge(1))
	}
	was := b.deps.Now
	b.deps.Now = func() time.Time { return was().Add(backupAge + time.Hour) }
	b.shows("The last backup is of 17 May 2031")

	// In a window of an empty phone: refused, looked at, merged.
	other := open(t, &mem.Store{}, nil)
	other.stage = stageBook
	other.takeFile(textFile(string(h.file[:len(h.file)-9])))
	other.settle()
	other.shows("Nothing was restored and nothing is changed", "choose another")
	other.takeFile(textFile(string(h.file)))
	other.settle()
	other.shows("Jobs in the file: 1. New here: 1. Different from here: 0.")
	other.restore(false)
	other.settle()
	other.shows("Restored 1 record.")
	if got := backupOf(t, other.store); !bytes.Equal(got, h.file) {
		t.Errorf("a backup of what was restored is\n%s\nwas\n%s", got, h.file)
	}
	if other.job.File.Name != "Alto 3" {
		t.Errorf("%q lies on the desk", other.job.File.Name)
	}
	if next := open(t, s, nil); next.noted.backup.Rev != 1 {
		t.Errorf("the next window does not know of the backup: %+v", next.noted)
	}
}
