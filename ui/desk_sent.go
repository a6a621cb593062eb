package ui

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/sync/link"
	"chalkfold/ui/share"
)

// pasted is of what is told where the book's field for a link holds none.
const pasted = "pasted"

// pasteLink takes what is pasted into a field for a link, in the book, at the
// house rules or at Share: each leads to where such a link is looked at. The book
// keeps what is none.
func (d *Desk) pasteLink(text string) {
	d.view.house.paste, d.view.house.look = "", nil
	d.view.share.paste, d.view.share.look = "", nil
	kind, ok := link.KindOf(text)
	if !ok && d.hearPairing(text) {
		d.turn(stageCopy)
		return
	}
	toHouse := d.stage == stageHouse
	if ok {
		toHouse = kind == link.Rules
	}
	if toHouse {
		d.view.house.paste = text
	} else {
		d.view.share.paste = text
	}
	d.tellShared("", "")
	to := stageShare
	switch {
	case text == "":
		return
	case !ok && d.stage == stageBook:
		d.tellShared(pasted, d.sayLinkRefused(link.ErrNone))
		return
	case toHouse:
		d.lookAt(text)
		to = stageHouse
	default:
		d.lookAtLink(text)
	}
	if d.stage != to {
		d.turn(to)
	}
}

// scanCode looks for the code of a link with the camera, or stops.
func (d *Desk) scanCode() {
	d.tellShared("", "")
	d.scan(share.VideoID, func(text string) {
		switch text {
		case scanRefused:
			d.tellShared("scan", d.T("The camera was not allowed. Allow it in the browser's settings of this page, or paste the link."))
		case scanFault:
			d.tellShared("scan", d.T("The camera does not work here. Paste the link."))
		default:
			d.pasteLink(text)
		}
	})
}

// What is told in place of a code.
const (
	scanRefused = "refused"
	scanFault   = "fault"
)

// scan shows the camera in a video and looks for a code, or stops. found hears its text,
// or why there is no looking.
func (d *Desk) scan(video string, found func(text string)) {
	if d.scanning != nil {
		d.stopScan()
		return
	}
	mine := new(byte)
	d.scanning = mine
	loader().Call("scan", video, d.hearOnce(func(v app.Value) {
		if d.scanning == mine { // it was not stopped
			d.scanning = nil
			found(v.String())
		}
	}))
}

// stopScan lets go of the camera.
func (d *Desk) stopScan() {
	if l := loader(); l != nil && d.scanning != nil {
		l.Call("stopScan")
	}
	d.scanning = nil
}
