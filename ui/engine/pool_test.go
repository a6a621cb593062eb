package engine

import (
	"slices"
	"strconv"
	"strings"
	"testing"
)

// yard is where fake workers are started, in the order of their numbers.
type yard struct {
	t       *testing.T
	started []*fake
}

// fake is a worker that does nothing by itself.
type fake struct {
	hear   func(Answer)
	posted []Task
	ended  bool
}

func (f *fake) Post(t Task) { f.posted = append(f.posted, t) }
func (f *fake) End()        { f.ended = true }

func (y *yard) start(hear func(Answer)) Worker {
	f := &fake{hear: hear}
	y.started = append(y.started, f)
	return f
}

// up has every worker come up that has not.
func (y *yard) up() {
	for _, f := range y.started {
		f.hear(Answer{Is: Up})
	}
}

// says are the words of what was posted to each worker.
func (y *yard) says() string {
	var out []string
	for _, f := range y.started {
		s := ""
		for _, t := range f.posted {
			s += string(t.Do) + strconv.Itoa(int(t.ID)) + " "
		}
		if f.ended {
			s += "ended"
		}
		out = append(out, strings.TrimSpace(s))
	}
	return strings.Join(out, " | ")
}

func (y *yard) expect(want string) {
	y.t.Helper()
	if got := y.says(); got != want {
		y.t.Errorf("the workers got %q, want %q", got, want)
	}
}

// heard collects what is heard of tasks.
type heard []string

func (h *heard) of(p *Pool, do Do, urgent bool) uint32 {
	return p.Ask(do, Order{Job: []byte("{}")}, urgent, func(a Answer) {
		*h = append(*h, strconv.Itoa(int(a.ID))+" "+string(a.Is)+string(a.Data))
	})
}

func (h *heard) expect(t *testing.T, want ...string) {
	t.Helper()
	if !slices.Equal(*h, want) {
		t.Errorf("heard %q, want %q", *h, want)
	}
	*h = nil
}

func yards(t *testing.T, most int) (beside, page *yard, p *Pool) {
	beside, page = &yard{t: t}, &yard{t: t}
	return beside, page, NewPool(beside.start, page.start, most)
}

func ticks(p *Pool, n int) {
	for range n {
		p.Tick()
	}
}

func TestShare(t *testing.T) {
	y, page, p := yards(t, 2)
	var h heard
	for range 3 {
		h.of(p, Lay, false)
	}
	y.expect(" | ")
	y.up()
	y.expect("lay1 | lay2")
	y.started[1].hear(Answer{ID: 2, Is: Part, Data: []byte("x")})
	y.started[1].hear(Answer{ID: 2, Is: Done, Data: []byte("y")})
	y.expect("lay1 | lay2 lay3")
	h.expect(t, "2 partx", "2 doney")
	// Late, and about what another does.
	y.started[1].hear(Answer{ID: 2, Is: Part})
	y.started[0].hear(Answer{ID: 3, Is: Done})
	h.expect(t)
	// Somebody stands there for a file: one worker more than there are cores.
	h.of(p, Sheets, true)
	y.up()
	y.expect("lay1 | lay2 lay3 | sheets4")
	h.of(p, Lay, false)
	h.of(p, Pieces, true)
	y.started[0].hear(Answer{ID: 1, Is: Fault})
	y.expect("lay1 pieces6 | lay2 lay3 | sheets4")
	h.expect(t, "1 fault")
	if p.Health() != Well || len(page.started) != 0 {
		t.Errorf("health %d, %d on the page", p.Health(), len(page.started))
	}
	p.End()
	y.expect("lay1 pieces6 ended | lay2 lay3 ended | sheets4 ended")
	y.started[1].hear(Answer{ID: 3, Is: Done})
	h.expect(t)
}

func TestStop(t *testing.T) {
	y, _, p := yards(t, 1)
	var h heard
	first, second := h.of(p, Lay, false), h.of(p, Lay, false)
	p.Stop(second) // it waits
	p.Stop(first)  // its worker is not up yet
	y.up()
	y.expect("")
	first = h.of(p, Lay, false)
	y.expect("lay3")
	p.Stop(first)
	p.Stop(first)
	h.of(p, Lay, false)
	y.expect("lay3 stop3")
	// What comes after all is not heard of.
	y.started[0].hear(Answer{ID: first, Is: Part})
	y.started[0].hear(Answer{ID: first, Is: Fault})
	y.expect("lay3 stop3 lay4")
	h.expect(t)
	// One that does not give up is let go; that is no fall.
	p.Stop(4)
	ticks(p, stopTicks)
	y.expect("lay3 stop3 lay4 stop4")
	h.of(p, Lay, false)
	p.Tick()
	y.up()
	y.expect("lay3 stop3 lay4 stop4 ended | lay5")
	if p.Health() != Well {
		t.Errorf("health %d", p.Health())
	}
}

// TestFall: a task is done anew by another worker, and at the second fall by
// the page, as are all after it.
func TestFall(t *testing.T) {
	falls := map[string]func(y *yard, p *Pool){
		"a program that ends": func(y *yard, _ *Pool) {
			y.up()
			y.started[len(y.started)-1].hear(Answer{Is: Ended})
		},
		"a program that never comes up": func(_ *yard, p *Pool) { ticks(p, startTicks+1) },
		"a script that is not there":    func(y *yard, _ *Pool) { y.started[len(y.started)-1].hear(Answer{Is: Ended}) },
		"one that falls silent": func(y *yard, p *Pool) {
			y.up()
			ticks(p, quietTicks)
			y.started[len(y.started)-1].hear(Answer{ID: 1, Is: Progress})
			ticks(p, quietTicks)
			if n := len(y.started); y.started[n-1].ended {
				y.t.Error("let go too early")
			}
			ticks(p, 1)
		},
	}
	for name, fall := range falls {
		y, page, p := yards(t, 1)
		var h heard
		h.of(p, Lay, false)
		h.of(p, Count, false)
		fall(y, p)
		if p.Health() != Again || len(y.started) != 2 || !y.started[0].ended {
			t.Fatalf("%s: health %d, %d started", name, p.Health(), len(y.started))
		}
		y.started[0].hear(Answer{ID: 1, Is: Done}) // late
		fall(y, p)
		if p.Health() != OnPage || len(y.started) != 2 || len(page.started) != 1 {
			t.Fatalf("%s twice: health %d, %d started, %d on the page", name, p.Health(), len(y.started), len(page.started))
		}
		h = slices.DeleteFunc(h, func(s string) bool { return s == "1 progress" })
		h.expect(t)
		page.up()
		page.expect("lay1")
		page.started[0].hear(Answer{ID: 1, Is: Done})
		page.expect("lay1 count2")
		ticks(p, quietTicks+startTicks)
		page.started[0].hear(Answer{ID: 2, Is: Done})
		h.expect(t, "1 done", "2 done")
		h.of(p, Lay, false)
		page.expect("lay1 count2 lay3")
		if p.Watched() || p.Health() != OnPage {
			t.Errorf("%s: health %d, watched %t", name, p.Health(), p.Watched())
		}
	}
}

// TestRecovered: a fall is told until something new is asked for, and a later
// task has both its tries.
func TestRecovered(t *testing.T) {
	y, page, p := yards(t, 1)
	var h heard
	for id := uint32(1); id < 4; id++ {
		h.of(p, Lay, false)
		y.up()
		y.started[len(y.started)-1].hear(Answer{Is: Ended})
		y.up()
		y.started[len(y.started)-1].hear(Answer{ID: id, Is: Done})
		if p.Health() != Again {
			t.Errorf("health %d after fall %d", p.Health(), id)
		}
	}
	h.of(p, Lay, false)
	if p.Health() != Well || len(page.started) != 0 {
		t.Errorf("health %d, %d on the page", p.Health(), len(page.started))
	}
}

// TestIdle: a worker without work is kept for a while and then ended, whether
// it ends by itself or not.
func TestIdle(t *testing.T) {
	y, _, p := yards(t, 2)
	var h heard
	h.of(p, Lay, false)
	h.of(p, Lay, false)
	y.up()
	for i, f := range y.started {
		f.hear(Answer{ID: uint32(i + 1), Is: Done})
	}
	ticks(p, idleTicks)
	if !p.Watched() {
		t.Error("not watched while there are workers")
	}
	y.started[0].hear(Answer{Is: Ended})
	y.expect("lay1 ended | lay2")
	p.Tick()
	y.expect("lay1 ended | lay2 ended")
	if p.Watched() || p.Health() != Well {
		t.Errorf("watched %t, health %d", p.Watched(), p.Health())
	}
}

func TestNoWorkers(t *testing.T) {
	page := &yard{t: t}
	p := NewPool(nil, page.start, 4)
	var h heard
	h.of(p, Lay, false)
	h.of(p, Lay, true)
	page.up()
	page.expect("lay1")
}
