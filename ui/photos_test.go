//go:build !js

package ui

import (
	"bytes"
	"context"
	"encoding/hex"
	"errors"
	"os"
	"strings"
	"testing"
	"time"

	"chalkfold/sync/store"
	"chalkfold/sync/store/mem"
)

// TestPhotoRecord: what was kept by every version is read, and kept again as it is now.
func TestPhotoRecord(t *testing.T) {
	was, err := os.ReadFile("testdata/photo-1.json")
	if err != nil {
		t.Fatal(err)
	}
	p, err := DecodePhoto(was)
	if err != nil || p.Job != "a1" || p.Of != ofFitting || p.On != "2031-05-17" || p.Size != 180_321 || p.Wide != 960 || len(p.Small) != 3 {
		t.Fatalf("%+v, %v", p, err)
	}
	if again, err := p.Encode(); err != nil || !bytes.Equal(again, bytes.TrimSpace(was)) {
		t.Errorf("kept again it is\n%s\nwas\n%s, %v", again, was, err)
	}
	for _, bad := range []string{``, `{}`, `[]`, `{"version":2}`, `{"version":1,"size":-1}`, `{"version":1,"small":"?"}`} {
		if _, err := DecodePhoto([]byte(bad)); err == nil {
			t.Errorf("%q was read", bad)
		}
	}
}

// jpegOf is what stands for a JPEG of so many bytes: no test here decodes it.
func jpegOf(size int) []byte { return bytes.Repeat([]byte{0xff, 0xd8, '<', 7}, size/4+1)[:size] }

// photograph takes a photo of the open job.
func (b tried) photograph(of string, size int) *photo {
	b.t.Helper()
	before := len(b.photos)
	b.unkept = append(b.unkept, taken{b.keeper.id, of, jpegOf(size), []byte{1, 2, 3}, 1280, 960})
	b.keepTaken()
	b.settle()
	if len(b.photos) != before+1 {
		b.t.Fatalf("it has %d photos, had %d: %q", len(b.photos), before, b.view.album.told)
	}
	return b.photos[before]
}

func TestDeskPhotos(t *testing.T) {
	s := &mem.Store{}
	b := open(t, s, nil)
	b.openSample()
	b.settle()
	b.photograph(ofCloth, 250_000)
	p := b.photograph(ofFitting, 150_000)
	if got := b.sayPhotos(); got != "2 photos, 0.5 MB" { // rounded up
		t.Errorf("it says %q", got)
	}
	b.stage = stageFitting
	b.shows("Photos of the fitting", "Fitting, 17 May 2031")
	b.stage = stageCloth
	b.view.cloth.photos = true
	b.shows("Cloth, 17 May 2031")
	b.stage = stageBook
	b.cardView().OnDetails()
	b.shows("Photos", "Cloth, 17 May 2031", "Fitting, 17 May 2031", "with the photos")

	b.lookAtPhoto(p.id, "")
	b.settle()
	page := b.photoPage()
	if page == nil || page.At != 2 || page.Most != 2 || !strings.Contains(page.Picture, `viewBox="0 0 1280 960"`) || page.Told != "" {
		t.Fatalf("the page is %+v", page)
	}
	if want := 150_000 / 3 * 4; len(page.Picture) < want {
		t.Errorf("the picture has %d letters, want %d: it is the small one", len(page.Picture), want)
	}
	page.OnNote("drag at the back waist")
	b.settle()
	b.shows("Delete this photo")
	if got := b.photoPage().Note; got != "drag at the back waist" {
		t.Errorf("the note is %q", got)
	}
	b.photoPage().OnStep(-1)
	b.settle()
	b.shows("1 of 2")
	b.photoPage().OnStep(1)
	b.settle()

	// In another window; deleted there, and recovered.
	next := open(t, s, nil)
	if len(next.photos) != 2 || next.photo(p.id).Note != "drag at the back waist" {
		t.Fatalf("another window has %d photos", len(next.photos))
	}
	next.lookAtPhoto(p.id, "")
	next.settle()
	next.photoPage().OnDelete()
	next.shows("Yes, delete it")
	next.photoPage().OnDelete()
	next.settle()
	if next.photoPage() != nil || len(next.photosOf(p.Job, "")) != 1 {
		t.Error("it is still shown")
	}
	next.stage, next.view.book.view = stageBook, "deleted"
	next.shows("Photo: Fitting, 17 May 2031, Alto 3", "until 16 Jun 2031")
	next.recover(p.id)
	next.settle()
	if len(next.photosOf(p.Job, "")) != 2 {
		t.Error("it did not come back")
	}
}

// fullStore has no room for pictures.
type fullStore struct {
	*mem.Store
	full bool
}

func (s *fullStore) PutBlob(ctx context.Context, name string, data []byte, records ...store.Record) error {
	if s.full {
		return store.ErrFull
	}
	return s.Store.PutBlob(ctx, name, data, records...)
}

// TestPhotoFull: where there is no room a photo stays on the page until there is.
func TestPhotoFull(t *testing.T) {
	s := &fullStore{Store: &mem.Store{}, full: true}
	b := open(t, s, nil)
	b.openSample()
	b.settle()
	for _, of := range []string{ofCloth, ofFitting} {
		b.unkept = append(b.unkept, taken{b.keeper.id, of, jpegOf(100), nil, 4, 3})
		b.keepTaken()
		b.settle()
	}
	b.stage = stageFitting
	b.shows("There is no room left on this device for the photo", "the photo is still on this page", "Try again")
	if len(b.photos) != 0 || len(b.unkept) != 2 {
		t.Fatalf("%d photos are kept, %d not", len(b.photos), len(b.unkept))
	}
	s.full = false
	b.photosView("fitting", "", ofFitting).OnAgain()
	b.settle()
	if len(b.photos) != 2 || len(b.unkept) != 0 || b.view.album.told != "" {
		t.Errorf("%d photos are kept, %d not: %q", len(b.photos), len(b.unkept), b.view.album.told)
	}
}

// TestPhotosClearedAway: after 30 days a photo is gone with its picture, and so is one
// whose job is; what is left of others is dropped, and nothing else.
func TestPhotosClearedAway(t *testing.T) {
	ctx, s := context.Background(), &mem.Store{}
	b := open(t, s, nil)
	b.openSample()
	b.settle()
	stays, deleted := b.photograph(ofCloth, 10), b.photograph(ofCloth, 20)
	deleted.Deleted = b.now()
	b.keepPhoto(deleted)
	b.settle()
	data, err := (&Photo{Job: "gone", Of: ofCloth, Picture: "of-gone", Size: 3}).Encode()
	if err != nil {
		t.Fatal(err)
	}
	for _, err := range []error{
		s.PutBlob(ctx, "of-gone", []byte("abc"), store.Record{Kind: photoKind, ID: "of-gone", Rev: 1, Data: data}),
		s.PutBlob(ctx, "of-none", []byte("abc")),
		s.Put(ctx, store.Record{Kind: recordKind, ID: "gone", Rev: 1, Data: []byte("{}")}),
		s.Delete(ctx, recordKind, "gone", 1),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}
	names := func(at time.Time) string {
		t.Helper()
		_, here, err := readPhotos(ctx, s, s, func() time.Time { return at }, map[string]bool{})
		if err != nil {
			t.Fatal(err)
		}
		all, err := s.BlobNames(ctx)
		if err != nil || len(all) != len(here) {
			t.Errorf("%d pictures are here, %d are told, %v", len(all), len(here), err)
		}
		return strings.Join(all, " ")
	}
	if got := names(clock()); got != stays.Picture+" "+deleted.Picture {
		t.Errorf("there are %q", got)
	}
	if got := names(clock().Add(31 * 24 * time.Hour)); got != stays.Picture {
		t.Errorf("after 30 days there are %q", got)
	}
	// One that cannot be read may name any.
	if err := s.PutBlob(ctx, "of-newer", []byte("abc"), store.Record{Kind: photoKind, ID: "newer", Rev: 1, Data: []byte(`{"version":9}`)}); err != nil {
		t.Fatal(err)
	}
	if got := names(clock()); got != stays.Picture+" of-newer" {
		t.Errorf("with one of a newer version there are %q", got)
	}
}

// TestBackupPictures: a backup file has the pictures by choice; what was taken from one
// phone is on another as it was; one that is damaged is refused, before anything is put.
func TestBackupPictures(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	b.openSample()
	b.settle()
	one, two := b.photograph(ofCloth, 40_000), b.photograph(ofFitting, 3_000_000) // more than is read at once
	b.stage = stageBook
	var file []byte
	b.handLines = func(_ string, next func() ([]byte, error), _ bool, done func(bool, error)) {
		file = nil
		for line, err := next(); line != nil || err != nil; line, err = next() {
			if err != nil {
				t.Fatal(err)
			}
			file = append(file, line...)
		}
		done(true, nil)
	}
	h := b.catch(true)
	b.leanBackup = true
	b.saveBackup(false)
	b.settle()
	if file != nil || len(h.file) > 100_000 {
		t.Errorf("without pictures the file has %d bytes", len(h.file))
	}
	b.leanBackup = false
	b.saveBackup(false)
	b.settle()
	b.shows("Handed over as")
	if len(file) < 4_000_000 || !bytes.Contains(file, []byte(`"chalkfold_backup":3`)) {
		t.Fatalf("with pictures it has %d bytes", len(file))
	}

	restored := func(file []byte) tried {
		t.Helper()
		other := open(t, &mem.Store{}, nil)
		other.stage = stageBook
		other.takeFile(textFile(string(file)))
		other.settle()
		other.shows("Photos in the file: 2. New here: 2. Different from here: 0.", "With the pictures of 2 photos.")
		other.restore(false)
		other.settle()
		for _, p := range []*photo{one, two} {
			was, _ := b.blobs.Blob(t.Context(), p.Picture)
			if is, err := other.blobs.Blob(t.Context(), p.Picture); err != nil || !bytes.Equal(is, was) {
				t.Errorf("a picture of %d bytes came back with %d, %v", len(was), len(is), err)
			}
		}
		if len(other.photos) != 2 || other.sayPhotos() != b.sayPhotos() {
			t.Errorf("it has %q, want %q", other.sayPhotos(), b.sayPhotos())
		}
		return other
	}
	other := restored(file)
	restored(bytes.ReplaceAll(file, []byte("\n"), []byte("\r\n")))
	restored(bytes.ReplaceAll(file, []byte("\n"), nil)) // in one line
	before := backupOf(t, other.store)
	other.takeFile(textFile(string(file)))
	other.settle()
	other.shows("Photos in the file: 2. New here: 0. Different from here: 0.")
	other.restore(false)
	other.settle()
	if after := backupOf(t, other.store); !bytes.Equal(after, before) {
		t.Error("the same file again has changed something")
	}

	lines := bytes.Split(file, []byte("\n"))
	without := func(i int) []byte {
		return bytes.Join(append(append([][]byte{}, lines[:i]...), lines[i+1:]...), []byte("\n"))
	}
	changed := bytes.Clone(file)
	changed[len(file)-100_000] ^= 1
	for what, bad := range map[string][]byte{
		"cut short": file[:len(file)-3], "without its end": without(len(lines) - 1), "cut in a picture": file[:len(file)/2],
		"without its head": without(0), "a picture changed": changed, "more after the end": append(bytes.Clone(file), "\n{}"...),
	} {
		fresh := open(t, &mem.Store{}, nil)
		fresh.stage = stageBook
		fresh.takeFile(textFile(string(bad)))
		fresh.settle()
		fresh.shows("Nothing was restored and nothing is changed")
		if fresh.keeping.restoring != nil {
			t.Errorf("%s: it can be restored", what)
		}
	}
}

// hexIDs gives a desk ids as the browser does.
func (b tried) hexIDs() {
	b.deps.NewID = func() string {
		id := make([]byte, 16)
		b.deps.Random(id)
		return hex.EncodeToString(id)
	}
}

// TestPhotosCopied: what one phone takes is seen on another when it is looked at there;
// what is deleted for good goes from the server; the account tells of it.
func TestPhotosCopied(t *testing.T) {
	w := newWired()
	sa, sb := &mem.Store{}, &mem.Store{}
	a, b := copiedOn(t, w, 1, sa), copiedOn(t, w, 2, sb)
	a.hexIDs()
	a.openSample()
	a.settle()
	words := a.begin()
	p := a.photograph(ofCloth, 200_000)
	a.stage = stageCopy
	a.shows("Photos with a copy on the server: 0. Photos only on this phone: 1 (0.2 MB).")
	if got := a.sayCopied(); got != "1 record is on this phone only." {
		t.Errorf("the book says %q", got)
	}
	a.copyNowAndSettle()
	a.shows("Photos with a copy on the server: 1. Photos only on this phone: 0 (0.0 MB).")
	if bytes.Contains(w.carried.Bytes(), jpegOf(200)) {
		t.Error("the picture was carried as it is")
	}

	b.stage = stageCopy
	b.copyView().OnJoin()
	b.copyView().OnType(0, strings.Join(words, " "))
	b.copyView().OnEnter()
	b.copyNowAndSettle()
	b.settle()
	there := b.photo(p.id)
	if there == nil || b.pictures[p.Picture] || !bytes.Equal(there.Small, p.Small) {
		t.Fatalf("the other phone has %d photos, the picture: %v", len(b.photos), b.pictures[p.Picture])
	}
	carried := w.carried.Len()
	b.lookAtPhoto(p.id, "")
	b.settle()
	if got := w.carried.Len() - carried; got < 200_000 || got > 300_000 {
		t.Errorf("%d bytes were carried for it", got)
	}
	if was, err := sb.Blob(t.Context(), p.Picture); err != nil || !bytes.Equal(was, jpegOf(200_000)) || b.photoPage().Told != "" {
		t.Errorf("the picture came as %d bytes, %v: %q", len(was), err, b.photoPage().Told)
	}
	carried = w.carried.Len()
	b.lookAtPhoto(p.id, "")
	b.settle()
	if w.carried.Len() != carried {
		t.Error("it was fetched twice")
	}

	// Deleted on one, cleared away after 30 days, it is nowhere any more.
	p.Deleted = a.now()
	a.keepPhoto(p)
	a.copyNowAndSettle()
	later := a.deps.Now
	a.deps.Now = func() time.Time { return later().Add(31 * 24 * time.Hour) }
	a.listPhotos()
	a.settle()
	a.copyNowAndSettle()
	b.copyNowAndSettle()
	b.settle()
	for name, d := range map[string]tried{"the first": a, "the second": b} {
		if names, err := d.blobs.BlobNames(t.Context()); err != nil || len(names) > 0 || len(d.photos) > 0 {
			t.Errorf("%s phone still has %d pictures of %d photos, %v", name, len(names), len(d.photos), err)
		}
	}
	if u, err := a.copying.client.Usage(t.Context()); err != nil || u.Chunks != 0 {
		t.Errorf("the server still has %d chunks, %v", u.Chunks, err)
	}
}

// TestPhotoAway: a picture that is nowhere to be had is told of, and tried again.
func TestPhotoAway(t *testing.T) {
	w := newWired()
	b := copied(t, w, 1)
	b.hexIDs()
	b.openSample()
	b.settle()
	p := b.photograph(ofCloth, 5_000)
	if err := b.blobs.DropBlobs(t.Context(), p.Picture); err != nil {
		t.Fatal(err)
	}
	b.lookAtPhoto(p.id, "")
	b.settle()
	b.shows("The whole picture is not on this device.")
	b.closePhoto()
	b.begin()
	b.lookAtPhoto(p.id, "")
	b.settle()
	b.shows("The whole picture is not on the server yet", "Fetch it again")
	if _, err := b.blobs.Blob(t.Context(), p.Picture); !errors.Is(err, store.ErrNotFound) {
		t.Error(err)
	}
}
