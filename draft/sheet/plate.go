package sheet

import (
	"math"
	"strconv"
	"strings"

	"chalkfold/draft/geom"
	"chalkfold/draft/say"
)

// Taught is one mark of a construction as a plate shows it: a point, a line, or
// both. Places are those of the draft.
type Taught struct {
	No   int
	Part string // of the draft: lines of the first part are drawn full, of others dashed
	What string // the mark, with its figure
	Sum  string // how the figure comes about; may be empty
	Rule string // the rule of thumb; may be empty
	At   geom.Pt
	From *geom.Pt  // where the tape is held
	Path geom.Path // of a line
}

// plate is a part of a draft drawn small, its marks numbered.
type plate struct {
	d    *Drawing
	at   geom.Affine
	busy *room
	done []geom.Rect // of the numbers
}

// newPlate draws into box.
func newPlate(d *Drawing, box geom.Rect, at geom.Affine) *plate {
	return &plate{d: d, at: at, busy: newRoom(corners(box))}
}

// draw draws a line of the draft and keeps numbers off it.
func (p *plate) draw(role Role, path geom.Path) {
	path = path.Map(p.at)
	p.d.Path(Shape{Role: role, Path: path})
	p.busy.path(path)
}

// dot draws a mark.
func (p *plate) dot(role Role, at geom.Pt, r float64) {
	at = p.at.Pt(at)
	s := circle(role, at, r)
	s.Filled = true
	p.d.Path(s)
	p.busy.box(at, geom.Vec{X: 1}, r, r)
}

// number writes the number of a mark beside it: clear of all lines where that
// can be, clear of other numbers always, with a line to it from afar.
func (p *plate) number(no int, at geom.Pt) {
	at = p.at.Pt(at)
	s := strconv.Itoa(no)
	size := MinText.MM()
	halfW, halfH := TextWidth(s, MinText).MM()/2+0.3, size*ascent/2+0.3
	place := func(clear bool) (geom.Pt, bool) {
		for _, far := range []float64{1.2, 2.4, 4, 6, 8.5, 11, 14, 18} {
			for k := range 16 {
				dir := geom.Vec{X: 1}.Rotate(2*math.Pi*float64(k)/16 - math.Pi/8)
				mid := at.Add(geom.Vec{X: dir.X * (far + halfW), Y: dir.Y * (far + halfH)})
				box := geom.Rect{Min: mid.Add(geom.Vec{X: -halfW, Y: -halfH}), Max: mid.Add(geom.Vec{X: halfW, Y: halfH})}
				if p.free(box, mid, clear) {
					return mid, true
				}
			}
		}
		return geom.Pt{}, false
	}
	mid, ok := place(true)
	if !ok {
		if mid, ok = place(false); !ok {
			return
		}
	}
	box := geom.Rect{Min: mid.Add(geom.Vec{X: -halfW, Y: -halfH}), Max: mid.Add(geom.Vec{X: halfW, Y: halfH})}
	if near := (geom.Pt{X: math.Max(box.Min.X, math.Min(box.Max.X, at.X)), Y: math.Max(box.Min.Y, math.Min(box.Max.Y, at.Y))}); near.Dist(at) > 2 {
		lead := geom.Polyline(at, near)
		p.d.Path(Shape{Role: Gauge, Path: lead})
		p.busy.path(lead)
	}
	p.d.Text(Text{Role: Label, At: mid.Add(geom.Vec{Y: size * ascent / 2}), Size: MinText, Anchor: Middle, S: s})
	p.done = append(p.done, box)
}

func (p *plate) free(box geom.Rect, mid geom.Pt, clear bool) bool {
	for _, o := range p.done {
		if o.Overlaps(box) {
			return false
		}
	}
	if clear {
		return p.busy.fits(mid, geom.Vec{X: 1}, box.W()/2, box.H()/2)
	}
	outer := geom.BoundsOf(p.busy.ring)
	return box.Min.X >= outer.Min.X && box.Max.X <= outer.Max.X && box.Min.Y >= outer.Min.Y && box.Max.Y <= outer.Max.Y
}

// extent is the box around what is taught.
func extent(all []Taught) geom.Rect {
	var pts []geom.Pt
	for _, m := range all {
		if m.hasPlace() {
			pts = append(pts, m.At)
		}
		pts = append(pts, m.Path.Flatten(1)...)
	}
	return geom.BoundsOf(pts)
}

// hasPlace reports whether a mark is a point of the draft.
func (m Taught) hasPlace() bool { return len(m.Path) == 0 && m.No > 0 && m.From != nil }

// Plate is what a miniature or a lesson is made of.
type Plate struct {
	Words  *say.Words
	Title  string
	Sub    string
	Taught []Taught
	Rule   func(scale int) string // how a scale is written: "1 : 5"
}

// inFigures is a sum without its words: "hip ÷ 4 = 42 ÷ 4 = 10½" is
// "42 ÷ 4 = 10½".
func inFigures(sum string) string {
	if _, figures, ok := strings.Cut(sum, " = "); ok {
		return figures
	}
	return sum
}

// miniatureScales are the scales of a miniature, the larger first; the last is
// for the tallest on short paper.
func miniatureScales() [][]int { return [][]int{{4, 5}, {6}} }

// Miniature draws a whole draft small on one sheet, with every mark numbered
// and told, its sum in words where there is room. It is not ok when the paper is
// too small for it.
func (p Plate) Miniature(paper Paper) (Drawing, bool) {
	paper = paper.cutOff()
	sums := []func(string) string{func(s string) string { return s }, inFigures, func(string) string { return "" }}
	for _, scales := range miniatureScales() {
		for _, sum := range sums {
			for _, scale := range scales {
				if d, ok := p.miniature(paper, scale, sum); ok {
					return d, true
				}
			}
		}
	}
	return Drawing{}, false
}

// plateRoom is left about a draft for its numbers, mm.
const plateRoom = 7.0

func (p Plate) miniature(paper Paper, scale int, sum func(string) string) (Drawing, bool) {
	d := Drawing{Bounds: paper.box()}
	frame := grow(paper.box(), -minMargin.MM())
	head := newColumn(frame)
	head.write(&d, Label, p.Title, 5, 0)
	head.write(&d, Note, p.Rule(scale)+" · "+p.Sub, 3, 0)
	head.y += 2
	k := 1 / float64(scale)
	of := extent(p.Taught)
	box := geom.Rect{
		Min: geom.Pt{X: frame.Min.X, Y: head.y},
		Max: geom.Pt{X: frame.Min.X + k*of.W() + 2*plateRoom, Y: head.y + k*of.H() + 2*plateRoom},
	}
	const leastColumn = 60
	if box.Max.Y > frame.Max.Y || frame.Max.X-box.Max.X < leastColumn {
		return Drawing{}, false
	}
	at := geom.Affine{A: k, D: k, E: box.Min.X + plateRoom - k*of.Min.X, F: box.Min.Y + plateRoom - k*of.Min.Y}
	p.whole(newPlate(&d, box, at))
	columns := []*column{
		newColumn(geom.Rect{Min: geom.Pt{X: box.Max.X + 3, Y: head.y}, Max: frame.Max}),
		newColumn(geom.Rect{Min: geom.Pt{X: frame.Min.X, Y: box.Max.Y + 2}, Max: geom.Pt{X: box.Max.X, Y: frame.Max.Y}}),
	}
	on := 0
	for _, m := range p.Taught {
		if len(m.Path) > 0 {
			continue
		}
		s := m.What
		if told := sum(m.Sum); told != "" {
			s += " · " + told
		}
		for !columns[on].item(&d, m.No, s, MinText.MM()) {
			if on++; on == len(columns) {
				return Drawing{}, false
			}
		}
	}
	return d, true
}

// whole draws all the lines and numbers every point.
func (p Plate) whole(on *plate) {
	for _, m := range p.Taught {
		if len(m.Path) > 0 {
			on.draw(p.role(m), m.Path)
		}
	}
	for _, m := range p.Taught {
		if m.hasPlace() {
			on.dot(CutLine, m.At, 0.35)
		}
	}
	for _, m := range p.Taught {
		if m.hasPlace() {
			on.number(m.No, m.At)
		}
	}
}

// role is how a line is drawn: full on the first part, dashed on what is drawn
// over it.
func (p Plate) role(m Taught) Role {
	if m.Part == p.Taught[0].Part {
		return Dimension
	}
	return DartLine
}
