package ui

import (
	"context"
	"errors"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/plain"
	"chalkfold/sync/store"
)

// The record of the settings.
const (
	deviceKind = "device"
	deviceID   = "this"
)

// settingsVersion is the version of the record.
const settingsVersion = 1

// Settings are how this device shows the work. They are no part of a backup.
type Settings struct {
	Language string // its tag, as say.Find knows it; empty until one is chosen
	Singly   bool   // the tape asks for one measurement at a time
	Signs    bool   // the maker knows what the signs of findings mean
	Machine  string // at hand, as bench.Machine; empty is the plainest
	Printer  string // the one in use; empty prints as it is
	Printers []Printer
	// PhotosAsked: photos go into the second copy only when the maker asks for it.
	PhotosAsked bool
}

// Printer is a printer whose square was measured. Across and along the sheet it
// is sent so much more than it shall print, in millionths.
type Printer struct {
	Name   string
	Across int
	Along  int
}

func (s Settings) encode() ([]byte, error) {
	w := &plain.Writer{}
	w.Open('{')
	w.Key("version").Int(settingsVersion)
	w.TextIf("language", s.Language)
	w.TruthIf("singly", s.Singly)
	w.TruthIf("signs", s.Signs)
	w.TextIf("machine", s.Machine)
	w.TextIf("printer", s.Printer)
	w.TruthIf("photos_asked", s.PhotosAsked)
	if len(s.Printers) > 0 {
		w.Key("printers").Open('[')
		for _, p := range s.Printers {
			w.Next().Open('{')
			w.Key("name").Text(p.Name)
			w.Key("across").Int(int64(p.Across))
			w.Key("along").Int(int64(p.Along))
			w.Shut('}')
		}
		w.Shut(']')
	}
	w.Shut('}')
	return w.Done()
}

// decodeSettings reads settings; what cannot be read is as if nothing had been
// chosen, since every setting can be chosen again.
func decodeSettings(data []byte) Settings {
	var s Settings
	var version int64
	r := plain.Read(data)
	for key := range r.Object() {
		switch key {
		case "version":
			version = r.Int()
		case "language":
			s.Language = r.Text()
		case "singly":
			s.Singly = r.Truth()
		case "signs":
			s.Signs = r.Truth()
		case "machine":
			s.Machine = r.Text()
		case "printer":
			s.Printer = r.Text()
		case "photos_asked":
			s.PhotosAsked = r.Truth()
		case "printers":
			s.Printers = nil
			for range r.List() {
				s.Printers = append(s.Printers, readPrinter(r))
			}
		}
	}
	if r.End() != nil || version != settingsVersion {
		return Settings{}
	}
	return s
}

func readPrinter(r *plain.Reader) (p Printer) {
	for key := range r.Object() {
		switch key {
		case "name":
			p.Name = r.Text()
		case "across":
			p.Across = int(r.Int())
		case "along":
			p.Along = int(r.Int())
		}
	}
	return p
}

// readSettings reads the settings and their revision. Without an answer nothing
// was chosen.
func readSettings(ctx context.Context, s store.Store) (Settings, uint32) {
	r, err := s.Get(ctx, deviceKind, deviceID)
	if err != nil {
		return Settings{}, r.Rev
	}
	return decodeSettings(r.Data), r.Rev
}

// set changes the settings, and keeps them.
func (d *Desk) set(change func(*Settings)) {
	change(&d.settings)
	k := d.device
	if k == nil {
		return
	}
	data, err := d.settings.encode()
	if err != nil {
		d.fault = d.sayFault(err)
		return
	}
	k.Retry()
	k.Change(data)
	d.saveSettings()
}

// saveSettings saves as save does, but where another window was first, the
// choice made last stands: this one.
func (d *Desk) saveSettings() {
	k, s := d.device, d.store
	r, ok := k.Next()
	if !ok {
		return
	}
	d.ctx.Async(func() {
		err := s.Put(d.ctx, r)
		var rev uint32
		if errors.Is(err, store.ErrStale) {
			_, rev = readSettings(d.ctx, s)
		}
		d.ctx.Dispatch(func(app.Context) {
			k.Done(err)
			switch k.Saving() {
			case Elsewhere:
				if rev <= k.rev { // it could not be read anew
					d.fault = d.sayFault(err)
					return
				}
				k.Overwrite(rev)
			case Failed:
				d.fault = d.sayFault(k.Fault())
			case Saved, Writing:
			}
			d.saveSettings()
		})
	})
}
