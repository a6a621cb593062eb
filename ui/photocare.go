package ui

import (
	"context"
	"errors"
	"strconv"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/sync/client"
	"chalkfold/sync/store"
	"chalkfold/sync/wire"
)

// listPhotos reads the photos anew, beside the page, and clears away what was deleted
// long ago.
func (d *Desk) listPhotos() {
	s, blobs := d.store, d.blobs
	if s == nil || blobs == nil {
		return
	}
	gone, kept := map[string]bool{}, d.photosKept
	for _, r := range d.records {
		gone[r.ID] = false
	}
	d.ctx.Async(func() {
		found, pictures, err := readPhotos(d.ctx, s, blobs, d.deps.Now, gone)
		d.ctx.Dispatch(func(app.Context) {
			if err != nil {
				d.fault = d.sayFault(err)
				return
			}
			if kept != d.photosKept { // what was read is without the last one
				d.listPhotos()
				return
			}
			d.pictures = pictures
			d.filePhotos(found)
		})
	})
}

// readPhotos reads the photos, and which pictures are here. Photos that were deleted
// long ago, or whose jobs were, are cleared away with their pictures, and so are
// pictures that no photo names: what another phone has cleared away. jobs are those of
// which it is known whether they are gone.
func readPhotos(ctx context.Context, s store.Store, blobs store.Blobs, now func() time.Time, jobs map[string]bool) ([]*photo, map[string]bool, error) {
	// The names first: a photo that another window keeps meanwhile is in neither, or
	// in both.
	names, err := blobs.BlobNames(ctx)
	if err != nil {
		return nil, nil, err
	}
	records, err := s.List(ctx, photoKind)
	if err != nil {
		return nil, nil, err
	}
	here, stray := map[string]bool{}, map[string]bool{}
	for _, name := range names {
		here[name], stray[name] = true, true
	}
	var left []*photo
	whole := true
	for i, r := range records {
		breathe(i)
		p := photoOf(r, now)
		if p.err != nil {
			whole = false
			left = append(left, p)
			continue
		}
		gone := over(p.Deleted, now())
		if !gone {
			if gone, err = clearedAway(ctx, s, p.Job, jobs); err != nil {
				return nil, nil, err
			}
		}
		if !gone {
			delete(stray, p.Picture)
			left = append(left, p)
			continue
		}
		if err := s.Delete(ctx, photoKind, r.ID, r.Rev); errors.Is(err, store.ErrStale) { // another window has recovered it
			delete(stray, p.Picture)
			left = append(left, p)
		} else if err != nil {
			return nil, nil, err
		}
	}
	if !whole || len(stray) == 0 {
		return left, here, nil
	}
	var drop []string
	for name := range stray {
		delete(here, name)
		drop = append(drop, name)
	}
	return left, here, blobs.DropBlobs(ctx, drop...)
}

// clearedAway reports whether a job was cleared away for good.
func clearedAway(ctx context.Context, s store.Store, job string, known map[string]bool) (bool, error) {
	gone, ok := known[job]
	if ok || job == "" {
		return gone, nil
	}
	r, err := s.Get(ctx, recordKind, job)
	if err != nil && !errors.Is(err, store.ErrNotFound) {
		return false, err
	}
	gone = err != nil && r.Rev > 0 // else it never was here
	known[job] = gone
	return gone, nil
}

// photoCount is what there is of photos.
type photoCount struct {
	n, bytes  int // here, those that are deleted too
	here      int // of them, on this device only
	hereBytes int
	shared    int // on the server too, or there only
}

// countPhotos counts them anew.
func (d *Desk) countPhotos() {
	var n photoCount
	c := d.copying.client
	for _, p := range d.photos {
		name, err := wire.ReadName(p.Picture)
		sent := err == nil && c != nil && c.PhotoSent(name)
		switch here := d.pictures[p.Picture]; {
		case here && !sent:
			n.here++
			n.hereBytes += p.Size
		case p.err == nil:
			n.shared++
		}
		if d.pictures[p.Picture] {
			n.n++
			n.bytes += p.Size + len(p.Small)
		}
	}
	d.photoCount = n
}

// sayPhotos tells how many photos are on this device, and how much room they take; ""
// where there are none.
func (d *Desk) sayPhotos() string {
	n := d.photoCount
	if n.n == 0 {
		return ""
	}
	return d.N(n.n, "%d photo, %s", "%d photos, %s", d.megabytes(n.bytes))
}

// megabytes is an amount of data to a tenth of a megabyte.
func (d *Desk) megabytes(n int) string {
	tenths := (n + 99_999) / 100_000
	return d.F("%s MB", d.Decimal(strconv.Itoa(tenths/10)+"."+strconv.Itoa(tenths%10)))
}

// photosCopied has the server have the photos that are here, after a pass; see
// client.Photos. On hold none is sent. It is called beside the page, with the photos as
// they are now.
func (d *Desk) photosCopied(ctx context.Context, c *client.Client, named []client.Photo, hold bool) error {
	s, blobs := d.store, d.blobs
	if blobs == nil {
		return nil
	}
	return c.Photos(ctx, named, func() ([]client.Photo, bool) {
		records, err := s.List(ctx, photoKind)
		all, ok := []client.Photo{}, err == nil
		for _, r := range records {
			p, err := DecodePhoto(r.Data)
			if err != nil {
				return nil, false
			}
			if one, isName := p.named(); isName {
				all = append(all, one)
			}
		}
		return all, ok
	}, func(name wire.Name) ([]byte, error) {
		if hold {
			return nil, store.ErrNotFound
		}
		return blobs.Blob(ctx, name.String())
	})
}

// named is a photo as the second copy knows it.
func (p *Photo) named() (client.Photo, bool) {
	name, err := wire.ReadName(p.Picture)
	return client.Photo{Name: name, Size: p.Size}, err == nil
}

// namedPhotos are those that can be read.
func (d *Desk) namedPhotos() []client.Photo {
	var out []client.Photo
	for _, p := range d.photos {
		if one, ok := p.named(); ok && d.pictures[p.Picture] {
			out = append(out, one)
		}
	}
	return out
}
