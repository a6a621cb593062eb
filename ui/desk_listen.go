package ui

import (
	"context"
	"errors"
	"sync"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/sync/client"
	"chalkfold/sync/wire"
)

// errYielded says that something gave way to what the maker asked for.
var errYielded = errors.New("it gave way to what was asked for")

// yielding is a line that can be had back at any moment: what waits for an answer then
// waits no more, and asks for nothing else until the line is taken up again.
type yielding struct {
	client.Line
	mu     sync.Mutex
	yields bool
	stop   context.CancelFunc // of what waits; nil for nothing
}

// Send implements client.Line.
func (l *yielding) Send(ctx context.Context, path, bearer string, message []byte) (int, []byte, error) {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	if !l.hold(stop) {
		return 0, nil, errYielded
	}
	status, body, err := l.Line.Send(ctx, path, bearer, message)
	if !l.hold(nil) {
		return 0, nil, errYielded
	}
	return status, body, err
}

// hold notes how what waits is stopped. It reports whether the line may be used.
func (l *yielding) hold(stop context.CancelFunc) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.stop = stop
	return !l.yields
}

func (l *yielding) yield() {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.yields = true
	if l.stop != nil {
		l.stop()
	}
}

func (l *yielding) takeUp() {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.yields = false
}

// ear is how the page hears of what other phones have changed, while it is looked at.
type ear struct {
	stop  func() // nil while it does not listen
	open  bool
	turn  int    // tells one listening from the next
	tries int    // that failed, in a row
	heard uint64 // the highest number of an entry that was told of
	wakes bool   // the browser tells when to listen
}

const (
	earPatience  = 5 * time.Second // for the server to listen, before a pass is made without
	earFirstBack = 10 * time.Second
	earMostBack  = 30 * time.Minute
)

// hearWaking has a pass made when there is a network again, and when the page is
// looked at; and when it is left, if something is here only.
func (d *Desk) hearWaking() {
	if loader() == nil || d.copying.ear.wakes {
		return
	}
	d.copying.ear.wakes = true
	woken := app.FuncOf(func(app.Value, []app.Value) any {
		d.ctx.Dispatch(func(app.Context) { d.copyWoken() })
		return nil
	})
	app.Window().Call("addEventListener", "online", woken)
	app.Window().Get("document").Call("addEventListener", "visibilitychange", woken)
}

// lookedAt reports whether the page is in sight.
func lookedAt() bool {
	return loader() == nil || app.Window().Get("document").Get("visibilityState").String() != "hidden"
}

// copyWoken listens while the page is looked at, and brings the copy up to date.
func (d *Desk) copyWoken() {
	c := &d.copying
	if c.client == nil || !c.client.Begun() {
		return
	}
	if !lookedAt() {
		d.hush()
		if c.client.Account().Here > 0 {
			d.passSoon()
		}
		return
	}
	c.client.TouchAll() // another window may have put what this one did not hear of
	if !d.listen() {
		d.passSoon()
	}
}

func (d *Desk) passSoon() {
	d.copying.table.Woken()
	d.copyLater()
}

// listen begins to listen. It reports whether it does: a pass is made then as soon as
// the server listens too, so that nothing is missed between the two.
func (d *Desk) listen() bool {
	c := &d.copying
	e := &c.ear
	if d.deps.Listen == nil || e.stop != nil {
		return false
	}
	e.turn++
	turn := e.turn
	mine := func(do func()) {
		d.ctx.Dispatch(func(app.Context) {
			if turn == e.turn {
				do()
			}
		})
	}
	workshop, bearer := c.client.Credentials()
	e.stop = d.deps.Listen(workshop, bearer,
		func(message []byte) { mine(func() { d.heardOf(message) }) },
		func() { mine(d.deaf) })
	d.copyAfter(earPatience, func() {
		if turn == e.turn && !e.open {
			d.passSoon()
		}
	})
	return true
}

// heardOf takes what the server tells: first that it listens, by an empty message, and
// then of each new head.
func (d *Desk) heardOf(message []byte) {
	c := &d.copying
	if len(message) == 0 {
		c.ear.open, c.ear.tries = true, 0
		c.table.Hears(true)
		d.passSoon()
		return
	}
	if p, err := wire.DecodePosition(message); err == nil {
		c.ear.heard = max(c.ear.heard, p.Seq)
	}
	if !c.running {
		d.lookWhetherBehind()
		d.copyLater()
	}
}

// lookWhetherBehind has a pass made where the server told of more than is here. What
// this phone has sent itself is told of as well.
func (d *Desk) lookWhetherBehind() {
	c := &d.copying
	if c.client != nil && c.client.Begun() && c.client.Reached() < c.ear.heard {
		c.ear.heard = 0 // once: a server may tell of what it cannot show
		c.table.Woken()
	}
}

// deaf is when the server listens no more: it is asked now and then, and whether it
// listens again.
func (d *Desk) deaf() {
	e := &d.copying.ear
	was := e.open
	d.hush()
	if !was {
		d.passSoon()
	}
	back := min(earMostBack, earFirstBack<<min(e.tries, 20))
	e.tries++
	turn := e.turn
	d.copyAfter(back, func() {
		if c := d.copying.client; turn == e.turn && c != nil && c.Begun() && lookedAt() {
			d.listen()
		}
	})
}

// hush stops listening.
func (d *Desk) hush() {
	e := &d.copying.ear
	if e.stop != nil {
		e.stop()
	}
	e.stop, e.open = nil, false
	e.turn++
	d.copying.table.Hears(false)
}
