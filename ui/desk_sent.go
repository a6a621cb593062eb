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

// scanCode looks for a code with the camera, or stops.
func (d *Desk) scanCode() {
	s, l := &d.view.share, loader()
	d.tellShared("", "")
	if s.scan != nil {
		d.stopScan()
		return
	}
	mine := new(byte)
	s.scan = mine
	l.Call("scan", share.VideoID, d.hearOnce(func(v app.Value) {
		if s.scan != mine {
			return // it was stopped
		}
		s.scan = nil
		switch text := v.String(); text {
		case "refused":
			d.tellShared("scan", d.T("The camera was not allowed. Allow it in the browser's settings of this page, or paste the link."))
		case "fault":
			d.tellShared("scan", d.T("The camera does not work here. Paste the link."))
		default:
			d.pasteLink(text)
		}
	}))
}

// stopScan lets go of the camera.
func (d *Desk) stopScan() {
	if l := loader(); l != nil && d.view.share.scan != nil {
		l.Call("stopScan")
	}
	d.view.share.scan = nil
}
