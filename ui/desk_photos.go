package ui

import (
	"errors"
	"slices"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/sync/client"
	"chalkfold/sync/seal"
	"chalkfold/sync/store"
	"chalkfold/sync/wire"
	"chalkfold/ui/album"
	"chalkfold/ui/kit"
)

// albumViewed is how photos are looked at.
type albumViewed struct {
	told  string // what became of the last one that was taken
	id    string // of the one on the whole screen
	of    string // the kind among which it is looked at; "" is all of the job's
	svg   string // the picture
	fault string // why there is none
	got   []byte // what has been fetched of it
	sure  bool   // one more tap deletes it
	from  int    // how far the page was scrolled down
}

// taken is a picture that was taken and is not kept yet.
type taken struct {
	job, of    string
	jpeg       []byte
	small      []byte
	wide, high int
}

// photosView is what a stage shows of the open job's photos of a kind, "" for all.
func (d *Desk) photosView(id, title, of string) album.View {
	if d.blobs == nil || d.keeper == nil {
		return album.View{}
	}
	v := album.View{
		Words: d.Words, ID: id, Title: title, Told: d.view.album.told, Again: len(d.unkept) > 0,
		OnLook: func(id string) { d.lookAtPhoto(id, of) }, OnAgain: d.keepTaken,
		OnFile: func(file app.Value) {
			kind := of
			if kind == "" {
				kind = ofCloth
			}
			d.takePhoto(kind, file)
		},
	}
	for _, p := range d.photosOf(d.keeper.id, of) {
		s := album.Small{ID: p.id, Name: d.photoName(p), JPEG: p.Small, Lines: []string{p.On.Text(d.Words)}}
		if of == "" {
			s.Lines = slices.Insert(s.Lines, 0, d.photoKindName(p.Of))
		}
		if p.Note != "" {
			s.Lines = append(s.Lines, p.Note)
		}
		v.Photos = append(v.Photos, s)
	}
	return v
}

func (d *Desk) photoKindName(of string) string {
	if of == ofFitting {
		return d.T("Fitting")
	}
	return d.T("Cloth")
}

// photoName is how a photo is called where the name cannot be empty.
func (d *Desk) photoName(p *photo) string {
	if p.err != nil {
		return d.T("Cannot be read")
	}
	return d.F("%s, %s", d.photoKindName(p.Of), p.On.Text(d.Words))
}

// deletedPhoto is how one is called among all that is deleted.
func (d *Desk) deletedPhoto(p *photo) string {
	if j := find(d.records, p.Job); j != nil {
		return d.F("Photo: %s, %s", d.photoName(p), d.ticket(j.Ticket))
	}
	return d.F("Photo: %s", d.photoName(p))
}

// takePhoto makes a picture that was taken small enough to be kept, and keeps it.
func (d *Desk) takePhoto(of string, file app.Value) {
	l := loader()
	if l == nil || d.keeper == nil {
		return
	}
	job := d.keeper.id
	d.view.album.told = d.T("One moment…")
	l.Call("shrink", file, d.hearOnce(func(v app.Value) {
		if !v.Truthy() {
			d.view.album.told = d.T("The browser cannot read this picture. Nothing was kept of it: choose another, or take it again.")
			return
		}
		bytes := func(v app.Value) []byte {
			data := make([]byte, v.Length())
			app.CopyBytesToGo(data, v)
			return data
		}
		d.unkept = append(d.unkept, taken{job, of, bytes(v.Get("whole")), bytes(v.Get("small")), v.Get("wide").Int(), v.Get("high").Int()})
		d.keepTaken()
	}))
}

// keepTaken keeps the pictures that were taken, one after the other. One that cannot be
// kept stays on the page, to be tried again.
func (d *Desk) keepTaken() {
	if len(d.unkept) == 0 {
		return
	}
	t := d.unkept[0]
	d.unkept = d.unkept[1:]
	if k := d.keeper; k != nil && k.id == t.job && k.rev == 0 && k.Saving() == Saved {
		d.keep() // a job that nothing was entered in yet
	}
	p := &photo{&Photo{Job: t.job, Of: t.of, On: d.today(), Picture: d.deps.NewID(), Size: len(t.jpeg), Wide: t.wide, High: t.high, Small: t.small}, filing{id: d.deps.NewID()}}
	p.keeper = NewKeeper(photoKind, p.id, 1, d.deps.Now)
	data, err := p.Encode()
	if err != nil {
		d.fault = d.sayFault(err)
		return
	}
	r := store.Record{Kind: photoKind, ID: p.id, Rev: 1, Data: data, Updated: d.deps.Now()}
	blobs := d.blobs
	d.ctx.Async(func() {
		err := blobs.PutBlob(d.ctx, p.Picture, t.jpeg, r)
		d.ctx.Dispatch(func(app.Context) {
			if err != nil {
				d.unkept = append(d.unkept, t)
				d.view.album.told = d.sayNotKept(err)
				return
			}
			d.view.album.told = ""
			d.photos = append(d.photos, p)
			d.pictures[p.Picture] = true
			d.photosKept++
			d.countPhotos()
			d.copyTouched(photoKind, p.id)
			d.askToKeep()
			d.keepTaken()
		})
	})
}

func (d *Desk) sayNotKept(err error) string {
	if errors.Is(err, store.ErrFull) {
		return d.T("There is no room left on this device for the photo. Nothing that was kept is lost, and the photo is still on this page: make room on the device, and try again.")
	}
	return d.F("The photo is not kept yet. %s", d.sayFault(err))
}

// lookAtPhoto shows one on the whole screen, among those of a kind.
func (d *Desk) lookAtPhoto(id, of string) {
	p := d.photo(id)
	if p == nil {
		return
	}
	was := d.view.album
	d.view.album = albumViewed{told: was.told, id: id, of: of, from: was.from}
	if len(p.Small) > 0 { // until there is more
		d.view.album.svg = album.Picture(p.Small, p.Wide, p.High)
	}
	if was.id == "" {
		d.lift(true, &d.view.album.from)
	}
	blobs := d.blobs
	d.ctx.Async(func() {
		data, err := blobs.Blob(d.ctx, p.Picture)
		d.ctx.Dispatch(func(app.Context) {
			switch {
			case d.view.album.id != id:
			case err == nil:
				d.view.album.svg = album.Picture(data, p.Wide, p.High)
			case errors.Is(err, store.ErrNotFound):
				d.fetchPicture(p)
			default:
				d.view.album.fault = d.sayFault(err)
			}
		})
	})
}

// fetchPicture fetches the picture of a photo that another phone took.
func (d *Desk) fetchPicture(p *photo) {
	at := &d.view.album
	name, err := wire.ReadName(p.Picture)
	c := d.copying.client
	if err != nil || c == nil || !c.Begun() {
		at.fault = d.T("The whole picture is not on this device.")
		return
	}
	at.fault = d.T("Fetching the picture…")
	got := at.got
	var keptErr error
	d.copyAsk(func() error {
		err := c.FetchPhoto(d.ctx, name, p.Size, len(got)/seal.ChunkText, func(_ int, text []byte) error {
			got = append(got, text...)
			return nil
		})
		if err == nil {
			keptErr = d.blobs.PutBlob(d.ctx, p.Picture, got)
		}
		return err
	}, func(err error) {
		if err == nil && keptErr == nil {
			d.pictures[p.Picture] = true
			d.countPhotos()
		}
		if at.id != p.id {
			return
		}
		switch {
		case errors.Is(err, client.ErrNoChunk):
			at.fault = d.T("The whole picture is not on the server yet. It comes when the phone that took it has been on the network.")
		case err != nil:
			at.fault, at.got = d.sayCopyFault(err), got
		default:
			at.fault = ""
			at.svg = album.Picture(got, p.Wide, p.High)
			if keptErr != nil {
				at.fault = d.sayFault(keptErr)
			}
		}
	})
}

// photoPage is the photo on the whole screen; nil when none is.
func (d *Desk) photoPage() *album.Page {
	at := &d.view.album
	p := d.photo(at.id)
	if at.id == "" || p == nil || p.err != nil || p.Deleted > 0 {
		return nil
	}
	all := d.photosOf(p.Job, at.of)
	i := slices.Index(all, p)
	if i < 0 { // it was moved to the other kind
		all, i = []*photo{p}, 0
	}
	// change changes the photo as it is by then: it may have been read anew since the
	// page was drawn.
	change := func(do func(p *photo)) {
		if p := d.photo(at.id); p != nil {
			do(p)
			d.keepPhoto(p)
		}
	}
	return &album.Page{
		Words: d.Words, ID: p.id, Name: d.photoName(p), Picture: at.svg, Told: at.fault, Fetch: at.fault != "" && d.copying.asked == 0,
		Note: p.Note, Of: p.Of, Kinds: []kit.Choice{{ID: ofCloth, Name: d.T("Cloth")}, {ID: ofFitting, Name: d.T("Fitting")}},
		Sure: at.sure, At: i + 1, Most: len(all),
		OnClose: d.closePhoto,
		OnStep: func(by int) {
			all := d.photosOf(p.Job, at.of)
			next := by + slices.IndexFunc(all, func(p *photo) bool { return p.id == at.id })
			if next >= 0 && next < len(all) {
				d.lookAtPhoto(all[next].id, at.of)
			}
		},
		OnNote: func(text string) { change(func(p *photo) { p.Note = clipTo(text, longest) }) },
		OnOf:   func(of string) { change(func(p *photo) { p.Of = of }) },
		OnDelete: func() {
			if !at.sure {
				at.sure = true
				return
			}
			change(func(p *photo) { p.Deleted = d.now() })
			d.countPhotos()
			d.closePhoto()
			d.view.album.told = d.T("Deleted. It can be recovered for 30 days: Book, Deleted.")
		},
		OnFetch: func() {
			if p := d.photo(at.id); p != nil {
				d.fetchPicture(p)
			}
		},
	}
}

func (d *Desk) closePhoto() {
	d.lift(false, &d.view.album.from)
	d.view.album = albumViewed{told: d.view.album.told}
}
