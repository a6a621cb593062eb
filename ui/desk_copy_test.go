//go:build !js

package ui

import (
	"bytes"
	"context"
	"errors"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"chalkfold/sync/client"
	"chalkfold/sync/ledger"
	ledgers "chalkfold/sync/ledger/mem"
	"chalkfold/sync/server"
	"chalkfold/sync/store"
	"chalkfold/sync/store/mem"
	"chalkfold/ui/second"
)

// errCut is what a line says that was cut.
var errCut = errors.New("cut")

// wired is a line to a server in this program, which can be cut.
type wired struct {
	handler http.Handler
	cut     bool
	carried bytes.Buffer // all that went over it
}

func (w *wired) Send(_ context.Context, path, bearer string, message []byte) (int, []byte, error) {
	if w.cut {
		return 0, nil, errCut
	}
	r := httptest.NewRequest(http.MethodPost, server.Path+path, bytes.NewReader(message))
	if bearer != "" {
		r.Header.Set("Authorization", bearer)
	}
	answer := httptest.NewRecorder()
	w.handler.ServeHTTP(answer, r)
	w.carried.Write(message)
	w.carried.Write(answer.Body.Bytes())
	return answer.Code, answer.Body.Bytes(), nil
}

// copied is a desk with a line to a server.
func copied(t *testing.T, w *wired, seed byte) tried {
	t.Helper()
	return copiedOn(t, w, seed, &mem.Store{})
}

// copiedOn is one whose records are there.
func copiedOn(t *testing.T, w *wired, seed byte, s store.Store) tried {
	t.Helper()
	b := open(t, s, nil)
	draw := rand.NewChaCha8([32]byte{seed})
	b.deps.Line, b.deps.Random = w, func(p []byte) { _, _ = draw.Read(p) } // it never fails
	b.copying.still = true
	raw := b.store
	b.store = b.noting(raw)
	b.openCopy(raw)
	b.settle()
	return b
}

func newWired() *wired {
	l := ledgers.New(ledger.Common())
	return &wired{handler: server.New(server.Config{Ledger: l, Boxes: l, Now: clock})}
}

// begin starts a second copy, as a maker does.
func (b tried) begin() []string {
	b.t.Helper()
	b.stage = stageCopy
	b.shows("Start a second copy")
	b.copyView().OnStart()
	words := b.view.copy.list
	b.shows("Write them on paper", words[0], words[23])
	b.copyView().OnWritten()
	b.shows("type these from your paper")
	v := b.copyView()
	for i, n := range v.Asked {
		v.OnType(i, " "+strings.ToUpper(words[n-1])+" ")
	}
	b.copyView().OnRepeat()
	b.copyNowAndSettle()
	return words
}

func (b tried) copyNowAndSettle() {
	b.t.Helper()
	b.settle()
	b.copyNow()
	b.settle()
}

// TestSecondCopy: two phones, from the words on paper to what was measured differently.
func TestSecondCopy(t *testing.T) {
	w := newWired()
	a, b := copied(t, w, 1), copied(t, w, 2)
	a.openSample()
	a.settle()
	words := a.begin()
	a.shows("On the server too: ", "On this phone only: 0 records")
	b.stage = stageCopy
	b.copyView().OnJoin()
	b.copyView().OnType(0, strings.Join(words, "\n"))
	b.copyView().OnEnter()
	b.copyNowAndSettle()
	if b.copyStep() != second.Begun || len(b.records) != 1 || b.records[0].Ticket != "Alto 3" {
		t.Fatalf("%q has %d jobs: %q", b.view.copy.wrong, len(b.records), b.view.copy.told)
	}
	id := b.records[0].ID
	b.openKept(id)
	b.settle()
	if got := b.job.Measured("hip_girth"); got != "42" {
		t.Errorf("its hip is %q", got)
	}
	measure := func(d tried, hip string) {
		d.job.Measure("hip_girth", hip, d.today())
		d.changed("measurements.hip_girth")
		d.settle()
	}
	measure(a, "41")
	measure(b, "43")
	a.copyNowAndSettle()
	b.copyNowAndSettle()
	a.copyNowAndSettle()
	for _, d := range []tried{a, b} {
		d.stage = stageCopy
		d.shows("Measured differently on two phones", "41 in", "43 in")
	}
	a.stage = stageBook
	a.shows("Two phones measured differently")
	a.view.stages, a.view.tape.focus = true, "thigh_girth"
	b.job.Measure("waist_girth", "35", b.today())
	b.changed("measurements.waist_girth")
	b.settle()
	b.copyNowAndSettle()
	a.copyNowAndSettle()
	if got := a.job.Measured("waist_girth"); got != "35" || !a.view.stages || a.view.tape.focus != "thigh_girth" {
		t.Errorf("the waist is %q; what was under the hand is taken away: %+v", got, a.view)
	}
	w.cut = true // it is seen and settled without a network, and after the page was closed
	c := copiedOn(t, w, 3, b.store.(noting).Store)
	c.openKept(id)
	c.settle()
	c.stage = stageTape
	c.shows("Measured differently on two phones", ">41 in<", ">43 in<")
	counts, other := c.job.Measured("hip_girth"), "41"
	if counts == other {
		other = "43"
	}
	c.tapeView().OnSettle("hip_girth", 1)
	if len(c.differing()) > 0 {
		t.Error("what was tapped is still asked for")
	}
	c.settle()
	c.shows("Not chosen: " + counts + " in, on ")
	w.cut = false
	c.copyNowAndSettle()
	a.copyNowAndSettle()
	for _, d := range []tried{a, c} {
		if got := d.job.Measured("hip_girth"); got != other || len(d.copying.conflicts) > 0 || len(d.job.SetAside("hip_girth")) != 1 || d.job.SetAside("waist_girth") != nil {
			t.Errorf("the hip is %q, not %q; %d conflicts; aside is %v", got, other, len(d.copying.conflicts), d.job.Aside)
		}
	}
	a.stage = stageBook
	a.shows("Everything is on the server too")
	for _, text := range []string{"Alto 3", "hip_girth", "navy suiting", words[0]} {
		if bytes.Contains(w.carried.Bytes(), []byte(text)) {
			t.Errorf("%q went over the line", text)
		}
	}
}

// TestPairing: by the words that the other phone shows, which work once, and by the
// code for phones side by side.
func TestPairing(t *testing.T) {
	w := newWired()
	a, b, c := copied(t, w, 1), copied(t, w, 2), copied(t, w, 3)
	a.begin()
	a.copyView().OnPair()
	a.settle()
	a.shows("They work once, and for ten minutes")
	code := strings.Join(a.view.copy.list, " ")
	join := func(d tried, text string) {
		d.stage = stageCopy
		d.copyView().OnJoin()
		d.copyView().OnType(0, text)
		d.copyView().OnEnter()
		d.settle()
	}
	join(b, code)
	if b.copyStep() != second.Begun || b.copying.client.Key() != a.copying.client.Key() {
		t.Errorf("not paired: %q", b.view.copy.wrong)
	}
	join(c, code)
	c.shows("No phone offers its key under these words")
	join(c, "bado kifu")
	c.shows("These are 2 words")
	a.copyView().OnBeside()
	a.shows("holds the key itself")
	if !c.hearPairing(pairingKey + "nothing") {
		t.Error("the address pairs nobody")
	}
	c.copyView().OnEnter()
	c.settle()
	c.shows("This is no pairing code")
}

// TestPhoneOff: the phone that is left out gets nothing more, and is told.
func TestPhoneOff(t *testing.T) {
	w := newWired()
	a, b := copied(t, w, 1), copied(t, w, 2)
	words := a.begin()
	b.stage = stageCopy
	b.copyView().OnJoin()
	b.copyView().OnType(0, strings.Join(words, " "))
	b.copyView().OnEnter()
	b.copyNowAndSettle()
	a.copyView().OnOff()
	a.copyView().OnMove()
	fresh := a.view.copy.list
	a.copyView().OnWritten()
	for i, n := range a.view.copy.asked {
		a.copyView().OnType(i, fresh[n-1])
	}
	a.copyView().OnRepeat()
	a.copyNowAndSettle()
	if a.copying.err != nil || a.copying.account.Leaving {
		t.Errorf("after the move: %v, %+v", a.copying.err, a.copying.account)
	}
	b.copyNowAndSettle()
	b.stage = stageBook
	b.shows("The copy has a new key")
	if !errors.Is(b.copying.err, client.ErrMoved) {
		t.Error(b.copying.err)
	}
}

// TestWrongWordIsNotTaken: who has not written the words down does not begin.
func TestWrongWordIsNotTaken(t *testing.T) {
	w := newWired()
	b := copied(t, w, 1)
	b.stage = stageCopy
	b.copyView().OnStart()
	b.copyView().OnWritten()
	b.copyView().OnType(0, "bado")
	b.copyView().OnRepeat()
	b.settle()
	b.shows("on this screen is another")
	if b.copying.client.Begun() {
		t.Error("it has begun")
	}
}

// TestNoNetwork: the work goes on, and the screen says where it is; a file carries it.
func TestNoNetwork(t *testing.T) {
	w := newWired()
	a, b := copied(t, w, 1), copied(t, w, 2)
	words := a.begin()
	b.stage = stageCopy
	b.copyView().OnJoin()
	b.copyView().OnType(0, strings.Join(words, " "))
	b.copyView().OnEnter()
	b.settle()
	w.cut = true
	a.openSample()
	a.settle()
	a.copyNowAndSettle()
	a.stage = stageCopy
	a.shows("The server is out of reach", "On this phone only: ")
	h := a.catch(true)
	a.copyView().OnSave()
	a.settle()
	a.shows("Handed over as " + copyFile)
	b.copyView().OnFile(string(h.file))
	b.settle()
	b.shows("Taken in: ")
	if len(b.records) != 1 || b.records[0].Ticket != "Alto 3" {
		t.Errorf("%d jobs came by the file", len(b.records))
	}
	b.copyView().OnFile(string(h.file)[:100])
	b.settle()
	b.shows("no file of a second copy")
	b.copyView().OnForget()
	b.settle()
	b.shows("copies no more", "Start a second copy")
}
