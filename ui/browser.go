package ui

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/plain"
	"chalkfold/draft/say"
)

// browser is what the page's device.js says of the browser.
type browser struct {
	Kept        string  // "yes" or "no": whether it promised to clear nothing; "" is unknown
	Used        float64 // bytes
	Room        float64 // bytes, 0 when unknown
	Installed   bool
	Installable bool // it would put the page on the home screen now
	Beside      bool // other records stand beside those in use
	Sends       bool // it can hand a file to another program
	Scans       bool // it reads codes with its camera
}

// readBrowser asks the browser.
func readBrowser() browser {
	l := loader()
	if l == nil {
		return browser{}
	}
	var b browser
	r := plain.Read([]byte(l.Call("device").String()))
	for key := range r.Object() {
		switch key {
		case "kept":
			b.Kept = r.Text()
		case "used":
			b.Used = r.Float()
		case "room":
			b.Room = r.Float()
		case "installed":
			b.Installed = r.Truth()
		case "installable":
			b.Installable = r.Truth()
		case "beside":
			b.Beside = r.Truth()
		case "sends":
			b.Sends = r.Truth()
		case "scans":
			b.Scans = r.Truth()
		}
	}
	if r.End() != nil {
		return browser{} // a damaged answer reads as one that knows nothing
	}
	return b
}

// hearBrowser follows what the browser says.
func (d *Desk) hearBrowser() {
	if loader() == nil {
		return
	}
	d.browser = readBrowser()
	app.Window().Call("addEventListener", "chalkfold-device", app.FuncOf(func(app.Value, []app.Value) any {
		d.ctx.Dispatch(func(app.Context) { d.browser = readBrowser() })
		return nil
	}))
}

// lookAtBrowser has the browser tell how much room is used, and asks it to keep
// the work when there is some.
func (d *Desk) lookAtBrowser(ask bool) {
	if l := loader(); l != nil {
		l.Call("look", ask)
	}
}

// promise puts in words whether the browser keeps the work.
func (v browser) promise(w *say.Words) string {
	switch {
	case v.Kept == "yes":
		return w.T("The browser has promised to keep your work, also when the device is full.")
	case v.Installed:
		return w.T("The browser may clear your work when the device is full: save a backup file now and then.")
	case v.Kept == "no":
		return w.T("The browser may clear your work when the device is full, or when it was not opened for a week. Keep Chalkfold on the home screen, and save a backup file now and then.")
	}
	return w.T("This browser does not say whether it keeps your work. Keep Chalkfold on the home screen, and save a backup file now and then.")
}

// used puts in words how much room is taken; "" where that is unknown.
func (v browser) used(w *say.Words) string {
	if v.Room == 0 {
		return ""
	}
	return w.F("%s used of the %s that the browser allows", size(w, v.Used), size(w, v.Room))
}

// size tells a number of bytes as it is told in shops.
func size(w *say.Words, bytes float64) string {
	const mega, giga = 1e6, 1e9
	if bytes < giga {
		return w.F("%d MB", int((bytes+mega-1)/mega))
	}
	tenths := int(bytes / (giga / 10))
	return w.F("%d.%d GB", tenths/10, tenths%10)
}

// way tells how the page is put on the home screen where the browser does not
// offer it.
func way(w *say.Words) string {
	return w.T("Open the browser's menu, or its Share menu, and choose “Add to Home screen” or “Install”.")
}
