package ui

import (
	"bytes"

	asked "chalkfold/draft/lesson"
	"chalkfold/draft/plain"
	"chalkfold/draft/say"
	"chalkfold/sync/store"
	"chalkfold/ui/day"
)

// sittingKind is the kind of the records that hold a student's way through a
// lesson.
const sittingKind = "lesson"

// sittingVersion is the version of the record.
const sittingVersion = 1

// Sitting is a student's way through a lesson, with the job that it is about,
// which nothing changes any more.
type Sitting struct {
	asked.Sitting
	Job []byte // file
	Day day.Day
}

// Encode writes the sitting for the store.
func (s *Sitting) Encode() ([]byte, error) {
	w := &plain.Writer{}
	w.Open('{')
	w.Key("version").Int(sittingVersion)
	w.TextIf("day", string(s.Day))
	w.Key("job").Raw(s.Job)
	s.Write(w)
	w.Shut('}')
	return w.Done()
}

// DecodeSitting reads a sitting from the store.
func DecodeSitting(data []byte) (*Sitting, error) {
	var version int64
	s := &Sitting{}
	r := plain.Read(data)
	for key := range r.Object() {
		switch key {
		case "version":
			version = r.Int()
		case "day":
			s.Day = day.Day(r.Text())
		case "job":
			s.Job = bytes.Clone(r.Raw())
		default:
			s.Read(key, r)
		}
	}
	if err := r.End(); err != nil {
		return nil, say.Errorf("the kept lesson cannot be read: %v", err)
	}
	if version < 1 {
		return nil, say.Errorf("the kept lesson cannot be read: it has no version")
	}
	if version > sittingVersion {
		return nil, say.Errorf("the kept lesson has version %d, this page knows %d: %v", version, sittingVersion, errNewer)
	}
	return s, nil
}

// sitting is one as it is kept, or as it is held until it is to be kept.
type sitting struct {
	*Sitting
	filing
	kept    bool
	updated int64 // ms since 1970
}

// load takes it as it is kept.
func (s *sitting) load(r store.Record) {
	s.kept, s.updated = true, r.Updated.UnixMilli()
	if s.Sitting, s.err = DecodeSitting(r.Data); s.err != nil {
		s.Sitting = &Sitting{}
	}
}
