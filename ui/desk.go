package ui

import (
	"context"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft"
	"chalkfold/draft/garment"
	"chalkfold/draft/say"
	"chalkfold/sync/client"
	"chalkfold/sync/store"
	"chalkfold/ui/engine"
	"chalkfold/ui/tape"
)

// Deps is what the page works with.
type Deps struct {
	// Open opens the place where records are kept. told hears, on any goroutine,
	// what Open waits for and, later, why the place was lost; see package store.
	Open  func(ctx context.Context, told func(error)) (store.Store, error)
	NewID func() string
	Now   func() time.Time
	// Helpers starts a helper beside the page; nil where there are none. Cores
	// is how many are worth having, Font fetches the letters for PDFs, and Words
	// the words of a language other than English.
	Helpers engine.Start
	Cores   int
	Font    func() ([]byte, error)
	Words   func(id string) (*say.Words, error)
	// Line carries the second copy to the server; nil where there is none. Random
	// fills bytes with random ones, as good for keys as the device has them.
	Line   client.Line
	Random func([]byte)
	// Listen hears what the server tells of a workshop, until it is stopped: heard has
	// each message, an empty one first when the server listens, and over is called
	// when it tells no more. Nil where there is no such server.
	Listen func(workshop, bearer string, heard func(message []byte), over func()) (stop func())
	// Work is how many steps are spent on a lay, an advice or sheets that nobody
	// asked to be better; nought is as many as are worth while.
	Work int
}

// Run shows the page. It returns when the page is closed.
func Run(deps Deps) {
	o := openStore(context.Background(), deps)
	select {
	case <-o.done:
	case <-time.After(readingRest):
	}
	app.Route("/", func() app.Composer {
		d := NewDesk(deps)
		d.reading = o
		return d
	})
	app.RunWhenOnBrowser()
}

// Desk is the whole page: the open job and the stages around it. An order that is open
// lies there as a job does, with its garments put together; see orderKind.
type Desk struct {
	app.Compo
	*say.Words // of the reader
	deps       Deps
	// hand has the browser save a file of a kind or send it; see giveFile.
	hand func(name, kind string, file []byte, send bool, done func(out bool))
	// handLines does so with a file that is made line by line; see giveLines.
	handLines func(name string, next func() ([]byte, error), send bool, done func(out bool, err error))
	store     store.Store
	blobs     store.Blobs // that of the store; nil where it has no place for pictures
	reading   *reading
	// ctx is the desk's own: the context of an event ends with the node that it
	// came from, and with it the answer of the store.
	ctx app.Context

	// later says that most of the jobs are still being read.
	later   bool
	listing listing // of the book
	// shelvesRead counts how often what the book shows of others has changed.
	shelvesRead int
	reshelving  int        // counts the saved states of the open job
	records     []*shelved // the jobs that are kept, as they were read last, the newest first
	orders      []*shelved // likewise
	clients     []*filed
	remnants    []*remnant
	photos      []*photo        // the oldest first
	pictures    map[string]bool // of photos that are on this device
	unkept      []taken         // photos that are not kept yet
	// photoCount is what there is of photos; photosRead that they were read once.
	photoCount photoCount
	photosRead bool
	photosKept int  // counts those that were taken
	leanBackup bool // a backup file is without pictures
	taught     hers // of the open job's client, as she was told last
	together   together
	job        *Job // nil until it is read
	keeper     *Keeper
	noted      noted
	// settings are those of this device, which device keeps; see set.
	settings Settings
	device   *Keeper
	house    housed
	putting  bool   // records of others are being kept; see put
	fault    string // why something was not done
	harm     error  // what is wrong with the store as a whole

	makes     []garment.Garment // what can be made
	garment   garment.Garment
	maker     Maker
	sheet     tape.Sheet
	work      *Work
	waiting   bool // a draft is to be made
	typing    typing
	line      *savedLine // nil until it is shown
	change    int        // counts the changes
	laying    *laying
	sketching sketching
	helpers   *engine.Pool
	ticking   bool // the engine is looked after

	stage string             // id
	turn  func(stage string) // to another stage
	view  viewed
	// covered says that the browser holds a step back for what covers the stage.
	covered bool
	// rests is what the loader was told last; see noteLook.
	rests bool

	files   files
	browser browser
	asked   bool // the browser was asked to keep the work
	keeping keepViewed
	copying copying
	// scanning tells one look of the camera for a code from the next; nil for none.
	scanning *byte
}

// viewed is how the stages are looked at. It is not kept.
type viewed struct {
	stages bool   // the keys to all stages are out
	from   string // the stage of the work that was looked at last, but for the Book

	book  bookViewed
	tape  tapeViewed
	style styleViewed
	draft draftViewed
	cloth clothViewed
	fit   fitViewed
	chalk chalkViewed
	bench benchViewed
	house houseViewed
	share shareViewed
	copy  copyViewed
	quote quoteViewed
	album albumViewed

	lesson lessonViewed
	how    howViewed
}

// NewDesk returns a desk that opens the newest job when it is shown.
func NewDesk(deps Deps) *Desk {
	all := draft.Garments()
	d := &Desk{deps: deps, stage: stageBook, makes: all, garment: all[0], pictures: map[string]bool{}, house: housed{House: firstHouse(nil)}}
	d.turn, d.hand, d.handLines = d.navigate, d.giveFile, d.giveLines
	return d
}

// OnMount implements app.Mounter.
func (d *Desk) OnMount(ctx app.Context) {
	d.ctx = ctx
	d.startEngine()
	fragment := ctx.Page().URL().Fragment
	d.stage = stageFromFragment(fragment)
	d.hearFiles()
	d.hearBrowser()
	d.hearBack()
	if d.reading == nil {
		d.reading = openStore(ctx, d.deps)
	}
	d.takeStore(d.reading, fragment)
}

// hearFiles follows what the loader says of the files kept.
func (d *Desk) hearFiles() {
	l := loader()
	if l == nil {
		return
	}
	app.Window().Call("addEventListener", "chalkfold-files", app.FuncOf(func(app.Value, []app.Value) any {
		d.ctx.Dispatch(func(app.Context) {
			d.files = readFiles()
			d.readPhotosOnce()
		})
		return nil
	}))
}

func (d *Desk) newKeeper() *Keeper {
	return NewKeeper(recordKind, d.deps.NewID(), 0, d.deps.Now)
}

// open puts a record on the desk, and reports whether it could be read.
func (d *Desk) open(r store.Record) bool {
	job, err := DecodeJob(r.Data)
	if err == nil {
		_, err = garmentOf(job.File)
	}
	if err != nil {
		d.fault = d.F("The job was left untouched: %s", d.Err(err))
		return false
	}
	d.lay(NewKeeper(r.Kind, r.ID, r.Rev, d.deps.Now), job)
	return true
}

// openNewest opens the job that was changed last, or a new one. What cannot be
// read is left as it is; a new job takes its place on the desk.
func (d *Desk) openNewest() {
	for _, r := range d.records {
		if !r.deleted() {
			if d.open(r.Record) {
				return
			}
			break
		}
	}
	d.blank()
}

// blank lays a new job on the desk.
func (d *Desk) blank() {
	d.lay(d.newKeeper(), d.newJobOf(d.garment.ID))
}

// lay puts a job on the desk, and its keeper: nil where nothing is kept.
func (d *Desk) lay(keeper *Keeper, job *Job) {
	d.heedTyped()
	d.keeper, d.job = keeper, job
	if g, err := garmentOf(job.File); err == nil {
		d.garment = g
	}
	d.leaveLay()
	d.leaveShare()
	d.view = viewed{book: bookViewed{view: d.view.book.view}, copy: d.view.copy, lesson: d.view.lesson, how: howViewed{open: d.view.how.open}}
	if err := job.open(); err != nil {
		d.fault = d.sayFault(err)
	}
	d.taught = job.hers()
	if d.stage == stageBook && (job.State != "" || job.Blank()) {
		d.draftLater()
		return
	}
	d.redraft()
}

// draftLater drafts the job after the next frame. The book shows what is kept of
// the job, and nothing of the draft.
func (d *Desk) draftLater() {
	d.work, d.waiting = &Work{}, true
	d.read()
	d.ctx.After(frame, func(app.Context) {
		if d.waiting {
			d.redraft()
		}
	})
}

// askToKeep asks the browser once, when there is work to lose, not to clear it.
func (d *Desk) askToKeep() {
	if !d.asked {
		d.asked = true
		d.lookAtBrowser(true)
	}
}

// changed is called after each change of the job. field is the path that was typed at,
// empty for a tap.
func (d *Desk) changed(field string) {
	if field != "" && d.stage != stageDraft && app.IsClient {
		d.typedIn(field)
		return
	}
	d.heedTyped()
	d.write(field)
	d.heed(field)
}

// write notes what was changed, and has the job saved.
func (d *Desk) write(field string) {
	if err := d.job.Note(field); err != nil {
		d.fault = d.sayFault(err)
	}
	d.teach()
	d.keep()
}

// heed reads what was changed, and has the draft made once before the next frame or, for
// what was typed, once the keys rest.
func (d *Desk) heed(field string) {
	d.read()
	d.change++
	change, wait := d.change, frame
	if field != "" && d.stage != stageDraft {
		wait = typingRest
	}
	d.waiting = true
	d.ctx.After(wait, func(app.Context) {
		switch {
		case d.waiting && wait == frame:
			d.catchUp()
		case d.waiting && change == d.change:
			d.catchUpInTurns()
		default:
			d.ctx.PreventUpdate()
		}
	})
}

// catchUp makes the draft that is waited for.
func (d *Desk) catchUp() {
	d.keepState(d.redraft)
}

// keepState saves the job where its state is another after something was done.
func (d *Desk) keepState(after func()) {
	was := d.job.State
	after()
	if d.job.State != was {
		d.keep()
	}
}

// catchUpInTurns does so between keys, which wait for no more than a part of it. It is
// left where there is another key, or where the draft was made meanwhile.
func (d *Desk) catchUpInTurns() {
	if d.ordering() {
		d.catchUp()
		return
	}
	job, change := d.job, d.change
	part := func(do func()) func() {
		return func() {
			if d.waiting && d.job == job && d.change == change && d.typing.field == "" {
				do()
			} else {
				d.ctx.PreventUpdate()
			}
		}
	}
	d.maker.core.Words = d.Words
	work, prove := d.maker.Begin(job)
	d.ctx.PreventUpdate()
	d.next(part(func() {
		prove()
		d.ctx.PreventUpdate()
		d.next(part(func() {
			d.keepState(func() { d.takeWork(work) })
		}))
	}))
}

// frame is how long a change may wait for the next, so that keys that come
// together are drafted together.
const frame = 16 * time.Millisecond

// next does one part of a long work once the browser has had its turn: to paint,
// and to hand over keys. Waiting by a timer is not enough between parts: one that is
// due when the last part ends runs at once, before anything of the browser's.
func (d *Desk) next(part func()) {
	if app.IsServer {
		d.ctx.After(frame, func(app.Context) { part() })
		return
	}
	var turn app.Func
	turn = app.FuncOf(func(app.Value, []app.Value) any {
		turn.Release()
		d.ctx.Dispatch(func(app.Context) { part() })
		return nil
	})
	app.Window().Call("setTimeout", turn)
}

// typingRest is how long keys must rest before what they typed is drafted on a
// stage that does not show the draft: a draft on a slow phone takes as long as
// a key.
const typingRest = 300 * time.Millisecond

// handRest is how long the hand must rest before what it does not wait for is worked
// out, such as sketches of other choices: what is typed goes first.
const handRest = 500 * time.Millisecond

// step undoes the last change or, forward, redoes it: of the house rules while
// they are looked at, else of the job.
func (d *Desk) step(forward bool) {
	if d.stage == stageHouse {
		d.stepHouse(forward)
		return
	}
	d.heedTyped()
	next := d.job.Step(forward)
	if next == nil {
		return
	}
	d.job = next
	if g, err := garmentOf(next.File); err == nil && g.ID != d.garment.ID {
		d.garment = g
	}
	d.teach()
	d.redraft()
	d.keep()
}

// redraft drafts the job.
func (d *Desk) redraft() {
	d.maker.core.Words = d.Words
	if d.ordering() {
		d.waiting = false
		d.work = d.join()
		d.wants()
		return
	}
	d.read()
	d.takeWork(d.maker.Make(d.job))
}

// takeWork takes what the core made of the job.
func (d *Desk) takeWork(w *Work) {
	d.work, d.waiting = w, false
	d.job.State = stateOf(d.job, d.work)
	if r := d.work.Result; r != nil {
		for i := range d.sheet.Rows {
			row := &d.sheet.Rows[i]
			for _, e := range r.Estimates {
				if e.ID == row.ID {
					row.Estimate = d.F("about %s, not taken: %s", r.Format.Text(e.Is), e.How)
				}
			}
		}
	}
	d.wants()
}
