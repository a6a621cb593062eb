package ui

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/plain"
	"chalkfold/draft/say"
)

// files is what the loader says of the files kept for use without a network.
type files struct {
	Whole      bool // both parts of the program are here
	Have, Want int64
	Version    string
	Waiting    bool   // a newer version waits
	Fault      string // "cannot", "partly", or what the browser said
}

// ready reports whether every file is kept. It is counted, never assumed.
func (f files) ready() bool { return f.Want > 0 && f.Have == f.Want }

// say puts it in words.
func (f files) say(w *say.Words) string {
	switch {
	case f.ready():
		return w.T("Ready without a network")
	case f.Fault == "cannot":
		return w.T("Needs the network: this browser cannot keep the program for use without one")
	case f.Fault == "partly":
		return w.T("Needs the network: not all files could be fetched; this is tried again when there is one")
	case f.Fault != "":
		return w.F("Needs the network: %s", f.Fault)
	}
	return w.T("Not yet ready without a network")
}

// loader is the page's start.js, nil in a test without a document.
func loader() app.Value {
	l := app.Window().Get("chalkfold")
	if l == nil || !l.Truthy() {
		return nil
	}
	return l
}

// readFiles asks the loader.
func readFiles() files {
	l := loader()
	if l == nil {
		return files{}
	}
	var f files
	r := plain.Read([]byte(l.Call("files").String()))
	for key := range r.Object() {
		switch key {
		case "whole":
			f.Whole = r.Truth()
		case "have":
			f.Have = r.Int()
		case "want":
			f.Want = r.Int()
		case "version":
			f.Version = r.Text()
		case "waiting":
			f.Waiting = r.Truth()
		case "fault":
			f.Fault = r.Text()
		}
	}
	if r.End() != nil {
		return files{} // a damaged answer reads as not ready, which is safe
	}
	return f
}
