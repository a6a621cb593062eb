package kit

import "math"

// spot is a place in the frame, px.
type spot struct{ x, y float64 }

func (s spot) mid(t spot) spot { return spot{(s.x + t.x) / 2, (s.y + t.y) / 2} }

func (s spot) dist(t spot) float64 { return math.Hypot(s.x-t.x, s.y-t.y) }

// hand follows the fingers on a drawing: one moves it, two pinch it about
// their middle, and one that comes down and goes up again has tapped.
type hand struct {
	fingers []finger
	moved   bool // since the first came down
	tapped  spot
	when    float64 // of the last tap, ms
}

type finger struct {
	id       int
	at, from spot
}

const (
	slip     = 10.0  // px that a tapping finger may move
	twice    = 350.0 // ms within which two taps are a double one
	together = 32.0  // px within which they must be
)

// down is told of a finger that comes down.
func (h *hand) down(id int, at spot) {
	if len(h.fingers) == 0 {
		h.moved = false
	}
	if len(h.fingers) >= 1 {
		h.moved = true
	}
	if len(h.fingers) < 2 {
		h.fingers = append(h.fingers, finger{id, at, at})
	}
}

// move is told of a finger that moves, and moves the look with it. It reports
// whether there is anything new to see.
func (h *hand) move(id int, to spot, l *Look) bool {
	i := h.find(id)
	if i < 0 {
		return false
	}
	f := h.fingers[i]
	if !h.moved && f.from.dist(to) <= slip {
		return false
	}
	h.moved = true
	h.fingers[i].at = to
	if len(h.fingers) == 1 {
		l.Pan(to.x-f.at.x, to.y-f.at.y)
		return true
	}
	other := h.fingers[1-i].at
	by := 1.0
	if was := f.at.dist(other); was > 0 {
		by = to.dist(other) / was
	}
	l.pinch(by, f.at.mid(other), to.mid(other))
	return true
}

// What a finger that goes up has done.
type did int

const (
	nothing did = iota
	tapOnce
	tapTwice
)

// up is told of a finger that goes up, at so many ms.
func (h *hand) up(id int, at spot, when float64) did {
	i := h.find(id)
	if i < 0 {
		return nothing
	}
	h.fingers = append(h.fingers[:i], h.fingers[i+1:]...)
	if h.moved {
		return nothing
	}
	again := when-h.when < twice && at.dist(h.tapped) < together
	h.tapped, h.when = at, when
	if again {
		h.when = 0
		return tapTwice
	}
	return tapOnce
}

// lost is told of a finger that the page takes for itself.
func (h *hand) lost(id int) {
	if i := h.find(id); i >= 0 {
		h.fingers = append(h.fingers[:i], h.fingers[i+1:]...)
	}
}

func (h *hand) find(id int) int {
	for i, f := range h.fingers {
		if f.id == id {
			return i
		}
	}
	return -1
}
