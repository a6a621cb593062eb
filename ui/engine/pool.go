package engine

import "slices"

// Worker does tasks beside the page, one at a time.
type Worker interface {
	Post(Task)
	End() // at once
}

// Start starts a worker. hear is told what it says, on the page's own turn.
type Start func(hear func(Answer)) Worker

// Health is how the work beside the page goes.
type Health uint8

// The states of health, from the best.
const (
	Well   Health = iota
	Again         // a helper stopped, and another took over
	OnPage        // helpers stopped twice at one task: the page does the work
)

// What Tick counts to. The page calls it about once a second, and not at all
// while the phone sleeps.
const (
	startTicks = 20 // until a worker must have come up
	quietTicks = 15 // that one at work may be silent
	stopTicks  = 3  // that one may take to give up a task
	idleTicks  = 45 // that one is kept without work
	mostFalls  = 2  // of workers at one task
)

// Pool shares tasks among workers. Everything of it is called on the page's own
// turn.
type Pool struct {
	beside, onPage Start
	most           int

	hands  []*hand
	queue  []*errand
	last   uint32
	health Health
}

// errand is a task and who hears of it.
type errand struct {
	Task
	hear    func(Answer)
	urgent  bool
	falls   int
	stopped bool
}

// hand is a worker as the pool knows it.
type hand struct {
	Worker
	up    bool
	at    *errand // nil without work
	still int     // ticks since it was heard last
	page  bool    // it is the page itself
	gone  bool
}

// NewPool returns a pool of at most so many workers. beside may be nil where
// there are none.
func NewPool(beside, onPage Start, most int) *Pool {
	p := &Pool{beside: beside, onPage: onPage, most: max(1, most)}
	if beside == nil {
		p.health = OnPage
	}
	return p
}

// Health says how it goes. That a helper was started again is told until the
// next task that is new.
func (p *Pool) Health() Health { return p.health }

// Watched reports whether there are workers beside the page, so that Tick is to
// be called.
func (p *Pool) Watched() bool {
	return slices.ContainsFunc(p.hands, func(h *hand) bool { return !h.page })
}

// Ask has a task done and returns its id. hear is told what is heard of it,
// after Ask has returned. An urgent task is begun before all that wait, and
// never waits for a search: somebody stands there for a file.
func (p *Pool) Ask(do Do, o Order, urgent bool, hear func(Answer)) uint32 {
	p.last++
	if p.health == Again {
		p.health = Well
	}
	e := &errand{Task: Task{ID: p.last, Do: do, Data: o.encode()}, hear: hear, urgent: urgent}
	p.enqueue(e)
	p.share()
	return e.ID
}

// enqueue puts an errand in its place: one that was begun before all, an urgent
// one before the others.
func (p *Pool) enqueue(e *errand) {
	at := len(p.queue)
	for at > 0 && p.queue[at-1].falls == 0 && (e.falls > 0 || e.urgent && !p.queue[at-1].urgent) {
		at--
	}
	p.queue = slices.Insert(p.queue, at, e)
}

// Stop gives up a task. Nothing more is heard of it.
func (p *Pool) Stop(id uint32) {
	p.queue = slices.DeleteFunc(p.queue, func(e *errand) bool { return e.ID == id })
	for _, h := range p.hands {
		if h.at == nil || h.at.ID != id || h.at.stopped {
			continue
		}
		h.at.stopped, h.still = true, 0
		if !h.up {
			h.at = nil // it was never given it
			continue
		}
		h.Post(Task{ID: id, Do: Stop})
	}
	p.share()
}

// share gives out what waits, and starts workers for it.
func (p *Pool) share() {
	for len(p.queue) > 0 {
		e := p.queue[0]
		h := p.free(e)
		if h == nil {
			return
		}
		p.queue = p.queue[1:]
		h.at, h.still = e, 0
		if h.up {
			h.Post(e.Task)
		}
	}
}

// free returns a hand without work for an errand, nil when it must wait.
func (p *Pool) free(e *errand) *hand {
	onPage := p.health == OnPage
	most := p.most
	if e.urgent {
		most++
	}
	if onPage {
		most = 1
	}
	n := 0
	for _, h := range p.hands {
		if h.page != onPage {
			continue
		}
		if h.at == nil {
			return h
		}
		n++
	}
	if n >= most {
		return nil
	}
	h := &hand{page: onPage}
	start := p.beside
	if onPage {
		start = p.onPage
	}
	p.hands = append(p.hands, h)
	h.Worker = start(func(a Answer) { p.heard(h, a) })
	return h
}

// heard takes what a worker says.
func (p *Pool) heard(h *hand, a Answer) {
	if h.gone {
		return
	}
	h.still = 0
	switch {
	case a.Is == Ended:
		p.fell(h)
	case a.Is == Up && !h.up:
		h.up = true
		if h.at != nil {
			h.Post(h.at.Task)
		}
	case h.at == nil || h.at.ID != a.ID: // of a task that is no longer under way
	default:
		e := h.at
		if a.Over() {
			h.at = nil
		}
		if !e.stopped {
			e.hear(a)
		}
		p.share()
	}
}

// Tick lets go of workers that are silent or have nothing to do.
func (p *Pool) Tick() {
	for _, h := range slices.Clone(p.hands) {
		h.still++
		switch {
		case h.page: // it is as well as the page, and costs nothing
		case h.at != nil && h.at.stopped:
			if h.still > stopTicks {
				h.at = nil
				p.end(h)
			}
		case !h.up:
			if h.still > startTicks {
				p.fell(h)
			}
		case h.at != nil:
			if h.still > quietTicks {
				p.fell(h)
			}
		case h.still > idleTicks:
			p.end(h)
		}
	}
	p.share()
}

// End lets go of all workers and tasks.
func (p *Pool) End() {
	p.queue = nil
	for _, h := range slices.Clone(p.hands) {
		p.end(h)
	}
}

func (p *Pool) end(h *hand) {
	h.gone = true
	p.hands = slices.DeleteFunc(p.hands, func(o *hand) bool { return o == h })
	h.End()
}

// fell lets go of a worker that has stopped by itself, and has its task done
// again.
func (p *Pool) fell(h *hand) {
	e := h.at
	p.end(h)
	if e == nil || e.stopped {
		p.share()
		return
	}
	e.falls++
	switch {
	case e.falls >= mostFalls:
		p.health = OnPage
	case p.health == Well:
		p.health = Again
	}
	e.hear(Answer{ID: e.ID, Is: Progress}) // from the beginning
	p.enqueue(e)
	p.share()
}
