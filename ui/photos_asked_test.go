//go:build !js

package ui

import (
	"testing"

	"chalkfold/sync/store/mem"
)

// TestPhotosAsked: where photos are sent only when it is asked for, a pass takes all but
// these along; asked for, they go once, and the next wait again. The choice is kept.
func TestPhotosAsked(t *testing.T) {
	w := newWired()
	s := &mem.Store{}
	a := copiedOn(t, w, 1, s)
	a.hexIDs()
	a.openSample()
	a.settle()
	a.begin()
	a.stage = stageCopy
	a.copyView().OnPhotos(true)
	a.settle()
	if got := open(t, s, nil); !got.settings.PhotosAsked {
		t.Error("the choice is not kept")
	}
	a.photograph(ofCloth, 200_000)
	carried := w.carried.Len()
	a.copyNowAndSettle()
	if got := w.carried.Len() - carried; got > 50_000 || got == 0 {
		t.Errorf("%d bytes were carried that nobody asked for", got)
	}
	a.shows("Photos with a copy on the server: 0. Photos only on this phone: 1 (0.2 MB).", "Send 1 photo now, 0.2 MB", "carries small pictures only")
	if got := a.sayCopied(); got != "1 photo is on this phone only." {
		t.Errorf("the book says %q", got)
	}
	carried = w.carried.Len()
	a.copyView().OnSend()
	a.copyNowAndSettle()
	if got := w.carried.Len() - carried; got < 200_000 {
		t.Errorf("%d bytes were carried of a photo of 200,000", got)
	}
	a.shows("Photos with a copy on the server: 1.")
	if v := a.copyView(); v.Photos != "" {
		t.Errorf("asked again: %q", v.Photos)
	}
	a.photograph(ofFitting, 100_000)
	carried = w.carried.Len()
	a.copyNowAndSettle()
	if got := w.carried.Len() - carried; got > 50_000 {
		t.Errorf("%d bytes of the next were carried", got)
	}
	a.copyView().OnPhotos(false)
	a.copyNowAndSettle()
	if got := w.carried.Len() - carried; got < 100_000 {
		t.Errorf("%d bytes were carried with the rest", got)
	}
}
