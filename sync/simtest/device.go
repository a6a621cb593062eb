package simtest

import (
	"context"
	"errors"
	"fmt"
	"iter"
	"net/http"

	"chalkfold/sync/client"
	"chalkfold/sync/store"
)

// device is a phone with one window or two.
type device struct {
	w       *world
	number  int
	disk    *disk
	newer   bool  // its version of the program
	clock   int64 // how far its clock is off, ms
	offline int   // how many more steps it has no network
	gone    bool  // it was taken off
	moved   bool  // it was told that the workshop has moved
	windows [2]window
	running *window
	images  []image
	// lately is the disk before the last change, if disks are lazy.
	lately map[diskKey]diskRow
}

// window is a page: a client, and the pass that it is in.
type window struct {
	client *client.Client
	next   func() (struct{}, bool)
	stop   func()
	yield  func(struct{}) bool
}

// image is a disk as it was.
type image struct {
	rows  map[diskKey]diskRow
	edits int // that the model had then
}

// crashed ends a pass at once, wherever it is.
type crashed struct{}

var (
	errLost   = errors.New("the line is cut")
	errBroken = errors.New("the answer is cut short")
)

func newDevice(w *world, number int) *device {
	d := &device{w: w, number: number, disk: newDisk(), newer: w.IntN(3) > 0}
	const year = 365 * 24 * 3600 * 1000
	switch w.IntN(4) {
	case 0:
		d.clock = int64(w.IntN(20*year)) - 10*year
	case 1:
		d.clock = -w.now // 1970
	}
	d.disk.before = d.beforeDisk
	d.disk.after = d.afterDisk
	return d
}

func (d *device) String() string { return fmt.Sprintf("device %d", d.number) }

func (d *device) now() int64 { return d.w.now + d.clock }

// pause lets others go on, where a pass calls the disk or the line.
func (d *device) pause() {
	win := d.running
	if win == nil { // the user's own doing
		return
	}
	if !win.yield(struct{}{}) {
		panic(crashed{})
	}
	if d.w.one(400) {
		d.w.say("%v: stops", d)
		d.w.count("stopped")
		panic(crashed{})
	}
}

func (d *device) beforeDisk(op string) error {
	d.pause()
	if d.w.Lazy && (op == "put" || op == "delete") {
		d.lately = d.disk.copyRows()
	}
	if op == "put" && d.running != nil && d.w.one(70) {
		d.w.count("disk full")
		return store.ErrFull
	}
	return nil
}

func (d *device) afterDisk(put []store.Record) {
	if d.w.Keep {
		for _, r := range put {
			d.w.sayNote(d, r)
		}
	}
	if d.running != nil && d.w.one(150) {
		d.w.say("%v: stops after a put", d)
		d.w.count("stopped after a put")
		panic(crashed{})
	}
}

// Send is the line.
func (d *device) Send(_ context.Context, path, bearer string, message []byte) (int, []byte, error) {
	d.pause()
	w := d.w
	r := request{path, bearer, message}
	lose := func(what string) (int, []byte, error) {
		w.count(what)
		return 0, nil, errLost
	}
	switch {
	case d.offline > 0 && !w.calm:
		return lose("no network")
	case w.one(14):
		if w.one(2) {
			w.late = append(w.late, r)
		}
		return lose("request lost")
	case w.one(40):
		r.message = message[:w.IntN(len(message))]
		w.deliver(r)
		return lose("request cut short")
	case w.one(40):
		w.count("server busy")
		return []int{http.StatusServiceUnavailable, http.StatusTooManyRequests, http.StatusInsufficientStorage}[w.IntN(3)], nil, nil
	}
	status, body := w.deliver(r)
	if w.one(30) {
		w.count("came twice")
		status, body = w.deliver(r)
	}
	d.pause()
	switch {
	case w.one(14):
		return lose("answer lost")
	case len(body) > 0 && w.one(40):
		w.count("answer cut short")
		return status, body[:w.IntN(len(body))], nil
	case w.one(60):
		return status, body, errBroken
	}
	return status, body, nil
}

// config is what a window's client works with.
func (d *device) config() client.Config {
	return client.Config{Store: d.disk, Line: d, Shape: shape{d.newer}, Now: d.now, Random: d.w.random}
}

// step has a window begin a pass, or go on with it up to its next call.
func (d *device) step() {
	if d.gone {
		return
	}
	if d.offline > 0 {
		d.offline--
	}
	win := &d.windows[0]
	if d.windows[1].client != nil || d.w.IntN(40) == 0 {
		win = &d.windows[d.w.IntN(2)]
	}
	if win.next == nil {
		d.begin(win)
		if d.windows[0].next != nil && d.windows[1].next != nil {
			d.w.count("two windows")
		}
	}
	for range 1 + d.w.IntN(12) {
		if !d.resume(win) {
			return
		}
	}
}

// resume goes on with a window's pass. It reports whether that goes on.
func (d *device) resume(win *window) bool {
	d.running = win
	_, goes := win.next()
	d.running = nil
	if !goes {
		win.next, win.stop = nil, nil
	}
	return goes
}

// begin begins a pass.
func (d *device) begin(win *window) {
	var pass iter.Seq[struct{}] = func(yield func(struct{}) bool) {
		win.yield = yield
		defer func() {
			if r := recover(); r != nil {
				if _, ok := r.(crashed); !ok {
					panic(r)
				}
				win.client = nil
			}
		}()
		d.pass(win)
	}
	win.next, win.stop = iter.Pull(pass)
}

// pass is a pass, and what comes before it when the page is opened.
func (d *device) pass(win *window) {
	ctx := context.Background()
	if win.client == nil {
		c, err := client.Open(ctx, d.config())
		if err != nil {
			d.w.say("%v: cannot open: %v", d, err)
			return
		}
		win.client = c
	}
	c := win.client
	if !c.Begun() || d.strayed(c) && (d.w.calm || d.moved && d.w.IntN(3) == 0) {
		if err := c.Begin(ctx, d.w.model.key); err != nil {
			d.w.say("%v: cannot begin: %v", d, err)
			win.client = nil
			return
		}
		d.moved = false
	}
	if win == &d.windows[1] || d.w.IntN(6) == 0 {
		c.TouchAll()
	}
	err := c.Pass(ctx)
	d.w.say("%v: pass: %v", d, err)
	d.w.count("passes")
	switch {
	case errors.Is(err, client.ErrMoved):
		d.moved = true
	case err == nil:
		d.w.count("passes that came to an end")
	}
}

// stop ends what its windows do, as if the phone were switched off.
func (d *device) stop() {
	for i := range d.windows {
		win := &d.windows[i]
		if win.stop != nil {
			d.running = win
			win.stop()
			d.running = nil
		}
		*win = window{}
	}
}

func (d *device) crash(why string) {
	d.w.say("%v: stopped: %s", d, why)
	d.stop()
	if d.w.Lazy && d.lately != nil {
		d.disk.rows = d.lately
	}
}

// idle is the first window's client, where no window is in a pass.
func (d *device) idle() *client.Client {
	c := d.windows[0].client
	if d.gone || c == nil || !c.Begun() || d.windows[0].next != nil || d.windows[1].next != nil || d.strayed(c) {
		return nil
	}
	return c
}

// strayed reports whether a client belongs to a workshop that has moved.
func (d *device) strayed(c *client.Client) bool { return c.Key() != d.w.model.key }

// suffer is something that befalls the device.
func (d *device) suffer() {
	if d.gone {
		return
	}
	w := d.w
	switch w.IntN(9) {
	case 0, 1:
		d.offline = 1 + w.IntN(30)
	case 2:
		d.crash("switched off")
	case 3:
		w.count("clock jumped")
		d.clock += int64(w.IntN(1<<41)) - 1<<40
	case 4, 5:
		d.images = append(d.images, image{d.disk.copyRows(), len(w.model.edits)})
	case 6:
		if n := len(d.images); n > 0 && w.IntN(2) == 0 {
			d.setBack(d.images[w.IntN(n)])
		}
	case 7:
		if !d.newer && w.IntN(3) == 0 {
			d.crash("a newer version")
			w.count("updated")
			d.newer = true
		}
	default:
		d.damage()
	}
}

// setBack loses what the disk had taken since.
func (d *device) setBack(i image) {
	d.crash("its disk is set back")
	d.w.count("disk set back")
	d.disk.rows = i.rows
	d.images = nil
	d.w.model.setBack(d.number, i.edits)
	d.w.model.missing(d.w)
}

// damage damages a note: what it knew is made anew.
func (d *device) damage() {
	if d.w.IntN(4) > 0 {
		return
	}
	notes := d.disk.list(func(kind string) bool { return kind == client.KindNote })
	if len(notes) == 0 {
		return
	}
	d.damageNote(notes[d.w.IntN(len(notes))])
}

// damageNote leaves nothing of what a note knew.
func (d *device) damageNote(n store.Record) {
	d.crash("a note is damaged")
	d.w.count("note damaged")
	row := d.disk.rows[diskKey{n.Kind, n.ID}]
	row.Data, row.Damaged = []byte("x"), true
	d.disk.rows[diskKey{n.Kind, n.ID}] = row
	doc, err := client.NoteDoc(n)
	if err != nil {
		return // it was damaged before
	}
	shown, _ := d.disk.get(doc.Kind, doc.ID) // nothing of one that is gone
	d.w.model.damage(doc, lines(shown.Data))
	d.w.model.missing(d.w)
}

// wholePass syncs with nothing going wrong.
func (d *device) wholePass() {
	if d.gone {
		return
	}
	win := &d.windows[0]
	if win.next == nil {
		d.begin(win)
	}
	const mostCalls = 20_000
	for range mostCalls {
		if !d.resume(win) {
			return
		}
	}
	d.w.fail("%v: a pass does not come to an end", d)
}
