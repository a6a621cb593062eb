//go:build !js

package ui

import (
	"context"
	"net/http"
	"strings"
	"testing"

	"chalkfold/sync/wire"
	"chalkfold/ui/second"
)

// hanging is a line on which nothing is answered: each message is told of, and waits.
type hanging struct{ asked chan string }

func (h hanging) Send(ctx context.Context, path, _ string, _ []byte) (int, []byte, error) {
	h.asked <- path
	<-ctx.Done()
	return 0, nil, ctx.Err()
}

// TestPassGivesWay: what the maker asks for does not wait for the network, and the pass
// that gave way is made after.
func TestPassGivesWay(t *testing.T) {
	a := copied(t, newWired(), 1)
	a.openSample()
	a.settle()
	a.begin()
	was := a.copying.line.Line
	h := hanging{make(chan string)}
	a.copying.line.Line = h
	a.copyNow()
	<-h.asked
	if !a.copyView().Passing || a.copyView().Busy {
		t.Error("a pass keeps the maker from the keys, or is not told of")
	}
	saved := a.catch(true)
	a.copyView().OnSave()
	a.settle() // never ends where the pass does not give way
	if len(saved.file) == 0 {
		t.Error("the file was not saved")
	}
	if a.copying.err != nil || !a.copying.table.Due(a.now()) {
		t.Errorf("the pass is not made again at once, or counts as failed: %v", a.copying.err)
	}
	a.copying.line.Line = was
	a.copyNowAndSettle()
	a.shows("On this phone only: 0 records")
}

// TestTurnAway: whoever waits for the server can go back, and hears no more of it.
func TestTurnAway(t *testing.T) {
	a := copied(t, newWired(), 1)
	a.begin()
	h := hanging{make(chan string)}
	a.copying.line.Line = h
	a.copyView().OnPair()
	if path := <-h.asked; path != "box/put" || !a.copyView().Busy {
		t.Errorf("asked for %s, busy %v", path, a.copyView().Busy)
	}
	a.copyView().OnBack()
	a.settle()
	if v := a.copyView(); v.Step != second.Begun || v.Busy || v.Told != "" {
		t.Errorf("after going back: %+v", v)
	}
}

// TestListening: a phone that listens is told of what another has sent, makes a pass for
// it, and none for what it has sent itself.
func TestListening(t *testing.T) {
	a := copied(t, newWired(), 1)
	var heard func([]byte)
	var over func()
	listened, stopped := "", 0
	a.deps.Listen = func(workshop, bearer string, h func([]byte), o func()) func() {
		listened, heard, over = workshop+" "+bearer, h, o
		return func() { stopped++ }
	}
	a.begin()
	workshop, bearer := a.copying.client.Credentials()
	if listened != workshop+" "+bearer || len(workshop) != 32 {
		t.Errorf("it listens to %q", listened)
	}
	due := func() bool { a.settle(); return a.copying.table.Due(a.now()) }
	heard(nil)
	if !due() {
		t.Error("no pass once the server listens: what came before would be missed")
	}
	a.copyNowAndSettle()
	a.openSample()
	a.settle()
	a.copyNowAndSettle()
	mine := wire.Position{Seq: a.copying.client.Reached(), ID: wire.Name{1}}
	if mine.Seq == 0 {
		t.Fatal("nothing was sent")
	}
	for _, told := range [][]byte{mine.Encode(), []byte("no position"), wire.Position{}.Encode()} {
		if heard(told); due() {
			t.Errorf("a pass for %x, which is here already or nothing", told)
		}
	}
	heard(wire.Position{Seq: mine.Seq + 1, ID: wire.Name{2}}.Encode())
	if !due() {
		t.Error("no pass for what another has sent")
	}
	a.copyNowAndSettle()
	over()
	a.settle()
	if stopped == 0 || a.copying.ear.stop != nil {
		t.Error("it still listens to a line that is cut")
	}
	heard(wire.Position{Seq: mine.Seq + 9, ID: wire.Name{3}}.Encode())
	if due() {
		t.Error("a line that is over is still heard")
	}
	was := stopped
	a.copyWoken()
	a.settle()
	a.copyView().OnForget()
	a.settle()
	if stopped != was+1 {
		t.Errorf("a phone that copies no more listens: stopped %d times, then %d", was, stopped)
	}
}

// TestNoServer: whoever is on a page whose server keeps no copies is told before writing
// 24 words down.
func TestNoServer(t *testing.T) {
	for status, none := range map[int]bool{http.StatusNotFound: true, http.StatusMethodNotAllowed: true, http.StatusUnauthorized: false, http.StatusServiceUnavailable: false} {
		a := copied(t, &wired{handler: http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			if r.Header.Get("Authorization") != "" {
				t.Error("credentials were shown to whoever is there")
			}
			w.WriteHeader(status)
		})}, 1)
		a.stage = stageCopy
		a.lookForServer()
		a.settle()
		if got := a.copyView().NoServer; got != none {
			t.Errorf("status %d: no server %v, want %v", status, got, none)
		}
	}
}

// TestPairingByCamera: a code that another phone shows fills in the words, wherever it is
// read or pasted; another one is told of.
func TestPairingByCamera(t *testing.T) {
	a := copied(t, newWired(), 1)
	a.stage = stageBook
	a.pasteLink("https://stall.example/#pair=bado-kifu-raho-davu-suko-daku-hoto-logu")
	if a.stage != stageCopy || a.copyStep() != second.Join || a.view.copy.typed[0] != "bado kifu raho davu suko daku hoto logu" {
		t.Errorf("pasted in the book: %s, %+v", a.stage, a.view.copy)
	}
	a.pasteLink("https://stall.example/#hand=ABC")
	if !strings.HasPrefix(a.view.copy.typed[0], pairingKey) {
		t.Errorf("the code for phones side by side: %+v", a.view.copy)
	}
}
