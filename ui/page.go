package ui

import (
	"encoding/json"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/say"
)

// files is what the loader says of the files kept for use without a network.
type files struct {
	Have    int    `json:"have"`
	Want    int    `json:"want"`
	Version string `json:"version"`
	Waiting bool   `json:"waiting"` // a newer version waits
	Fault   string `json:"fault"`   // "cannot", "partly", or what the browser said
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
	var f files
	if l := loader(); l != nil {
		// A damaged answer reads as not ready, which is safe.
		_ = json.Unmarshal([]byte(l.Call("files").String()), &f)
	}
	return f
}
