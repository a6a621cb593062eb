package ui

import (
	"slices"
	"time"

	"chalkfold/draft/plain"
	"chalkfold/draft/say"
	"chalkfold/sync/store"
	"chalkfold/ui/day"
)

// photoKind is the kind of the records of photos. The picture itself is a blob of the
// store, which the record names.
const photoKind = "photo"

// photoVersion is the version of the record.
const photoVersion = 1

// What a photo is of.
const (
	ofCloth   = "cloth"
	ofFitting = "fitting"
)

// Photo is a photo of a job.
type Photo struct {
	Job, Of    string // id of the job, and what of it: see ofCloth
	On         day.Day
	Note       string
	Picture    string // the blob's name, 32 hexadecimal digits: a JPEG
	Size       int    // of the picture, bytes
	Wide, High int    // of the picture, px
	Small      []byte // a small picture of it, JPEG
	Deleted    int64  // as in every kind; see deletedAt
}

// Encode writes the photo for the store.
func (p *Photo) Encode() ([]byte, error) {
	w := &plain.Writer{}
	w.Open('{')
	w.Key("version").Int(photoVersion)
	w.IntIf("deleted", p.Deleted)
	w.TextIf("job", p.Job)
	w.TextIf("of", p.Of)
	w.TextIf("on", string(p.On))
	w.TextIf("note", p.Note)
	w.TextIf("picture", p.Picture)
	w.IntIf("size", int64(p.Size))
	w.IntIf("wide", int64(p.Wide))
	w.IntIf("high", int64(p.High))
	if len(p.Small) > 0 {
		w.Key("small").Bytes(p.Small)
	}
	w.Shut('}')
	return w.Done()
}

// DecodePhoto reads a photo from the store.
func DecodePhoto(data []byte) (*Photo, error) {
	p, version := &Photo{}, int64(0)
	r := plain.Read(data)
	for key := range r.Object() {
		switch key {
		case "version":
			version = r.Int()
		case "deleted":
			p.Deleted = r.Int()
		case "job":
			p.Job = r.Text()
		case "of":
			p.Of = r.Text()
		case "on":
			p.On = day.Day(r.Text())
		case "note":
			p.Note = r.Text()
		case "picture":
			p.Picture = r.Text()
		case "size":
			p.Size = int(r.Int())
		case "wide":
			p.Wide = int(r.Int())
		case "high":
			p.High = int(r.Int())
		case "small":
			p.Small = r.Bytes()
		}
	}
	if err := r.End(); err != nil {
		return nil, say.Errorf("the kept photo cannot be read: %v", err)
	}
	if version < 1 || p.Size < 0 {
		return nil, say.Errorf("the kept photo cannot be read: it has no version")
	}
	if version > photoVersion {
		return nil, say.Errorf("the kept photo has version %d, this page knows %d: %v", version, photoVersion, errNewer)
	}
	return p, nil
}

// photo is a photo as it is kept.
type photo struct {
	*Photo
	filing
}

// load takes it as it is kept.
func (p *photo) load(r store.Record) {
	if p.Photo, p.err = DecodePhoto(r.Data); p.err != nil {
		p.Photo = &Photo{}
	}
}

// photoOf is a photo as it was read from the store.
func photoOf(r store.Record, now func() time.Time) *photo {
	p := &photo{filing: filing{id: r.ID, keeper: NewKeeper(photoKind, r.ID, r.Rev, now)}}
	p.load(r)
	return p
}

// filePhotos takes the photos as they were read from the store, the first one first;
// see file.
func (d *Desk) filePhotos(found []*photo) {
	read := map[string]uint32{}
	for _, p := range found {
		read[p.id] = p.keeper.rev
	}
	all := slices.DeleteFunc(slices.Clone(d.photos), func(p *photo) bool {
		rev, ok := read[p.id]
		return !p.unsettled(rev, ok)
	})
	had := map[string]bool{}
	for _, p := range all {
		had[p.id] = true
	}
	for _, p := range found {
		if !had[p.id] {
			all = append(all, p)
		}
	}
	slices.SortStableFunc(all, func(a, b *photo) int {
		switch {
		case a.On < b.On:
			return -1
		case a.On > b.On:
			return 1
		}
		return 0
	})
	d.photos = all
	d.countPhotos()
}

// photo is the photo of that id; nil when there is none.
func (d *Desk) photo(id string) *photo {
	return under(d.photos, id)
}

// keepPhoto has a photo saved as it is.
func (d *Desk) keepPhoto(p *photo) { d.keepFiled(&p.filing, p.Encode) }

// photosOf are the photos of a job that are not deleted; of none is of whatever.
func (d *Desk) photosOf(job, of string) []*photo {
	var out []*photo
	for _, p := range d.photos {
		if p.Job == job && (of == "" || p.Of == of) && p.Deleted == 0 && p.err == nil {
			out = append(out, p)
		}
	}
	return out
}
