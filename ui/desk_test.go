//go:build !js

package ui

import (
	"context"
	"errors"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/body"
	"chalkfold/draft/sheet/pdf/noto"
	"chalkfold/static/words"
	"chalkfold/sync/store"
	"chalkfold/sync/store/mem"
)

// someWork are the steps of a search for tests: how good a lay is, the tests of
// the core show.
const someWork = 100

// tried is a desk that is shown without a browser.
type tried struct {
	*Desk
	t      *testing.T
	engine app.TestEngine
}

// shown mounts the desk where there is no browser to do it; under node there is
// no document either, so these tests run natively alone.
type shown struct{ *Desk }

// OnPreRender implements app.PreRenderer.
func (s *shown) OnPreRender(ctx app.Context) { s.OnMount(ctx) }

func open(t *testing.T, s store.Store, err error) tried {
	t.Helper()
	return opening(t, func(context.Context, func(error)) (store.Store, error) { return s, err })
}

// opening shows a desk whose store opens in a way of its own.
func opening(t *testing.T, store func(context.Context, func(error)) (store.Store, error)) tried {
	t.Helper()
	ids := 0
	now := clock()
	d := NewDesk(Deps{
		Open: store,
		Font: func() ([]byte, error) { return noto.Sans(), nil }, Words: words.Of, Work: someWork,
		NewID: func() string {
			ids++
			return "id-" + strconv.Itoa(ids) + "-" + t.Name()
		},
		Now: func() time.Time {
			now = now.Add(time.Millisecond)
			return now
		},
	})
	d.turn = func(stage string) { d.stage = stage }
	b := tried{d, t, app.NewTestEngine()}
	if err := b.engine.Load(&shown{d}); err != nil {
		t.Fatal(err)
	}
	b.settle()
	return b
}

// settle lets everything come to rest that is under way.
func (b tried) settle() { b.engine.ConsumeAll() }

// shows is the text of the stage as it would be drawn, and whether all is saved.
func (b tried) shows(want ...string) {
	b.t.Helper()
	html := app.HTMLString(b.Render()) + b.sayingSaved()
	for _, w := range want {
		if !strings.Contains(html, w) {
			b.t.Errorf("%q is not shown in %s", w, b.stage)
		}
	}
}

func TestDeskKeepsJobs(t *testing.T) {
	s := &mem.Store{}
	b := open(t, s, nil)
	b.shows("Open the sample", "New job")
	b.tapeView().OnText(body.WaistGirth, "34")
	b.tapeView().OnText(body.HipGirth, "42")
	b.tapeView().OnText(body.OutsideLegLength, "40")
	b.tapeView().OnTicket("Alto 3")
	if b.sayingSaved() != "Saving…" {
		t.Errorf("it says %q before the store has answered", b.sayingSaved())
	}
	b.settle()
	b.stage = stageTape
	b.shows("= 106.7 cm", "Saved", "about ")
	if b.work.Result == nil || b.work.Result.Job.Measurements[body.HipGirth].Value.String() != "42 in" {
		t.Fatalf("no draft of what was typed: %+v", b.work.Whys)
	}

	b.newJob()
	b.settle()
	if !b.job.Blank() || b.stage != stageTape {
		t.Errorf("a new job on %s: %+v", b.stage, b.job.File)
	}
	b.openSample()
	b.settle()
	b.shows("It can be cut", "Rests on what was not taken")
	b.stage = stageBook
	b.listJobs()
	b.settle()
	if v := b.bookView(); len(v.Jobs) != 1 || v.Open == nil || v.Open.Name != "Alto 3" || v.Jobs[0].Changed != "changed 17 May 2031" || v.Jobs[0].Name != "Alto 3" || v.Busy {
		t.Errorf("the book: %+v", v)
	}

	// The first job again, in this window and in the next.
	b.openKept(b.bookView().Jobs[0].ID)
	b.settle()
	if b.stage != stageCloth || b.job.Measured(body.HipGirth) != "42" || b.job.File.Style["crease"] != "" {
		t.Errorf("opened %+v on %s", b.job.File, b.stage)
	}
	b.tapeView().OnText(body.HipGirth, "43")
	b.settle()
	if next := open(t, s, nil); next.job.Measured(body.HipGirth) != "43" {
		t.Errorf("the next window opens with hip %q", next.job.Measured(body.HipGirth))
	}
}

// full is a store that has no room.
type full struct{ mem.Store }

func (*full) Put(context.Context, ...store.Record) error { return store.ErrFull }

func TestDeskWithoutAStore(t *testing.T) {
	b := open(t, nil, errors.New("private windows keep nothing"))
	b.shows("Nothing is saved on this device", "private windows keep nothing", "Not saved")
	b.tapeView().OnText(body.WaistGirth, "34")
	b.tapeView().OnText(body.HipGirth, "42")
	b.tapeView().OnText(body.OutsideLegLength, "40")
	b.settle()
	if b.work.Result == nil {
		t.Error("without a store nothing is drafted")
	}
	b.openSample()
	b.settle()
	b.shows("It can be cut")

	b = open(t, &full{}, nil)
	b.openSample()
	b.settle()
	b.shows("Not saved", "There is no room left on this device")
	b.newJob() // must not take the place of what is not saved
	b.settle()
	if b.job.File.Name != "Alto 3" {
		t.Error("a job that is not saved was cleared away")
	}
}

func TestDeskLeavesWhatItCannotRead(t *testing.T) {
	s := &mem.Store{}
	r := store.Record{Kind: recordKind, ID: "from elsewhere", Rev: 1, Data: []byte(`{"version": 9}`), Updated: clock()}
	if err := s.Put(context.Background(), r); err != nil {
		t.Fatal(err)
	}
	b := open(t, s, nil)
	b.shows("The job was left untouched")
	b.tapeView().OnTicket("Alto 3")
	b.settle()
	got, err := s.Get(context.Background(), recordKind, r.ID)
	if err != nil || string(got.Data) != string(r.Data) {
		t.Errorf("the record is now %q, %v", got.Data, err)
	}
	b.stage = stageBook
	b.listJobs()
	b.settle()
	b.shows("Cannot be read", "Alto 3")
}

func TestDeskStages(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	b.openSample()
	b.settle()
	v := b.draftView()
	if n := strings.Count(v.Scene.SVG, `class="cut`); n != len(b.work.Result.Pieces) {
		t.Errorf("%d pieces drawn, want %d", n, len(b.work.Result.Pieces))
	}
	v.OnOpen("lines")
	v.OnChoose("quarter_hip")
	b.shows("Hip girth ÷ 4 = 42 ÷ 4 = 10½", "hip girth")
	v.OnText("measurements.hip_girth", "420")
	b.settle()
	b.shows(`data-thing="quarter_hip"`, `id="hip_girth"`, "Hip girth must be from")
	v.OnText("measurements.hip_girth", "42")
	b.settle()
	v.OnOpen("trued")
	b.shows("As it is spoken", "Hip girth", "Sides made equal")
	v.OnOpen("replay")
	b.shows("step 1 of")
	v.OnOpen("girths")
	b.shows("room")

	b.stage = stageCloth
	b.wantLay()
	b.settle()
	b.shows("It fits", "Navy suiting", "Pocketing", "Interfacing")
	b.clothView().OnLength("length", "1 yd")
	b.settle()
	b.shows("It does not fit: short by")
	b.clothView().OnAt(2)
	b.settle()
	b.shows("Give the width of the cloth")
	b.clothView().OnLength("width", "36")
	b.settle()
	b.shows("off the bolt")
	if c := b.job.File.Cloth; len(c) != 3 || c[2].Kind != "interfacing" {
		t.Errorf("the cloths are %+v", c)
	}
	b.clothView().OnLength("width", "3")
	b.settle()
	b.shows("No lay yet", "short by")
	b.clothView().OnLength("width", "3 6")
	b.settle()
	b.shows("The cloth cannot be read yet")

	b.stage = stageChalk
	first := b.chalkView()
	first.OnStep(-1)
	if b.chalkView().At != 0 {
		t.Error("there is no mark before the first")
	}
	first.OnStep(1)
	first.OnStep(1)
	if at := b.chalkView().At; at != 2 {
		t.Errorf("two steps on is mark %d", at+1)
	}
	first.OnAt(len(first.Guide.Marks) - 1)
	first.OnStep(1)
	if at := b.chalkView().At; at != len(first.Guide.Marks)-1 {
		t.Errorf("after the last mark comes %d", at+1)
	}
	b.settle()

	b.stage = stageStyle
	b.styleView().OnOpen("front_fork_part")
	b.styleView().OnGroup("fork")
	b.styleView().OnRule("front_fork_part", "99")
	b.settle()
	b.shows("out of range", "to mend", "house rule")
	b.stage = stageDraft
	b.shows("No draft until this is mended", "Front fork part")
	b.draftView().OnMend("rules.house.front_fork_part")
	b.styleView().OnMove(0, "front_fork_part")
	b.settle()
	if b.work.Result == nil {
		t.Errorf("not mended by the default: %+v", b.work.Whys)
	}
}

// A mark is found again after the draft has changed around it.
// TestBarIsNamed: a screen reader finds the two sets of ways by their names.
func TestBarIsNamed(t *testing.T) {
	d := open(t, &mem.Store{}, nil)
	html := app.HTMLString(d.bar())
	for _, name := range []string{"Stages of the work", "Stages beside this one"} {
		if strings.Count(html, `aria-label="`+name+`"`) != 1 {
			t.Errorf("%q names no ways, or two", name)
		}
	}
}

// TestStagesCoverThePage: what lies under the list of stages is out of reach,
// and comes back with the stage that was chosen.
func TestStagesCoverThePage(t *testing.T) {
	d := open(t, &mem.Store{}, nil)
	inert := func() bool { return strings.Contains(app.HTMLString(d.Render()), `<div inert>`) }
	if inert() {
		t.Error("the page cannot be reached though nothing covers it")
	}
	d.view.stages = true
	if !inert() {
		t.Error("the page can be reached under the list of stages")
	}
	if html := app.HTMLString(d.bar()); strings.Contains(html, "inert") {
		t.Error("the list of stages cannot be reached")
	}
}

func TestMarkIsFoundAgain(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	b.openSample()
	b.settle()
	at := 0
	for i, m := range b.work.Marks().Marks {
		if m.Name == "back fork tip" && m.What == "mark" {
			at = i
		}
	}
	b.chalkView().OnAt(at)
	b.styleView().On("pocket", "none")
	b.settle()
	v := b.chalkView()
	if m := v.Guide.Marks[v.At]; at == 0 || m.Name != "back fork tip" || v.At == at {
		t.Errorf("mark %d was left at the back fork tip, now it is %d, %q", at, v.At, m.Name)
	}
}

func TestDeskUndo(t *testing.T) {
	s := &mem.Store{}
	b := open(t, s, nil)
	b.openSample()
	b.settle()
	if b.job.past.can(false) {
		t.Error("opening the sample can be undone: there is nothing before it")
	}
	hip := b.job.Measured(body.HipGirth)
	b.tapeView().OnText(body.HipGirth, "4")
	b.tapeView().OnText(body.HipGirth, "44")
	b.styleView().On("pocket", "none")
	b.styleView().OnRule("front_fork_part", "99")
	b.settle()
	if b.work.Result != nil {
		t.Fatal("the rule was to be refused")
	}
	b.step(false)
	if b.work.Result == nil {
		t.Error("undone, and no draft")
	}
	b.settle()
	b = open(t, s, nil)
	b.step(false)
	b.step(false)
	b.settle()
	if got := b.job.Measured(body.HipGirth); got != hip || b.job.File.Style["pocket"] == "none" || b.job.past.can(false) {
		t.Errorf("all undone: hip %q, style %v", got, b.job.File.Style)
	}
	b = open(t, s, nil)
	b.step(true)
	b.settle()
	if got := b.job.Measured(body.HipGirth); got != "44" || b.sayingSaved() != "Saved" {
		t.Errorf("redone: hip %q, %s", got, b.sayingSaved())
	}
}
