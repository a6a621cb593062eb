package drafting

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"chalkfold/draft/geom"
	"chalkfold/ui/kit"
)

// Scene is one drawing, and what can be pointed at on it.
type Scene struct {
	SVG    string
	Things []Thing
}

// Thing is one mark, line or piece on a drawing. Its ID is the name of its step
// in the record, or pieceID of the piece.
type Thing struct {
	ID   string
	At   geom.Pt   // of a mark
	Path geom.Path // of a line
	Ring []geom.Pt // of a piece: all that lies inside
}

// pieceID is the ID of a whole piece.
func pieceID(id string) string { return "piece/" + id }

// pieceOf is the piece of such an ID.
func pieceOf(id string) (string, bool) { return strings.CutPrefix(id, "piece/") }

// place is where a thing is brought into sight.
func (t Thing) place() geom.Pt {
	switch {
	case len(t.Path) > 0:
		p, _ := t.Path.At(t.Path.Len() / 2)
		return p
	case len(t.Ring) > 0:
		b := geom.BoundsOf(t.Ring)
		return b.Min.Lerp(b.Max, 0.5)
	}
	return t.At
}

// off is how far a thing is from a place: a mark counts before the lines that
// run through it, and what lies inside a piece before the piece.
func (t Thing) off(at geom.Pt, reach float64) float64 {
	const line = 0.25 // of the reach
	switch {
	case len(t.Path) > 0:
		_, d := t.Path.Nearest(at)
		return d + line*reach
	case len(t.Ring) > 0:
		if geom.Contains(t.Ring, at) {
			return reach
		}
		return 2 * reach
	}
	return t.At.Dist(at)
}

// Hit is what a finger at a place means, which it may miss by reach: the
// nearest thing, or the next nearest when the nearest is chosen already. It is
// empty when there is nothing.
func (s Scene) Hit(at geom.Pt, reach float64, chosen string) string {
	type hit struct {
		id  string
		off float64
	}
	var hits []hit
	for _, t := range s.Things {
		off := t.off(at, reach)
		if off > reach*1.25 {
			continue
		}
		if i := slices.IndexFunc(hits, func(h hit) bool { return h.id == t.ID }); i >= 0 {
			hits[i].off = min(hits[i].off, off)
			continue
		}
		hits = append(hits, hit{t.ID, off})
	}
	if len(hits) == 0 {
		return ""
	}
	slices.SortStableFunc(hits, func(a, b hit) int { return sign(a.off - b.off) })
	i := slices.IndexFunc(hits, func(h hit) bool { return h.id == chosen })
	return hits[(i+1)%len(hits)].id
}

func sign(v float64) int {
	switch {
	case v < 0:
		return -1
	case v > 0:
		return 1
	}
	return 0
}

// Beside is the thing that comes so many places after another, round and round.
func (s Scene) Beside(id string, by int) string {
	var ids []string
	for _, t := range s.Things {
		if !slices.Contains(ids, t.ID) {
			ids = append(ids, t.ID)
		}
	}
	if len(ids) == 0 {
		return ""
	}
	i := slices.Index(ids, id)
	if i < 0 && by < 0 {
		i = 0
	}
	return ids[((i+by)%len(ids)+len(ids))%len(ids)]
}

// Place is where a thing is brought into sight; false when it is not there.
func (s Scene) Place(id string) (geom.Pt, bool) {
	i := slices.IndexFunc(s.Things, func(t Thing) bool { return t.ID == id })
	if i < 0 {
		return geom.Pt{}, false
	}
	return s.Things[i].place(), true
}

// labels writes names so that none lies on another: a name that has no room yet
// is shown from nearer.
type labels struct {
	pen    *kit.Pen
	home   geom.Rect // where they must stay; the zero Rect is anywhere
	placed []placed
}

// keepOff keeps the labels off a mark. A line runs on behind them.
func (l *labels) keepOff(t Thing) {
	const px = 4
	if len(t.Path) == 0 {
		l.placed = append(l.placed, placed{at: t.At, x0: -px, x1: px, y0: -px, y1: px})
	}
}

type placed struct {
	anchor string
	at     geom.Pt
	x0, x1 float64 // px from at
	y0, y1 float64
	from   int // how near
}

// Sizes of a letter on the screen, px: see kit.Drawing.
const (
	letterW = 8.0
	letterH = 17.0
	clear   = 3.0 // between two labels
)

// scales are those of kit.Nears, with what a whole drawing on a phone may have
// before the first.
func scales() []float64 { return append([]float64{0.12}, kit.Nears()...) }

// beside names a mark, on whichever side there is room first.
func (l *labels) beside(class, text string, at geom.Pt) {
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
				l.pen.Word(class+" t"+strconv.Itoa(near), text, p.anchor, at, p.start(), (p.y0+p.y1)/2)
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

// inside names a room, level or upright, from as near as it fits; until then
// the short name stands there.
func (l *labels) inside(class, short, text string, box geom.Rect) {
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
				l.pen.WordUp(class+" t"+strconv.Itoa(near), text, p.at)
			} else {
				l.pen.Word(class+" t"+strconv.Itoa(near), text, "middle", p.at, 0, 0)
			}
			if near > 0 {
				l.pen.Word(class+" u"+strconv.Itoa(near), short, "middle", mid, 0, 0)
			}
			return
		}
	}
	l.pen.Word(class, short, "middle", mid, 0, 0)
}

// free reports whether a label stays at home and lies on none of those placed
// before, however near, once both are shown.
func (l *labels) free(p placed) bool {
	all := scales()
	if l.home != (geom.Rect{}) {
		s := all[p.from]
		if p.at.X+p.x0/s < l.home.Min.X || p.at.X+p.x1/s > l.home.Max.X || p.at.Y+p.y0/s < l.home.Min.Y || p.at.Y+p.y1/s > l.home.Max.Y {
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
