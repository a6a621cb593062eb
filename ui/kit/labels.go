package kit

import (
	"math"
	"strconv"
	"unicode/utf8"

	"chalkfold/draft/geom"
)

// Labels writes names so that none lies on another: a name that has no room yet
// is shown from nearer.
type Labels struct {
	Pen    *Pen
	Home   geom.Rect // where they must stay; the zero Rect is anywhere
	placed []placed
}

// KeepOff keeps the labels off a mark.
func (l *Labels) KeepOff(at geom.Pt) {
	const px = 4
	l.placed = append(l.placed, placed{at: at, x0: -px, x1: px, y0: -px, y1: px})
}

type placed struct {
	anchor string
	at     geom.Pt
	x0, x1 float64 // px from at
	y0, y1 float64
	from   int // how near
}

// Sizes of a letter on the screen, px: see Drawing.
const (
	letterW = 8.0
	letterH = 17.0
	clear   = 3.0 // between two labels
)

// scales are those of Nears, with what a whole drawing on a phone may have
// before the first.
func scales() []float64 { return append([]float64{0.12}, Nears()...) }

// Beside names a mark, on whichever side there is room first.
func (l *Labels) Beside(class, text string, at geom.Pt) {
	w, gap := width(text), 8.0
	tries := []placed{
		{anchor: "start", x0: gap, x1: gap + w, y0: -letterH / 2, y1: letterH / 2},
		{anchor: "end", x0: -gap - w, x1: -gap, y0: -letterH / 2, y1: letterH / 2},
		{anchor: "middle", x0: -w / 2, x1: w / 2, y0: -gap - letterH, y1: -gap},
		{anchor: "middle", x0: -w / 2, x1: w / 2, y0: gap, y1: gap + letterH},
	}
	for near := range scales() {
		for _, p := range tries {
			p.at, p.from = at, near
			if l.free(p) {
				l.placed = append(l.placed, p)
				l.Pen.Word(class+" t"+strconv.Itoa(near), text, p.anchor, at, p.start(), (p.y0+p.y1)/2)
				return
			}
		}
	}
}

// start is how far from its place a label begins, ends or has its middle.
func (p placed) start() float64 {
	switch p.anchor {
	case "start":
		return p.x0
	case "end":
		return p.x1
	}
	return (p.x0 + p.x1) / 2
}

// high is how far a label reaches up or down from its place.
func (p placed) high() float64 { return max(-p.y0, p.y1) }

// Inside names a room, level or upright, from as near as it fits; until then
// the short name stands there.
func (l *Labels) Inside(class, short, text string, box geom.Rect) {
	mid := box.Min.Lerp(box.Max, 0.5)
	w := width(text)
	for near, s := range scales() {
		across, along := box.W()*s, box.H()*s
		upright := across < w && along > across
		if !upright && across < w || upright && (along < w || across < letterH) {
			continue
		}
		for _, share := range []float64{0.5, 0.4, 0.6, 0.25, 0.75} {
			p := placed{at: geom.Pt{X: mid.X, Y: box.Min.Y + box.H()*share}, x0: -w / 2, x1: w / 2, y0: -letterH / 2, y1: letterH / 2, from: near}
			if upright {
				p.x0, p.x1, p.y0, p.y1 = p.y0, p.y1, p.x0, p.x1
			}
			if !l.free(p) {
				continue
			}
			l.placed = append(l.placed, p)
			if upright {
				l.Pen.WordUp(class+" t"+strconv.Itoa(near), text, p.at)
			} else {
				l.Pen.Word(class+" t"+strconv.Itoa(near), text, "middle", p.at, 0, 0)
			}
			if near > 0 {
				l.Pen.Word(class+" u"+strconv.Itoa(near), short, "middle", mid, 0, 0)
			}
			return
		}
	}
	l.Pen.Word(class, short, "middle", mid, 0, 0)
}

// free reports whether a label stays at home and lies on none of those placed
// before, however near, once both are shown.
func (l *Labels) free(p placed) bool {
	all := scales()
	if l.Home != (geom.Rect{}) {
		s := all[p.from]
		if p.at.X+p.x0/s < l.Home.Min.X || p.at.X+p.x1/s > l.Home.Max.X || p.at.Y+p.y0/s < l.Home.Min.Y || p.at.Y+p.y1/s > l.Home.Max.Y {
			return false
		}
	}
	for _, q := range l.placed {
		if math.Abs(q.at.Y-p.at.Y)*all[max(p.from, q.from)] > p.high()+q.high() {
			continue
		}
		ax, bx := meets(q.at.X-p.at.X, p.x0-q.x1-clear, p.x1-q.x0+clear)
		ay, by := meets(q.at.Y-p.at.Y, p.y0-q.y1, p.y1-q.y0)
		if max(ax, ay, all[max(p.from, q.from)]) < min(bx, by) {
			return false
		}
	}
	return true
}

// meets are the scales between which something d mm away, on the screen, lies
// between two places.
func meets(d, from, to float64) (least, most float64) {
	switch {
	case d > 0:
		return from / d, to / d
	case d < 0:
		return to / d, from / d
	case from < 0 && to > 0:
		return math.Inf(-1), math.Inf(1)
	}
	return 0, 0
}

func width(text string) float64 { return letterW * float64(utf8.RuneCountInString(text)) }
